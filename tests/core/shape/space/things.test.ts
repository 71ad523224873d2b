import type { Pose, Vec3 } from '@core/base/vec';
import type { Fixture } from '@core/boat/schema/boat';
import { fixture } from '@core/boat/schema/things';
import { SECTOR_SPILL, sectorSpan } from '@core/shape/space/sector';
import { handPoints, serviceFace, servicesWithRoom, thingSolids } from '@core/shape/space/things';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isInside } from './scenes';

const thing = (more: Record<string, unknown>): Fixture =>
  fixture.parse({
    name: 'pump',
    kind: 'pumpModule',
    shape: { type: 'box', sizeM: [0.4, 0.3, 0.2] },
    pose: { at: [0, 0, 0] },
    ...more,
  });
const pose = (at: Vec3, yawDeg = 0, pitchDeg = 0, rollDeg = 0): Pose => ({ at, yawDeg, pitchDeg, rollDeg });

describe('solids of a thing', () => {
  it('turns the envelope with the thing', () => {
    const [solid] = thingSolids('p1', thing({}), pose([1, 2, 3], 90));
    // derived: after a quarter turn the 0.4 m side lies along y.
    expect(solid).toMatchObject({ type: 'box', id: 'p1', owner: 'p1', layer: 'furnishing', half: [0.2, 0.15, 0.1] });
    if (solid?.type !== 'box') throw new Error('expected a box');
    expect(solid.axes[0]).toEqual([0, 1, -0]);
  });
  it('lays a cylinder along its axis', () => {
    const membrane = thing({ shape: { type: 'cylinder', diameterM: 0.1, lengthM: 1, axis: 'x' } });
    const [solid] = thingSolids('m', membrane, pose([1, 0, 0], 90));
    expect(solid).toMatchObject({ type: 'cylinder', from: [1, -0.5, 0], to: [1, 0.5, 0], radius: 0.05 });
  });
  it('gives no envelope to a soft fixture', () => {
    expect(thingSolids('s', thing({ soft: true }), pose([0, 0, 0]))).toEqual([]);
  });
  it('places the room of a service task on its face', () => {
    const bowl = thing({
      services: {
        bowl: {
          task: 'bowlDrop',
          at: [0.1, 0, -0.1],
          direction: [0, 0, -2],
          acrossM: [0.13, 0.13],
          clearM: 0.18,
          round: true,
        },
      },
    });
    const solids = thingSolids('f', bowl, pose([1, 0, 0.5]));
    expect(solids.map((s) => s.id)).toEqual(['f', 'f/service/bowl']);
    expect(solids[1]).toMatchObject({ type: 'cylinder', layer: 'serviceKeepOut', radius: 0.065 });
    // derived: from z = 0.5 - 0.1 down 0.18 m
    if (solids[1]?.type !== 'cylinder') throw new Error('expected a cylinder');
    expect(solids[1].from[2]).toBeCloseTo(0.4, 12);
    expect(solids[1].to[2]).toBeCloseTo(0.22, 12);
  });
  it('keeps the width of a service room along the direction asked for', () => {
    const cover = thing({
      services: {
        cover: {
          task: 'impellerCover',
          at: [0.2, 0, 0],
          direction: [1, 0, 0],
          across: [0, 1, 0],
          acrossM: [0.3, 0.1],
          clearM: 0.2,
        },
      },
    });
    const service = cover.services.cover;
    if (!service) throw new Error('expected the service task');
    const room = serviceFace(service, pose([0, 0, 0], 90));
    expect(room.direction.map((v) => Math.round(v) + 0)).toEqual([0, 1, 0]);
    expect(room.across.map((v) => Math.round(v) + 0)).toEqual([-1, 0, 0]);
    expect(room.sizeM).toEqual([0.3, 0.1]);
  });
});

describe('width of a service room without a direction of its own', () => {
  // derived: level in the thing's frame, along x where the room opens up or down
  const across = (direction: Vec3, turn: Pose) => {
    const { services } = thing({
      services: { s: { task: 'other', at: [0, 0, 0], direction, acrossM: [0.2, 0.1], clearM: 0.1 } },
    });
    return services.s ? serviceFace(services.s, turn).across.map((v) => Math.round(v * 1e9) / 1e9 + 0) : null;
  };
  it('is level, or along x, and turns with the thing', () => {
    expect(across([1, 0, 0], pose([0, 0, 0]))).toEqual([0, 1, 0]);
    expect(across([0, 1, 0], pose([0, 0, 0]))).toEqual([-1, 0, 0]);
    expect(across([0, 0, -1], pose([0, 0, 0]))).toEqual([1, 0, 0]);
    expect(across([0, 0, -1], pose([0, 0, 0], 90))).toEqual([0, 1, 0]);
  });
});

