import { reachWithBoth } from '@core/assess/access/reach/both-hands';
import { type PostureAsk, posturesFor } from '@core/assess/access/reach/postures-for';
import { reachThrough } from '@core/assess/access/reach/reach-through';
import type { ArmAnswer, Obstruction, Posture } from '@core/assess/access/reach/types';
import { distance, type Vec3 } from '@core/base/vec';
import type { Boat, Opening, StandingPlace } from '@core/boat/schema/boat';
import { opening as openingSchema, standingPlace } from '@core/boat/schema/interior';
import { openedWalls } from '@core/shape/space/opened-walls';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf } from '../../../shape/layout/boats';
import { BODY, block, grasp } from './plain-scenes';

/** A cabin, and a deep space abaft its after bulkhead that a door 600 mm wide and high leads into. */
const compartments: Boat['compartments'] = {
  cabin: boxIn('plan', [0, -1, 0], [2, 1, 1.9], { kind: 'cabin' }),
  stern: boxIn('plan', [-1.8, -1, 0], [0, 1, 1.1], { kind: 'lazarette' }),
};
const layout = layoutOf(compartments);
const door = (widthM: number, heightM: number, more: Record<string, unknown> = {}): Opening =>
  openingSchema.parse({
    name: 'Door',
    compartment: 'stern',
    to: 'cabin',
    at: [0, 0, 0.5],
    normal: [1, 0, 0],
    widthM,
    heightM,
    ...more,
  });
const STANDING: StandingPlace = standingPlace.parse({ name: 'Cabin sole', at: [0.5, 0, 0], compartment: 'cabin' });

function asked(opening: Opening, things: readonly Obstruction[] = [], standing = STANDING): PostureAsk {
  const around = [...openedWalls(layout, { door: opening }, [-2, -1.5, -0.5], [2.5, 1.5, 2.5]), ...things];
  return {
    opening: { id: 'door', record: opening },
    compartment: 'stern',
    standing,
    body: BODY,
    layout,
    hull: null,
    around,
  };
}

/** What each posture comes to. */
function outcomes(ask: PostureAsk, point: Vec3, normal: Vec3 | null): Partial<Record<Posture, ArmAnswer['outcome']>> {
  return Object.fromEntries(
    posturesFor(ask).map((posture) => [
      posture.posture,
      reachThrough({
        grasp: grasp(point, normal),
        body: BODY,
        posture,
        around: ask.around,
        hull: null,
        seed: posture.posture,
      }).outcome,
    ]),
  );
}

describe('postures at an opening', () => {
  const names = (widthM: number, heightM: number): Posture[] =>
    posturesFor(asked(door(widthM, heightM))).map(({ posture }) => posture);

  it('follow its size: head and one shoulder from 350 x 450 on, the whole person from 450 x 550 (practice, no source)', () => {
    expect(names(0.34, 0.6)).toEqual(['lean']);
    expect(names(0.35, 0.45)).toEqual(['lean', 'headIn']);
    expect(names(0.45, 0.35)).toEqual(['lean', 'headIn']);
    expect(names(0.44, 0.6)).toEqual(['lean', 'headIn']);
    expect(names(0.45, 0.55)).toEqual(['lean', 'headIn', 'climbIn']);
  });

  it('leave out kneeling where a thing takes the room for it', () => {
    const full = block('tank', [-1.8, -1, 0], [-0.3, 1, 0.7]);
    expect(posturesFor(asked(door(0.6, 0.6), [full])).map(({ posture }) => posture)).toEqual(['lean', 'headIn']);
  });

  it('keep shoulders at heights that the person has from where they stand', () => {
    const footings = posturesFor(asked(door(0.6, 0.6))).map(({ footing }) => footing);
    expect(footings[0]?.highM).toBeLessThanOrEqual(BODY.standingShoulderM);
    // 3 m up nobody leans in from the sole.
    const above = asked(door(0.6, 0.6, { at: [0, 0, 3] }));
    expect(posturesFor(above).some(({ posture }) => posture === 'lean')).toBe(false);
  });
});

describe('a deep locker', () => {
  it('is worked in by who climbs in, where who leans in does not get', () => {
    // Derived: 1.3 m behind the door; leaning, an arm of 0.76 m ends far before it.
    const ask = asked(door(0.6, 0.6));
    const found = outcomes(ask, [-1.3, 0.1, 0.5], [1, 0, 0]);
    expect(found.lean).toBe('cannot');
    expect(found.climbIn).toBe('reached');
  });

  it('is within reach near the door by leaning in', () => {
    expect(outcomes(asked(door(0.6, 0.6)), [-0.4, 0.1, 0.5], [1, 0, 0]).lean).toBe('reached');
    expect(outcomes(asked(door(0.11, 0.11)), [-0.4, 0, 0.5], [1, 0, 0]).lean).not.toBe('reached');
  });

  it('is not leaned into from behind what stands between the feet and the door, though a body had room beyond it', () => {
    // Derived: 600 mm from the door to the board let a trunk of 210 stand; the feet are at 800, on the board's other side.
    const board = block('board', [0.6, -1, 0], [0.62, 1, 1.9]);
    const beside = standingPlace.parse({ name: 'Cabin sole', at: [0.3, 0.2, 0], compartment: 'cabin' });
    const beyond = standingPlace.parse({ name: 'Cabin sole', at: [0.8, 0, 0], compartment: 'cabin' });
    expect(outcomes(asked(door(0.34, 0.6), [board], beyond), [-0.4, 0.1, 0.5], [1, 0, 0]).lean).not.toBe('reached');
    expect(outcomes(asked(door(0.34, 0.6), [board], beside), [-0.4, 0.1, 0.5], [1, 0, 0]).lean).toBe('reached');
  });

  it('is within reach of a straight arm through a narrow door, from farther back the less deep it is', () => {
    // Derived: 130 mm let an upper arm of 116 pass that goes straight, and no other. To a point 450 mm deep the grip is 390 mm behind the
    // face; of an arm of 700 mm the shoulder is 310 mm before it then.
    const ask = asked(door(0.13, 0.13));
    const lean = posturesFor(ask).find(({ posture }) => posture === 'lean');
    if (!lean) throw new Error('nobody leans in');
    const answer = reachThrough({
      grasp: grasp([-0.45, 0, 0.5], [1, 0, 0]),
      body: { ...BODY, handBoxM: [0.095, 0.12, 0.11] },
      posture: lean,
      around: ask.around,
      hull: null,
      seed: 'narrow',
    });
    if (answer.outcome !== 'reached') throw new Error(`${answer.stage}: ${answer.shortByM}`);
    expect(answer.pose.shoulder[0]).toBeGreaterThan(0.25);
  });

  it('with the head and a shoulder in is worked in farther than by leaning', () => {
    const found = outcomes(asked(door(0.5, 0.6)), [-0.78, 0, 0.5], [1, 0, 0]);
    expect(found.lean).not.toBe('reached');
    expect(found.headIn).toBe('reached');
  });
});

