import { armOf } from '@core/assess/access/reach/arm';
import { framed, motionOf } from '@core/assess/access/reach/arm-search';
import { hasNoRoomForHand } from '@core/assess/access/reach/no-room-for-hand';
import { PoseSearch } from '@core/assess/access/reach/pose-search';
import type { PostureRegion } from '@core/assess/access/reach/posture-region';
import { frameOf } from '@core/assess/access/reach/task-frame';
import type { ArmAnswer, BodySizes, Obstruction } from '@core/assess/access/reach/types';
import { angleBetween, degrees, distance, subtract, UNIT_AXES, type Vec3 } from '@core/base/vec';
import { segmentToSolid } from '@core/shape/space/kernel';
import { describe, expect, it } from 'vitest';
import { armScene } from '../../../../support/service/arm-scene';
import { BODY, block, boardWithHole, grasp, leaningAt, reach } from './plain-scenes';

type Reached = Extract<ArmAnswer, { readonly outcome: 'reached' }>;
function mustReach(answer: ArmAnswer): Reached {
  if (answer.outcome !== 'reached') throw new Error(`not reached: ${JSON.stringify(answer)}`);
  return answer;
}

/** Somebody without a body, whose shoulder is in a cube: the arm alone. */
const SLIM: BodySizes = { ...BODY, trunkRadiusM: 0.001, headRadiusM: 0.001 };
const shoulderAt = (centre: Vec3, half = 1e-5): PostureRegion => ({
  posture: 'free',
  opening: null,
  gate: null,
  shoulders: [{ centre, half: [half, half, half], axes: UNIT_AXES }],
  footing: null,
  attitudes: [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ].map(([x = 0, y = 0]) => ({ spine: [0, 0, 1], across: [x, y, 0] })),
  eyes: [],
});

describe('two links in the open', () => {
  it('reach as far as links, hand and stand-off are long together', () => {
    // Derived: 330 + 270 + 100 + 60 = 760 mm from the face of the cube in which the shoulder is.
    const straight = BODY.upperArmM + BODY.forearmM + BODY.handM + 0.06;
    const posture = shoulderAt([-0.03, 0, 0], 0.03);
    const at = (x: number): ArmAnswer =>
      reach({ grasp: grasp([x, 0, 0], [-1, 0, 0]), posture, around: [], body: SLIM });
    mustReach(at(straight - 0.015));
    const beyond = at(straight + 0.1);
    expect(beyond.outcome).toBe('cannot');
    expect(beyond.outcome !== 'reached' && beyond.shortByM).toBeCloseTo(0.1, 9);
  });

  it('keep the law of cosines and the limits of the joints in whatever pose they are found', () => {
    let met = 0;
    for (const x of [0.3, 0.4, 0.5, 0.6, 0.7])
      for (const y of [-0.2, 0, 0.2]) {
        const answer = reach({
          grasp: grasp([x, y, -0.1], [-1, 0, 0]),
          posture: shoulderAt([0, 0, 0], 0.08),
          around: [],
          body: SLIM,
        });
        if (answer.outcome !== 'reached') continue;
        met += 1;
        for (const { shoulder, elbow, wrist, grip } of answer.way) {
          const bend = angleBetween(subtract(elbow, shoulder), subtract(wrist, elbow));
          const [a, b] = [BODY.upperArmM, BODY.forearmM];
          expect(distance(shoulder, wrist)).toBeCloseTo(Math.sqrt(a * a + b * b + 2 * a * b * Math.cos(bend)), 9);
          expect(degrees(bend)).toBeLessThan(145.001);
          expect(degrees(angleBetween(subtract(wrist, elbow), subtract(grip, wrist)))).toBeLessThan(60.001);
        }
      }
    expect(met).toBeGreaterThan(8);
  });

  it('bend at the elbow to 145 degrees and no farther', () => {
    // Derived: with the elbow at the origin, the forearm along x and the upper arm turned off it by the bend, the distance from shoulder to
    // wrist is that of the bend alone, whatever else the elbow does.
    const bent = (deg: number): ArmAnswer => {
      const angle = (deg * Math.PI) / 180;
      const shoulder: Vec3 = [-0.33 * Math.cos(angle), -0.33 * Math.sin(angle), 0];
      const work = grasp([0.27 + 0.1 + 0.06, 0, 0], [-1, 0, 0], { coneDeg: 0 });
      return reach({ grasp: work, posture: shoulderAt(shoulder), around: [], body: SLIM });
    };
    expect(bent(144).outcome).toBe('reached');
    expect(bent(146).outcome).not.toBe('reached');
    expect(bent(160).outcome).toBe('cannot');
  });
});

