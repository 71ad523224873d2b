import { rotate, rotationOf, type Vec3 } from '@core/base/vec';
import { heeled, heightAbove, referenceAttitude, trimmed } from '@core/shape/hull/attitude';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { box, wigley, wineglass } from '../../../support/hull-shapes';

type Boat = Parameters<typeof referenceAttitude>[0];
const NONE: Boat = { accuracy: {}, reference: { freeboards: {}, levelMarks: {} } };
const withFreeboards = (points: readonly (readonly [Vec3, number])[], more: Partial<Boat> = {}): Boat => ({
  ...NONE,
  reference: {
    freeboards: Object.fromEntries(
      points.map(([at, freeboardM], i) => [`f${i}`, { at: [...at] as [number, number, number], freeboardM }]),
    ),
    levelMarks: {},
  },
  ...more,
});

/** Freeboards that would be measured in a water plane given by trim (+ bow down), list (+ to starboard) and level at the origin. */
function measured(points: readonly Vec3[], trimDeg: number, listDeg: number, level: number): [Vec3, number][] {
  const forward = Math.tan((trimDeg * Math.PI) / 180);
  const port = -Math.tan((listDeg * Math.PI) / 180);
  const steep = Math.hypot(1, forward, port);
  return points.map((p) => [p, (p[2] - level - forward * p[0] - port * p[1]) / steep]);
}

const BOW: Vec3 = [10.8, 0, 1.4];
const STERN: Vec3 = [0.2, 0.9, 1];
const PORT: Vec3 = [5, 1.7, 1.1];
const STARBOARD: Vec3 = [5, -1.7, 1.1];

