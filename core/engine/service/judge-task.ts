import type { PostureRegion } from '../../assess/access/reach/posture-region';
import type { TaskVerdict } from '../../assess/access/task-verdict';
import type { Opening } from '../../boat/schema/boat';
import { graspsOf, mirrorGrasp, swingGrasps } from './grasps';
import { type HandAsk, handPiece, swungPiece } from './hand-piece';
import { isDone, type Measure, type Piece, type PieceOutcome, type TaskScene, worseOutcome } from './pieces';
import { turnPiece, vesselPieces, withdrawPiece } from './room-pieces';
import { keptSight, seePiece } from './see-piece';
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

/** Whether a way takes a tool to open, and what must be cleared away before. */
const isScrewed = (way: WayToTask, { opening }: TaskSurroundings): boolean =>
  way.openings.some((id) => opening(id)?.how === 'screwed');
const clearsAway = (way: WayToTask, { opening }: TaskSurroundings): boolean =>
  way.openings.some((id) => (opening(id)?.moveFirst.length ?? 0) > 0);

/** Whether more than hands is needed even where all goes well. */
export const takesTools = ({ needs, service }: PlacedTask): boolean =>
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
  /** The attempt that lacks the least, where none is done. */
  readonly nearest: Attempt | null;
  readonly tried: number;
  /** Nobody can stand, kneel or lie at any of the ways. */
  readonly isNowhere: boolean;
}

/**
 * Every posture on every way until one does it; quickly first, and with more effort where that leaves it open. Of what is done the first in
 * the order of trouble is as good as any later one.
 */
export function tryTask(task: PlacedTask, around: TaskSurroundings, without: readonly string[] = NONE): Tried {
  const failed: Attempt[] = [];
  let mirrored: Attempt | null = null;
  let tried = 0;
  const look = (at: Place, level: HandAsk['level']): Attempt => {
    const attempt = attemptIn(task, at, around, without, { level, explain: false });
    tried += attempt.pieces.reduce((sum, piece) => sum + piece.tried, 0);
    if (attempt.outcome === 'mirror') mirrored ??= attempt;
    return attempt;
  };
  let isNowhere = true;
  for (const ways of byTrouble(around)) {
    const open: Place[] = [];
    for (const way of ways) {
      const scene = around.scene(way, without);
      const room = roomPieces(task, scene);
      for (const region of around.postures(way, scene)) {
        isNowhere = false;
        const at = { way, region, scene, room };
        const attempt = look(at, 'quick');
        if (attempt.outcome === 'yes') return { done: attempt, nearest: null, tried, isNowhere };
        if (attempt.outcome === 'notFound') open.push(at);
        else if (attempt.outcome === 'no') failed.push(attempt);
      }
    }
    for (const at of open) {
      const attempt = look(at, 'full');
      if (attempt.outcome === 'yes') return { done: attempt, nearest: null, tried, isNowhere };
      if (attempt.outcome !== 'mirror') failed.push(attempt);
    }
    // A mirror is less trouble than what is to be cleared away or unscrewed.
    if (mirrored) return { done: mirrored, nearest: null, tried, isNowhere };
  }
  const [nearest] = failed.sort((a, b) => lackRank(a) - lackRank(b));
  return { done: null, nearest: nearest ? explained(task, nearest, around) : null, tried, isNowhere };
}

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
  const at = { way, region, scene, room: roomPieces(task, scene) };
  const ask = { level: 'quick', explain: false } as const;
  const attempt = attemptIn(task, at, around, without, ask, before.pieces);
  return attempt.outcome === before.outcome ? attempt : null;
}

/** Where somebody works, on one of the ways. */
interface Place {
  readonly way: WayToTask;
  readonly region: PostureRegion;
  readonly scene: TaskScene;
  readonly room: RoomPieces;
}

/** What does not hang on where somebody is. */
const roomPieces = (task: PlacedTask, scene: TaskScene): RoomPieces => {
  const turn = turnPiece(task, scene);
  const withdraw = withdrawPiece(task, scene);
  return {
    pieces: [...(withdraw ? [withdraw] : []), ...(turn ? [turn.piece] : []), ...vesselPieces(task, scene)],
    ends: turn?.piece.outcome === 'yes' ? swingGrasps(task, turn.swing) : [],
  };
};

interface RoomPieces {
  readonly pieces: readonly Piece[];
  readonly ends: ReturnType<typeof swingGrasps>;
}

function attemptIn(
  task: PlacedTask,
  { way, region, scene, room }: Place,
  around: TaskSurroundings,
  without: readonly string[],
  ask: HandAsk,
  kept: readonly Piece[] = [],
): Attempt {
  const pieces: Piece[] = [...room.pieces];
  const grasps = graspsOf(task, region);
  const opening = region.opening === null ? null : around.opening(region.opening);
  const isLost = (): boolean => !ask.explain && pieces.some(({ outcome }) => outcome === 'no');
  const { see } = task.needs;
  if (see && !isLost()) {
    const seen = keptSight(kept, task, scene) ?? seePiece(task, see, region.eyes, scene);
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
  return { way, region, outcome, pieces, without };
}

/** With the way that the hand took before, of the n-th such piece. */
function withWay(ask: HandAsk, kept: readonly Piece[], kind: Piece['kind'], n = 0): HandAsk {
  const ways = kept.filter((piece) => piece.kind === kind && piece.shown.arms.length > 0);
  const way = ways[n]?.shown.arms[0]?.way;
  return way ? { ...ask, kept: way } : ask;
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
