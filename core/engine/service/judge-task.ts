import type { PostureRegion } from '../../assess/access/reach/posture-region';
import { type Obstruction, POSTURES } from '../../assess/access/reach/types';
import type { TaskVerdict } from '../../assess/access/task-verdict';
import type { Opening } from '../../boat/schema/boat';
import { sameValue } from '../../boat/schema-walk';
import { graspsOf, mirrorGrasp, swingGrasps } from './grasps';
import { type HandAsk, handPiece, swungPiece } from './hand-piece';
import { isDone, type Measure, type Piece, type PieceOutcome, type TaskScene, worseOutcome } from './pieces';
import { leverPiece, turnPiece, vesselPieces, withdrawPiece } from './room-pieces';
import { keptSight, NOT_LOOKED_FOR, seePiece } from './see-piece';
import type { PlacedTask } from './task-stages';
import type { WayToTask } from './ways-to-task';

/** What surrounds a task, asked way by way. */
export interface TaskSurroundings {
  readonly ways: readonly WayToTask[];
  readonly opening: (id: string) => Opening | null;
  /** Without what belongs to some owners, taken off first. */
  readonly scene: (way: WayToTask, without: readonly string[]) => TaskScene;
  /** Postures in which somebody may work there, the easiest first. */
  readonly postures: (way: WayToTask, scene: TaskScene) => readonly PostureRegion[];
}

/** One way to do the task, tried. */
export interface Attempt {
  readonly way: WayToTask;
  readonly region: PostureRegion;
  readonly outcome: PieceOutcome;
  readonly pieces: readonly Piece[];
  /** Removed before it. */
  readonly without: readonly string[];
}

const NONE: readonly string[] = [];
/** Of what fails so many more are looked at for what might be taken off: each costs a search. */
const OTHERS = 1;

/** Whether a way takes a tool to open, and what must be cleared away before. */
const isScrewed = (way: WayToTask, { opening }: TaskSurroundings): boolean =>
  way.openings.some((id) => opening(id)?.how === 'screwed');
const clearsAway = (way: WayToTask, { opening }: TaskSurroundings): boolean =>
  way.openings.some((id) => (opening(id)?.moveFirst.length ?? 0) > 0);

/** Whether more than hands is needed even where all goes well. */
const takesTools = ({ needs, service }: PlacedTask): boolean =>
  needs.tool !== null || service.tools.length > 0 || needs.vessels.some(({ kind }) => kind === 'funnel');

/** The verdict on a way whose pieces all go. */
export function verdictOfDone(task: PlacedTask, { way, outcome }: Attempt, around: TaskSurroundings): TaskVerdict {
  if (isScrewed(way, around)) return 'byDismantling';
  if (clearsAway(way, around)) return 'afterMoving';
  if (outcome === 'mirror') return 'withMirror';
  return takesTools(task) ? 'withTools' : 'byHand';
}

/** Ways by the trouble that they take: what opens at once, then after moving, then with a driver. */
function byTrouble(around: TaskSurroundings): readonly (readonly WayToTask[])[] {
  const trouble = (way: WayToTask): number => Number(isScrewed(way, around)) * 2 + Number(clearsAway(way, around));
  return [0, 1, 2, 3].map((level) => around.ways.filter((way) => trouble(way) === level));
}

/** What was tried and came to something, best first, and how many ways that were. */
export interface Tried {
  readonly done: Attempt | null;
  /** The attempt that lacks the least, where none is done, with what is in the way named. */
  readonly nearest: Attempt | null;
  /** Those that come next, each through another opening or in another posture; what is in their way is named when it is asked for. */
  readonly others: readonly (() => Attempt)[];
  readonly tried: number;
  /** Nobody can stand, kneel or lie at any of the ways. */
  readonly isNowhere: boolean;
}

/**
 * Every posture on every way until one does it; quickly first, and with more effort where that leaves it open. Of what is done the first in
 * the order of trouble is as good as any later one.
 */
