import type { Vec2 } from '@core/base/vec';
import type { ViewName } from '@core/output/views/drawing';

/**
 * What a drawing tool is making, as a value, in the metres of one view's paper; a step gives the next value and what is done.
 * Two points (rectangle, split) go by press, drag and release or by two clicks; a polygon and a tape take a corner a click.
 */
export type DrawingTool = 'rectangle' | 'polygon' | 'split' | 'measure';

export interface Draft {
  readonly tool: DrawingTool;
  readonly view: ViewName;
  /** Corners that are set. */
  readonly points: readonly Vec2[];
  /** Where the pointer is. */
  readonly to: Vec2;
  /** The button is down since the first point. */
  readonly held: boolean;
  /** The first point was given by its coordinates. */
  readonly startTyped: boolean;
  /** Every size from the first point on was typed: none is what the pointer made of it. */
  readonly sizesTyped: boolean;
}

export type DrawingInput =
  | { readonly type: 'down'; readonly at: Vec2; readonly view: ViewName; readonly typed?: true }
  | { readonly type: 'move'; readonly at: Vec2 }
  /** `moved`: further than a click's slip since the press. */
  | { readonly type: 'up'; readonly at: Vec2; readonly moved: boolean }
  /** A size along right and up of the paper, or a length along the way that the pointer shows. */
  | { readonly type: 'typed'; readonly size: Vec2 | number }
  | { readonly type: 'close' }
  | { readonly type: 'back' }
  | { readonly type: 'cancel' };

export interface Drawn {
  readonly tool: DrawingTool;
  readonly view: ViewName;
  readonly points: readonly Vec2[];
  /** All its sizes were typed. */
  readonly sizesTyped: boolean;
}

export interface DrawingStep {
  readonly draft: Draft | null;
  /** Finished with this step: to be made. */
  readonly drawn: Drawn | null;
}

/** Points of a polygon nearer than this to its first corner close it, metres are the caller's: it gives the reach. */
export function drawingStep(
  draft: Draft | null,
  tool: DrawingTool,
  input: DrawingInput,
  closeWithinM: number,
): DrawingStep {
  if (input.type === 'cancel') return { draft: null, drawn: null };
  if (!draft) {
    if (input.type !== 'down') return { draft: null, drawn: null };
    const startTyped = input.typed ?? false;
    const start = { points: [input.at], to: input.at, held: true, startTyped, sizesTyped: true };
    return { draft: { tool, view: input.view, ...start }, drawn: null };
  }
  if (tool === 'polygon') return polygonStep(draft, input, closeWithinM);
  return tool === 'measure' ? tapeStep(draft, input) : pairStep(draft, input);
}

const unchanged = (draft: Draft): DrawingStep => ({ draft, drawn: null });
const finished = ({ tool, view, sizesTyped }: Draft, points: readonly Vec2[]): DrawingStep => ({
  draft: null,
  drawn: { tool, view, points, sizesTyped },
});
/** A further point: typed by its size, or by coordinates as its first one was, or else where the pointer is. */
const withPoint = (draft: Draft, input: DrawingInput): Draft => {
  const typed = input.type === 'typed' || (input.type === 'down' && input.typed === true && draft.startTyped);
  return typed ? draft : { ...draft, sizesTyped: false };
};

function pairStep(draft: Draft, input: DrawingInput): DrawingStep {
  const from = draft.points[draft.points.length - 1] as Vec2;
  switch (input.type) {
    case 'move':
      return unchanged({ ...draft, to: input.at });
    case 'up':
      if (!draft.held) return unchanged(draft);
      return input.moved
        ? paired(withPoint(draft, input), input.at)
        : unchanged({ ...draft, held: false, to: input.at });
    case 'down':
      // The second of two clicks.
      return paired(withPoint(draft, input), input.at);
    case 'typed':
      return paired(withPoint(draft, input), typedFrom(from, draft.to, input.size));
    case 'close':
      return paired(withPoint(draft, input), draft.to);
    case 'back':
      return { draft: null, drawn: null };
    default:
      return unchanged(draft);
  }
}

