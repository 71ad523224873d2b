import type { Vec3 } from '../../base/vec';
import { poseOf } from '../../boat/edits';
import type { Facts } from '../../rules/facts';
import type { Finding } from '../../rules/finding';
import type { RunOutcome } from '../../runs/routing/types';
import { convexOf } from '../../shape/space/convex';
import type { Solid } from '../../shape/space/solids';
import { factsOver } from '../facts';
import { finalRun } from '../final-run';
import { hull, layout } from '../shape-stages';
import { solidsOf } from '../solid-stages';
import { held, heldSpare, line, openings, partIds, type Source, thingIds } from '../source';
import type { Store } from '../store';
import { type AppliedPlace, changedBy, linesAt } from './applied-place';
import { knownLevels } from './dry';
import { boxOf, leadsOf } from './first-tints';
import type { Ground } from './free-places';
import type { MovedGroup } from './moved-group';
import { demandsOn, type PlaceDemand, tooFar } from './place-demands';

/** What the question stands on. */
export interface Site {
  readonly source: Source;
  readonly group: MovedGroup;
  readonly lines: readonly string[];
  readonly facts: Facts;
  readonly demands: readonly PlaceDemand[];
  readonly store: Store<Source>;
  readonly home: string | null;
  /** Length of the lines as they run now; null while one does not. */
  readonly hoseNowM: () => number | null;
  /** Whether the parts belong to the arrangement already: then putting them elsewhere changes little of what the store was given. */
  readonly isArranged: boolean;
}

export function siteOf(store: Store<Source>, source: Source, group: MovedGroup): Site {
  const { boat, arrangementId } = source;
  const facts = factsOver(store.read);
  const now = group.lead.now;
  const lines = linesAt(boat, group.ids);
  const arranged = store.read(partIds);
  return {
    source,
    group,
    lines,
    facts,
    demands: demandsOn(boat, group.ids),
    store,
    home: now && store.read(layout).compartmentAt(now.at),
    hoseNowM: () =>
      hoseOf(
        store,
        lines.filter((id) => store.read(line, id) !== undefined),
      ),
    isArranged: group.ids.every((id) => arranged.includes(id) && poseOf(boat, arrangementId, id) !== null),
  };
}

export function hoseOf(store: Pick<Store<Source>, 'read'>, lines: readonly string[]): number | null {
  let sum = 0;
  for (const id of lines) {
    const outcome = store.read(finalRun, id);
    if (outcome.status !== 'routed') return null;
    sum += outcome.lengthM;
  }
  return sum;
}

/** Stores to try in: one for what is quick, one for whole judgements; and what was found of the boat as it is. */
export interface Stores {
  readonly trial: Store<Source>;
  readonly whole: Store<Source>;
  readonly before: readonly Finding[];
  /** Runs of the boat as it is. */
  readonly atRest: ReadonlyMap<string, RunOutcome>;
  /** Lines that found no run somewhere, the last first. */
  readonly suspects: string[];
}

/** Gives the store the boat with the parts put somewhere, or as it is; with runs that are taken for granted, or none. */
export function put(
  store: Store<Source>,
  applied: AppliedPlace | null,
  { source, group, isArranged }: Site,
  shown: Source['held'] = source.held,
): void {
  const next = { ...(applied?.source ?? source), held: shown };
  if (!isArranged) {
    store.set(next);
    return;
  }
  const lines = Object.keys(source.boat.lines);
  store.setFew(next, [
    ...changedBy(source.boat, group.ids),
    ...lines.flatMap((id) => [[held, id] as const, [heldSpare, id] as const]),
  ]);
}

export function groundOf(compartment: string, { source, group, lines, facts, demands, store }: Site): Ground {
  const { boat } = source;
  const moved = new Set(group.ids);
  const box = boxOf(store.read(layout), compartment);
  const solids = store
    .read(thingIds)
    .filter((id) => !moved.has(id))
    .flatMap((id) => store.read(solidsOf, id).filter(({ layer }) => layer !== 'serviceKeepOut'));
  return {
    compartment,
    layout: store.read(layout),
    hull: store.read(hull),
    openings: store.read(openings),
    surfaces: Object.entries(boat.mountingSurfaces)
      .filter(([, surface]) => surface.compartment === compartment)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
    solids: box ? solidsNear(solids, box) : solids,
    leads: leadsOf(group, lines, facts),
    dryFrom: knownLevels(compartment, facts),
    outsideBy: (pose) => tooFar(Object.values(group.posesWith(pose)), demands, boat),
  };
}

const solidsNear = (solids: readonly Solid[], [low, high]: readonly [Vec3, Vec3]): readonly Solid[] =>
  solids.filter((solid) => {
    const near = convexOf(solid);
    return ([0, 1, 2] as const).every((k) => near.low[k] < high[k] && near.high[k] > low[k]);
  });
