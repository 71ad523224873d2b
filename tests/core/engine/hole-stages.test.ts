import { readFileSync } from 'node:fs';
import { Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { inProject } from '../../../electron/launch/project.mjs';
import { type BoatDraft, threeLockers } from '../../support/boats';
import { boatOf } from '../boat/boat-of';

const holes = (draft: unknown) => new Session(boatOf(draft)).holes();
const sandwort = (): BoatDraft =>
  JSON.parse(readFileSync(inProject('sample-boats', 'complete', 'sandwort', 'boat.json'), 'utf8'));

type Fixtures = NonNullable<BoatDraft['fixtures']>;
const throughHull = (at: [number, number, number], more: object = {}, opening: object = {}): Fixtures[string] => ({
  name: 'Through-hull',
  kind: 'seacock',
  shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
  pose: { at },
  ports: { hose: { at: [0, 0, 0.05], direction: [0, 0, 1] } },
  opensToSea: { at: [0, 0, -0.05], boreM: 0.025, material: 'bronze', ...opening },
  ...more,
});
const user = (kind: 'head' | 'sink' | 'engine', at: [number, number, number]): Fixtures[string] => ({
  name: kind,
  kind,
  shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
  pose: { at },
  ports: { in: { at: [0, 0, 0], direction: [0, 0, 1] }, out: { at: [0, 0, 0], direction: [0, 0, 1] } },
});
const line = (from: string, fromPort: string, to: string, toPort: string, medium: 'seaWater' | 'waste') => ({
  name: `${from} to ${to}`,
  kind: 'hose-suction-19',
  medium,
  existing: true,
  from: { thing: from, port: fromPort },
  to: { thing: to, port: toPort },
});
const plumbed = (fixtures: Fixtures, lines: NonNullable<BoatDraft['lines']> = {}, more: object = {}): BoatDraft => ({
  ...threeLockers(),
  fixtures,
  lines,
  parts: {},
  arrangements: {},
  currentArrangement: undefined,
  ...more,
});
const reasonsOf = (draft: BoatDraft, id: string) =>
  holes(draft)
    .asIntake.find((hole) => hole.id === id)
    ?.reasons.map(({ key, data }) => ({ key, ...data })) ?? [];

describe('what is read off the boat for its holes', () => {
  it('who hangs on a hole by its lines, and what comes out of it', () => {
    const draft = plumbed(
      {
        drain: throughHull([0.5, 0.1, -0.3], {}, { use: 'outlet' }),
        intake: throughHull([0.2, 0.1, -0.3]),
        sink: user('sink', [0.5, 0.3, 0.2]),
        diesel: user('engine', [0.2, 0.3, 0.1]),
      },
      { a: line('sink', 'out', 'drain', 'hose', 'waste'), b: line('intake', 'hose', 'diesel', 'in', 'seaWater') },
    );
    expect(reasonsOf(draft, 'drain')).toContainEqual({ key: 'wasteComesOut', what: 'sink' });
    const keys = reasonsOf(draft, 'intake');
    expect(keys).toContainEqual(expect.objectContaining({ key: 'dischargeAhead', other: 'drain', what: 'sink' }));
    expect(keys).toContainEqual(expect.objectContaining({ key: 'engineShares' }));
    expect(keys).toContainEqual(expect.objectContaining({ key: 'shared', by: 'diesel' }));
  });

  it('what is entered counts before what the lines tell; an outlet of which nobody has said is not known', () => {
    const outlet = (opening: object) =>
      plumbed({
        out: throughHull([0.5, 0.1, -0.3], {}, { use: 'outlet', ...opening }),
        in: throughHull([0.2, 0.1, -0.3]),
      });
    expect(reasonsOf(outlet({}), 'in').map(({ key }) => key)).toContain('dischargeUnknown');
    expect(
      reasonsOf(outlet({ discharges: [] }), 'in')
        .map(({ key }) => key)
        .join(),
    ).not.toContain('discharge');
    expect(reasonsOf(outlet({ discharges: ['head'] }), 'in')).toContainEqual(
      expect.objectContaining({ key: 'dischargeAhead', what: 'head' }),
    );
  });

  it('a valve on the first line shuts a bare fitting; a gate is a gate', () => {
    const bare = { kind: 'skinFitting' as const };
    const valve = (kind: string) => ({
      ...user('sink', [0.3, 0.1, -0.2]),
      name: 'Valve',
      kind: 'other' as const,
      valve: { states: ['open', 'shut'], kind },
    });
    const draft = (kind: string) =>
      plumbed(
        { hole: throughHull([0.2, 0.1, -0.3], bare), valve: valve(kind) as Fixtures[string] },
        { a: line('hole', 'hose', 'valve', 'in', 'seaWater') },
      );
    const keysOf = (it: BoatDraft) => reasonsOf(it, 'hole').map(({ key }) => key);
    expect(keysOf(plumbed({ hole: throughHull([0.2, 0.1, -0.3], bare) }))).toContain('noValve');
    expect(keysOf(draft('ball'))).not.toContain('noValve');
    expect(keysOf(draft('gate'))).toContain('gateValve');
  });

  it('an exhaust over the side counts while motoring, hole in the hull or not', () => {
    const draft = (use: 'anchored' | 'motoring') =>
      plumbed(
        {
          intake: throughHull([0.2, 0.1, -0.3]),
          pipe: { ...user('sink', [0.6, 0.1, 0.1]), kind: 'exhaust' },
        },
        {},
        { runStates: { one: { name: 'One', use } } },
      );
    expect(reasonsOf(draft('motoring'), 'intake')).toContainEqual(
      expect.objectContaining({ key: 'dischargeAhead', other: 'pipe', what: 'exhaust' }),
    );
    expect(reasonsOf(draft('anchored'), 'intake').map(({ key }) => key)).not.toContain('dischargeAhead');
  });

  it('a handle in a locker without a drawn opening is said not to be known', () => {
    expect(reasonsOf(plumbed({ hole: throughHull([0.2, 0.1, -0.3]) }), 'hole')).toContainEqual({
      key: 'reachUnknown',
      enterNext: 'Draw the opening into Aft locker',
    });
  });

  it('a handle is reached as the opening lets: 0.65 m by an arm through 0.3, by head and shoulder through 0.45 x 0.5', () => {
    const lid = (widthM: number, heightM: number): NonNullable<BoatDraft['openings']>[string] => ({
      name: 'Lid',
      compartment: 'aft',
      to: 'outside',
      at: [0.2, 0.1, 0.35],
      normal: [0, 0, 1],
      widthM,
      heightM,
    });
    const named = (widthM: number, heightM: number) =>
      reasonsOf(
        plumbed({ hole: throughHull([0.2, 0.1, -0.3]) }, {}, { openings: { lid: lid(widthM, heightM) } }),
        'hole',
      ).map(({ key }) => key);
    expect(named(0.3, 0.3)).toContain('outOfReach');
    expect(named(0.45, 0.5)).toContain('inReach');
  });

  it('no haul-out is read from the demands', () => {
    const gate = { valve: { states: ['open', 'shut'], kind: 'gate' } };
    const draft = (more: object) => plumbed({ hole: throughHull([0.2, 0.1, -0.3], gate) }, {}, more);
    expect(holes(draft({})).asIntake[0]?.isUsable).toBe(true);
    expect(holes(draft({ demands: { d: { kind: 'noHaulOut' } } })).asIntake[0]?.isUsable).toBe(false);
    expect(holes(draft({ demands: { d: { kind: 'noDismantling' } } })).asIntake[0]?.isUsable).toBe(true);
  });
});

describe('the 11 m boat', () => {
  const flip = (value: unknown, key = ''): unknown => {
    if (Array.isArray(value)) {
      const isPoint = ['at', 'near', 'normal', 'up', 'direction', 'across'].includes(key);
      return value.map((one, i) => (isPoint && i === 1 && typeof one === 'number' ? 0 - one : flip(one)));
    }
    if (value !== null && typeof value === 'object')
      return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, flip(v, k)]));
    return ['yawDeg', 'rollDeg'].includes(key) && typeof value === 'number' ? 0 - value : value;
  };

  it('ranks alike in a mirror, tacks swapped', () => {
    // The rooms are left out of the mirror: reach is not what is asked here.
    const rooms = {
      compartments: {},
      panels: {},
      openings: {},
      lines: {},
      parts: {},
      arrangements: {},
      mountingSurfaces: {},
      standingPlaces: {},
      pictures: {},
      survey: {},
    };
    const {
      currentArrangement: _a,
      operatingStates: _b,
      flooding: _c,
      gradeOf: _d,
      typed: _e,
      accepted: _f,
      ...boat
    } = sandwort();
    const here = holes({ ...boat, ...rooms });
    const there = holes({ ...(flip(boat) as BoatDraft), ...rooms });
    for (const list of ['asIntake', 'asOutlet'] as const) {
      expect(there[list].map(({ id }) => id)).toEqual(here[list].map(({ id }) => id));
      expect(there[list].map(({ reasons }) => reasons.map(({ key }) => key))).toEqual(
        here[list].map(({ reasons }) => reasons.map(({ key }) => key)),
      );
      here[list].forEach((hole, i) => {
        const twin = there[list][i];
        expect(twin?.least.depthM).toBeCloseTo(hole.least.depthM, 6);
        expect(twin?.immersion.crossesDeg.port ?? 99).toBeCloseTo(hole.immersion.crossesDeg.starboard ?? 99, 3);
      });
    }
  });

  it('after an edit elsewhere the ranking is the same object: nothing of it is worked out again', () => {
    const boat = boatOf(sandwort());
    const session = new Session(boat);
    const before = session.holes();
    session.open({ ...boat, name: 'Renamed' });
    expect(session.holes()).toBe(before);
  });
});