/**
 * A passage 200 mm wide and high with two corners: 220 mm in from the board, 260 mm to port, 120 mm on forward. Walls are blocks around it.
 */
function twoCorners(): { readonly around: readonly Obstruction[]; readonly line: readonly Vec3[] } {
  const [z0, z1] = [-0.1, 0.1];
  const high = 1;
  const solid = (owner: string, x0: number, x1: number, y0: number, y1: number): Obstruction =>
    block(owner, [x0, y0, -high], [x1, y1, high]);
  return {
    line: [
      [-0.1, 0, 0],
      [0.12, 0, 0],
      [0.12, 0.36, 0],
      [0.45, 0.36, 0],
    ],
    around: [
      ...boardWithHole(0, 0, 0.2, 0.2),
      block('floor', [0, -high, -high], [high, high, z0]),
      block('roof', [0, -high, z1], [high, high, high]),
      solid('starboard', 0.006, high, -high, -0.1),
      solid('core', 0.22, high, -0.1, 0.26),
      solid('aft', 0.006, 0.02, 0.1, 0.5),
      solid('port', 0.006, high, 0.46, high),
    ],
  };
}

describe('round corners', () => {
  const target = grasp([0.42, 0.36, 0], [-1, 0, 0]);
  const posture = leaningAt(0, 0, 0.2, 0.2);

  it('a hose goes where an arm does not', () => {
    const { around, line } = twoCorners();
    // Derived: a hose of 38 mm lies along the middle of the passage, 100 mm off its walls.
    for (let k = 1; k < line.length; k += 1)
      for (const { solid } of around)
        expect(segmentToSolid(line[k - 1] as Vec3, line[k] as Vec3, solid)).toBeGreaterThan(0.019);
    const length = line.slice(1).reduce((sum, p, k) => sum + distance(p, line[k] as Vec3), 0);
    expect(length).toBeGreaterThan(0.8);
    expect(reach({ grasp: target, posture, around }).outcome).toBe('cannot');
  });

  it('one corner less and it gets there', () => {
    const { around } = twoCorners();
    const open = around.filter(({ owner }) => owner !== 'core' && owner !== 'starboard');
    mustReach(reach({ grasp: target, posture, around: open }));
  });
});

