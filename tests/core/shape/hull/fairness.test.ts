import type { Vec2 } from '@core/base/vec';
import { curvatureComb, sectionCrossings, turnsOf, unfairPoints, weaving } from '@core/shape/hull/fairness';
import { describe, expect, it } from 'vitest';
import { hullOf, wigley } from '../../../support/hull-shapes';

const POINTS = 15;
const TAPE_M = 0.02;

/** Quarter ellipse from the keel to the beam, at equal steps of its angle. */
const ellipse = (a: number, b: number, count = POINTS): Vec2[] =>
  Array.from({ length: count }, (_, i): Vec2 => {
    const angle = ((Math.PI / 2) * i) / (count - 1);
    return [a * Math.sin(angle), -b * Math.cos(angle)];
  });

const rounded = (points: readonly Vec2[]): Vec2[] =>
  points.map(([y, z]): Vec2 => [Math.round(y * 1000) / 1000, Math.round(z * 1000) / 1000]);

/** The section with one point pushed outwards, square to the chord through its neighbours. */
function bumped(points: readonly Vec2[], index: number, byM: number): Vec2[] {
  const before = points[index - 1] as Vec2;
  const after = points[index + 1] as Vec2;
  const along = Math.hypot(after[0] - before[0], after[1] - before[1]);
  return points.map(
    ([y, z], i): Vec2 =>
      i === index ? [y + (byM * (after[1] - before[1])) / along, z - (byM * (after[0] - before[0])) / along] : [y, z],
  );
}

describe('the curvature comb', () => {
  it('of a circle is 1/r everywhere, round seen from outside', () => {
    const comb = curvatureComb(ellipse(1.25, 1.25));
    expect(comb.length).toBeGreaterThan(100);
    // derived: the curvature of a circle of 1.25 m is 0.8 /m; a cubic spline of 14 gaps keeps it to one percent
    for (const tooth of comb) expect(Math.abs(tooth.curvature - 0.8)).toBeLessThan(0.008);
  });

  it('of an ellipse is a/b^2 at the keel and b/a^2 at the beam', () => {
    const a = 1.6;
    const b = 1.1;
    const comb = curvatureComb(ellipse(a, b, 31));
    // derived: curvature of an ellipse at the ends of its axes
    expect(comb[0]?.curvature).toBeCloseTo(a ** -2 * b, 1);
    expect(comb.at(-1)?.curvature).toBeCloseTo(b ** -2 * a, 1);
  });

  it('stands outwards, and points at the place along the section', () => {
    const comb = curvatureComb(ellipse(1, 1));
    for (const { at, outward } of comb) {
      // derived: the normal of a circle about the origin is its radius
      expect(outward[0]).toBeCloseTo(at[0], 2);
      expect(outward[1]).toBeCloseTo(at[1], 2);
    }
    expect(comb[0]?.along).toBe(0);
    expect(comb.at(-1)?.along).toBe(POINTS - 1);
  });

  it('stops at a knuckle and is 0 on straight sides', () => {
    const box: Vec2[] = [
      [0, -1],
      [0.5, -1],
      [1, -1],
      [1, -0.5],
      [1, 0],
    ];
    for (const { curvature } of curvatureComb(box, [2])) expect(Math.abs(curvature)).toBeLessThan(1e-9);
    expect(Math.max(...curvatureComb(box).map(({ curvature }) => curvature))).toBeGreaterThan(1);
  });

  it('is that of a parabola through three points, and none through two', () => {
    // derived: y = z^2 / 2 has curvature 1 at its vertex
    const comb = curvatureComb([
      [0.5, -1],
      [0, 0],
      [0.5, 1],
    ]);
    const middle = comb.reduce((best, tooth) => (Math.abs(tooth.at[1]) < Math.abs(best.at[1]) ? tooth : best));
    expect(Math.abs(middle.curvature)).toBeCloseTo(1, 9);
    expect(
      curvatureComb([
        [0, 0],
        [1, 1],
      ]),
    ).toEqual([]);
  });
});

