import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { blockedText } from '@core/output/text/blocked-text';
import { spareText } from '@core/output/text/spare-text';
import type { Proof } from '@core/runs/routing/types';
import type { RunCosts } from '@core/runs/routing/wishes/wishes';
import { isPinned } from '../store/select';
import type { DisplayUnits } from '../store/types';
import { lengthUnit, wholeLength } from './format';

/** Why a run is blocked, in the words of the findings and the units that were chosen. */
export function blockWords(run: RunReport, nameOf: (id: string) => string, units: DisplayUnits): string {
  if (!run.reason) return 'Not routed.';
  const length = (metres: number) => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  return blockedText({ reason: run.reason, proved: run.proved ?? false, effort: run.effort }, nameOf, length);
}

const PROOFS: Readonly<Record<Proof, string>> = {
  noPassage: 'Proved: no chain of panels and holes joins its ends at this diameter.',
  noRoomAtEnd: 'Proved: even the straight piece at its end has no room.',
  tooFar: 'Proved: no run between its ends is as short as the supplied hose.',
  noPort: 'One of its ends is not there.',
};
export const proofWords = (proof: Proof): string => PROOFS[proof];

/** How far a run is above what no run can beat, as a share of that; null where nothing is known. */
export function gapShare(run: Pick<RunReport, 'lengthM' | 'lowerBoundM'>): number | null {
  if (run.lengthM === null || !(run.lowerBoundM > 0)) return null;
  return Math.max(0, run.lengthM / run.lowerBoundM - 1);
}

/** Where the length of a supplied hose goes that the run does not need; empty without any. */
export function spareWords({ spare }: Pick<RunReport, 'spare'>, units: DisplayUnits): string {
  if (!spare || spare.kind === 'none') return '';
  const length = (metres: number) => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const over = spare.kind === 'cut' ? spare.offM : spare.excessM;
  return `${length(over)} more than it needs: ${spareText(spare, length)}.`;
}

export type RunStatus = 'routed' | 'asBuilt' | 'notFound' | 'impossible' | 'waiting';

export function runStatus(boat: Boat, arrangementId: string | null, id: string, run: RunReport | null): RunStatus {
  if (!run) return 'waiting';
  if (run.status === 'blocked') return run.proved ? 'impossible' : 'notFound';
  return isPinned(boat, arrangementId, id) ? 'asBuilt' : 'routed';
}

export const STATUS_WORDS: Readonly<Record<RunStatus, string>> = {
  routed: 'Routed',
  asBuilt: 'As built',
  notFound: 'Not found',
  impossible: 'Impossible',
  waiting: 'Not worked out',
};

/** What is weighed against length, in the order in which it is told. */
const COST_WORDS: readonly (readonly [keyof RunCosts, string])[] = [
  ['holesM', 'Holes to drill'],
  ['suctionM', 'High points that hold air'],
  ['fallM', 'Falls too little'],
  ['riseM', 'Does not rise high enough'],
  ['electricsM', 'Water near open electrics'],
  ['heatM', 'Near heat'],
  ['compassM', 'Near the compass'],
  ['apartM', 'Power beside signal'],
  ['surfaceM', 'Hanging free of surfaces'],
  ['stowageM', 'Through stowage'],
  ['feetM', 'Where feet tread'],
  ['serviceM', 'In room for service'],
];

export const costRows = ({
  costs,
}: Pick<RunReport, 'costs'>): readonly { key: string; words: string; metres: number }[] => {
  return costs ? COST_WORDS.map(([key, words]) => ({ key, words, metres: costs[key] })) : [];
};