describe('reference attitude', () => {
  it('is the frame itself, as good as a guess, where nothing was measured', () => {
    expect(referenceAttitude(NONE)).toMatchObject({ source: 'frame', up: [0, 0, 1], levelM: 0, gradeM: 0.1 });
    expect(referenceAttitude({ ...NONE, accuracy: { guessed: 0.07 } }).gradeM).toBe(0.07);
  });

  it('takes only the sinkage from one point', () => {
    const got = referenceAttitude(withFreeboards([[PORT, 1.02]]));
    expect(got).toMatchObject({ source: 'freeboards', up: [0, 0, 1], trimDeg: 0, listDeg: 0 });
    expect(got.sinkageM).toBeCloseTo(0.08, 12);
    expect(got.levelM).toBeCloseTo(0.08, 12);
    expect(got.gradeM).toBeCloseTo(0.02, 12);
  });

  it('takes trim from two points on one side and list from two abeam', () => {
    const trimmed = referenceAttitude(
      withFreeboards(
        measured(
          [
            [0.5, 1, 1],
            [9.5, 1, 1.3],
          ],
          1.2,
          0,
          0.06,
        ),
      ),
    );
    expect(trimmed.trimDeg).toBeCloseTo(1.2, 9);
    expect(trimmed.listDeg).toBe(0);
    const listed = referenceAttitude(withFreeboards(measured([PORT, STARBOARD], 0, -2, 0.03)));
    expect(listed.listDeg).toBeCloseTo(-2, 9);
    expect(Math.abs(listed.trimDeg)).toBe(0);
  });

  it('takes from two points on a slanting line the trim alone', () => {
    const got = referenceAttitude(withFreeboards(measured([STERN, BOW], 0.8, 0, 0.05)));
    expect(got.trimDeg).toBeCloseTo(0.8, 9);
    expect(got.listDeg).toBeCloseTo(0, 12);
  });

  it.each([
    [0, 0, 0.09],
    [1.5, 0, -0.02],
    [-0.7, 2.5, 0.1],
    [3, -8, 0.2],
  ])('gets back trim %f, list %f, level %f from four points', (trim, list, level) => {
    const got = referenceAttitude(withFreeboards(measured([BOW, STERN, PORT, STARBOARD], trim, list, level)));
    expect(got.trimDeg).toBeCloseTo(trim, 7);
    expect(got.listDeg).toBeCloseTo(list, 7);
    expect(got.residualM).toBeLessThan(1e-9);
    for (const [at, freeboard] of measured([BOW, STERN, PORT, STARBOARD, [3, 0.4, 0.2]], trim, list, level))
      expect(heightAbove(got, at)).toBeCloseTo(freeboard, 8);
    expect(got.gradeM).toBeLessThanOrEqual(0.02 + 1e-12);
  });

  it('is bow down with less freeboard forward, and listed to starboard with less there', () => {
    const got = referenceAttitude(
      withFreeboards([
        [BOW, 1.2],
        [STERN, 1],
        [PORT, 1.15],
        [STARBOARD, 1.05],
      ]),
    );
    expect(got.trimDeg).toBeGreaterThan(0);
    expect(got.listDeg).toBeGreaterThan(0);
    expect(heightAbove(got, [5, -1, 0])).toBeLessThan(heightAbove(got, [5, 1, 0]));
    expect(heightAbove(got, [10, 0, 0])).toBeLessThan(heightAbove(got, [1, 0, 0]));
  });

  it('reads level marks where no freeboard was taken, and lets freeboards win', () => {
    const levelMarks = {
      bow: { at: [10.5, 0, 0.05] as [number, number, number] },
      aft: { at: [0.5, 0.5, 0.1] as [number, number, number] },
    };
    const got = referenceAttitude({ ...NONE, reference: { freeboards: {}, levelMarks } });
    expect(got.source).toBe('levelMarks');
    expect(heightAbove(got, [10.5, 0, 0.05])).toBeCloseTo(0, 12);
    expect(got.trimDeg).toBeLessThan(0);
    const both = withFreeboards([[PORT, 1.1]]);
    expect(referenceAttitude({ ...both, reference: { ...both.reference, levelMarks } }).sinkageM).toBe(0);
  });

  it('is no surer than its points agree', () => {
    const points = measured([BOW, STERN, PORT, STARBOARD], 0, 0, 0.05);
    const [bow, freeboard] = points[0] ?? [BOW, 0];
    const wrong: [Vec3, number][] = [[bow, freeboard + 0.2], ...points.slice(1)];
    wrong.push([[2, -1.2, 1], 0.95], [[8.5, 0.9, 1.2], 1.15]);
    const got = referenceAttitude(withFreeboards(wrong));
    expect(got.residualM).toBeGreaterThan(0.03);
    expect(got.gradeM).toBe(got.residualM);
  });

  it('follows the grade of each reading', () => {
    const boat = withFreeboards([[PORT, 1.02]], { gradeOf: { 'reference.freeboards.f0': 'measured' } });
    expect(referenceAttitude(boat).gradeM).toBe(0.005);
  });
});

