import { placeText } from '@core/output/text/place-text';
import { describe, expect, it } from 'vitest';
import { type BoatDraft, threeLockers } from '../../../support/boats';
import { answerIn, lockers } from './lockers';

// Derived from the sizes of the lockers: 1 x 1.2 x 0.8 m, from 0.4 m below the water to 0.4 m above it; the thing is 0.3 x 0.2 x 0.2 m.

type FixtureDraft = NonNullable<BoatDraft['fixtures']>[string];

function seacockAt(x: number): FixtureDraft {
  const { intake } = threeLockers().fixtures ?? {};
  if (!intake) throw new Error('seacockAt: three lockers have an intake');
  return { ...intake, pose: { at: [x, 0, -0.325] } };
}

/** A joint that is open to the sea: a hose from a seacock at (2.2, 0.45) straight up to a sink. */
const sink: FixtureDraft = {
  name: 'Sink',
  kind: 'other',
  shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
  pose: { at: [2.2, 0.45, 0.3] },
  ports: { in: { at: [0, 0, -0.05], direction: [0, 0, -1], medium: 'seaWater', role: 'in' } },
};
const hose: NonNullable<BoatDraft['lines']>[string] = {
  name: 'Hose',
  kind: 'hose-suction-19',
  medium: 'seaWater',
  from: { thing: 'intake', port: 'out' },
  to: { thing: 'sink', port: 'in' },
  existing: true,
};

describe('spills', () => {
  const bowl = (pumped: string) =>
    lockers(
      {
        kind: 'filter',
        mounting: { upright: true },
        services: {
          bowl: {
            task: 'lid',
            at: [0, 0, 0.1],
            direction: [0, 0, 1],
            acrossM: [0.1, 0.1],
            clearM: 0.1,
            spillL: 1.2,
          },
        },
      },
      (draft) => {
        for (const [id, room] of Object.entries(draft.compartments ?? {})) room.bilgePumped = id === pumped;
      },
    );

  it('pass where a pump empties the locker and fail where 1.2 litres stay', () => {
    expect(answerIn(bowl('aft'), 'aft').tests.spills.outcome).toBe('pass');
    const left = answerIn(bowl('aft'), 'fore');
    expect(left).toMatchObject({ verdict: 'no', decides: 'spills' });
    expect(left.tests.spills).toMatchObject({
      reason: 'flooding/bowl-spill/stays',
      measured: { value: 1.2, unit: 'L' },
      limit: { value: 0, bound: 'atMost' },
    });
    expect(placeText(left, bowl('aft')).short).toBe('spills');
  });
});

describe('holes', () => {
  const fitting = (lowM: number, demand: boolean) =>
    lockers(
      {
        kind: 'seacock',
        mounting: { upright: true },
        opensToSea: { at: [0, 0, -0.1], boreM: 0.019 },
        valve: { states: ['open', 'shut'], normally: 'open' },
      },
      (draft) => {
        if (demand) draft.demands = { whole: { kind: 'noNewHoleBelowWaterline' } };
        for (const room of Object.values(draft.compartments ?? {}))
          room.outline = [
            [-0.6, lowM],
            [0.6, lowM],
            [0.6, lowM + 0.8],
            [-0.6, lowM + 0.8],
          ];
      },
    );

  it('fail below the water where none is wanted, by the depth of the hole under the part that stands there', () => {
    const answer = answerIn(fitting(-0.4, true), 'middle');
    expect(answer).toMatchObject({ verdict: 'no', decides: 'holes', breaks: ['whole'] });
    expect(answer.tests.holes).toMatchObject({ reason: 'hull/new-hole/notWanted', limit: { value: 0 } });
    expect(answer.tests.holes.measured?.value).toBeCloseTo(0.1 - (answer.best?.poses.thing?.at[2] ?? 0), 6);
    // without the demand it is the look from both sides that is missing
    expect(answerIn(fitting(-0.4, false), 'middle').tests.holes.reason).toBe('hull/new-hole/unchecked');
  });

  it('pass where all of the locker is 0.2 m above the water', () => {
    const { verdict, tests, breaks } = answerIn(fitting(0.2, true), 'middle');
    expect(tests.holes.outcome).toBe('pass');
    expect(verdict).not.toBe('no');
    expect(breaks).toEqual([]);
  });
});