describe('what is in the way', () => {
  const posture = leaningAt(0, 0, 0.3, 0.3);
  const work = grasp([0.45, 0, 0], [-1, 0, 0]);
  const board = boardWithHole(0, 0, 0.3, 0.3);

  it('a batten of 30 mm across the way turns a yes into a no, and is named', () => {
    const narrow = { posture: leaningAt(0, 0, 0.2, 0.2), grasp: work };
    mustReach(reach({ ...narrow, around: boardWithHole(0, 0, 0.2, 0.2) }));
    const batten = block('batten', [0.01, -0.4, -0.015], [0.04, 0.4, 0.015]);
    const shut = reach({ ...narrow, around: [...boardWithHole(0, 0, 0.2, 0.2), batten] });
    expect(shut.outcome).not.toBe('reached');
    expect(shut.outcome !== 'reached' && shut.blockers[0]?.owner).toBe('batten');
  });

  it('is told with what the arm lacks: half of what a slot is too narrow, and the room to move', () => {
    // Derived: the hand's thin side is 120 mm; a slot of 110 mm lacks 5 mm on each side, and 4 mm more to begin to move.
    const slot = [
      block('shelf', [0.1, -0.5, 0.055], [0.8, 0.5, 0.2]),
      block('tank', [0.1, -0.5, -0.2], [0.8, 0.5, -0.055]),
    ];
    const answer = reach({ grasp: grasp([0.35, 0, 0], [-1, 0, 0]), posture, around: [...board, ...slot] });
    expect(answer.outcome).not.toBe('reached');
    if (answer.outcome === 'reached') return;
    expect(answer.shortByM).toBeGreaterThan(0.0085);
    expect(answer.shortByM).toBeLessThan(0.0115);
    expect(new Set(answer.blockers.map(({ owner }) => owner))).toEqual(new Set(['shelf', 'tank']));
  });

  it('may be the thing itself only within the stand-off', () => {
    const own = block('own', [0.45, -0.1, -0.1], [0.6, 0.1, 0.1]);
    const flush = grasp([0.45, 0, 0], [-1, 0, 0], { standOffM: 0.015 });
    mustReach(reach({ grasp: flush, posture, around: [...board, own] }));
    expect(reach({ grasp: { ...flush, own: 'other' }, posture, around: [...board, own] }).outcome).not.toBe('reached');
  });

  it('a tool needs its own way', () => {
    const driver = grasp([0.45, 0, 0], [-1, 0, 0], { toolM: 0.2 });
    mustReach(reach({ grasp: driver, posture, around: board }));
    // A plate with a hole that lets no shank through stands between grip and screw.
    const plate = block('plate', [0.38, -0.3, -0.3], [0.39, 0.3, 0.3]);
    expect(reach({ grasp: driver, posture, around: [...board, plate] }).outcome).not.toBe('reached');
  });

  it('a bulkhead at the back leaves trunk and head no room', () => {
    const wall = (x: number) => block('bulkhead', [x - 0.02, -3, -3], [x, 3, 3]);
    mustReach(reach({ grasp: work, posture, around: [...board, wall(-1)] }));
    expect(reach({ grasp: work, posture, around: [...board, wall(-0.16)] }).outcome).not.toBe('reached');
  });
});

describe('a way that is kept', () => {
  const posture = leaningAt(0, 0, 0.3, 0.3);
  const work = grasp([0.45, 0, 0], [-1, 0, 0]);
  const board = boardWithHole(0, 0, 0.3, 0.3);

  it('is taken again as long as it is free, and another looked for where it is not', () => {
    const first = mustReach(reach({ grasp: work, posture, around: board }));
    const again = mustReach(reach({ grasp: work, posture, around: board, kept: first.way }));
    expect(again.way.length).toBe(first.way.length);
    again.way.forEach(({ elbow, grip }, k) => {
      expect(distance(elbow, first.way[k]?.elbow ?? elbow)).toBeLessThan(1e-12);
      expect(distance(grip, first.way[k]?.grip ?? grip)).toBeLessThan(1e-12);
    });
    expect(again.tried).toBeLessThan(2 * first.way.length + 2);
    const middle = first.way[Math.floor(first.way.length / 2)]?.elbow as Vec3;
    const post = block(
      'post',
      [middle[0] - 0.02, middle[1] - 0.02, middle[2] - 0.02],
      [middle[0] + 0.02, middle[1] + 0.02, middle[2] + 0.02],
    );
    const moved = reach({ grasp: work, posture, around: [...board, post], kept: first.way });
    // Another way has other elbows, not the last digits of the kept one.
    const other = moved.outcome === 'reached' ? moved.way[Math.floor(moved.way.length / 2)]?.elbow : undefined;
    expect(other === undefined || distance(other, middle) > 0.001).toBe(true);
    const elsewhere = reach({ grasp: grasp([0.4, 0.05, 0], [-1, 0, 0]), posture, around: board, kept: first.way });
    expect(mustReach(elsewhere).pose.grip).not.toEqual(first.pose.grip);
  });
});

