import * as portable from '../../base/portable';
import { dot, ORIGIN, type Rotation, scale, type Turn, type Vec3 } from '../../base/vec';
import type { Part, Shape } from '../../boat/schema/boat';
import type { Plane } from '../../shape/layout/types';
import { leastAlong, thingSolids } from '../../shape/space/things';
import type { Side } from './largest';

/** What proves that a shape fits nowhere: the least and greatest that any turn of it takes up. Metres, square and cubic metres. */
export interface Girth {
  readonly leastSideM: number;
  /** Greatest distance between two of its points. */
  readonly longestM: number;
  /** Least area of its shadow. */
  readonly shadowM2: number;
  readonly volumeM3: number;
}

/**
 * A box throws a shadow of a |u| + b |v| + c |w| with its faces a, b, c: never less than the smallest face, which it throws end on. A cylinder
 * likewise with its end and its length times diameter.
 */
export function girthOf(shape: Shape): Girth {
  if (shape.type === 'box') {
    const [x, y, z] = [...shape.sizeM].sort((a, b) => a - b) as [number, number, number];
    return { leastSideM: x, longestM: portable.hypot(x, y, z), shadowM2: x * y, volumeM3: x * y * z };
  }
  const { diameterM: d, lengthM: l } = shape;
  const end = (Math.PI * d * d) / 4;
  return {
    leastSideM: Math.min(d, l),
    longestM: portable.hypot(d, l),
    shadowM2: Math.min(end, d * l),
    volumeM3: end * l,
  };
}

/** How fast a shape comes nearer to a plane when each of its sides grows: metres a metre. */
function gainOf(shape: Shape, axes: Rotation, normal: Vec3): number {
  const turned = axes.map((axis) => Math.abs(dot(axis, normal)));
  const [x = 0, y = 0, z = 0] = turned;
  if (shape.type === 'box') return (x + y + z) / 2;
  const end = shape.axis === 'x' ? x : shape.axis === 'y' ? y : z;
  return (end + Math.sqrt(Math.max(0, 1 - end * end))) / 2;
}

/** Half of what a shape takes up along a normal. */
function reachOf(shape: Shape, axes: Rotation, normal: Vec3): number {
  const [x = 0, y = 0, z = 0] = axes.map((axis) => Math.abs(dot(axis, normal)));
  if (shape.type === 'box') return (shape.sizeM[0] * x + shape.sizeM[1] * y + shape.sizeM[2] * z) / 2;
  const end = shape.axis === 'x' ? x : shape.axis === 'y' ? y : z;
  return (shape.lengthM * end + shape.diameterM * Math.sqrt(Math.max(0, 1 - end * end))) / 2;
}

/** The sides of a room as the envelope of a shape meets them, turned like this. */
export const sidesFor = (shape: Shape, axes: Rotation, planes: readonly Plane[]): readonly Side[] =>
  planes.map(({ normal, offset }) => ({
    normal,
    gain: gainOf(shape, axes, normal),
    roomM: offset - reachOf(shape, axes, normal),
  }));

/** As `sidesFor`, with everything that the part moves through: for a part that has sweeps. */
export function sidesForPart(part: Part, turn: Turn, axes: Rotation, planes: readonly Plane[]): readonly Side[] {
  const sides = sidesFor(part.shape, axes, planes);
  const sweeps = thingSolids('part', { ...part, services: {} }, { at: ORIGIN, ...turn }).filter(
    ({ layer }) => layer === 'sweep',
  );
  if (sweeps.length === 0) return sides;
  return sides.map((side, i) => {
    const { offset, normal } = planes[i] as Plane;
    const reach = Math.max(...sweeps.map((solid) => -leastAlong(solid, scale(normal, -1))));
    return { ...side, roomM: Math.min(side.roomM, offset - reach) };
  });
}