describe('swept sectors', () => {
  it('count their angle right-handed, a full turn when both are equal', () => {
    expect(
      [
        [-40, 40],
        [350, 10],
        [10, 350],
        [0, 0],
        [-180, 180],
      ].map(([a, b]) => sectorSpan(a as number, b as number)),
    ).toEqual([80, 20, 340, 360, 360]);
  });
  it('are covered by boxes that stand out by no more than 2 % of the radius', () => {
    // derived: by the definition of the sector, sampled; angles from x about z, from z about y, from y about x.
    const planes = { x: [1, 2], y: [2, 0], z: [0, 1] } as const;
    fc.assert(
      fc.property(
        fc.constantFrom('x' as const, 'y' as const, 'z' as const),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: 5, max: 350, noNaN: true }),
        (axis, fromDeg, span) => {
          const rudder = thing({
            sweeps: {
              arm: {
                type: 'sector',
                at: [0, 0, 0],
                axis,
                radiusM: 0.5,
                fromDeg,
                toDeg: fromDeg + span > 360 ? fromDeg + span - 360 : fromDeg + span,
                thicknessM: 0.1,
              },
            },
          });
          const boxes = thingSolids('r', rudder, pose([0, 0, 0])).filter((s) => s.layer === 'sweep');
          const [i, j] = planes[axis];
          for (let k = 0; k < 400; k++) {
            const r = 0.5 * Math.sqrt(((k * 7919) % 400) / 400);
            const share = k / 399;
            const a = ((fromDeg + span * share) * Math.PI) / 180;
            const p: [number, number, number] = [0, 0, 0];
            p[i] = r * Math.cos(a);
            p[j] = r * Math.sin(a);
            expect(
              boxes.some((s) =>
                isInside({ ...s, ...(s.type === 'box' ? { half: s.half.map((h) => h + 1e-9) } : {}) } as typeof s, p),
              ),
            ).toBe(true);
          }
          for (const s of boxes) {
            if (s.type !== 'box') throw new Error('expected boxes');
            for (const [u, v] of [
              [-1, -1],
              [-1, 1],
              [1, -1],
              [1, 1],
            ] as const) {
              const p = [0, 1, 2].map(
                (m) =>
                  (s.centre[m] as number) +
                  u * s.half[0] * (s.axes[0][m] as number) +
                  v * s.half[1] * (s.axes[1][m] as number),
              );
              const r = Math.hypot(p[i] as number, p[j] as number);
              const angle =
                ((((Math.atan2(p[j] as number, p[i] as number) * 180) / Math.PI - fromDeg) % 360) + 360) % 360;
              const beyond = Math.min(Math.abs(angle - span), Math.abs(360 - angle));
              const off =
                angle <= span || r < 1e-9
                  ? Math.max(0, r - 0.5)
                  : beyond > 90
                    ? r
                    : Math.hypot(
                        r * Math.sin((beyond * Math.PI) / 180),
                        Math.max(0, r * Math.cos((beyond * Math.PI) / 180) - 0.5),
                      );
              expect(off).toBeLessThanOrEqual(SECTOR_SPILL * 0.5 + 1e-9);
            }
          }
          expect(boxes.length).toBeLessThan(120);
        },
      ),
      { numRuns: 60, seed: 20 },
    );
  });
  it('are one cylinder when they go all the way round', () => {
    const turning = thing({
      sweeps: {
        fan: { type: 'sector', at: [0, 0, 0.2], axis: 'z', radiusM: 0.3, fromDeg: 0, toDeg: 360, thicknessM: 0.1 },
      },
    });
    const solids = thingSolids('f', turning, pose([0, 0, 0])).filter((s) => s.layer === 'sweep');
    expect(solids).toHaveLength(1);
    expect(solids[0]).toMatchObject({ type: 'cylinder', id: 'f/sweep/fan', radius: 0.3, layer: 'sweep' });
  });
});

describe('service tasks in space', () => {
  const tasks = {
    room: { task: 'bowlDrop', at: [0, 0, -0.1], direction: [0, 0, -1], clearM: 0.06 },
    glass: { task: 'oilGlass', at: [0, 0.15, 0], direction: [0, 1, 0] },
  };

  it('a task without a clear space of its own keeps nothing free', () => {
    const own = thing({ services: tasks });
    expect(Object.keys(servicesWithRoom(own))).toEqual(['room']);
    expect(servicesWithRoom(null)).toEqual({});
    const kept = thingSolids('p', own, pose([0, 0, 0])).filter(({ layer }) => layer === 'serviceKeepOut');
    expect(kept.map(({ id }) => id)).toEqual(['p/service/room']);
  });

  // derived: square to y and z the width lies along x; a quarter turn takes x to y
  it('hands work at the place of the task, two of them 75 mm to either side along its width, or where it says', () => {
    const { glass } = thing({ services: tasks }).services;
    if (!glass) throw new Error('expected the task');
    const near = (points: readonly Vec3[]): number[][] => points.map((p) => p.map((v) => Math.round(v * 1000) + 0));
    expect(handPoints(glass, 0, pose([0, 0, 0]))).toEqual([]);
    expect(near(handPoints(glass, 1, pose([1, 0, 0])))).toEqual([[1000, 150, 0]]);
    const [a, b] = near(handPoints(glass, 2, pose([0, 0, 0]))).sort((p, q) => (p[0] ?? 0) - (q[0] ?? 0));
    expect([a, b]).toEqual([
      [-75, 150, 0],
      [75, 150, 0],
    ]);
    const turned = near(handPoints({ ...glass, secondAt: [0, 0.15, 0.1] }, 2, pose([0, 0, 0], 90)));
    expect(turned).toEqual([
      [-150, 0, 0],
      [-150, 0, 100],
    ]);
  });
});
