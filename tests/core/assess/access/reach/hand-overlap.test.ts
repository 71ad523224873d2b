import { BoxOverlaps } from '@core/assess/access/reach/hand-overlap';
import { rotationOf, UNIT_AXES, type Vec3 } from '@core/base/vec';
import type { AnySolid } from '@core/shape/space/kernel';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../../support/dice';

// Judged by points of the box on a grid, which know nothing of separating planes: nothing here is published.

type Box = { readonly centre: Vec3; readonly half: Vec3; readonly axes: readonly [Vec3, Vec3, Vec3] };
const frameOf = ({ centre, axes, half }: Box): Float64Array => Float64Array.of(...centre, ...axes.flat(), ...half);
const name = { id: 'x', owner: 'x', label: 'x', layer: 'furnishing' as const };
const meets = (solid: AnySolid, box: Box): boolean => new BoxOverlaps([solid]).meets(0, frameOf(box));
const dotOf = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Signed distance of a point from a solid, written for itself here: negative inside. */
function depthAt(solid: AnySolid, p: Vec3): number {
  const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  if (solid.type === 'box') {
    const d = minus(p, solid.centre);
    return Math.max(...solid.axes.map((axis, k) => Math.abs(dotOf(d, axis)) - (solid.half[k] ?? 0)));
  }
  if (solid.type === 'plate') {
    const [a, b, c] = solid.polygon as [Vec3, Vec3, Vec3];
    const [u, v] = [minus(b, a), minus(c, b)];
    const [lu, lv] = [Math.sqrt(dotOf(u, u)), Math.sqrt(dotOf(v, v))];
    const d = minus(p, a);
    const [s, t] = [dotOf(d, u) / lu, dotOf(d, v) / lv];
    return Math.max(Math.abs(dotOf(d, solid.normal)) - solid.thicknessM / 2, -s, s - lu, -t, t - lv);
  }
  const axis = minus(solid.to, solid.from);
  const long = Math.sqrt(dotOf(axis, axis));
  const d = minus(p, solid.from);
  const h = dotOf(d, axis) / long;
  const on = solid.type === 'capsule' ? Math.max(0, Math.min(long, h)) : h;
  const off = minus(d, [(axis[0] / long) * on, (axis[1] / long) * on, (axis[2] / long) * on]);
  const radial = Math.sqrt(dotOf(off, off)) - solid.radius;
  return solid.type === 'capsule' ? radial : Math.max(radial, -h, h - long);
}

/** A point of the box inside the solid, by points on a grid of the box; the greatest depth of it. */
function deepestPoint(solid: AnySolid, { centre, half, axes }: Box): number {
  const n = 12;
  let least = Number.POSITIVE_INFINITY;
  for (let i = -n; i <= n; i += 1)
    for (let j = -n; j <= n; j += 1)
      for (let k = -n; k <= n; k += 1) {
        const at = [0, 1, 2].map(
          (c) =>
            (centre[c] as number) +
            ((i / n) * half[0] * (axes[0][c] as number) +
              (j / n) * half[1] * (axes[1][c] as number) +
              (k / n) * half[2] * (axes[2][c] as number)),
        ) as unknown as Vec3;
        least = Math.min(least, depthAt(solid, at));
      }
  return least;
}

describe('whether a turned box meets a solid', () => {
  it('agrees with points of the box in the solid, for every kind, outside a band of the spacing of the points', () => {
    // Derived: neighbouring points of the grid are at most 5.3 mm apart along each axis, so no place of the box is farther than 4.6 mm from one.
    const roll = dice(Number(process.env.SERVICE_SEED ?? 1));
    const tally = { met: 0, clear: 0 };
    for (let n = 0; n < 320; n += 1) {
      const turn = (): readonly [Vec3, Vec3, Vec3] =>
        rotationOf({ yawDeg: roll.from(0, 360), pitchDeg: roll.from(-80, 80), rollDeg: roll.from(0, 360) });
      const point = (by: number): Vec3 => [roll.from(-by, by), roll.from(-by, by), roll.from(-by, by)];
      const box: Box = { centre: point(0.2), half: [0.0475, 0.0625, 0.06], axes: turn() };
      const axes = turn();
      const length = roll.from(0.05, 0.3);
      const along = (by: number): Vec3 => [axes[0][0] * by, axes[0][1] * by, axes[0][2] * by];
      const corner = (a: number, b: number): Vec3 =>
        [0, 1, 2].map((c) => (axes[1][c] as number) * a + (axes[2][c] as number) * b) as unknown as Vec3;
      const [wide, high] = [roll.from(0.03, 0.2), roll.from(0.03, 0.2)];
      const radius = roll.from(0.02, 0.12);
      const solid = roll.pick<AnySolid>([
        { ...name, type: 'box', centre: [0, 0, 0], half: [length / 2, wide, high], axes },
        { ...name, type: 'cylinder', from: along(-length / 2), to: along(length / 2), radius },
        { ...name, type: 'capsule', from: along(-length / 2), to: along(length / 2), radius },
        {
          ...name,
          type: 'plate',
          normal: axes[0],
          thicknessM: 0.024,
          polygon: [corner(-wide, -high), corner(wide, -high), corner(wide, high), corner(-wide, high)],
        },
      ]);
      const least = deepestPoint(solid, box);
      if (least < 0) {
        tally.met += 1;
        expect(meets(solid, box), `case ${n}: a point of the box is in the ${solid.type}`).toBe(true);
      } else if (least > 0.005) {
        tally.clear += 1;
        expect(meets(solid, box), `case ${n}: no point of the box is near the ${solid.type}`).toBe(false);
      }
    }
    expect(Math.min(tally.met, tally.clear)).toBeGreaterThan(60);
  });

  it('sees a corner that stands beside the rim of a cylinder', () => {
    // Derived: the corner of the box nearest to the axis is 72 mm off it (square 51 by 51), 10 mm above the upper end of a disc of 70 mm.
    const disc: AnySolid = { ...name, type: 'cylinder', from: [0, 0, -0.02], to: [0, 0, 0.02], radius: 0.07 };
    const box = (z: number, off: number): Box => ({
      centre: [off + 0.05, off + 0.05, z + 0.05],
      half: [0.05, 0.05, 0.05],
      axes: UNIT_AXES,
    });
    expect(meets(disc, box(0.01, 0.051))).toBe(false);
    expect(meets(disc, box(0.01, 0.049))).toBe(true);
    expect(meets(disc, box(0.021, 0.049))).toBe(false);
  });
});
