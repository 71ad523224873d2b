import { along, cross, distance, unit, type Vec3 } from '@core/base/vec';
import { beside, passagesOf, pathOf, piecesBetween, sweepOf } from '@core/output/views/curves';
import { FRAMES, project } from '@core/output/views/drawing';
import type { Prim } from '@core/runs/routing/types';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

type Arc = Extract<Prim, { kind: 'arc' }>;

/** An arc of any radius, place, plane and sweep, built from its definition. */
const arcs = fc
  .record({
    radius: fc.double({ min: 0.02, max: 0.6, noNaN: true }),
    sweep: fc.double({ min: 0.05, max: 3.1, noNaN: true }),
    tilt: fc.double({ min: 0, max: Math.PI, noNaN: true }),
    turn: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
  })
  .map(({ radius, sweep, tilt, turn }): Arc & { sweep: number } => {
    const normal: Vec3 = [Math.sin(tilt) * Math.cos(turn), Math.sin(tilt) * Math.sin(turn), Math.cos(tilt)];
    const e = unit(cross(normal, Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
    const f = cross(normal, e);
    const centre: Vec3 = [4, -0.7, -0.2];
    const at = (t: number): Vec3 => along(along(centre, e, radius * Math.cos(t)), f, radius * Math.sin(t));
    return { kind: 'arc', centre, radius, normal, from: at(0), to: at(sweep), sweep };
  });

const toSegment = (p: readonly [number, number], a: readonly [number, number], b: readonly [number, number]) => {
  const d = [b[0] - a[0], b[1] - a[1]] as const;
  const l = d[0] * d[0] + d[1] * d[1];
  const t = l > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / l)) : 0;
  return Math.hypot(p[0] - a[0] - t * d[0], p[1] - a[1] - t * d[1]);
};

describe('a run on paper', () => {
  // derived: a chord of angle a on radius r leaves the arc by r (1 - cos(a / 2)); projecting never lengthens it
  it('keeps within 0.1 mm of the true bend in every view, and its points are on the bend', () => {
    fc.assert(
      fc.property(arcs, (arc) => {
        const path = pathOf([arc]);
        for (const p of path) expect(Math.abs(distance(p, arc.centre) - arc.radius)).toBeLessThan(1e-9);
        const e = unit([arc.from[0] - arc.centre[0], arc.from[1] - arc.centre[1], arc.from[2] - arc.centre[2]]);
        const f = cross(arc.normal, e);
        for (const frame of Object.values(FRAMES)) {
          const drawn = path.map((p) => project(frame, p));
          for (let i = 0; i <= 40; i++) {
            const t = (arc.sweep * i) / 40;
            const truth = project(
              frame,
              along(along(arc.centre, e, arc.radius * Math.cos(t)), f, arc.radius * Math.sin(t)),
            );
            const off = Math.min(
              ...drawn.slice(1).map((p, k) => toSegment(truth, drawn[k] as [number, number], p as [number, number])),
            );
            expect(off).toBeLessThan(1.001e-4);
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('keeps both ends of every primitive to the last digit, so that pieces join', () => {
    fc.assert(
      fc.property(arcs, (arc) => {
        const end: Vec3 = [5, 0, 0];
        const path = pathOf([arc, { kind: 'line', from: arc.to, to: end }]);
        expect(path[0]).toEqual(arc.from);
        expect(path).toContainEqual(arc.to);
        expect(path[path.length - 1]).toEqual(end);
      }),
      { numRuns: 30 },
    );
  });

  it('turns about the normal, also by more than half a turn', () => {
    // derived: three quarters of a circle about z from x to minus y
    const arc: Arc = { kind: 'arc', centre: [0, 0, 0], radius: 1, normal: [0, 0, 1], from: [1, 0, 0], to: [0, -1, 0] };
    expect(sweepOf(arc)).toBeCloseTo((3 * Math.PI) / 2, 12);
    const path = pathOf([arc]);
    expect(Math.min(...path.map((p) => p[0]))).toBeCloseTo(-1, 3);
  });

  it('is cut by a slab where it enters and leaves it', () => {
    // derived: a straight path from z = -1 to z = 1 over 2 m of x
    const path: Vec3[] = [
      [0, 0, -1],
      [2, 0, 1],
    ];
    expect(piecesBetween(path, 2, -0.5, 0.25)).toEqual([
      [
        [0.5, 0, -0.5],
        [1.25, 0, 0.25],
      ],
    ]);
    expect(passagesOf(path, 0, 1.5)).toEqual([[1.5, 0, 0.5]]);
    expect(piecesBetween(path, 2, 2, 3)).toEqual([]);
  });

  it('comes back into a slab as a second piece', () => {
    const path: Vec3[] = [
      [0, 0, 0],
      [1, 0, 2],
      [2, 0, 0],
    ];
    expect(piecesBetween(path, 2, -1, 1)).toHaveLength(2);
  });
});

describe('a line beside another', () => {
  it('keeps its distance along straights and at mitred corners', () => {
    // derived: a right angle to the left, offset 2 to the left: the corner moves in along the diagonal
    const line = beside(
      [
        [0, 0],
        [10, 0],
        [10, 10],
      ],
      2,
    );
    expect(line[0]).toEqual([0, 2]);
    expect(line[1]?.[0]).toBeCloseTo(8, 12);
    expect(line[1]?.[1]).toBeCloseTo(2, 12);
    expect(line[2]?.[0]).toBeCloseTo(8, 12);
  });

  it('never spikes at a hairpin', () => {
    const line = beside(
      [
        [0, 0],
        [10, 0],
        [0, 0.01],
      ],
      2,
    );
    for (const p of line) expect(Math.hypot(p[0] - 10, p[1])).toBeLessThan(15);
  });
});
