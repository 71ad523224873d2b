import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { readBoat } from '@core/boat/read';
import type { Boat, LineKind } from '@core/boat/schema/boat';
import { bagsOf } from '@core/output/takeoff/bags';
import { type TakeoffEnd, type TakeoffInput, type TakeoffLine, USUAL_ALLOWANCES } from '@core/output/takeoff/input';
import { roundedUp } from '@core/output/takeoff/lengths';
import type { TakeoffRow } from '@core/output/takeoff/row';
import { priceOf, stillToBuy, stillToFit } from '@core/output/takeoff/stock';
import { takeoff } from '@core/output/takeoff/takeoff';
import type { Crossing } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';

function lockers(): Boat {
  const result = readBoat(JSON.stringify(threeLockers()));
  if (!result.ok) throw new Error('unreadable');
  return result.boat;
}

const kindOf = (id: string): LineKind => {
  const kind = LINE_KINDS[id];
  if (!kind) throw new Error(id);
  return kind;
};

const hole = (panelId: string, diameterM: number, holeId: string | null = null): Crossing => ({
  panelId,
  at: [1.0075, 0.1, -0.2],
  diameterM,
  holeId,
});

const endAt = (thing: string, place: string, more: Partial<TakeoffEnd> = {}): TakeoffEnd => ({
  thing,
  name: thing,
  isSeacock: false,
  isValve: false,
  place,
  ...more,
});

function lineOf(id: string, lengthM: number | null, more: Partial<TakeoffLine> = {}): TakeoffLine {
  const line = lockers().lines[id];
  if (!line) throw new Error(id);
  const kind = kindOf(line.kind);
  const end = kind.end ?? { angleDeg: 0, swivel: false, crimped: false };
  return {
    id,
    line,
    kindId: line.kind,
    kind,
    fittings: [end, end],
    ends: [endAt(`${id}-a`, 'Aft locker'), endAt(`${id}-b`, 'Middle locker')],
    run: lengthM === null ? null : { lengthM, crossings: [] },
    doubtM: 0,
    clips: [],
    spare: null,
    ...more,
  };
}

const inputOf = (lines: readonly TakeoffLine[], more: Partial<TakeoffInput> = {}): TakeoffInput => ({
  parts: [],
  lines,
  panels: { 'aft|middle': { name: 'Bulkhead', thicknessM: 0.015, material: 'ply' } },
  suppliedLengths: [],
  allowances: USUAL_ALLOWANCES,
  practice: 'isoSmallCraft',
  drilling: () => ({
    from: 'aft',
    edges: [
      { side: 'port', distanceM: 0.12 },
      { side: 'bottom', distanceM: 0.06 },
    ],
  }),
  compartmentName: () => 'Aft locker',
  ...more,
});

const rowOf = (rows: readonly TakeoffRow[], key: string): TakeoffRow => {
  const row = rows.find((candidate) => candidate.key === key);
  if (!row) throw new Error(`no row ${key} among ${rows.map((candidate) => candidate.key).join(', ')}`);
  return row;
};

/** In tenths of a millimetre, to the last digit. */
const tenths = (metres: number): number => Math.round(metres * 10_000);

function expectWhole(row: TakeoffRow): void {
  for (const { lengthM, pieces, wasteM } of row.cuts ?? [])
    expect(pieces.reduce((sum, piece) => sum + tenths(piece.lengthM), tenths(wasteM))).toBe(tenths(lengthM));
  const bought = (row.cuts ?? []).filter(({ supplied }) => !supplied);
  expect(bought.reduce((sum, { lengthM }) => sum + tenths(lengthM), 0)).toBe(tenths(row.buy));
}