describe('dry', () => {
  const electrics = (heightM: number) =>
    lockers(
      {
        shape: { type: 'box', sizeM: [0.3, 0.2, heightM] },
        electric: { dripProof: 'open' },
        mounting: { upright: true },
      },
      (draft) => {
        draft.fixtures = { intake: { ...seacockAt(2.2), pose: { at: [2.2, 0.45, -0.325] } }, sink };
        draft.lines = { hose };
      },
    );

  it('fails where the water comes to rest above its foot: 0.5 m high in 0.4 m above the water, 100 mm under', () => {
    const drowned = answerIn(electrics(0.5), 'fore');
    expect(drowned).toMatchObject({ verdict: 'no', decides: 'dry' });
    expect(drowned.tests.dry.about).toEqual(expect.arrayContaining(['thing', 'intake', 'hose']));
    expect(drowned.tests.dry.measured?.value).toBeCloseTo(-0.1, 6);
    expect(placeText(drowned, electrics(0.5)).short).toBe('wet');
  });

  it('passes where 0.2 m stand above the water, and in a locker that no joint floods', () => {
    const { dry } = answerIn(electrics(0.2), 'fore').tests;
    expect(dry.reason).toBe('overTheFlood');
    expect(dry.measured?.value).toBeGreaterThanOrEqual(0);
    expect(answerIn(electrics(0.5), 'aft').tests.dry).toMatchObject({ outcome: 'pass', reason: 'noFloodThere' });
  });
});

describe('what must be screwed on', () => {
  it('is proposed on the board that takes it though it drowns there, 300 mm under: on nothing it could not stay at all', () => {
    const boat = lockers(
      { massKg: 12, electric: { dripProof: 'open' }, mounting: { face: '-z', upright: true } },
      (draft) => {
        draft.fixtures = { intake: { ...seacockAt(2.2), pose: { at: [2.2, 0.45, -0.325] } }, sink };
        draft.lines = { hose };
        draft.mountingSurfaces = {
          board: {
            compartment: 'fore',
            at: [2.6, -0.2, -0.3],
            normal: [0, 0, 1],
            widthM: 0.5,
            heightM: 0.4,
            material: 'ply',
            thicknessM: 0.018,
          },
        };
      },
    );
    const answer = answerIn(boat, 'fore');
    expect(answer).toMatchObject({ verdict: 'no', decides: 'dry', best: { mountedOn: 'board' } });
    expect(answer.tests.mounts.outcome).toBe('pass');
    // its foot on the board, or on the 15 mm of packing that may stand between
    expect(answer.tests.dry.measured?.value).toBeGreaterThanOrEqual(-0.3 - 1e-6);
    expect(answer.tests.dry.measured?.value).toBeLessThanOrEqual(-0.285 + 1e-6);
  });
});

describe('lines', () => {
  /** A hose of 2.00 m from x = 0.2; the fore locker begins at x = 2.5, the port is 0.1 m from the middle of the thing. */
  const hosed = () =>
    lockers(
      {
        mounting: { upright: true },
        ports: { in: { at: [0, 0, 0.1], direction: [0, 0, 1], medium: 'seaWater', role: 'in' } },
      },
      (draft) => {
        const { middle, fore } = draft.compartments ?? {};
        if (middle) middle.rangeM = [1.015, 2.485];
        if (fore) fore.rangeM = [2.5, 3.5];
        draft.panels = {
          'aft-middle': { between: ['aft', 'middle'], near: [1.0075, 0, 0], rule: 'drill', thicknessM: 0.015 },
          'middle-fore': { between: ['middle', 'fore'], near: [2.4925, 0, 0], rule: 'drill', thicknessM: 0.015 },
        };
        const lid = draft.openings?.['lid-fore'];
        if (lid) lid.at = [3, 0, 0.4];
        draft.fixtures = { intake: seacockAt(0.2) };
        draft.lines = {
          hose: {
            name: 'Hose',
            kind: 'hose-suction-19',
            medium: 'seaWater',
            from: { thing: 'intake', port: 'out' },
            to: { thing: 'thing', port: 'in' },
            supplied: { lengthM: 2, spareM: 0 },
          },
        };
      },
    );

  it('reach with 2.00 m where less is needed, and are too short where it is 2.5 - 0.2 - 0.1 = 2.2 m at least', () => {
    expect(['pass', 'close']).toContain(answerIn(hosed(), 'middle').tests.reaches.outcome);
    const far = answerIn(hosed(), 'fore');
    expect(far).toMatchObject({ verdict: 'no', decides: 'reaches' });
    expect(far.tests.reaches).toMatchObject({ reason: 'lineTooShort', about: ['hose'], limit: { value: 2 } });
    expect(far.tests.reaches.measured?.value).toBeCloseTo(2.2, 6);
    expect(placeText(far, hosed()).short).toBe('hose short');
  });
});