describe('hard scenes', () => {
  const FIRST = Number(process.env.SERVICE_SEED ?? 1);
  const scenes = Array.from({ length: 10 }, (_, k) => armScene(FIRST + 500 + k));
  const around = (solids: (typeof scenes)[number]['solids']): Obstruction[] =>
    solids.map((solid) => ({ owner: solid.owner, label: solid.label, solid }));
  const flip = ([x, y, z]: Vec3): Vec3 => [x, -y, z];
  const summary = (answer: ArmAnswer) =>
    answer.outcome === 'reached'
      ? [answer.outcome, answer.spareM, answer.way.length]
      : [answer.outcome, answer.stage, answer.shortByM, answer.blockers.map(({ owner }) => owner).join(' ')];

  it('have the same answer in the mirror, to the last bit, with the other arm', () => {
    for (const { grasp, body, posture, solids } of scenes) {
      const one = reach({ grasp, body, posture, around: around(solids) });
      const turned = solids.map((solid) =>
        solid.type === 'box'
          ? { ...solid, centre: flip(solid.centre), axes: solid.axes.map(flip) as unknown as typeof solid.axes }
          : { ...solid, from: flip(solid.from), to: flip(solid.to) },
      );
      const box = <T extends { readonly centre: Vec3; readonly axes: readonly Vec3[] }>(region: T): T => ({
        ...region,
        centre: flip(region.centre),
        axes: region.axes.map(flip),
      });
      const other = reach({
        grasp: { ...grasp, point: flip(grasp.point), normal: grasp.normal && flip(grasp.normal) },
        body,
        posture: {
          ...posture,
          gate: posture.gate && {
            ...posture.gate,
            at: flip(posture.gate.at),
            out: flip(posture.gate.out),
            across: flip(posture.gate.across),
            up: flip(posture.gate.up),
          },
          shoulders: posture.shoulders.map(box),
          footing: posture.footing && { ...posture.footing, at: flip(posture.footing.at) },
          attitudes: posture.attitudes
            .map(({ spine, across }) => ({ spine: flip(spine), across: flip(across) }))
            .reverse(),
        },
        around: around(turned),
      });
      expect(summary(other)).toEqual(summary(one));
      if (one.outcome === 'reached' && other.outcome === 'reached') {
        expect(distance(other.pose.grip, flip(one.pose.grip))).toBeLessThan(1e-12);
        expect(other.side).not.toBe(one.side);
      }
    }
  });

  it('have the same answer in a boat that is measured from elsewhere', () => {
    const by: Vec3 = [3.25, 0, 0.75];
    const shift = (p: Vec3): Vec3 => [p[0] + by[0], p[1] + by[1], p[2] + by[2]];
    for (const { grasp, body, posture, solids } of scenes) {
      const one = reach({ grasp, body, posture, around: around(solids) });
      const moved = solids.map((solid) =>
        solid.type === 'box'
          ? { ...solid, centre: shift(solid.centre) }
          : { ...solid, from: shift(solid.from), to: shift(solid.to) },
      );
      const { gate, footing } = posture;
      const other = reach({
        grasp: { ...grasp, point: shift(grasp.point) },
        body,
        posture: {
          ...posture,
          gate: gate && { ...gate, at: shift(gate.at) },
          shoulders: posture.shoulders.map((region) => ({ ...region, centre: shift(region.centre) })),
          footing: footing && {
            ...footing,
            at: shift(footing.at),
            lowM: footing.lowM + by[2],
            highM: footing.highM + by[2],
          },
        },
        around: around(moved),
      });
      expect(summary(other)).toEqual(summary(one));
    }
  });

  it('have the same answer in another order of what is about', () => {
    for (const { grasp, body, posture, solids } of scenes.slice(0, 6)) {
      const one = reach({ grasp, body, posture, around: around(solids) });
      const other = reach({ grasp, body, posture, around: around(solids).reverse() });
      expect(summary(other)).toEqual(summary(one));
    }
  });

  it('that are proved to leave no room for a hand have no free hand on a fine grid either', () => {
    let proved = 0;
    for (let seed = FIRST; seed < FIRST + 120 && proved < 4; seed += 1) {
      const { grasp, body, posture, solids } = armScene(seed);
      const things = around(solids);
      const task = framed({ grasp, body, posture, around: things, hull: null }, frameOf(grasp, posture, things));
      const { world } = motionOf(task);
      if (!hasNoRoomForHand(world, task.grasp, body, 0)) continue;
      proved += 1;
      const fine = { handDeg: 5, rolls: 24, elbowDeg: 60, elbowM: 0.05, shoulderM: 0.2, places: 400, perElbow: 1 };
      const { stage } = new PoseSearch(world, task.grasp, task.posture, armOf(body, 0), null, 0, fine).run(() => true);
      expect(stage, `seed ${seed}`).toBe('hand');
    }
    expect(proved).toBeGreaterThan(0);
  });
});