describe('beside a thing', () => {
  const free = (standing: StandingPlace | null, things: readonly Obstruction[] = []): PostureAsk => ({
    ...asked(door(0.6, 0.6), things),
    opening: null,
    compartment: 'cabin',
    standing,
  });

  it('somebody stands at their place, or kneels where no place is drawn', () => {
    expect(outcomes(free(STANDING), [0.9, 0.4, 1], [0, -1, 0]).free).toBe('reached');
    expect(outcomes(free(null), [1, 0.95, 0.5], [0, -1, 0]).free).toBe('reached');
    // 2.5 m above the sole nobody reaches.
    expect(outcomes(free(STANDING), [0.5, 0, 2.5], [0, 0, -1]).free).not.toBe('reached');
  });
});

describe('lying at a lid in the sole', () => {
  const bilge: Boat['compartments'] = {
    cabin: boxIn('plan', [0, -1, 0], [3, 1, 1.9], { kind: 'cabin' }),
    bilge: boxIn('plan', [0, -1, -0.6], [3, 1, -0.02], { kind: 'bilge' }),
  };
  const lid = openingSchema.parse({
    name: 'Sole board',
    compartment: 'bilge',
    to: 'cabin',
    at: [1.5, 0, 0],
    normal: [0, 0, 1],
    widthM: 0.3,
    heightM: 0.3,
  });
  const ask = (standing: StandingPlace, things: readonly Obstruction[] = []): PostureAsk => {
    const space = layoutOf(bilge);
    return {
      opening: { id: 'lid', record: lid },
      compartment: 'bilge',
      standing,
      body: BODY,
      layout: space,
      hull: null,
      around: [...openedWalls(space, { lid }, [-1, -2, -1], [4, 2, 2.5]), ...things],
    };
  };
  const beside = standingPlace.parse({ name: 'Sole', at: [1.1, 0, 0] });

  it('an arm goes down', () => {
    expect(outcomes(ask(beside), [1.5, 0, -0.45], [0, 0, 1]).lie).toBe('reached');
  });

  it('asks for room to lie, in one direction at least', () => {
    const boxes = [
      block('fore', [1.75, -1, 0.01], [3, 1, 1]),
      block('aft', [0, -1, 0.01], [1.25, 1, 1]),
      block('port', [0, 0.25, 0.01], [3, 1, 1]),
      block('starboard', [0, -1, 0.01], [3, -0.25, 1]),
    ];
    expect(posturesFor(ask(beside, boxes)).some(({ posture }) => posture === 'lie')).toBe(false);
    expect(posturesFor(ask(beside, boxes.slice(1))).some(({ posture }) => posture === 'lie')).toBe(true);
  });
});

describe('both hands', () => {
  const pair = (widthM: number, heightM: number): readonly ArmAnswer[] => {
    const ask = asked(door(widthM, heightM));
    const posture = posturesFor(ask).find((one) => one.posture === 'lean');
    if (!posture) throw new Error('nobody leans in');
    const first = grasp([-0.35, 0.09, 0.5], [1, 0, 0]);
    const second = grasp([-0.35, -0.09, 0.5], [1, 0, 0]);
    return reachWithBoth({ grasp: first, body: BODY, posture, around: ask.around, hull: null, seed: 'pair' }, second);
  };

  it('go in as a left and a right one, as far apart as the shoulders of one body', () => {
    const [one, other] = pair(0.6, 0.45);
    expect([one?.outcome, other?.outcome]).toEqual(['reached', 'reached']);
    if (one?.outcome !== 'reached' || other?.outcome !== 'reached') return;
    expect(new Set([one.side, other.side]).size).toBe(2);
    // Derived: the other shoulder is where the body has it, give or take 80 mm along each axis.
    expect(Math.abs(distance(one.pose.shoulder, other.pose.shoulder) - BODY.shouldersM)).toBeLessThan(
      0.08 * Math.sqrt(3),
    );
  });

  it('do not both go in where one does', () => {
    const answers = pair(0.2, 0.2);
    expect(answers.some(({ outcome }) => outcome !== 'reached')).toBe(true);
  });
});
