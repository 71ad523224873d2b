import { lengthBound } from '@core/runs/routing/bound/bound';
import { describe, expect, it } from 'vitest';
import { type Edge, overEdge, type P2, roundOne, slalom, spiderAndFly, taut } from './geodesics';

/**
 * Derived. A hose of radius r keeps its middle r off every box, so no run is shorter than the string round discs of radius r about
 * the edges. Round discs of its bend radius R > r it may lie as it is: the shortest run is no longer than that string, whose first
 * and last straights give the ports their directions. Both tend to the string round bare edges as R does.
 * What is left over is the product's own: 0.1 %, and 0.2 % where the hose lies on two faces.
 */
const RADII = [
  { radiusM: 0.02, bendRadiusM: 0.025 },
  { radiusM: 0.01, bendRadiusM: 0.0125 },
  { radiusM: 0.005, bendRadiusM: 0.006 },
  { radiusM: 0.002, bendRadiusM: 0.0025 },
] as const;
const MOST_OVER = 1.001;

describe('the reference: taut strings round discs', () => {
  const edges: Edge[] = [
    { at: [0, 1], side: 'right' },
    { at: [2, 1], side: 'right' },
  ];
  it('are straight pieces from edge to edge where the discs vanish (derived)', () => {
    const { lengthM, leaves } = taut([-1, 0], edges, [5, -3], 0);
    expect(lengthM).toBeCloseTo(Math.SQRT2 + 2 + 5, 12);
    expect(leaves[0]).toBeCloseTo(Math.SQRT1_2, 12);
  });
  it('are half of an open and of a crossed belt (derived: quarter turns about each of two equal discs)', () => {
    // From a point level with the first disc's top, along the belt's straight, to one level with the last's.
    expect(taut([-3, 1 + 0.5], edges, [6, 1 + 0.5], 0.5).lengthM).toBeCloseTo(9, 12);
    const down: P2 = [0.5, -4];
    const quarter = taut([-3, 1.5], [{ at: [0, 1], side: 'right' }], down, 0.5);
    expect(quarter.lengthM).toBeCloseTo(3 + Math.PI / 4 + 5, 12);
    // Between discs on either side: cos(half the crossing angle) = sqrt(d^2 - 4 q^2) / d.
    const crossed = taut(
      [-9, 0],
      [
        { at: [0, 0], side: 'left' },
        { at: [2, 0], side: 'right' },
      ] as Edge[],
      [11, 0],
      0.5,
    );
    const aside = 2 * Math.sqrt(81 - 0.25);
    const lean = Math.asin(0.5) + Math.asin(0.5 / 9);
    expect(crossed.lengthM).toBeCloseTo(aside + Math.sqrt(3) + 2 * 0.5 * lean, 12);
  });
});

describe.each(RADII)('a hose of radius $radiusM m', (size) => {
  // Unfolded by hand: walls that stand upright are a plane sheet, and on it the way is the hypotenuse of its plan and its fall.
  it.each([0, 0.4, 0.8, 1.6, 3])(
    'goes round one box and between two as the taut string does, and falls %f m',
    (fallM) => {
      for (const { leastM, mostM, routed } of [roundOne(size, fallM), slalom(size, fallM)]) {
        expect(routed()).toBeGreaterThanOrEqual(leastM - 1e-6);
        expect(routed()).toBeLessThan(mostM * MOST_OVER);
      }
    },
  );

  // Both faces of a corner laid flat: a straight line over the edge, however far along it the ends are apart.
  it.each([0, 0.5, 1.2])(
    'lies on the faces of a corner along the unfolded line, ends %f m apart along the edge',
    (m) => {
      const { leastM, mostM, routed } = overEdge(size, m);
      expect(routed()).toBeGreaterThanOrEqual(leastM - 1e-6);
      expect(routed()).toBeLessThan(mostM * 1.002);
    },
  );
});

describe('the slalom', () => {
  it('is the shortest of all four ways past the two boxes (derived)', () => {
    const { edges, ends, boxes } = slalom(RADII[3], 0);
    const [one, two] = boxes as [(typeof boxes)[number], (typeof boxes)[number]];
    const past = ({ centre, half }: typeof one, side: Edge['side']): Edge[] =>
      [-1, 1].map((k) => ({
        at: [centre[0] + k * half[0], centre[1] + (side === 'right' ? 1 : -1) * half[1]] as const,
        side,
      }));
    const ways = (['left', 'right'] as const).flatMap((a) =>
      (['left', 'right'] as const).map((b) => [...past(one, a), ...past(two, b)]),
    );
    const lengths = ways.map((way) => taut(ends[0], way, ends[1], 0).lengthM);
    expect(Math.min(...lengths)).toBe(taut(ends[0], edges, ends[1], 0).lengthM);
    expect([...lengths].sort((a, b) => a - b)[1]).toBeGreaterThan(1.5 * Math.min(...lengths));
  });
});

/**
 * Published: H. E. Dudeney, "The Spider and the Fly" (1903; The Canterbury Puzzles, no. 75): on a box 30 by 12 by 12 from the middle
 * of an end, 1 from the top, to the middle of the other end, 1 from the bottom, the shortest way is 40, over five faces; straight
 * over the top it is 42. Here a foot is 0.1 m.
 */
it('goes from end to end of a long box by the side, not straight over the top', () => {
  const { leastM, mostM, overTopM, routed } = spiderAndFly({ radiusM: 0.005, bendRadiusM: 0.006 });
  expect(leastM).toBeCloseTo(4, 12);
  expect(routed()).toBeGreaterThanOrEqual(leastM);
  expect(routed()).toBeLessThan(mostM * 1.02);
  expect(routed()).toBeLessThan(overTopM);
});

it.each([0, 0.8])(
  'is never shorter than its certified bound, which knows no boxes; ends %f m apart in height',
  (fallM) => {
    for (const one of [roundOne(RADII[0], fallM), slalom(RADII[0], fallM)])
      expect(lengthBound(one.line, one.view, 30).lengthM).toBeLessThanOrEqual(one.leastM);
  },
);