export function tryTask(task: PlacedTask, around: TaskSurroundings, without: readonly string[] = NONE): Tried {
  const failed: { readonly attempt: Attempt; readonly order: number }[] = [];
  let mirrored: Attempt | null = null;
  let tried = 0;
  const look = (at: Place, level: HandAsk['level']): Attempt => {
    const attempt = attemptIn(task, at, around, without, { level, explain: false });
    tried += attempt.pieces.reduce((sum, piece) => sum + piece.tried, 0);
    if (attempt.outcome === 'mirror') mirrored ??= attempt;
    return attempt;
  };
  let isNowhere = true;
  let order = 0;
  for (const ways of byTrouble(around)) {
    const open: { readonly at: Place; readonly order: number }[] = [];
    for (const at of placesOn(task, ways, around, without)) {
      isNowhere = false;
      order += 1;
      const attempt = look(at, 'quick');
      if (attempt.outcome === 'yes') return { done: attempt, nearest: null, others: [], tried, isNowhere };
      if (attempt.outcome === 'notFound') open.push({ at, order });
      else if (attempt.outcome === 'no') failed.push({ attempt, order });
    }
    for (const { at, order } of open) {
      const attempt = look(at, 'full');
      if (attempt.outcome === 'yes') return { done: attempt, nearest: null, others: [], tried, isNowhere };
      if (attempt.outcome !== 'mirror') failed.push({ attempt, order });
    }
    // A mirror is less trouble than what is to be cleared away or unscrewed.
    if (mirrored) return { done: mirrored, nearest: null, others: [], tried, isNowhere };
  }
  // Of those that lack as much, that which is the least trouble.
  failed.sort((a, b) => lackRank(a.attempt) - lackRank(b.attempt) || a.order - b.order);
  const [nearest, ...rest] = failed.map(({ attempt }) => attempt);
  return {
    done: null,
    nearest: nearest ? explained(task, nearest, around) : null,
    others: rest
      .filter((attempt, k) => [nearest, ...rest.slice(0, k)].every((one) => !one || !isLike(one, attempt)))
      .slice(0, OTHERS)
      .map((attempt) => () => explained(task, attempt, around)),
    tried,
    isNowhere,
  };
}

const isLike = (a: Attempt, b: Attempt): boolean =>
  a.way.through === b.way.through && a.region.posture === b.region.posture;

/** The attempt of before, where it still goes in the same way: a kept way is no search, and settles nothing where it is blocked. */
export function keptAttempt(task: PlacedTask, before: Attempt, around: TaskSurroundings): Attempt | null {
  const { way, without } = before;
  const isThere = around.ways.some(
    (one) =>
      one.through === way.through && one.standing === way.standing && one.openings.join() === way.openings.join(),
  );
  if (!isThere) return null;
  const scene = around.scene(way, without);
  const region = around
    .postures(way, scene)
    .find(({ posture, opening }) => posture === before.region.posture && opening === before.region.opening);
  if (!region) return null;
  const room = roomPieces(task, scene);
  const then = MADE_WITH.get(before);
  if (!then || !sameValue(then.task.face, task.face) || !sameValue(then.task.hands, task.hands)) {
    // What is worked at has moved itself: there is no way of before, and one in the same posture is soon found.
    const anew = attemptIn(task, { way, region, scene, room }, around, without, { level: 'quick', explain: false });
    return anew.outcome === before.outcome ? anew : null;
  }
  const at: Place = { way, region, scene: onlyNew(scene, then.scene), room };
  const ask = { level: 'kept', explain: false } as const;
  const attempt = attemptIn(task, at, around, without, ask, before.pieces);
  if (attempt.outcome !== before.outcome || attempt.pieces.length !== before.pieces.length) return null;
  const pieces = attempt.pieces.map((piece, k) => tighter(piece, before.pieces[k] ?? piece));
  return { ...attempt, pieces };
}

/** The task as it was when an attempt was made, and what was about it. */
const MADE_WITH = new WeakMap<Attempt, { readonly task: PlacedTask; readonly scene: TaskScene }>();

/** An attempt with some of its pieces made anew among the same things. */
export function withPieces(attempt: Attempt, pieces: readonly Piece[]): Attempt {
  const changed = { ...attempt, pieces };
  const made = MADE_WITH.get(attempt);
  if (made) MADE_WITH.set(changed, made);
  return changed;
}

/** Of what is about a task only what is there for the first time: past the rest a way of before still goes. All of it where the hull or the body is another. */
function onlyNew(scene: TaskScene, before: TaskScene): TaskScene {
  if (before.hull !== scene.hull || !sameValue(before.body, scene.body)) return scene;
  const fresh = (now: readonly Obstruction[], then: readonly Obstruction[]): readonly Obstruction[] => {
    const known = new Map(then.map(({ solid, owner }) => [solid, owner]));
    return now.filter(({ solid, owner }) => known.get(solid) !== owner);
  };
  return { ...scene, arms: fresh(scene.arms, before.arms), all: fresh(scene.all, before.all) };
}

/** Of one that was looked at again past what is new alone, and of that before, the one with less room. */
function tighter(now: Piece, before: Piece): Piece {
  const room = ({ measures }: Piece): number =>
    measures.find(({ what }) => what === 'handRoom')?.judged.measured.value ?? 0;
  return now.kind === before.kind && room(before) <= room(now) && now.shown.arms.length > 0 ? before : now;
}

/** Where somebody works, on one of the ways. */
interface Place {
  readonly way: WayToTask;
  readonly region: PostureRegion;
  readonly scene: TaskScene;
  readonly room: RoomPieces;
  /** What the eyes come to there, once it was asked: it does not hang on how hard an arm is looked for. */
  seen?: Piece;
}