function paired(draft: Draft, to: Vec2): DrawingStep {
  const from = draft.points[draft.points.length - 1] as Vec2;
  const [du, dv] = [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])];
  const isNothing = draft.tool === 'rectangle' ? Math.min(du, dv) < LEAST_M : Math.hypot(du, dv) < LEAST_M;
  return isNothing ? unchanged({ ...draft, to, held: false }) : finished(draft, [from, to]);
}

/** Nothing smaller is meant, metres. */
const LEAST_M = 0.005;

/** A drag measures one distance; clicks go on from point to point until Enter, or a second click on the spot, ends it. */
function tapeStep(draft: Draft, input: DrawingInput): DrawingStep {
  const { points } = draft;
  const last = points[points.length - 1] as Vec2;
  const end = (): DrawingStep => (points.length > 1 ? finished(draft, points) : paired(draft, draft.to));
  switch (input.type) {
    case 'down':
      if (Math.hypot(input.at[0] - last[0], input.at[1] - last[1]) < LEAST_M) return end();
      return unchanged({ ...draft, points: [...points, input.at], to: input.at });
    case 'close':
      return end();
    case 'back':
      return points.length <= 1 ? { draft: null, drawn: null } : unchanged({ ...draft, points: points.slice(0, -1) });
    default:
      return pairStep(draft, input);
  }
}

function polygonStep(draft: Draft, input: DrawingInput, closeWithinM: number): DrawingStep {
  const { points } = draft;
  const first = points[0] as Vec2;
  const last = points[points.length - 1] as Vec2;
  const far = (p: Vec2, q: Vec2): number => Math.hypot(p[0] - q[0], p[1] - q[1]);
  switch (input.type) {
    case 'move':
      return unchanged({ ...draft, to: input.at });
    case 'down':
      if (points.length >= 3 && far(input.at, first) <= closeWithinM) return finished(draft, points);
      // A second press on the spot: a double click closes.
      if (far(input.at, last) < 1e-9) return points.length >= 3 ? finished(draft, points) : unchanged(draft);
      return unchanged({ ...withPoint(draft, input), points: [...points, input.at], to: input.at });
    case 'typed':
      return unchanged({ ...withPoint(draft, input), points: [...points, typedFrom(last, draft.to, input.size)] });
    case 'close':
      return points.length >= 3 ? finished(draft, points) : unchanged(draft);
    case 'back':
      return points.length <= 1 ? { draft: null, drawn: null } : unchanged({ ...draft, points: points.slice(0, -1) });
    default:
      return unchanged(draft);
  }
}

/** The point at a typed size from the last one, on the side on which the pointer is; a length goes along the way to it. */
function typedFrom(from: Vec2, to: Vec2, size: Vec2 | number): Vec2 {
  const [du, dv] = [to[0] - from[0], to[1] - from[1]];
  if (typeof size !== 'number') {
    // A written sign wins over the side of the pointer.
    const towards = (by: number, way: number): number => (by < 0 ? by : way < 0 ? -by : by);
    return [from[0] + towards(size[0], du), from[1] + towards(size[1], dv)];
  }
  const length = Math.hypot(du, dv);
  if (length < 1e-9) return [from[0] + size, from[1]];
  return [from[0] + (du / length) * size, from[1] + (dv / length) * size];
}

/** Corners of a finished rectangle, against the clock from its lower left. */
export function cornersOf({ tool, points }: Pick<Drawn, 'tool' | 'points'>): readonly Vec2[] {
  if (tool !== 'rectangle') return points;
  const [[u0, v0], [u1, v1]] = points as readonly [Vec2, Vec2];
  const [left, right] = u0 < u1 ? [u0, u1] : [u1, u0];
  const [low, high] = v0 < v1 ? [v0, v1] : [v1, v0];
  return [
    [left, low],
    [right, low],
    [right, high],
    [left, high],
  ];
}
