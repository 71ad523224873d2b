import { bodyOf } from '@core/base/formulas/body-sizes';
import { distance, type Vec2, type Vec3 } from '@core/base/vec';
import { FRAMES, PLAN, PROFILE, type Primitive, SECTION } from '@core/output/views/drawing';
import { capsuleOn, extentOfSteps, figureOf, rehearsalLines, silhouetteOfSolid } from '@core/output/views/rehearsal';
import { describe, expect, it } from 'vitest';
import { rehearsalStep } from '../service-told';

const body = bodyOf(null).sizes;
/** Somebody on the sole who works at a place to port. */
const person = {
  at: [4, -0.2, -0.4] as Vec3,
  posture: 'lean' as const,
  eye: [4, 0.1, 0.75] as Vec3,
  shoulder: [4, 0.05, 0.6] as Vec3,
};
const target: Vec3 = [4, 0.7, 0.2];
const arm = {
  shoulder: person.shoulder,
  elbow: [4, 0.3, 0.4] as Vec3,
  wrist: [4, 0.55, 0.3] as Vec3,
  grip: [4, 0.65, 0.25] as Vec3,
  palm: [1, 0, 0] as Vec3,
};
const rays = [
  { from: person.eye, to: target, isFree: true },
  { from: person.eye, to: [4, 0.4, 0.45] as Vec3, isFree: false },
];
const of = (primitives: readonly Primitive[], role: Primitive['role']) => primitives.filter((p) => p.role === role);
const ringOf = (p: Primitive | undefined): readonly Vec2[] => (p?.kind === 'area' ? (p.rings[0] ?? []) : []);

describe('the body of a rehearsal', () => {
  it('joins shoulder and feet by links of its own lengths', () => {
    // derived: trunk = sitting shoulder less 0.09 m, thigh = kneeling shoulder less trunk, leg = standing shoulder less trunk
    const { hips, knee, foot, neck } = figureOf(person, 'stand', body, target);
    const trunk = body.sittingShoulderM - 0.09;
    const thigh = body.kneelingShoulderM - trunk;
    expect(distance(hips, neck)).toBeCloseTo(trunk, 9);
    expect(distance(hips, knee)).toBeCloseTo(thigh, 9);
    expect(distance(knee, foot)).toBeCloseTo(body.standingShoulderM - trunk - thigh, 9);
    expect(foot).toEqual(person.at);
    // Who bends over a place to port has the hips to starboard of shoulder and feet.
    expect(hips[1]).toBeLessThan(Math.min(person.at[1], person.shoulder[1]));
    expect(knee[1]).toBeGreaterThan(hips[1]);
  });

  it('stretches where place and shoulder are farther apart than it is long, and stays in one line', () => {
    const far = { ...person, shoulder: [4, 0, 3] as Vec3 };
    const { hips } = figureOf(far, 'stand', body, target);
    expect(distance(far.at, hips) + distance(hips, far.shoulder)).toBeCloseTo(distance(far.at, far.shoulder), 9);
  });

  it('kneels with the shanks behind, sits with the feet below, lies along', () => {
    const kneeling = figureOf(person, 'kneel', body, target);
    expect(kneeling.knee).toEqual(person.at);
    expect(kneeling.foot[1]).toBeLessThan(person.at[1]);
    expect(kneeling.foot[2]).toBe(person.at[2]);
    const sitting = figureOf(person, 'sit', body, target);
    expect(sitting.hips).toEqual(person.at);
    expect(sitting.foot[2]).toBeLessThan(person.at[2]);
    const lying = figureOf(person, 'lie', body, target);
    expect(lying.foot[2]).toBe(person.at[2]);
  });

  it('is the same on the other side of the boat', () => {
    const over = (p: Vec3): Vec3 => [p[0], -p[1], p[2]];
    const there = { ...person, at: over(person.at), eye: over(person.eye), shoulder: over(person.shoulder) };
    for (const stance of ['stand', 'kneel', 'sit', 'lie'] as const) {
      const [here, mirrored] = [figureOf(person, stance, body, target), figureOf(there, stance, body, over(target))];
      for (const part of ['head', 'neck', 'hips', 'knee', 'foot'] as const)
        for (const k of [0, 1, 2] as const) expect(over(here[part])[k]).toBeCloseTo(mirrored[part][k], 9);
    }
  });
});

