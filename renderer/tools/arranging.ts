import type { Axis, Vec3 } from '@core/base/vec';
import { paperAxes, type ViewFrame } from '@core/output/views/drawing';
import type { Box } from './faces';

/** Things that keep their places to one another, and their bounds in the boat. */
export interface Block {
  readonly ids: readonly string[];
  readonly box: Box;
}
/** How far each thing moves, metres. */
export type Arranged = Readonly<Record<string, Vec3>>;

/** Sides as one sees them in a view: the left or lower one, the middle, the right or upper one. */
export type Side = 'before' | 'middle' | 'after';

/** Moves blocks along one axis of a view, 0 across and 1 up, so that their sides line up with those of the block that stays. */
export function linedUp(blocks: readonly Block[], stays: string, frame: ViewFrame, way: 0 | 1, side: Side): Arranged {
  const axis = paperAxes(frame)[way];
  // To starboard is to the right in a section: there the lower coordinate is the one after.
  const runsUp = ((way === 0 ? frame.right : frame.up)[axis] ?? 1) > 0;
  const own: Side = side === 'middle' || runsUp ? side : side === 'before' ? 'after' : 'before';
  const reference = blocks.find(({ ids }) => ids.includes(stays)) ?? blocks[0];
  if (!reference) return {};
  const to = edgeOf(reference.box, axis, own);
  return shiftsOf(
    blocks.map((block) => [block, to - edgeOf(block.box, axis, own)] as const),
    axis,
  );
}

function edgeOf({ low, high }: Box, axis: Axis, side: Side): number {
  return side === 'before' ? low[axis] : side === 'after' ? high[axis] : (low[axis] + high[axis]) / 2;
}

/** Moves the blocks between the two outermost along an axis so that all gaps are equal; where they overlap, so do all alike. */
export function spacedOut(blocks: readonly Block[], axis: Axis): Arranged {
  const middle = ({ box }: Block): number => edgeOf(box, axis, 'middle');
  const sorted = [...blocks].sort((a, b) => middle(a) - middle(b));
  const [first, last] = [sorted[0], sorted.at(-1)];
  if (!first || !last || sorted.length < 3) return {};
  const size = ({ box }: Block): number => box.high[axis] - box.low[axis];
  const room = last.box.high[axis] - first.box.low[axis] - sorted.reduce((sum, block) => sum + size(block), 0);
  const gap = room / (sorted.length - 1);
  let at = first.box.low[axis];
  return shiftsOf(
    sorted.map((block) => {
      const by = at - block.box.low[axis];
      at += size(block) + gap;
      return [block, block === first || block === last ? 0 : by] as const;
    }),
    axis,
  );
}

const shiftsOf = (moves: readonly (readonly [Block, number])[], axis: Axis): Arranged =>
  Object.fromEntries(
    moves.flatMap(([{ ids }, by]) => {
      const shift: [number, number, number] = [0, 0, 0];
      shift[axis] = by;
      return ids.map((id) => [id, shift] as const);
    }),
  );