describe('lengths in the parts-and-lengths list', () => {
  it('adds hoses of one kind, with what is cut away, a reserve and the step in which it is sold', () => {
    const row = rowOf(takeoff(inputOf([lineOf('raw-1', 1.2), lineOf('raw-2', 0.73)])), 'line|hose-suction-19');
    // Derived: 1.2 + 0.73 = 1.93; + 4 ends of 0.05 = 2.13; 1.93 x 1.1 + 0.2 = 2.323; sold by half metres: 2.5.
    expect(row).toMatchObject({ group: 'hose', quantity: 2.13, leastM: 2.13, greatestM: 2.323, buy: 2.5, unit: 'm' });
    expect(row.from).toEqual(['raw-1', 'raw-2']);
    // Derived: pieces of 1.3 and 0.83; 2.5 - 2.13 = 0.37 is left.
    expect(row.cuts).toEqual([
      {
        lengthM: 2.5,
        supplied: false,
        name: '',
        pieces: [
          { lineId: 'raw-1', name: 'Intake to strainer', lengthM: 1.3 },
          { lineId: 'raw-2', name: expect.any(String), lengthM: 0.83 },
        ],
        wasteM: 0.37,
      },
    ]);
    expectWhole(row);
  });

  it('says a length as a range by the grades of its ends, where they leave more open than the reserve', () => {
    const guessed = lineOf('raw-1', 1.2, { doubtM: 0.3 });
    const row = rowOf(takeoff(inputOf([guessed])), 'line|hose-suction-19');
    // Derived: 1.2 - 0.3 + 0.1 = 1.0; 1.2 + max(0.3, 0.12) + 0.1 = 1.6; sold by half metres: 2.
    expect(row).toMatchObject({ quantity: 1.3, leastM: 1, greatestM: 1.6, buy: 2 });
  });

  it('reckons with the allowances that the boat file sets', () => {
    const allowances = { ...USUAL_ALLOWANCES, makingUpM: 0.1, reserveShare: 0 };
    const row = rowOf(takeoff(inputOf([lineOf('raw-1', 1.2)], { allowances })), 'line|hose-suction-19');
    // Derived: 1.2 + 2 x 0.1 = 1.4; no reserve; sold by half metres: 1.5.
    expect(row).toMatchObject({ quantity: 1.4, greatestM: 1.4, buy: 1.5 });
  });

  it('cuts from what is supplied first, and buys only the rest', () => {
    const lines = [lineOf('raw-1', 1.2), lineOf('raw-2', 0.73)];
    const supply = { id: 'coil', kind: 'hose-suction-19', lengthM: 1, name: 'the hose of the set' };
    const row = rowOf(takeoff(inputOf(lines, { suppliedLengths: [supply] })), 'line|hose-suction-19');
    // Derived: the piece of 0.83 needs 0.73 x 1.1 + 0.1 = 0.903 of the metre; that of 1.3 needs 1.42, so 1.5 is bought.
    expect(row.buy).toBe(1.5);
    expect(row.cuts?.map(({ supplied, lengthM, wasteM }) => [supplied, lengthM, wasteM])).toEqual([
      [true, 1, 0.17],
      [false, 1.5, 0.2],
    ]);
    expect(row.note).toContain('from the hose of the set, 1 m');
    expectWhole(row);
    const other = { ...supply, kind: 'hose-suction-25' };
    expect(rowOf(takeoff(inputOf(lines, { suppliedLengths: [other] })), 'line|hose-suction-19').buy).toBe(2.5);
  });

  it('cuts from sold lengths without joining, and buys the least', () => {
    const kind = { ...kindOf('hose-suction-19'), soldLengthsM: [2, 5] };
    const pieces = [
      lineOf('raw-1', 1.5, { kind }),
      lineOf('raw-2', 0.2, { kind }),
      lineOf('power', 1.5, { kind, kindId: 'hose-suction-19' }),
    ];
    const row = rowOf(takeoff(inputOf(pieces)), 'line|hose-suction-19');
    // Derived: needs of 1.75, 1.75 and 0.32 m are 3.82 in all: one of 5 m holds them, three of 2 m would be 6.
    expect([row.buy, row.note]).toEqual([5, '1 x 5 m']);
    expectWhole(row);
  });

  it('orders what is longer than any sold length in one piece', () => {
    const kind = { ...kindOf('hose-suction-19'), soldLengthsM: [2] };
    const row = rowOf(takeoff(inputOf([lineOf('raw-1', 3, { kind })])), 'line|hose-suction-19');
    // Derived: 3 x 1.1 + 0.1 = 3.4.
    expect(row.buy).toBe(3.4);
    expect(row.cuts?.[0]?.name).toContain('order it in one piece');
  });

  it('orders a pressure hose by its own length, rounded up to 50 mm with room for shortening', () => {
    const kind = kindOf('hose-pressure-10');
    const line = { ...lineOf('raw-1', 1.2).line, kind: 'hose-pressure-10' };
    const rows = takeoff(inputOf([lineOf('raw-1', 2.31, { line, kind, kindId: 'hose-pressure-10' })]));
    // Derived: 2.31 x 1.04 = 2.4024, up to 2.45.
    expect(rowOf(rows, 'made|raw-1')).toMatchObject({
      quantity: 2.31,
      buy: 2.45,
      place: 'Aft locker to Middle locker',
    });
  });

  it('says of a supplied hose what it leaves to spare and where that goes, and brings its ends', () => {
    const line = { ...lineOf('raw-1', 1.2).line, supplied: { lengthM: 1.5, spareM: 0.05, mayCut: false } };
    const noteWith = (spare: TakeoffLine['spare']) =>
      rowOf(takeoff(inputOf([lineOf('raw-1', 1.2, { line, spare })])), 'supplied|raw-1').note;
    const shape = { excessM: 0.3, at: [0, 0, 0], spanM: 0.42, heightM: 0.18, radiusM: 0.12, prims: [] } as const;
    expect(noteWith(null)).toBe('supplied; 300 mm to spare');
    expect(noteWith({ kind: 'bulge', count: 1, ...shape })).toBe(
      'supplied; 300 mm to spare: lay it in a bulge that stands out 180 mm over 420 mm of the run',
    );
    expect(noteWith({ kind: 'noPlace', excessM: 0.3 })).toContain('no free place');
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2, { line })]));
    expect(rowOf(rows, 'supplied|raw-1')).toMatchObject({ quantity: 1, buy: 0, unit: 'piece' });
    expect(rows.filter(({ group }) => group === 'end' || group === 'clamp')).toEqual([]);
  });

  it('lists what is cut off a supplied hose that may be cut', () => {
    const line = { ...lineOf('raw-1', 1.2).line, supplied: { lengthM: 1.5, spareM: 0.05, mayCut: true } };
    const spare = { kind: 'cut', toM: 1.25, offM: 0.25 } as const;
    const row = rowOf(takeoff(inputOf([lineOf('raw-1', 1.2, { line, spare })])), 'supplied|raw-1');
    expect(row.cuts?.[0]).toMatchObject({ lengthM: 1.5, supplied: true, pieces: [{ lengthM: 1.25 }], wasteM: 0.25 });
  });

  it('rounds up without a step for the dust of a sum', () => {
    expect(roundedUp(0.1 + 0.2, 0.1)).toBe(0.3);
    expect(roundedUp(2.0001, 0.5)).toBe(2.5);
    expect(roundedUp(2.0001, 0)).toBe(2.0001);
  });
});

