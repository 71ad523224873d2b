import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { readBoat } from '@core/boat/read';
import type { Boat, LineKind } from '@core/boat/schema/boat';
import { takeoffCsv } from '@core/output/takeoff/csv';
import type { TakeoffRow } from '@core/output/takeoff/row';
import { roundedUp, type TakeoffInput, type TakeoffLine, takeoff } from '@core/output/takeoff/takeoff';
import type { Crossing } from '@core/runs/routing/types';
import Papa from 'papaparse';
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
    ends: [end, end],
    run: lengthM === null ? null : { lengthM, crossings: [] },
    spare: null,
    places: ['Aft locker', 'Middle locker'],
    ...more,
  };
}

const inputOf = (lines: readonly TakeoffLine[]): TakeoffInput => ({
  parts: [],
  lines,
  panels: { 'aft|middle': { name: 'Bulkhead', thicknessM: 0.015, material: 'ply' } },
});

const rowOf = (rows: readonly TakeoffRow[], key: string): TakeoffRow => {
  const row = rows.find((candidate) => candidate.key === key);
  if (!row) throw new Error(`no row ${key} among ${rows.map((candidate) => candidate.key).join(', ')}`);
  return row;
};

describe('the parts-and-lengths list', () => {
  it('adds hoses of one kind, with what is cut away, a reserve and the step in which it is sold', () => {
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2), lineOf('raw-2', 0.73)]));
    // Derived: 1.2 + 0.73 = 1.93; + 4 ends of 0.05 = 2.13; 1.93 x 1.1 + 0.2 = 2.323; sold by half metres: 2.5.
    expect(rowOf(rows, 'line|hose-suction-19')).toMatchObject({
      group: 'hose',
      quantity: 2.13,
      leastM: 1.93,
      greatestM: 2.323,
      buy: 2.5,
      unit: 'm',
      from: ['raw-1', 'raw-2'],
    });
  });

  it('lists two ends a line, and clips so that no span is longer than the kind allows', () => {
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2), lineOf('raw-2', 0.73)]));
    expect(rowOf(rows, 'end|hose-suction-19|barb and two clamps').quantity).toBe(4);
    // Derived, every 0.45 m at most: 1.2 m needs 3 spans, so 2 clips; 0.73 m needs 2 spans, so 1.
    expect(rowOf(rows, 'clip|hose-suction-19').quantity).toBe(3);
    const exact = takeoff(inputOf([lineOf('raw-1', 0.9)]));
    expect(rowOf(exact, 'clip|hose-suction-19').quantity).toBe(1);
  });

  it('lists each hole to be drilled and a grommet for it, but none that is there', () => {
    const run = { lengthM: 1, crossings: [hole('aft|middle', 0.0265), hole('aft|middle', 0.03, 'loom')] };
    const rows = takeoff(inputOf([lineOf('raw-1', 1, { run }), lineOf('raw-2', 1, { run })]));
    expect(rows.filter(({ group }) => group === 'hole').map(({ key }) => key)).toEqual([
      'hole|aft|middle|raw-1|1',
      'hole|aft|middle|raw-2|1',
    ]);
    const first = rowOf(rows, 'hole|aft|middle|raw-1|1');
    expect(first).toMatchObject({ item: 'Hole 27 mm for Intake to strainer', place: 'Bulkhead', buy: 0 });
    expect(first.note).toBe('centre at x 1008, y 100, z -200 mm, 15 mm plywood');
    expect(rowOf(rows, 'grommet|27')).toMatchObject({ quantity: 2, from: ['raw-1', 'raw-2'] });
  });

  it('says where the spare length of a supplied hose goes', () => {
    const line = { ...lineOf('raw-1', 1.2).line, supplied: { lengthM: 1.5, spareM: 0.05, mayCut: false } };
    const noteWith = (spare: TakeoffLine['spare']) =>
      rowOf(takeoff(inputOf([lineOf('raw-1', 1.2, { line, spare })])), 'supplied|raw-1').note;
    const shape = { excessM: 0.3, at: [0, 0, 0], spanM: 0.42, heightM: 0.18, radiusM: 0.12, prims: [] } as const;
    expect(noteWith({ kind: 'bulge', count: 1, ...shape })).toBe(
      'supplied; 300 mm to spare: lay it in a bulge that stands out 180 mm over 420 mm of the run',
    );
    expect(noteWith({ kind: 'coil', count: 2, ...shape })).toContain('coil it in 2 turns of 180 mm across');
    expect(noteWith({ kind: 'noPlace', excessM: 0.3 })).toContain('no free place');
  });

  it('says of a supplied hose what it leaves to spare, and brings its ends', () => {
    const supplied = { lengthM: 1.5, spareM: 0.05, mayCut: false };
    const line = { ...lineOf('raw-1', 1.2).line, supplied };
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2, { line })]));
    expect(rowOf(rows, 'supplied|raw-1')).toMatchObject({
      quantity: 1,
      unit: 'piece',
      note: 'supplied; 300 mm to spare',
    });
    expect(rows.some(({ group }) => group === 'end')).toBe(false);
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

  it('cuts from sold lengths without joining', () => {
    const kind = { ...kindOf('hose-suction-19'), soldLengthsM: [2, 5] };
    const rows = takeoff(
      inputOf([
        lineOf('raw-1', 1.5, { kind }),
        lineOf('raw-2', 0.2, { kind }),
        lineOf('power', 1.5, { kind, kindId: 'hose-suction-19' }),
      ]),
    );
    // Derived: pieces of 1.75, 1.75 and 0.32 m; the third goes with neither rest of 0.25, so three packs of 2 m.
    expect(rowOf(rows, 'line|hose-suction-19').buy).toBe(6);
  });

  it('leaves out what is aboard, and names what is not placed or routed', () => {
    const boat = lockers();
    const existing = { ...lineOf('raw-2', 1).line, existing: true };
    const rows = takeoff({
      ...inputOf([lineOf('raw-1', null), lineOf('raw-2', 1, { line: existing })]),
      parts: [
        { id: 'pump', part: boat.parts.pump as NonNullable<typeof boat.parts.pump>, place: undefined },
        {
          id: 'strainer',
          part: boat.parts.strainer as NonNullable<typeof boat.parts.strainer>,
          place: 'Middle locker',
        },
      ],
    });
    expect(rows.map(({ key }) => key)).toEqual([
      'part|strainer',
      'end|hose-suction-19|barb and two clamps',
      'notPlaced|pump',
      'notRouted|raw-1',
    ]);
  });

  it('does not depend on the order of the records', () => {
    const lines = [lineOf('raw-1', 1.1), lineOf('raw-2', 0.7), lineOf('product', 2.3), lineOf('power', 3.1)];
    expect(takeoff(inputOf([...lines].reverse()))).toEqual(takeoff(inputOf(lines)));
  });

  it('rounds up without a step for the dust of a sum', () => {
    expect(roundedUp(0.1 + 0.2, 0.1)).toBe(0.3);
    expect(roundedUp(2.0001, 0.5)).toBe(2.5);
    expect(roundedUp(2.0001, 0)).toBe(2.0001);
  });
});