describe('line work of a step', () => {
  const step = rehearsalStep({
    kind: 'reach',
    person,
    arms: [arm],
    rays,
    swept: [
      {
        type: 'cylinder',
        id: 'bowl',
        owner: 'filter',
        label: 'bowl',
        layer: 'sweep',
        from: [4, 0.7, 0.1],
        to: [4, 0.7, -0.1],
        radius: 0.06,
      },
    ],
    drip: [
      [4, 0.7, 0.1],
      [4, 0.7, -0.5],
    ],
  });

  it('has person, links, rays, crosses, swept spaces and drip line in every view', () => {
    for (const frame of Object.values(FRAMES)) {
      const lines = rehearsalLines(step, body, 'stand', target, frame);
      expect(of(lines.arms, 'arm')).toHaveLength(3);
      expect(of(lines.arms, 'armLink')).toHaveLength(1);
      expect(of(lines.rays, 'ray')).toHaveLength(1);
      expect(of(lines.rays, 'rayStopped')).toHaveLength(1);
      expect(lines.stops).toHaveLength(1);
      expect(lines.swept).toHaveLength(1);
      expect(lines.drip).toHaveLength(1);
      expect(lines.person.length).toBeGreaterThan(4);
    }
    const ids = rehearsalLines(step, body, 'stand', target, PLAN);
    const all = [...ids.swept, ...ids.person, ...ids.rays, ...ids.arms, ...ids.drip].map(({ id }) => id);
    expect(new Set(all).size).toBe(all.length);
  });

  it('is drawn in dashes where the body would hide what is worked at', () => {
    // From above somebody bends over the place itself; from the side nobody is in front of it.
    const over = { ...person, shoulder: [4, 0.7, 0.9] as Vec3, eye: [4, 0.7, 1.05] as Vec3 };
    const bent = rehearsalStep({ kind: 'look', person: over });
    const roles = (frame: typeof PLAN) =>
      new Set(rehearsalLines(bent, body, 'stand', target, frame).person.map(({ role }) => role));
    expect(roles(PLAN)).toContain('personOver');
    expect(roles(PLAN)).not.toContain('person');
    expect(roles(SECTION)).toContain('person');
  });

  it('draws a step without anybody, which only says what is opened', () => {
    const lines = rehearsalLines(rehearsalStep({ kind: 'open', subject: 'lid' }), body, 'stand', target, PROFILE);
    expect(Object.values(lines).flat()).toEqual([]);
  });

  it('covers what a solid covers', () => {
    // derived: a capsule from (0, 0) to (1, 0) of radius 0.1 reaches from -0.1 to 1.1 and 0.1 to either side
    const ring = capsuleOn([0, 0], [1, 0], 0.1);
    expect(Math.min(...ring.map(([u]) => u))).toBeCloseTo(-0.1, 3);
    expect(Math.max(...ring.map(([u]) => u))).toBeCloseTo(1.1, 3);
    expect(Math.max(...ring.map(([, v]) => v))).toBeCloseTo(0.1, 3);
    const named = { id: 's', owner: 's', label: 's', layer: 'sweep' as const };
    const axes = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const;
    const box = silhouetteOfSolid({ type: 'box', ...named, centre: [1, 2, 3], half: [0.1, 0.2, 0.3], axes }, SECTION);
    expect(box.map(([u, v]) => [Math.round(u * 1e6) / 1e6, Math.round(v * 1e6) / 1e6]).sort()).toEqual(
      [
        [-2.2, 2.7],
        [-2.2, 3.3],
        [-1.8, 2.7],
        [-1.8, 3.3],
      ].sort(),
    );
  });

  it('keeps person, arms, sweeps and drips of all steps within its bounds', () => {
    const { low, high } = extentOfSteps([step], body, [target]);
    for (const p of [person.at, person.eye, arm.grip, target, ...step.drip] as Vec3[])
      for (const k of [0, 1, 2] as const) {
        expect(p[k]).toBeGreaterThanOrEqual(low[k]);
        expect(p[k]).toBeLessThanOrEqual(high[k]);
      }
    expect(ringOf(rehearsalLines(step, body, 'stand', target, PROFILE).swept[0]).length).toBeGreaterThan(3);
  });
});
