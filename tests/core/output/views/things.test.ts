import { type Pose, pointInBoat, type Vec3 } from '@core/base/vec';
import type { Shape, Thing } from '@core/boat/schema/boat';
import { THING_KINDS } from '@core/boat/schema/things';
import { FRAMES, lift, PLAN, PROFILE, project, SECTION } from '@core/output/views/drawing';
import { boundsInBoat, envelopePoints, keepOutOutline, silhouetteOf } from '@core/output/views/envelope';
import { thingLines } from '@core/output/views/things';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const shapes: fc.Arbitrary<Shape> = fc.oneof(
  fc
    .tuple(
      fc.double({ min: 0.02, max: 1, noNaN: true }),
      fc.double({ min: 0.02, max: 1, noNaN: true }),
      fc.double({ min: 0.02, max: 1, noNaN: true }),
    )
    .map((sizeM): Shape => ({ type: 'box', sizeM })),
  fc
    .record({
      diameterM: fc.double({ min: 0.02, max: 0.5, noNaN: true }),
      lengthM: fc.double({ min: 0.02, max: 1.2, noNaN: true }),
      axis: fc.constantFrom('x' as const, 'y' as const, 'z' as const),
    })
    .map((c): Shape => ({ type: 'cylinder', ...c })),
);
const angles = fc.double({ min: -180, max: 180, noNaN: true });
const quarter = fc.constantFrom(0, 90, 180, -90);
const poses = (turn: fc.Arbitrary<number>): fc.Arbitrary<Pose> =>
  fc.record({ at: fc.constant<Vec3>([3, -0.8, 0.1]), yawDeg: turn, pitchDeg: turn, rollDeg: turn });

describe('views', () => {
  it('agree on coordinates: profile and plan on x, plan and section on y, profile and section on z', () => {
    fc.assert(
      fc.property(fc.tuple(angles, angles, angles), ([x, y, z]) => {
        const p: Vec3 = [x, y, z];
        const near = (q: readonly number[], r: readonly number[]) => {
          expect(q[0]).toBeCloseTo(r[0] as number, 12);
          expect(q[1]).toBeCloseTo(r[1] as number, 12);
        };
        near(project(PROFILE, p), [x, z]);
        near(project(PLAN, p), [x, y]);
        // Looking forward, port is on the left.
        near(project(SECTION, p), [-y, z]);
      }),
    );
  });

  it('lift a point of paper back to where it came from', () => {
    const p: Vec3 = [1.5, -0.25, 0.75];
    for (const frame of Object.values(FRAMES)) {
      const depth = frame.toViewer[0] * p[0] + frame.toViewer[1] * p[1] + frame.toViewer[2] * p[2];
      lift(frame, project(frame, p), depth).forEach((value, k) => {
        expect(value).toBeCloseTo(p[k as 0], 12);
      });
    }
  });
});

