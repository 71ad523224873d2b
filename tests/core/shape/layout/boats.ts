import { add, cross, dot, subtract, type Vec2, type Vec3 } from '@core/base/vec';
import type { Boat, Compartment } from '@core/boat/schema/boat';
import { deriveLayout, type LayoutInput } from '@core/shape/layout/derive';
import type { Layout } from '@core/shape/layout/types';

/** A compartment record with only what matters to its shape. */
export const compartment = (
  view: Compartment['view'],
  outline: readonly Vec2[],
  rangeM: readonly [number, number],
  more: Partial<Compartment> = {},
): Compartment => ({
  name: 'space',
  kind: 'locker',
  view,
  outline: outline.map(([a, b]) => [a, b] as [number, number]),
  rangeM: [rangeM[0], rangeM[1]],
  yawDeg: 0,
  grade: 'taped',
  ...more,
});

/** A box drawn in one of the three views. */
export const boxIn = (
  view: Compartment['view'],
  low: readonly [number, number, number],
  high: readonly [number, number, number],
  more: Partial<Compartment> = {},
): Compartment => {
  const [i, j, k] = view === 'plan' ? [0, 1, 2] : view === 'profile' ? [0, 2, 1] : [1, 2, 0];
  const rectangle: Vec2[] = [
    [low[i], low[j]],
    [high[i], low[j]],
    [high[i], high[j]],
    [low[i], high[j]],
  ] as Vec2[];
  return compartment(view, rectangle, [low[k] as number, high[k] as number], more);
};

export const layoutOf = (
  compartments: Boat['compartments'],
  more: Partial<Omit<LayoutInput, 'compartments'>> = {},
): Layout => deriveLayout({ compartments, panels: {}, newHoles: {}, newHoleCostM: 0.5, ...more });

export const panelData = (
  between: readonly [string, string],
  near: readonly [number, number, number],
  more: Partial<Boat['panels'][string]> = {},
): Boat['panels'][string] => ({
  between: [between[0], between[1]],
  near: [near[0], near[1], near[2]],
  rule: 'drill',
  holes: {},
  ...more,
});

/** Area of a planar polygon in space, m2. */
export function areaInSpace(polygon: readonly Vec3[]): number {
  let sum: Vec3 = [0, 0, 0];
  const first = polygon[0] as Vec3;
  for (let i = 1; i + 1 < polygon.length; i++)
    sum = add(sum, cross(subtract(polygon[i] as Vec3, first), subtract(polygon[i + 1] as Vec3, first)));
  return Math.sqrt(dot(sum, sum)) / 2;
}
