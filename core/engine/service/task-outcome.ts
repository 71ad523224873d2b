import { type TaskVerdict, verdictRank } from '../../assess/access/task-verdict';
import { CLEAN_MARGIN, combine } from '../../boat/accuracy';
import type { CloseCall } from '../../rules/finding';
import { graspsOf } from './grasps';
import { handPiece } from './hand-piece';
import {
  type Attempt,
  failing,
  keptAttempt,
  measuresOf,
  type TaskSurroundings,
  tryTask,
  verdictOfDone,
  withPieces,
} from './judge-task';
import { isDone, type Measure, type Piece } from './pieces';
import type { Removal, TaskBlocker } from './service-report';
import type { PlacedTask } from './task-stages';
import type { NoWay } from './ways-to-task';

/** What has to be taken off or moved, and how that is called. */
export type Removable = Exclude<Removal['kind'], 'opening'>;

/** What one service task comes to. */
export interface TaskOutcome {
  readonly verdict: TaskVerdict;
  /** Key of the texts. */
  readonly reason: string;
  readonly enterNext: string | null;
  /** The way that does it, or that lacks the least; null where there is none to speak of. */
  readonly attempt: Attempt | null;
  /** Taken off or moved first, besides what the openings ask for. */
  readonly removed: readonly { readonly owner: string; readonly kind: Removable }[];
  readonly measures: readonly Measure[];
  /** The measure that the verdict hangs on. */
  readonly deciding: Measure | null;
  readonly blockers: readonly TaskBlocker[];
  readonly shortByM: number | null;
  readonly tried: number;
  readonly closeCall: CloseCall | null;
}

/** Counted limits of what is tried to be taken off. */
const MOST_ROUNDS = 3;
const MOST_REMOVED = 4;

/**
 * Judges one task: as things stand, then with what stands in the way taken off and all tried again.
 *
 * @param removable how something comes off; null: it stays.
 */
export function judgeTask(
  task: PlacedTask,
  around: TaskSurroundings | NoWay,
  removable: (owner: string) => Removable | null,
): TaskOutcome {
  if ('reason' in around) return notAsked(around);
  const first = tryTask(task, around);
  if (first.done) return done(task, first.done, around, first.tried, []);
  if (first.isNowhere || !first.nearest) return nowhere(around, first.tried);
  const removed = (nearest: Attempt): TaskOutcome | null =>
    afterRemoving(task, nearest, around, removable, first.tried);
  return (
    removed(first.nearest) ?? firstOf(first.others, (other) => removed(other())) ?? failed(first.nearest, first.tried)
  );
}

function firstOf<T, R>(all: readonly T[], come: (one: T) => R | null): R | null {
  for (const one of all) {
    const found = come(one);
    if (found !== null) return found;
  }
  return null;
}

/** The outcome of before, where the way that was found still goes past what has moved; null where that has to be looked for anew. */
export function keptOutcome(
  task: PlacedTask,
  before: TaskOutcome,
  around: TaskSurroundings | NoWay,
): TaskOutcome | null {
  if ('reason' in around || !before.attempt || !isDone(before.attempt.outcome)) return null;
  const attempt = keptAttempt(task, before.attempt, around);
  return attempt && { ...before, attempt, measures: measuresOf(attempt) };
}

const NO_OUTCOME = {
  attempt: null,
  removed: [],
  measures: [],
  deciding: null,
  blockers: [],
  shortByM: null,
  tried: 0,
  closeCall: null,
} as const;

export const notAsked = ({ reason, enterNext }: NoWay): TaskOutcome => ({
  ...NO_OUTCOME,
  verdict: 'notAsked',
  reason,
  enterNext,
});

/** Ways are there, and nobody can stand, kneel or lie at any of them. */
function nowhere({ ways }: TaskSurroundings, tried: number): TaskOutcome {
  const isDrawn = ways.some(({ standing }) => standing !== null);
  return {
    ...NO_OUTCOME,
    verdict: isDrawn ? 'notAtAll' : 'notAsked',
    reason: 'nowhereToStand',
    enterNext: isDrawn ? null : 'standingPlaces',
    tried,
  };
}

function done(
  task: PlacedTask,
  found: Attempt,
  around: TaskSurroundings,
  tried: number,
  removed: TaskOutcome['removed'],
): TaskOutcome {
  const attempt = roomier(task, found, around);
  const needed = removed.some(({ kind }) => kind !== 'loose')
    ? 'byDismantling'
    : removed.length > 0
      ? 'afterMoving'
      : 'byHand';
  const own = verdictOfDone(task, attempt, around);
  const measures = measuresOf(attempt);
  const deciding = leastSure(measures) ?? measures.find(({ what }) => what === 'handRoom') ?? measures[0] ?? null;
  return {
    verdict: verdictRank(needed) > verdictRank(own) ? needed : own,
    reason: removed.length > 0 ? 'afterRemoving' : reasonOfDone(attempt),
    enterNext:
      attempt.way.standing === null && attempt.way.through !== null ? `openings.${attempt.way.through}.standing` : null,
    attempt,
    removed,
    measures,
    deciding,
    blockers: [],
    shortByM: null,
    tried,
    closeCall: leastSure(measures)?.judged.closeCall ?? null,
  };
}