describe('the envelope of a thing', () => {
  it('has the bounds that its own points have, however it is turned', () => {
    fc.assert(
      fc.property(shapes, poses(angles), (shape, pose) => {
        const { low, high } = boundsInBoat(shape, pose);
        const points = envelopePoints(shape).map((p) => pointInBoat(pose, p));
        for (const k of [0, 1, 2] as const) {
          const values = points.map((p) => p[k]);
          // derived: a round drawn with chords stays inside the true one, by less than 0.2 mm here
          expect(Math.min(...values)).toBeGreaterThanOrEqual(low[k] - 1e-7);
          expect(Math.max(...values)).toBeLessThanOrEqual(high[k] + 1e-7);
          expect(Math.min(...values)).toBeLessThan(low[k] + 1.1e-3);
          expect(Math.max(...values)).toBeGreaterThan(high[k] - 1.1e-3);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('covers a rectangle of its own sides after quarter turns', () => {
    // derived: box 0.5 x 0.28 x 0.27 turned by a quarter about z lies 0.28 along x
    const pose: Pose = { at: [2, 1, 0], yawDeg: 90, pitchDeg: 0, rollDeg: 0 };
    const ring = silhouetteOf({ type: 'box', sizeM: [0.5, 0.28, 0.27] }, pose, PLAN);
    const us = ring.map((p) => p[0]);
    const vs = ring.map((p) => p[1]);
    expect(Math.max(...us) - Math.min(...us)).toBeCloseTo(0.28, 12);
    expect(Math.max(...vs) - Math.min(...vs)).toBeCloseTo(0.5, 12);
    expect(ring).toHaveLength(4);
  });
});

/** Chords of a round stay this far inside it: the tolerance of the drawing. */
const ROUND = 1.01e-4;

describe('the symbol of a thing', () => {
  const bodies: Shape[] = [
    { type: 'box', sizeM: [0.5, 0.28, 0.27] },
    { type: 'box', sizeM: [0.1, 0.12, 0.4] },
    { type: 'cylinder', diameterM: 0.1, lengthM: 1, axis: 'x' },
    { type: 'cylinder', diameterM: 0.13, lengthM: 0.3, axis: 'z' },
  ];

  it('exists for every kind and never leaves what the envelope covers', () => {
    fc.assert(
      fc.property(fc.constantFrom(...THING_KINDS), fc.constantFrom(...bodies), poses(quarter), (kind, shape, pose) => {
        for (const frame of Object.values(FRAMES)) {
          const lines = thingLines('a', { kind, shape }, pose, frame, 'part');
          for (const p of lines.strokes)
            for (const ring of p.kind === 'area' ? p.rings : [p.points])
              for (const [u, v] of ring) {
                expect(u).toBeGreaterThanOrEqual(lines.bounds.low[0] - ROUND);
                expect(u).toBeLessThanOrEqual(lines.bounds.high[0] + ROUND);
                expect(v).toBeGreaterThanOrEqual(lines.bounds.low[1] - ROUND);
                expect(v).toBeLessThanOrEqual(lines.bounds.high[1] + ROUND);
              }
        }
      }),
      { numRuns: 400 },
    );
  });

  it('turns with the thing: the pump head looks forward, and aft after half a turn', () => {
    const module: Pick<Thing, 'kind' | 'shape'> = {
      kind: 'pumpModule',
      shape: { type: 'box', sizeM: [0.5, 0.28, 0.27] },
    };
    const headAt = (yawDeg: number) => {
      const { strokes } = thingLines('a', module, { at: [0, 0, 0], yawDeg, pitchDeg: 0, rollDeg: 0 }, PLAN, 'part');
      const upright = strokes.find((s) => s.kind === 'stroke' && s.points.length === 2);
      return upright?.kind === 'stroke' ? (upright.points[0]?.[0] ?? 0) : 0;
    };
    expect(headAt(0)).toBeGreaterThan(0);
    expect(headAt(180)).toBeLessThan(0);
  });
});

describe('a moving space', () => {
  it('is drawn as its fan from above and as a strip from the side', () => {
    // derived: a quarter fan of 0.3 m from x to y, seen from above, reaches 0.3 m along both
    const fan = {
      type: 'sector' as const,
      at: [0, 0, 0] as [number, number, number],
      axis: 'z' as const,
      radiusM: 0.3,
      fromDeg: 0,
      toDeg: 90,
      thicknessM: 0.02,
    };
    const pose: Pose = { at: [1, 0, 0], yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    const plan = keepOutOutline(fan, pose, PLAN);
    expect(Math.max(...plan.map((p) => p[0]))).toBeCloseTo(1.3, 9);
    expect(Math.max(...plan.map((p) => p[1]))).toBeCloseTo(0.3, 9);
    const profile = keepOutOutline(fan, pose, PROFILE);
    const vs = profile.map((p) => p[1]);
    expect(Math.max(...vs) - Math.min(...vs)).toBeCloseTo(0.02, 9);
  });
});
