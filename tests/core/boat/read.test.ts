import { readBoat } from '@core/boat/read';
import { type Boat, LIMITS } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BoatDraft, emptyBoat, threeLockers } from '../../support/boats';

function boatOf(draft: BoatDraft): Boat {
  const result = readBoat(JSON.stringify(draft));
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
}

function messagesOf(text: string): readonly string[] {
  const result = readBoat(text);
  return result.ok ? [] : result.problems.map(({ message }) => message);
}

/** Three lockers with the value at a path changed, as a slip of the hand would; null takes the key away. */
function changed(path: string, value: unknown): string {
  const draft: unknown = JSON.parse(JSON.stringify(threeLockers()));
  const keys = path.split('/');
  const last = keys.pop() ?? '';
  let at = draft as Record<string, unknown>;
  for (const key of keys) {
    at[key] ??= {};
    at = at[key] as Record<string, unknown>;
  }
  if (value === null) delete at[last];
  else at[last] = value;
  return JSON.stringify(draft);
}

describe('a boat that is read', () => {
  it('has its defaults filled in and its numbers to a micrometre', () => {
    const boat = boatOf({ ...threeLockers(), newHoleCostM: 0.123456789 });
    expect(boat.newHoleCostM).toBe(0.123457);
    expect(boat.practice).toBe('isoSmallCraft');
    expect(boat.arrangements.first?.places.pump?.yawDeg).toBe(0);
  });

  it('survives writing and reading, small boats staying small files', () => {
    for (const draft of [emptyBoat(), threeLockers()]) {
      const boat = boatOf(draft);
      const text = writeBoat(boat);
      const again = readBoat(text);
      expect(again.ok && { ...again.boat, engineVersion: undefined }).toEqual({ ...boat, engineVersion: undefined });
      expect(again.ok && writeBoat(again.boat)).toBe(text);
    }
    expect(writeBoat(boatOf(emptyBoat())).split('\n').length).toBeLessThan(10);
  });

  it('survives whatever numbers are in it', () => {
    const metres = fc.double({ min: -900, max: 900, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(metres, metres, metres), fc.double({ min: -360, max: 360, noNaN: true }), (at, yawDeg) => {
        const draft = threeLockers();
        const boat = boatOf({
          ...draft,
          arrangements: { first: { name: 'First', places: { pump: { at, yawDeg } } } },
        });
        const again = readBoat(writeBoat(boat));
        expect(again.ok && again.boat.arrangements).toEqual(boat.arrangements);
        const [x = 0] = boat.arrangements.first?.places.pump?.at ?? [];
        expect(Math.abs(x - at[0])).toBeLessThanOrEqual(0.5000001e-6);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it('is the same whatever the order of its records', () => {
    const draft = threeLockers();
    const turned = Object.fromEntries(
      Object.entries(draft)
        .reverse()
        .map(([key, value]) => [
          key,
          typeof value === 'object' && !Array.isArray(value)
            ? Object.fromEntries(Object.entries(value as object).reverse())
            : value,
        ]),
    );
    expect(writeBoat(boatOf(turned as BoatDraft))).toBe(writeBoat(boatOf(draft)));
  });

  it('keeps keys that the schema does not know, and names them', () => {
    const draft = JSON.parse(JSON.stringify(threeLockers()));
    draft.parts.pump.colour = 'blue';
    draft.compartments.aft.grad = 'measured';
    const result = readBoat(JSON.stringify(draft));
    expect(result.ok && result.notes.map((note) => note.split(' ')[0]).sort()).toEqual([
      'compartments.aft.grad',
      'parts.pump.colour',
    ]);
    expect(result.ok && JSON.parse(writeBoat(result.boat)).parts.pump.colour).toBe('blue');
  });

  it('cannot be changed in place', () => {
    const boat = boatOf(threeLockers());
    expect(() => Object.assign(boat.compartments.aft ?? {}, { name: 'x' })).toThrow(TypeError);
  });

  it('may begin with a byte order mark', () => {
    expect(readBoat(`\ufeff${JSON.stringify(emptyBoat())}`).ok).toBe(true);
  });
});

describe('a file that cannot be used', () => {
  const bow: [number, number][] = [
    [-0.6, -0.4],
    [0.6, 0.4],
    [0.6, -0.4],
    [-0.6, 0.4],
  ];
  const idWords =
    'an id begins with a letter or digit, holds letters, digits, ".", "_" and "-" only, and has at most 64 of them';
  const cases: readonly (readonly [string, unknown, string])[] = [
    [
      'compartments/aft/rangeM',
      [1.2, 0.4],
      'compartments.aft.rangeM is [1.2, 0.4], the first must be below the second',
    ],
    [
      'compartments/aft/outline',
      bow,
      'compartments.aft.outline is [[-0.6, -0.4], [0.6, 0.4], [0.6, -0.4], [-0.6, 0.4]], the sides from corner 0 and from corner 2 cross or touch',
    ],
    [
      'compartments/aft/outline/1',
      [-0.6, -0.4],
      'compartments.aft.outline is [[-0.6, -0.4], [-0.6, -0.4], [0.6, 0.4], [-0.6, 0.4]], corners 0 and 1 are the same point',
    ],
    ['compartments/aft/view', 'top', 'compartments.aft.view is "top", it must be one of "plan", "profile", "section"'],
    ['compartments/aft/name', '', 'compartments.aft.name is "", it must not be empty'],
    ['panels/aft-middle/thicknessM', -1, 'panels.aft-middle.thicknessM is -1, it must be at least 0 m'],
    ['openings/lid/widthM', 0, 'openings.lid.widthM is 0, it must be above 0 m'],
    ['openings/lid/widthM', '0.8', 'openings.lid.widthM is "0.8", a number is needed'],
    ['openings/lid/normal', [0, 0, 0], 'openings.lid.normal is [0, 0, 0], it has no length'],
    ['openings/lid/up', [0, 0, 2], 'openings.lid.up is [0, 0, 2], it must not run along the normal of the opening'],
    ['openings/lid/widthM', null, 'openings.lid.widthM is missing, a number is needed'],
    [
      'openings/lid/compartment',
      'for',
      'openings.lid.compartment is "for", no compartment has that id; did you mean fore?',
    ],
    [
      'lines/raw-1/from/thing',
      'intakes',
      'lines.raw-1.from.thing is "intakes", no fixture or part has that id; did you mean intake?',
    ],
    ['lines/raw-1/from/port', 'inlet', 'lines.raw-1.from.port is "inlet", intake has the ports out'],
    [
      'lines/raw-1/kind',
      'hose-suction-18',
      'lines.raw-1.kind is "hose-suction-18", neither the boat\'s lineKinds nor the catalogue has that kind; did you mean hose-suction-13?',
    ],
    [
      'lines/raw-1/supplied',
      { lengthM: 0.04 },
      'lines.raw-1.supplied.spareM is 0.05, it must be below the supplied length, 0.04 m',
    ],
    [
      'panels/aft-middle/holes',
      { old: { at: [0, 0, 0], diameterM: 0.03, carries: { loom: { name: 'Loom', diameterM: 0.05 } } } },
      'panels.aft-middle.holes.old.carries.loom.diameterM is 0.05, it must be at most the diameter of its hole, 0.03 m',
    ],
    [
      'arrangements/first/pins',
      {
        'raw-1': {
          points: [
            [0, 0, 0],
            [1, 0, 0],
          ],
          radiiM: [0.1],
        },
      },
      'arrangements.first.pins.raw-1.radiiM is [0.1], it must have one radius for each point between the first and the last',
    ],
    [
      'arrangements/first/places/tank',
      { at: [0, 0, 0] },
      'arrangements.first.places.tank is "tank", it is a fixture, which has its own pose',
    ],
    [
      'arrangements/first/places/pump/at',
      [0, 0],
      'arrangements.first.places.pump.at is [0, 0], it must have at least 3 members',
    ],
    ['currentArrangement', 'second', 'currentArrangement is "second", no arrangement has that id'],
    [
      'parts/tank',
      { name: 'Tank', kind: 'waterTank', shape: { type: 'box', sizeM: [1, 1, 1] } },
      'parts.tank is "tank", a fixture has that id already; fixtures and parts share one set of ids',
    ],
    ['parts/pump/shape/type', 'ball', 'parts.pump.shape.type is "ball", it must be one of "box", "cylinder"'],
    ['parts/a pump', {}, `parts.a pump is "a pump", ${idWords}`],
    ['parts/constructor', {}, 'parts.constructor is "constructor", an id is a reserved word'],
    [
      'panels/aft-middle/between',
      ['aft', 'aft'],
      'panels.aft-middle.between is ["aft", "aft"], a panel stands between two different spaces',
    ],
    [
      'fixtures/intake/valve/normally',
      'ajar',
      'fixtures.intake.valve.normally is "ajar", the valve has the states open, shut',
    ],
    [
      'pictures/deck',
      { file: '../deck.png' },
      'pictures.deck.file is "../deck.png", a plain file name is needed, without a folder',
    ],
    [
      'schemaVersion',
      2,
      'schemaVersion is 2, this program reads at most 1. This file was written by a newer version. It was not changed.',
    ],
    ['schemaVersion', 0, 'schemaVersion is 0, a version from 1 on is needed'],
    ['format', 'boat', 'format is "boat", a boat file has "underberth-boat"'],
  ];
  it.each(cases)('says what is wrong with %s', (path, value, message) => {
    expect(messagesOf(changed(path, value))).toContain(message);
  });

  it('names the sides of a station that cross, and lets an end come to a point', () => {
    const hull = (a: [number, number][], b: [number, number][]): string =>
      changed('hull', { stations: { a: { xM: 0, points: a }, b: { xM: 4, points: b } } });
    const fair: [number, number][] = [
      [0, -0.5],
      [1, 0.2],
      [1.1, 0.8],
    ];
    const crossing: [number, number][] = [
      [0, -0.5],
      [1, 0.2],
      [0.2, 0.3],
      [1, -0.1],
      [1.2, 0.9],
    ];
    expect(messagesOf(hull(fair, crossing))).toContain(
      'hull.stations.b.points[2] is [0.2, 0.3], the section crosses itself: the sides from point 0 and from point 2 meet',
    );
    const folded: [number, number][] = [
      [0, -0.5],
      [1, -0.5],
      [0.6, -0.5],
      [1.2, 0.9],
    ];
    expect(messagesOf(hull(fair, folded))).toContain(
      'hull.stations.b.points[1] is [1, -0.5], the section crosses itself: the sides from point 0 and from point 1 meet',
    );
    const point: [number, number][] = [
      [0, 0],
      [0, 0],
    ];
    expect(readBoat(hull(fair, point)).ok).toBe(true);
  });

  it('notes a hull that the water misses', () => {
    const hull = (low: number, more = {}): string =>
      changed('hull', {
        stations: Object.fromEntries(
          [0, 4].map((xM) => [
            `s${xM}`,
            {
              xM,
              points: [
                [0, low],
                [1, low + 0.5],
              ],
            },
          ]),
        ),
        ...more,
      });
    const notes = (text: string): readonly string[] => {
      const read = readBoat(text);
      return read.ok ? read.notes : read.problems.map(({ message }) => message);
    };
    expect(notes(hull(0.3)).join()).toContain('hull.stations.s0 is the deepest with its keel at z = 0.3');
    expect(notes(hull(-0.8)).join()).toContain('hull.stations.s0 is the highest with its sheer at z = -0.3');
    expect(notes(hull(-0.2))).toEqual([]);
  });

  it('notes two hulls that overlap, with both values: what they share is counted twice', () => {
    const notes = (offsetM: number, more = {}): readonly string[] => {
      const stations = {
        a: {
          xM: 0,
          points: [
            [0, -0.5],
            [0.8, 0.5],
          ],
        },
        b: {
          xM: 4,
          points: [
            [0, -0.5],
            [1, 0.5],
          ],
        },
      };
      const read = readBoat(changed('hull', { stations, offsetM, shellM: 0.02, liningM: 0.03, ...more }));
      return read.ok ? read.notes : read.problems.map(({ message }) => message);
    };
    expect(notes(0.7).join()).toContain('hull.offsetM is 0.7, less than the greatest half-breadth of 1:');
    expect(notes(1)).toEqual([]);
    expect(notes(0)).toEqual([]);
    // derived: shell and lining stand outside of what was measured from inside
    expect(notes(1, { measuredTo: 'inside' }).join()).toContain('less than the greatest half-breadth of 1.05:');
  });

  it('judges the hull: order of heights, coinciding stations, breadth', () => {
    const station = (xM: number, points: [number, number][]) => ({ xM, points });
    const fair: [number, number][] = [
      [0, -0.5],
      [1, 0.8],
    ];
    const hull = (stations: object): string => changed('hull', { stations });
    expect(messagesOf(hull({ a: station(0, fair) }))).toContain('hull.stations is 1, at least two stations are needed');
    expect(messagesOf(hull({ a: station(0, fair), b: station(0.0001, fair) }))).toContain(
      'hull.stations.b.xM is 0.0001, the station a stands at the same place',
    );
    const falling: [number, number][] = [...fair, [1.1, 0.7]];
    expect(messagesOf(hull({ a: station(0, fair), b: station(4, falling) }))).toContain(
      'hull.stations.b.points[2] is [1.1, 0.7], its height must not be below that of the point before it, 0.8 m',
    );
  });

  it('reports more than one problem at once, up to fifty', () => {
    const draft = threeLockers();
    const text = changed(
      'compartments',
      Object.fromEntries(
        Array.from({ length: 60 }, (_, k) => [`c${k}`, { ...draft.compartments?.aft, rangeM: [1, 0] }]),
      ),
    );
    expect(messagesOf(text)).toHaveLength(51);
  });
});

describe('a hostile file', () => {
  it('is refused before it is parsed when it is too large or nested too deep', () => {
    expect(messagesOf(' '.repeat(LIMITS.bytes + 1))).toEqual([
      `The file is ${LIMITS.bytes + 1} characters, at most ${LIMITS.bytes} can be read`,
    ]);
    expect(messagesOf('['.repeat(100_000))).toEqual(['The file is nested more than 40 deep, at most 40 is read']);
  });

  it('is refused when it is no JSON, no object, or cut short', () => {
    for (const text of ['', 'null', '[]', '"boat"', '{', '{"format":"underberth-boat"']) {
      expect(readBoat(text).ok).toBe(false);
    }
  });

  it('cannot reach the prototype of anything', () => {
    const text = '{"format":"underberth-boat","schemaVersion":1,"name":"x","__proto__":{"polluted":true}}';
    expect(messagesOf(text)).toEqual(['__proto__ is {"polluted":true}, this name cannot be used as a key']);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });

  it('is refused when it holds more records than can be worked with', () => {
    const many = (count: number): object => Object.fromEntries(Array.from({ length: count }, (_, k) => [`x${k}`, {}]));
    for (const [key, count] of [
      ['compartments', LIMITS.compartments + 1],
      ['parts', LIMITS.things + 1],
      ['lines', LIMITS.lines + 1],
    ] as const) {
      const [message] = messagesOf(changed(key, many(count)));
      expect(message).toContain(`at most ${count - 1} can be worked with`);
    }
  });

  it('is refused when numbers are not finite', () => {
    expect(messagesOf(changed('newHoleCostM', 1).replace('"newHoleCostM":1', '"newHoleCostM":1e999'))).toHaveLength(1);
  });

  it('never makes the reader throw, whatever is in it', () => {
    const keys = ['compartments', 'hull', 'parts', 'lines', 'arrangements', 'fixtures', 'panels', 'reference'];
    fc.assert(
      fc.property(fc.constantFrom(...keys), fc.jsonValue({ maxDepth: 4 }), (key, value) => {
        const result = readBoat(changed(key, value === null ? 0 : value));
        expect(typeof result.ok).toBe('boolean');
      }),
      { seed: 11, numRuns: 400 },
    );
  });
});
