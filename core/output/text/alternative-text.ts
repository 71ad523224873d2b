import { LIVING_SPACES } from '../../boat/kinds';
import type { Boat } from '../../boat/schema/boat';
import type { Alternative } from '../../runs/alternative';
import type { RunCosts } from '../../runs/routing/wishes/wishes';
import { listed, obstacleName } from './names';
import { lengthText } from './quantity-text';

export interface AlternativeWords {
  /** `As it is`, or where the run goes otherwise. */
  readonly title: string;
  /** What it costs and saves against the present run. */
  readonly why: string;
}

const SAME_M = 0.005;

/** A run among the alternatives, in words. `length`: where the reader has chosen units. */
export function alternativeText(
  { isCurrent, difference }: Alternative,
  boat: Boat,
  length: (metres: number) => string = lengthText,
): AlternativeWords {
  if (isCurrent) return { title: 'As it is', why: '' };
  const { through, notThrough, into, notInto, longerM, moreHoles, dearerM, paidFor } = difference;
  const names = (ids: readonly string[]): string => listed(ids.map((id) => boat.compartments[id]?.name ?? id));
  const panels = (ids: readonly string[]): string => listed(ids.map((id) => obstacleName(boat, id)));
  const title =
    into.length > 0
      ? `By way of ${names(into)}${notInto.length > 0 ? `, not ${names(notInto)}` : ''}`
      : through.length > 0
        ? `Through ${panels(through)}${notThrough.length > 0 ? `, not ${panels(notThrough)}` : ''}`
        : notInto.length > 0
          ? `Clear of ${names(notInto)}`
          : notThrough.length > 0
            ? `Not through ${panels(notThrough)}`
            : 'Another way through the same compartments';
  const parts = [
    Math.abs(longerM) < SAME_M ? 'as long' : `${length(Math.abs(longerM))} ${longerM > 0 ? 'longer' : 'shorter'}`,
    moreHoles === 0
      ? ''
      : `${Math.abs(moreHoles)} ${Math.abs(moreHoles) === 1 ? 'hole' : 'holes'} ${moreHoles > 0 ? 'more' : 'fewer'}`,
    paidFor && paidFor !== 'lengthM' && paidFor !== 'holesM'
      ? `${dearerM > 0 ? 'worse' : 'better'} for ${COSTS[paidFor]}`
      : '',
  ].filter((part) => part !== '');
  const sentence = parts.join(', ');
  const living = into.filter((id) => LIVING_SPACES.has(boat.compartments[id]?.kind ?? ''));
  const seen =
    living.length === 0 ? '' : ` It lies in sight in ${names(living)}: taken unasked only where nothing else leads.`;
  return { title, why: `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.${seen}` };
}

/** What a run pays for, within a sentence. */
const COSTS: Readonly<Record<keyof RunCosts, string>> = {
  lengthM: 'length',
  holesM: 'holes to drill',
  suctionM: 'high points that trap air',
  electricsM: 'water beside electrics',
  heatM: 'heat',
  compassM: 'the compass',
  apartM: 'power beside signal',
  surfaceM: 'stretches that no clip can hold',
  fallM: 'fall of the drain',
  riseM: 'the height that it must rise to',
  stowageM: 'stowage',
  feetM: 'feet',
  serviceM: 'room for service',
};
