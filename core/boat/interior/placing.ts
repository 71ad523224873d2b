import { ringContains } from '../../base/ring';
import { cosSin, type Vec2, type Vec3 } from '../../base/vec';
import type { Compartment } from '../schema/boat';

/** What places a compartment: its outline, its range across it, and its turn. Metres, degrees. */
export type Prismatic = Pick<Compartment, 'view' | 'outline' | 'rangeM' | 'yawDeg'>;

/** Boat axes of the two values of an outline and of its range. */
export const AXES_OF_VIEW = { plan: [0, 1, 2], profile: [0, 2, 1], section: [1, 2, 0] } as const;

/** The point with outline values u, v and the value w of the range, before the turn. */
export function drawnPoint(view: Compartment['view'], [u, v]: Vec2, w: number): Vec3 {
  const p: [number, number, number] = [0, 0, 0];
  const [iu, iv, iw] = AXES_OF_VIEW[view];
  p[iu] = u;
  p[iv] = v;
  p[iw] = w;
  return p;
}

/** Outline values and range value of a point before the turn. */
export function drawnValues(view: Compartment['view'], p: Vec3): readonly [Vec2, number] {
  const [iu, iv, iw] = AXES_OF_VIEW[view];
  return [[p[iu], p[iv]], p[iw]];
}

/** Least and greatest coordinates before the turn. */
export function drawnBounds({ view, outline, rangeM }: Omit<Prismatic, 'yawDeg'>): readonly [Vec3, Vec3] {
  const us = outline.map((p) => p[0]);
  const vs = outline.map((p) => p[1]);
  return [
    drawnPoint(view, [Math.min(...us), Math.min(...vs)], Math.min(...rangeM)),
    drawnPoint(view, [Math.max(...us), Math.max(...vs)], Math.max(...rangeM)),
  ];
}

/** The vertical axis that a compartment is turned about: the middle of its bounds. */
function pivotOf(prism: Omit<Prismatic, 'yawDeg'>): Vec2 {
  const [low, high] = drawnBounds(prism);
  return [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
}

const turnedAbout = ([cx, cy]: Vec2, deg: number, [x, y, z]: Vec3): Vec3 => {
  const [cos, sin] = cosSin(deg);
  if (cos === 1) return [x, y, z];
  return [cx + (x - cx) * cos - (y - cy) * sin, cy + (x - cx) * sin + (y - cy) * cos, z];
};

/** From a point as drawn to the boat, and back: the compartment's turn. */
export const intoBoat = (prism: Prismatic, p: Vec3): Vec3 => turnedAbout(pivotOf(prism), prism.yawDeg, p);
export const fromBoat = (prism: Prismatic, p: Vec3): Vec3 => turnedAbout(pivotOf(prism), -prism.yawDeg, p);
/** A direction in the boat as the drawing has it, before the turn. */
export const directionAsDrawn = (prism: Prismatic, d: Vec3): Vec3 => turnedAbout([0, 0], -prism.yawDeg, d);
export const directionInBoat = (prism: Prismatic, d: Vec3): Vec3 => turnedAbout([0, 0], prism.yawDeg, d);

/**
 * A new outline and range drawn beside `before` such that what did not move stays where it is: the turn is about the middle
 * of the bounds, which a new outline shifts.
 */
export function redrawn(before: Prismatic, next: Omit<Prismatic, 'yawDeg'>): Omit<Prismatic, 'yawDeg'> {
  const from = pivotOf(before);
  const to = pivotOf(next);
  const shift: Vec3 = [to[0] - from[0], to[1] - from[1], 0];
  const [rx, ry] = turnedAbout([0, 0], before.yawDeg, shift);
  return shiftedAsDrawn(next, [rx - shift[0], ry - shift[1], 0]);
}

/** Outline and range shifted by a vector before the turn. */
export function shiftedAsDrawn(prism: Omit<Prismatic, 'yawDeg'>, by: Vec3): Omit<Prismatic, 'yawDeg'> {
  const [[du, dv], dw] = drawnValues(prism.view, by);
  return {
    view: prism.view,
    outline: prism.outline.map(([u, v]): [number, number] => [u + du, v + dv]),
    rangeM: [prism.rangeM[0] + dw, prism.rangeM[1] + dw],
  };
}

/** Whether it is a box along the outline's axes, so that it can be drawn in any view. */
export function isDrawnBox({ outline }: Pick<Prismatic, 'outline'>): boolean {
  if (outline.length !== 4) return false;
  return outline.every((p, i) => {
    const q = outline[(i + 1) % 4] as Vec2;
    return Math.abs(p[0] - q[0]) < 1e-6 !== Math.abs(p[1] - q[1]) < 1e-6;
  });
}

/** Outline and range of the box between two corners, drawn in a view. */
export function boxDrawn(view: Compartment['view'], low: Vec3, high: Vec3): Omit<Prismatic, 'yawDeg'> {
  const [[u0, v0], w0] = drawnValues(view, low);
  const [[u1, v1], w1] = drawnValues(view, high);
  return {
    view,
    outline: [
      [u0, v0],
      [u1, v0],
      [u1, v1],
      [u0, v1],
    ],
    rangeM: [w0, w1],
  };
}

/** Whether a compartment as drawn holds a point of the boat. */
export function holds(prism: Prismatic, p: Vec3): boolean {
  const [[u, v], w] = drawnValues(prism.view, fromBoat(prism, p));
  if (w < prism.rangeM[0] || w > prism.rangeM[1]) return false;
  return ringContains(prism.outline, [u, v]);
}