describe('unfair points', () => {
  it.each([
    ['an ellipse', ellipse(1.6, 1.1)],
    ['an ellipse rounded to the millimetre', rounded(ellipse(1.6, 1.1))],
    ['a circle of nine points', ellipse(1.2, 1.2, 9)],
    ['a fine ellipse', ellipse(0.4, 1.4)],
  ])('%s has none', (_, points) => {
    expect(unfairPoints(points, { gradeM: 0.005 })).toEqual([]);
  });

  it('a Wigley hull has none in any section, exact or rounded to the millimetre', () => {
    for (const { points } of Object.values(wigley(10, 3, 1.2, 21, POINTS).stations)) {
      expect(unfairPoints(points, { gradeM: 0.005, form: 'lightDisplacement' })).toEqual([]);
      expect(unfairPoints(rounded(points), { gradeM: 0.005, form: 'lightDisplacement' })).toEqual([]);
    }
  });

  it('a wineglass with a hollow garboard and a flare is what a long keel asks for', () => {
    // A trunk 0.16 m wide, a bilge at the water and topsides that open upwards: hollow, round, hollow.
    const points = Array.from({ length: POINTS }, (_, i): Vec2 => {
      const z = -1.5 + (2.6 * i) / (POINTS - 1);
      return [0.08 + 1.3 / (1 + Math.exp(-4.5 * (z + 0.25))) + 0.12 * Math.max(0, z) ** 3, z];
    });
    expect(turnsOf(points)).toBe(2);
    expect(unfairPoints(points, { gradeM: TAPE_M, form: 'longKeel' })).toEqual([]);
    expect(unfairPoints(rounded(points), { gradeM: 0.005, form: 'longKeel' })).toEqual([]);
  });

  it('a bump of 12 mm is found at its point, with its size and where it would be fair', () => {
    for (const byM of [0.012, -0.012])
      for (let index = 3; index <= POINTS - 4; index += 1) {
        const fair = ellipse(1.6, 1.1);
        const found = unfairPoints(bumped(fair, index, byM), { gradeM: TAPE_M });
        expect(found.map((point) => point.index)).toEqual([index]);
        // derived: the batten through the neighbours of an ellipse of 15 points is within a millimetre of it
        expect(found[0]?.offM).toBeCloseTo(byM, 3);
        expect(found[0]?.fairAt[0]).toBeCloseTo(fair[index]?.[0] ?? 0, 2);
        expect(found[0]?.fairAt[1]).toBeCloseTo(fair[index]?.[1] ?? 0, 2);
      }
  });

  it('a bump of 12 mm is found on every station of a Wigley hull that is broad enough to bend', () => {
    const stations = Object.values(wigley(10, 3, 1.2, 11, POINTS).stations).slice(2, -2);
    for (const { points } of stations) {
      const found = unfairPoints(bumped(points, 7, 0.012), { gradeM: TAPE_M, form: 'lightDisplacement' });
      expect(found.map(({ index }) => index)).toEqual([7]);
    }
  });

  it('two bumps are two points', () => {
    const found = unfairPoints(bumped(bumped(ellipse(1.6, 1.1), 4, 0.015), 9, -0.02), { gradeM: TAPE_M });
    expect(found.map(({ index }) => index)).toEqual([4, 9]);
    expect(found.map(({ offM }) => Math.sign(offM))).toEqual([1, -1]);
  });

  it('a hard bilge and a marked knuckle are no bumps', () => {
    const hard: Vec2[] = [
      [0, -1],
      [0.4, -0.98],
      [0.8, -0.94],
      [1.15, -0.86],
      [1.3, -0.65],
      [1.34, -0.3],
      [1.36, 0.1],
      [1.37, 0.5],
    ];
    expect(unfairPoints(hard, { gradeM: TAPE_M, form: 'motorHull' })).toEqual([]);
  });

  it('one move to the fair place leaves nothing to find', () => {
    const points = bumped(ellipse(1.6, 1.1), 6, 0.012);
    const [found] = unfairPoints(points, { gradeM: TAPE_M });
    const moved = points.map((point, i) => (found && i === found.index ? found.fairAt : point));
    expect(unfairPoints(moved, { gradeM: TAPE_M })).toEqual([]);
  });

  it('counts the turns of the comb', () => {
    expect(turnsOf(ellipse(1.6, 1.1))).toBe(0);
    // derived: an S has one point where it goes from hollow to round
    const s = Array.from(
      { length: 11 },
      (_, i): Vec2 => [1 + 0.5 * Math.sin((i / 10 - 0.5) * 2 * Math.PI * 0.8), i / 10],
    );
    expect(turnsOf(s)).toBe(1);
  });
});

describe('crossings', () => {
  it('a section that crosses itself is shown where it does', () => {
    const points: Vec2[] = [
      [0, -1],
      [1, -0.5],
      [1, 0],
      [0.4, -0.9],
      [1.2, 0.5],
    ];
    const found = sectionCrossings(points);
    const crossing = found.find(({ kind }) => kind === 'itself');
    expect(crossing?.between).toEqual([0, 2]);
    // derived: y = 2 (z + 1) and the line from (1, 0) to (0.4, -0.9), y = 1 + 2/3 z, meet at z = -0.75, y = 0.5
    expect(crossing?.at[0]).toBeCloseTo(0.5, 9);
    expect(crossing?.at[1]).toBeCloseTo(-0.75, 9);
  });

  it('a point below the one before it, and one beyond the centreline, are told', () => {
    expect(
      sectionCrossings([
        [0, -1],
        [0.5, -0.4],
        [0.8, -0.5],
        [1, 0.5],
      ]).map(({ kind, between }) => [kind, between]),
    ).toEqual([['falls', [1, 2]]]);
    expect(
      sectionCrossings([
        [-0.1, -1],
        [1, 0],
      ])[0]?.kind,
    ).toBe('centreline');
  });

  it('a fair section has none', () => {
    expect(sectionCrossings(ellipse(1.6, 1.1))).toEqual([]);
    for (const { points } of Object.values(
      hullOf([
        {
          xM: 0,
          points: [
            [0, -1],
            [1, -1],
            [1, 1],
          ],
        },
      ]).stations,
    ))
      expect(sectionCrossings(points)).toEqual([]);
  });

  it('two stations weave when a point of one stands out beyond the other', () => {
    const one = ellipse(1.5, 1.1);
    const other = ellipse(1.46, 1.1);
    expect(weaving(one, other, 0.005)).toEqual([]);
    const planted = other.map(([y, z], i): Vec2 => (i === 8 ? [y + 0.09, z] : [y, z]));
    const found = weaving(one, planted, 0.005);
    expect(found).toHaveLength(2);
    const z = other[8]?.[1] ?? 0;
    expect(found[0]?.[1]).toBeLessThan(z);
    expect(found[1]?.[1]).toBeGreaterThan(z);
  });
});