const reasonOfDone = ({ pieces }: Attempt): string =>
  pieces.find(({ reason }) => reason === 'seenInMirror')?.reason ??
  pieces.find(({ kind }) => kind === 'hand')?.reason ??
  pieces[0]?.reason ??
  'clear';

/** Of measures that the tape may turn the one that is the least likely to hold. */
const leastSure = (measures: readonly Measure[]): Measure | null =>
  measures.reduce<Measure | null>((worst, measure) => {
    const chance = (one: Measure): number => one.judged.closeCall?.passProbability[0] ?? 2;
    return measure.judged.closeCall && (!worst || chance(measure) < chance(worst)) ? measure : worst;
  }, null);

/** A pose with more room about it, where the first one found has less than the drawing is good to. */
function roomier(task: PlacedTask, attempt: Attempt, around: TaskSurroundings): Attempt {
  const { way, region, without, pieces } = attempt;
  const own = pieces.find(({ kind }) => kind === 'hand');
  const room = own?.measures.find(({ what }) => what === 'handRoom')?.judged;
  if (!own || !room?.closeCall) return attempt;
  const grade = combine(...(room.gradeFrom ?? []).map(({ gradeM }) => gradeM));
  const scene = around.scene(way, without);
  const opening = region.opening === null ? null : around.opening(region.opening);
  const grownM = CLEAN_MARGIN * grade * BEYOND;
  if (grownM <= room.measured.value) return attempt;
  const grown = handPiece(task, graspsOf(task, region), region, opening, scene, {
    level: 'quick',
    explain: false,
    grownM,
    kept: own.shown.arms.map(({ way }) => way),
  });
  return grown.outcome === 'yes'
    ? withPieces(
        attempt,
        pieces.map((piece) => (piece === own ? grown : piece)),
      )
    : attempt;
}
/** Rounding does not make a clean verdict a close one. */
const BEYOND = 1 + 1e-6;

/** With what is named taken off, once more; null where that does not help or nothing comes off. */
function afterRemoving(
  task: PlacedTask,
  nearest: Attempt,
  around: TaskSurroundings,
  removable: (owner: string) => Removable | null,
  triedBefore: number,
): TaskOutcome | null {
  let off: readonly string[] = [];
  let tried = triedBefore;
  let lacking = nearest;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const named = failing(lacking)
      .flatMap(({ blockers }) => blockers)
      .map(({ owner }) => owner)
      .filter((owner) => !off.includes(owner) && owner !== task.thing && removable(owner) !== null);
    if (named.length === 0 || off.length >= MOST_REMOVED) return null;
    off = [...off, ...new Set(named)].slice(0, MOST_REMOVED).sort();
    const again = tryTask(task, around, off);
    tried += again.tried;
    if (again.done) {
      const needed = leastOf(off, (fewer) => tryTask(task, around, fewer).done !== null);
      const best = needed.length < off.length ? (tryTask(task, around, needed).done ?? again.done) : again.done;
      const removed = needed.map((owner) => ({ owner, kind: removable(owner) ?? 'thing' }));
      return { ...done(task, best, around, tried, removed), ...namedOf(nearest) };
    }
    if (!again.nearest) return null;
    lacking = again.nearest;
  }
  return null;
}

/** Of what was taken off only what has to be, one left on at a time. */
function leastOf(off: readonly string[], suffices: (fewer: readonly string[]) => boolean): readonly string[] {
  let needed = off;
  for (const owner of off) {
    const fewer = needed.filter((one) => one !== owner);
    if (fewer.length > 0 && suffices(fewer)) needed = fewer;
  }
  return needed;
}

/** What stood in the way, and by how much, before it was taken off. */
const namedOf = (nearest: Attempt): Pick<TaskOutcome, 'blockers' | 'shortByM'> => {
  const pieces = failing(nearest);
  return { blockers: gathered(pieces), shortByM: greatestShort(pieces) };
};

function failed(nearest: Attempt, tried: number): TaskOutcome {
  const pieces = failing(nearest);
  const unmet = pieces.map(({ measures }) => measures.find(({ judged }) => !judged.met) ?? null);
  const close = unmet.every((measure) => measure?.judged.closeCall)
    ? leastSure(unmet.flatMap((one) => one ?? []))
    : null;
  return {
    verdict: nearest.outcome === 'no' ? 'notAtAll' : 'noWayFound',
    reason: pieces[0]?.reason ?? 'noWayInForArm',
    enterNext: null,
    attempt: nearest,
    removed: [],
    measures: measuresOf(nearest),
    deciding: close ?? unmet.find((one) => one !== null) ?? null,
    blockers: gathered(pieces),
    shortByM: greatestShort(pieces),
    tried,
    closeCall: close?.judged.closeCall ?? null,
  };
}

function greatestShort(pieces: readonly Piece[]): number | null {
  const short = pieces.flatMap(({ shortByM }) => (shortByM === null ? [] : [shortByM]));
  return short.length === 0 ? null : Math.max(...short);
}

/** Each owner once, in the order of the pieces, with the most that is missing there. */
function gathered(pieces: readonly Piece[]): readonly TaskBlocker[] {
  const byOwner = new Map<string, TaskBlocker>();
  for (const blocker of pieces.flatMap(({ blockers }) => blockers)) {
    const known = byOwner.get(blocker.owner);
    if (!known || (blocker.shortByM ?? -1) > (known.shortByM ?? -1)) byOwner.set(blocker.owner, blocker);
  }
  return [...byOwner.values()];
}