describe('the list as comma-separated values', () => {
  it('reads back cell by cell, with units in the header', () => {
    const rows = takeoff(inputOf([lineOf('raw-1', 1.2)]));
    const parsed = Papa.parse<Record<string, string>>(takeoffCsv(rows).trimEnd(), { header: true });
    expect(parsed.errors).toEqual([]);
    expect(parsed.meta.fields).toContain('Least (m)');
    expect(parsed.data.map((row) => row.Key)).toEqual(rows.map(({ key }) => key));
    expect(parsed.data[0]).toMatchObject({ Group: 'Hose', Quantity: '1.3', Unit: 'm', Buy: '1.5' });
  });

  it('lets no name of the file act as a formula, and keeps commas, quotes and umlauts', () => {
    const line = { ...lineOf('raw-1', 1).line, name: '=HYPERLINK("x"), "Bögen"' };
    const kind = { ...kindOf('hose-suction-19'), name: '=1+1' };
    const text = takeoffCsv(takeoff(inputOf([lineOf('raw-1', 1, { line, kind })])));
    const cells = Papa.parse<string[]>(text.trimEnd()).data.flat();
    expect(cells.filter((cell) => /^[=+\-@\t]/.test(cell))).toEqual([]);
    expect(cells).toContain("'=1+1");
    expect(text).toContain('Bögen');
    expect(text.endsWith('\r\n')).toBe(true);
  });
});