describe('fittings, holes and labels in the list', () => {
  it('lists two ends a line and two clamps a barb, fewer or more where the end says so', () => {
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2), lineOf('raw-2', 0.73)]));
    expect(rowOf(rows, 'end|hose-suction-19|barb').quantity).toBe(4);
    // Derived: 2 lines x 2 ends x 2 clamps, round a hose of 26 mm outside.
    expect(rowOf(rows, 'clamp|26')).toMatchObject({ quantity: 8, buy: 8 });
    const barb = { angleDeg: 0, swivel: false, crimped: false, name: 'barb' };
    const one = lineOf('raw-1', 1.2, { fittings: [{ ...barb, clamps: 1 }, barb] });
    expect(rowOf(takeoff(inputOf([one])), 'clamp|26').quantity).toBe(3);
  });

  it('takes the words on clamps from the practice that counts', () => {
    const note = (practice: TakeoffInput['practice']) =>
      rowOf(takeoff(inputOf([lineOf('raw-1', 1)], { practice })), 'clamp|26').note;
    expect(note('isoSmallCraft')).toContain('ISO');
    expect(note('usVoluntary')).toContain('US voluntary');
  });

  it('lists each hole with its panel, size, side and edges, and a grommet for it, but none that is there', () => {
    const run = { lengthM: 1, crossings: [hole('aft|middle', 0.0265), hole('aft|middle', 0.03, 'loom')] };
    const rows = takeoff(inputOf([lineOf('raw-1', 1, { run }), lineOf('raw-2', 1, { run })]));
    expect(rows.filter(({ group }) => group === 'hole').map(({ key }) => key)).toEqual([
      'hole|aft|middle|raw-1|1',
      'hole|aft|middle|raw-2|1',
    ]);
    const first = rowOf(rows, 'hole|aft|middle|raw-1|1');
    expect(first).toMatchObject({ item: 'Hole 27 mm for Intake to strainer', place: 'Bulkhead', buy: 0 });
    expect(first.note).toBe(
      'drill from Aft locker, 120 from the port side, 60 above the bottom; centre at x 1008, y 100, z -200 mm, 15 mm plywood',
    );
    expect(first.hole).toMatchObject({ panel: 'Bulkhead', diameterM: 0.027, drillFrom: 'Aft locker' });
    expect(rowOf(rows, 'grommet|27')).toMatchObject({ quantity: 2, from: ['raw-1', 'raw-2'] });
  });

  it('drills a planned hole once, whoever shares it', () => {
    const run = { lengthM: 1, crossings: [{ ...hole('aft|middle', 0.05), newHoleId: 'cut' }] };
    const rows = takeoff(inputOf([lineOf('raw-1', 1, { run }), lineOf('raw-2', 1, { run })]));
    expect(rowOf(rows, 'hole|cut')).toMatchObject({ quantity: 1, from: ['raw-1', 'raw-2'] });
    expect(rowOf(rows, 'grommet|50')).toMatchObject({ quantity: 1, from: ['raw-1', 'raw-2'] });
  });

  it('labels hose ends with medium and arrow, wires at both ends, valves and seacocks once each', () => {
    const cock = endAt('cock', 'Aft locker', { isSeacock: true, isValve: true });
    const rows = takeoff(
      inputOf([
        lineOf('raw-1', 1, { ends: [cock, endAt('strainer', 'Middle locker')] }),
        lineOf('raw-2', 1, { ends: [cock, endAt('pump', 'Middle locker')] }),
        lineOf('power', 1),
      ]),
    );
    const hoses = rowOf(rows, 'label|hose|seaWater');
    expect(hoses.quantity).toBe(4);
    expect(hoses.spread.map(({ what }) => what)).toContain('Intake to strainer, arrow to strainer');
    expect(rowOf(rows, 'label|wire|dcPower').quantity).toBe(2);
    expect(rowOf(rows, 'label|seacock')).toMatchObject({ quantity: 1, from: ['cock'] });
  });

  it('leaves out what is aboard, and names what is not placed or routed', () => {
    const boat = lockers();
    const existing = { ...lineOf('raw-2', 1).line, existing: true };
    const rows = takeoff(
      inputOf([lineOf('raw-1', null), lineOf('raw-2', 1, { line: existing })], {
        parts: [
          { id: 'pump', part: boat.parts.pump as NonNullable<typeof boat.parts.pump>, place: undefined },
          {
            id: 'strainer',
            part: boat.parts.strainer as NonNullable<typeof boat.parts.strainer>,
            place: 'Middle locker',
          },
        ],
      }),
    );
    expect(rows.filter(({ group }) => !['end', 'clamp'].includes(group)).map(({ key }) => key)).toEqual([
      'part|strainer',
      'notPlaced|pump',
      'notRouted|raw-1',
    ]);
    expect(rows.find(({ key }) => key === 'notPlaced|pump')?.buy).toBe(1);
  });

  it('puts hardware into one bag a place', () => {
    const clips = [
      { alongM: 0.4, place: 'Aft locker', isFar: false },
      { alongM: 0.8, place: 'Middle locker', isFar: false },
    ];
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2, { clips })]));
    const aft = bagsOf(rows).find(({ place }) => place === 'Aft locker');
    expect(aft?.contents.map(({ row, quantity }) => [row.group, quantity])).toEqual([
      ['hose', 1],
      ['end', 1],
      ['clamp', 2],
      ['clip', 1],
      ['label', 1],
    ]);
    // Nothing is lost on the way into the bags: every piece that is counted lies in one.
    const counted = rows.filter(({ unit }) => unit === 'piece').reduce((sum, { quantity }) => sum + quantity, 0);
    const bagged = bagsOf(rows).flatMap(({ contents }) => contents.filter(({ row }) => row.unit === 'piece'));
    expect(bagged.reduce((sum, { quantity }) => sum + quantity, 0)).toBe(counted);
  });

  it('does not depend on the order of the records', () => {
    const lines = [lineOf('raw-1', 1.1), lineOf('raw-2', 0.7), lineOf('product', 2.3), lineOf('power', 3.1)];
    const supplied = [
      { id: 'a', kind: 'hose-suction-19', lengthM: 1.3 },
      { id: 'b', kind: 'hose-suction-19', lengthM: 1.3 },
    ];
    const once = takeoff(inputOf(lines, { suppliedLengths: supplied }));
    expect(takeoff(inputOf([...lines].reverse(), { suppliedLengths: [...supplied].reverse() }))).toEqual(once);
  });
});

describe('what is still to be bought', () => {
  it('counts down by what is there and what is bought, by the key of the row', () => {
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2), lineOf('raw-2', 0.73)]));
    const clamps = rowOf(rows, 'clamp|26');
    // Derived: 8 - 2 - 3 = 3; never below nothing.
    expect(stillToBuy(clamps, { 'clamp|26': { have: 2, bought: 3 } })).toBe(3);
    expect(stillToBuy(clamps, { 'clamp|26': { have: 20 } })).toBe(0);
    expect(stillToFit(clamps, { 'clamp|26': { fitted: 5 } })).toBe(3);
    expect(stillToBuy(clamps, undefined)).toBe(8);
  });

  it('sums the prices that the file has, and counts what has none', () => {
    const kind = { ...kindOf('hose-suction-19'), pricePerM: 8.4 };
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2, { kind })]));
    // Derived: 1.2 x 1.1 + 0.1 = 1.42, sold 1.5; 1.5 x 8.40 = 12.60. Ends, clamps and labels have no price.
    expect(priceOf(rows)).toEqual({ sum: 12.6, unknown: 3 });
    expect(priceOf(takeoff(inputOf([lineOf('raw-1', 1.2)])))).toBeNull();
  });
});