/** Where somebody may work: with the fewest things opened, then in the easiest posture, through whichever of the openings. */
function placesOn(
  task: PlacedTask,
  ways: readonly WayToTask[],
  around: TaskSurroundings,
  without: readonly string[],
): readonly Place[] {
  const ease = ({ way, region }: Place): number =>
    way.openings.length * POSTURES.length + POSTURES.indexOf(region.posture);
  return ways
    .flatMap((way): Place[] => {
      const scene = around.scene(way, without);
      const room = roomPieces(task, scene);
      return around.postures(way, scene).map((region) => ({ way, region, scene, room }));
    })
    .sort((a, b) => ease(a) - ease(b));
}

/** What does not hang on where somebody is. */
const roomPieces = (task: PlacedTask, scene: TaskScene): RoomPieces => {
  const turn = turnPiece(task, scene);
  const withdraw = withdrawPiece(task, scene);
  return {
    pieces: [withdraw, turn?.piece ?? null, leverPiece(task, scene), ...vesselPieces(task, scene)].filter(
      (piece) => piece !== null,
    ),
    ends: turn?.piece.outcome === 'yes' ? swingGrasps(task, turn.swing) : [],
  };
};

interface RoomPieces {
  readonly pieces: readonly Piece[];
  readonly ends: ReturnType<typeof swingGrasps>;
}

function attemptIn(
  task: PlacedTask,
  at: Place,
  around: TaskSurroundings,
  without: readonly string[],
  ask: HandAsk,
  kept: readonly Piece[] = [],
): Attempt {
  const { way, region, scene, room } = at;
  const pieces: Piece[] = [...room.pieces];
  const grasps = graspsOf(task, region);
  const opening = region.opening === null ? null : around.opening(region.opening);
  const isLost = (): boolean => !ask.explain && pieces.some(({ outcome }) => outcome === 'no');
  const { see } = task.needs;
  if (see && !isLost()) {
    at.seen ??=
      keptSight(kept, task, scene) ?? (ask.level === 'kept' ? NOT_LOOKED_FOR : seePiece(task, see, region.eyes, scene));
    const { seen } = at;
    pieces.push(seen);
    if (seen.mirrorAt && !isLost())
      pieces.push(
        mirrorPiece(
          handPiece(task, [mirrorGrasp(task, seen.mirrorAt)], region, opening, scene, withWay(ask, kept, 'mirror')),
        ),
      );
  }
  if (grasps.length > 0 && !isLost())
    pieces.push(handPiece(task, grasps, region, opening, scene, withWay(ask, kept, 'hand')));
  if (room.ends.length > 0 && !isLost() && pieces.every(({ outcome }) => isDone(outcome)))
    pieces.push(
      ...room.ends.map((end, k) =>
        swungPiece(handPiece(task, [end], region, opening, scene, withWay(ask, kept, 'turn', k))),
      ),
    );
  const outcome = pieces.reduce<PieceOutcome>((worst, piece) => worseOutcome(worst, piece.outcome), 'yes');
  const attempt = { way, region, outcome, pieces, without };
  MADE_WITH.set(attempt, { task, scene });
  return attempt;
}

/** With the way that the hand took before, of the n-th such piece. */
function withWay(ask: HandAsk, kept: readonly Piece[], kind: Piece['kind'], n = 0): HandAsk {
  const ways = kept.filter((piece) => piece.kind === kind && piece.shown.arms.length > 0);
  const arms = ways[n]?.shown.arms;
  return arms ? { ...ask, kept: arms.map(({ way }) => way) } : ask;
}

/** Whether a hand holds the mirror where it has to be: elsewhere there may be a place for it too. */
const mirrorPiece = (held: Piece): Piece => ({
  ...held,
  kind: 'mirror',
  outcome: held.outcome === 'yes' ? 'yes' : 'notFound',
  reason: held.outcome === 'yes' ? 'mirrorHeld' : 'mirrorNotHeld',
});

/** The same attempt with what is in the way of the arm named and measured. */
function explained(task: PlacedTask, { way, region, without }: Attempt, around: TaskSurroundings): Attempt {
  const scene = around.scene(way, without);
  const at = { way, region, scene, room: roomPieces(task, scene) };
  return attemptIn(task, at, around, without, { level: 'full', explain: true });
}

/** Of attempts that fail: what is only not found before what is disproved, then by how many pieces fail. */
const lackRank = ({ outcome, pieces }: Attempt): number =>
  (outcome === 'no' ? 100 : 0) +
  10 * pieces.filter((piece) => !isDone(piece.outcome)).length -
  pieces.filter((piece) => isDone(piece.outcome)).length;

/** The pieces that do not go, the gravest first. */
export const failing = ({ pieces }: Attempt): readonly Piece[] =>
  pieces
    .filter(({ outcome }) => !isDone(outcome))
    .sort((a, b) => Number(b.outcome === 'no') - Number(a.outcome === 'no'));

export const measuresOf = ({ pieces }: Attempt): readonly Measure[] => pieces.flatMap(({ measures }) => measures);