describe('heel', () => {
  const frame = referenceAttitude(NONE);

  // Derived: rotation about the centreline at the water, h = z cos - y sin (y to leeward).
  it('lowers the side that goes down', () => {
    for (const deg of [10, 20, 30]) {
      const a = (deg * Math.PI) / 180;
      const starboard = heeled(frame, deg, 'starboard');
      const port = heeled(frame, deg, 'port');
      expect(heightAbove(starboard, [4, -1, -0.3])).toBeCloseTo(-0.3 * Math.cos(a) - Math.sin(a), 12);
      expect(heightAbove(starboard, [4, 1, -0.3])).toBeCloseTo(-0.3 * Math.cos(a) + Math.sin(a), 12);
      expect(heightAbove(port, [4, 1, -0.3])).toBeCloseTo(heightAbove(starboard, [4, -1, -0.3]), 12);
    }
    // An intake 1 m off and 0.3 m deep leaves the water at 16.70 degrees on the other tack.
    expect(heightAbove(heeled(frame, 16.699, 'starboard'), [4, 1, -0.3])).toBeCloseTo(0, 4);
  });

  it('turns the vertical as a roll of the boat does', () => {
    const water = heeled(frame, 12, 'starboard');
    // Rolling the boat 12 degrees to starboard is a right-handed turn about x; its vertical, seen from the boat, turns back.
    const [x, y, z] = rotate(rotationOf({ yawDeg: 0, pitchDeg: 0, rollDeg: -12 }), [0, 0, 1]);
    expect(water.up[0]).toBeCloseTo(x, 12);
    expect(water.up[1]).toBeCloseTo(y, 12);
    expect(water.up[2]).toBeCloseTo(z, 12);
  });

  it.each([5, 15, 25])('keeps the displacement at %f degrees, on both tacks alike', (deg) => {
    const surface = hullSurface(wineglass());
    const before = hydrostatics(surface, frame).volumeM3;
    const port = heeled(frame, deg, 'port', surface);
    const starboard = heeled(frame, deg, 'starboard', surface);
    expect(Math.abs(hydrostatics(surface, port).volumeM3 / before - 1)).toBeLessThan(1e-8);
    expect(port.levelM).toBeCloseTo(starboard.levelM, 9);
    expect(port.up[1]).toBe(-starboard.up[1]);
    expect(port.up[1]).toBeLessThan(0);
  });

  it('keeps the trim, and stays put at the centre plane, without a hull', () => {
    const trimmed = referenceAttitude(withFreeboards(measured([BOW, STERN, PORT, STARBOARD], 2, 0, 0.1)));
    const rolled = heeled(trimmed, 20, 'port');
    for (const x of [0, 4, 11]) {
      const z = 0.1 + Math.tan((2 * Math.PI) / 180) * x;
      expect(heightAbove(rolled, [x, 0, z])).toBeCloseTo(0, 9);
    }
    const still = heeled(trimmed, 0, 'port');
    expect(still.levelM).toBeCloseTo(trimmed.levelM, 12);
    expect(still.up[0]).toBeCloseTo(trimmed.up[0], 12);
  });

  it('falls back to the centre plane for a hull that is dry', () => {
    const surface = hullSurface(box(6, 2, -0.5, 1));
    expect(heeled(frame, 10, 'port', surface)).toEqual(heeled(frame, 10, 'port'));
  });

  // Derived: wall-sided body, no edge crossing: the level at the centreline does not change.
  it('leaves the level of a wall-sided body alone', () => {
    const surface = hullSurface(box(8, 3, 0.5));
    expect(heeled(frame, 12, 'port', surface).levelM).toBeCloseTo(0, 9);
    expect(heeled(frame, 12, 'port', hullSurface(wigley(9, 3, 0.6, 9, 7, 1))).levelM).toBeLessThan(-0.004);
  });
});

describe('trim of a run-state', () => {
  const level = { up: [0, 0, 1] as const, levelM: 0 };
  const sine = Math.sin((5 * Math.PI) / 180);
  const cosine = Math.cos((5 * Math.PI) / 180);

  it('bow down turns a box about the middle of its waterplane (derived: z cos 5 + (middle - x) sin 5)', () => {
    const hull = hullSurface(box(10, 3, 0.6));
    const water = trimmed(level, 5, hull, 0);
    const middleM = (hull.aftM + hull.forwardM) / 2;
    for (const x of [middleM - 1.3, middleM, middleM + 1])
      expect(heightAbove(water, [x, 0, -0.1])).toBeCloseTo(-0.1 * cosine + (middleM - x) * sine, 3);
  });

  it('turns without a hull about the place it is given, and not at all by nothing', () => {
    const water = trimmed(level, 5, null, 3);
    expect(heightAbove(water, [3, 0.4, 0])).toBeCloseTo(0, 12);
    expect(heightAbove(water, [1, 0, -0.1])).toBeCloseTo(-0.1 * cosine + 2 * sine, 12);
    expect(trimmed(level, 0, null, 3)).toBe(level);
  });
});
