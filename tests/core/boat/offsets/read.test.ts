import { loftedText, readOffsetCell } from '@core/boat/offsets/cell';
import { readOffsets } from '@core/boat/offsets/read';
import { offsetsCsv } from '@core/boat/offsets/write';
import type { Hull } from '@core/boat/schema/boat';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { hullOf, wigley } from '../../../support/hull-shapes';

const LENGTH = 10;
const BEAM = 3;
const DRAUGHT = 1.2;
const STATIONS = 21;
const LEVELS = 15;
const LEVEL = { up: [0, 0, 1], levelM: 0 } as const;
/** published: Wigley's form displaces 4/9 L B T (integral of its closed form). */
const VOLUME = (4 / 9) * LENGTH * BEAM * DRAUGHT;

/** The lofting table of a Wigley hull: stations across, heights of the waterlines down, figures written by `write`. */
function wigleyTable(write: (metres: number) => string, separator: string): string {
  const { stations } = wigley(LENGTH, BEAM, DRAUGHT, STATIONS, LEVELS);
  const list = Object.values(stations);
  const levels = list[0]?.points.map(([, z]) => z) ?? [];
  return [
    ['Station', ...list.map((_, i) => String(i))],
    ['x', ...list.map(({ xM }) => write(xM))],
    ['Half-breadths', ...list.map(() => '')],
    ...levels.map((z, j) => [`WL ${write(z)}`, ...list.map(({ points }) => write(points[j]?.[0] ?? 0))]),
  ]
    .map((row) => row.join(separator))
    .join('\n');
}

const volumeOf = (stations: Hull['stations']): number =>
  hydrostatics(hullSurface({ ...hullOf([]), stations }), LEVEL).volumeM3;

const messages = (text: string, choices = {}): readonly string[] =>
  readOffsets(text, choices).faults.map(({ message }) => message);

describe('figures of a table of offsets', () => {
  it.each([
    // derived: 2 x 304.8 + 3.5 x 25.4 = 698.5 mm; the plus is half an eighth, 1.5875 mm
    ['2-3-4', 0.6985],
    ['2-3-4+', 0.700088],
    ['0-0-1', 0.003175],
    ['-1-6-0', -0.4572],
    ['2\' 3 1/2"', 0.6985],
    ['0', 0],
  ])('%s is %s m', (text, metres) => {
    expect(readOffsetCell(text, 'ft-in-8', '.')).toEqual({ kind: 'value', valueM: metres });
  });

  it.each([
    ['1241', 'mm', '.', 1.241],
    ['1241,5', 'mm', ',', 1.2415],
    ['124.1', 'cm', '.', 1.241],
    ['1,241', 'm', ',', 1.241],
    ['-0.3', 'm', '.', -0.3],
    ['45 cm', 'mm', '.', 0.45],
  ] as const)('%s in %s with %s is %s m', (text, unit, decimal, metres) => {
    expect(readOffsetCell(text, unit, decimal)).toEqual({ kind: 'value', valueM: metres });
  });

  it.each(['', '-', '\u2013', '...', 'n/a'])('%s is no figure', (text) => {
    expect(readOffsetCell(text, 'mm', '.')).toEqual({ kind: 'none' });
  });

  it('a slip is told with its limit', () => {
    expect(readOffsetCell('2-13-0', 'ft-in-8', '.')).toEqual({
      kind: 'fault',
      words: "'2-13-0' has 13 inches, at most 11",
    });
    expect(readOffsetCell('2-3-9', 'ft-in-8', '.')).toEqual({
      kind: 'fault',
      words: "'2-3-9' has 9 eighths, at most 7",
    });
    expect(readOffsetCell('12x4', 'mm', '.').kind).toBe('fault');
    expect(readOffsetCell('700', 'ft-in-8', '.').kind).toBe('fault');
  });

  it('is written back to the sixteenth', () => {
    for (let sixteenths = -400; sixteenths <= 400; sixteenths += 7) {
      const metres = (sixteenths * 0.0254) / 16;
      const read = readOffsetCell(loftedText(metres), 'ft-in-8', '.');
      expect(read.kind === 'value' && Math.abs(read.valueM - metres)).toBeLessThan(1e-6);
    }
  });
});

describe('a table of offsets', () => {
  it.each([
    ['millimetres, tabs', (m: number) => String(Math.round(m * 1000)), '\t', 'mm'],
    ['millimetres, commas', (m: number) => String(Math.round(m * 1000)), ',', 'mm'],
    ['metres, semicolons and decimal commas', (m: number) => m.toFixed(3).replace('.', ','), ';', 'm'],
    ['centimetres', (m: number) => (m * 100).toFixed(1), '\t', 'cm'],
    ['feet, inches and eighths', loftedText, '\t', 'ft-in-8'],
  ] as const)('a Wigley hull in %s has its volume to a thousandth', (_, write, separator, unit) => {
    const read = readOffsets(wigleyTable(write, separator));
    expect(read.faults).toEqual([]);
    expect(read.unit).toBe(unit);
    expect(read.order).toHaveLength(STATIONS);
    expect(Math.abs(volumeOf(read.stations) / VOLUME - 1)).toBeLessThan(0.001);
  });

  it('reads the blocks of the lofting floor, with keel, sheer and heights below the water', () => {
    const read = readOffsets(
      [
        'Offsets of a small sloop',
        'Station\t0\t1\t2',
        'x\t0\t2000\t4000',
        'Heights above WL',
        'Sheer\t900\t850\t950',
        'Heights below WL',
        'Keel\t300\t600\t100',
        'Buttock 300\t200\t450\t-',
        'Half-breadths',
        'Sheer\t800\t1200\t50',
        'WL 300\t700\t1150\t20',
        'WL 0\t500\t1000\t10',
      ].join('\n'),
    );
    expect(read.faults).toEqual([]);
    expect(read.stations.s1).toEqual({
      xM: 2,
      taken: 'table',
      points: [
        [0, -0.6],
        [0.3, -0.45],
        [1, 0],
        [1.15, 0.3],
        [1.2, 0.85],
      ],
    });
    expect(read.stations.s2?.points).toHaveLength(4);
  });

  it('reads stations down, from the bow, and a chine', () => {
    const read = readOffsets(
      [
        'Station,x from bow,Keel height,Chine half-breadth,Chine height,Sheer half-breadth,Sheer height',
        'A,0,100,0,400,50,1100',
        'B,2000,-300,800,-100,1000,950',
        'C,4000,-400,900,-150,1050,900',
      ].join('\n'),
    );
    expect(read.faults).toEqual([]);
    const stations = read.order.map((id) => read.stations[id]);
    // derived: x from the bow of 4000 is the aftmost station, x = 0
    expect(stations.map((station) => station?.xM)).toEqual([0, 2, 4]);
    expect(stations[0]?.points).toEqual([
      [0, -0.4],
      [0.9, -0.15],
      [1.05, 0.9],
    ]);
    expect(stations[0]?.knuckles).toEqual([1]);
  });

  it('takes the distance between stations and the height of the water from whoever knows them', () => {
    const text =
      'Station\t0\t1\nHeights\nKeel\t100\t200\nSheer\t1500\t1600\nHalf-breadths\nSheer\t600\t700\nWL 500\t400\t500';
    expect(messages(text)[0]).toMatch(/where the stations stand is not given/);
    const read = readOffsets(text, { spacingM: 1.5, waterM: 0.5, unit: 'mm' });
    expect(read.faults).toEqual([]);
    expect(read.stations.s1).toMatchObject({
      xM: 1.5,
      points: [
        [0, -0.3],
        [0.5, 0],
        [0.7, 1.1],
      ],
    });
  });

  it('a list of points is read as it stands, knuckles too, and written again it is the same hull', () => {
    const hull = hullOf([
      {
        xM: 0,
        points: [
          [0, -0.5],
          [0.333333, -0.2],
          [0.9, 0.75],
        ],
        knuckles: [1],
      },
      {
        xM: 3.25,
        points: [
          [0.05, -0.8],
          [1.1, 0.8],
        ],
      },
    ]);
    const read = readOffsets(offsetsCsv(hull, 'mm'));
    expect(read.faults).toEqual([]);
    expect(Object.values(read.stations).map(({ taken: _, ...station }) => station)).toEqual(
      Object.values(hull.stations),
    );
    const again = readOffsets(offsetsCsv({ stations: read.stations }, 'ft-in-8'));
    expect(again.faults).toEqual([]);
    for (const [id, station] of Object.entries(again.stations))
      station.points.forEach(([y, z], i) => {
        // derived: half a sixteenth of an inch is 0.8 mm
        expect(Math.abs(y - (read.stations[id]?.points[i]?.[0] ?? 0))).toBeLessThan(0.0008);
        expect(Math.abs(z - (read.stations[id]?.points[i]?.[1] ?? 0))).toBeLessThan(0.0008);
      });
  });
});

describe('a table that is wrong', () => {
  it('tells every slip at once, by row and column', () => {
    const text = [
      'Station\t0\t1\t2',
      'x\t0-0-0\t6-6-0\t13-0-0',
      'Half-breadths',
      'WL -1-0-0\t1-0-0\t2-13-0\t0-9-0',
      'WL 0\t2-0-0\t3-2-9\tabout 2',
      'WL 1-0-0\t2-2-0\t3-4-0\t2-0-0',
    ].join('\n');
    expect(messages(text)).toEqual([
      "row 4, column 3: '2-13-0' has 13 inches, at most 11",
      "row 5, column 3: '3-2-9' has 9 eighths, at most 7",
      "row 5, column 4: 'about 2' is no length: feet, inches and eighths, as in 2-3-4",
    ]);
  });

  it('ragged rows are told with both counts', () => {
    const text = 'Station,0,1,2\nx,0,1000,2000\nWL 0,300,500\nWL 500,400,600,300,200\nSheer,1,1,1';
    const told = messages(text);
    expect(told).toContain('row 3: 3 cells, the heading has 4: put - where there is no figure');
    expect(told).toContain('row 4: 5 cells, the heading has 4');
  });

  it('stations out of order and two at one place are told', () => {
    const rows = (xs: string) => `Station\t0\t1\t2\nx\t${xs}\nWL 0\t300\t500\t400\nWL 500\t400\t600\t500`;
    expect(messages(rows('0\t3000\t2000'))).toEqual([
      'row 2, column 4: station 2 at 2000 mm is out of order: station 1 before it is at 3000 mm',
    ]);
    expect(messages(rows('0\t3000\t3000'))).toEqual([
      'row 2, column 4: station 2 stands where station 1 stands, at 3000 mm',
    ]);
  });

  it('a section that crosses itself is told at the figure', () => {
    const list =
      'Station,x,Half-breadth,Height\n0,0,0,-500\n0,0,400,100\n0,0,300,-200\n0,0,500,800\n1,2000,0,-400\n1,2000,500,800';
    expect(messages(list)).toEqual([
      'row 4, column 4: station 0: height -200 mm lies below the point before it, 100 mm: the section crosses itself',
    ]);
    const table =
      'Station\t0\t1\nx\t0\t2000\nHeights\nButtock 200\t-100\t-400\nHalf-breadths\nWL -300\t400\t300\nWL 0\t500\t600';
    expect(messages(table)).toEqual([
      'row 4, column 2: station 0: Buttock 200 at 200 mm, -100 mm contradicts WL -300 and WL 0: the section would cross itself',
    ]);
  });

  it('a line above the sheer or below the keel, a missing half of a pair and an unknown heading are told', () => {
    const text = [
      'Station\t0\t1',
      'x\t0\t2000',
      'Heights',
      'Keel\t-300\t-300',
      'Sheer\t500\t900',
      'Half-breadths',
      'Sheer\t600\t-',
      'WL 700\t500\t800',
      'WL -400\t0\t200',
      'Transom\t1\t2',
      'WL\t400\t500',
    ].join('\n');
    const told = messages(text);
    expect(told).toContain('row 8, column 2: station 0: WL 700 at height 700 mm lies above the sheer, 500 mm');
    expect(told).toContain('row 9, column 3: station 1: WL -400 at height -400 mm lies below the keel, -300 mm');
    expect(told).toContain('row 5, column 3: station 1: the sheer needs a half-breadth and a height');
    expect(told.some((message) => message.startsWith("row 10, column 1: 'Transom' is no heading"))).toBe(true);
    expect(told).toContain("row 11, column 1: 'WL' does not say its height: WL 300");
  });

  it('nothing, one station and plain prose are told', () => {
    expect(messages('  \n ')).toEqual(['the table is empty: paste it, or open a CSV file']);
    expect(messages('Station\t0\nx\t0\nWL 0\t300\nWL 500\t400')).toEqual(['a hull needs two stations at least']);
    expect(messages('Dear yard, please find the lines attached').length).toBeGreaterThan(0);
  });

  // derived: 1 ft is 304.8 mm, 1 in 25.4 mm (exact by definition)
  it.each([
    ['WL 1′', 0.3048],
    ['WL 1\' 6"', 0.4572],
    ['WL 1′ 6 1/2″', 0.4699],
    ['WL 18”', 0.4572],
    ['WL 1.5 ft', 0.4572],
    ['WL 300 mm', 0.3],
    ['WL 0-11-4', 0.2921],
  ])('the height of %s is read with the marks of its heading', (heading, heightM) => {
    const text = [
      'Station\t0\t1',
      'x\t0\t10′',
      'Half-breadths',
      'Keel\t0\t0',
      `${heading}\t1′ 6″\t2′`,
      'Sheer\t2′ 3″\t2′ 6″',
      'Heights',
      'Keel\t-4″\t-5″',
      'Sheer\t4′ 7½″\t5′ 6⅞″',
    ].join('\n');
    const { faults, stations } = readOffsets(text);
    expect(faults).toEqual([]);
    expect(stations.s0?.points[1]?.[0]).toBeCloseTo(0.4572, 6);
    expect(stations.s0?.points[1]?.[1]).toBeCloseTo(heightM, 6);
  });

  it('a comma that parts thousands is no decimal sign, and one that is stays one', () => {
    const table = (far: string, half: string, small: string, sheer: string) =>
      [
        `Station\t0\t1`,
        `x\t0\t${far}`,
        'Half-breadths',
        'Keel\t0\t0',
        `WL 200 mm\t${small}\t${half}`,
        `Sheer\t${half}\t${half}`,
        'Heights',
        `Keel\t0\t0`,
        `Sheer\t${sheer}\t${sheer}`,
      ].join('\n');
    const parted = readOffsets(table('3,000', '1,250', '850', '900'));
    expect(parted.stations.s1).toMatchObject({ xM: 3 });
    expect(parted.stations.s1?.points[1]).toEqual([1.25, 0.2]);
    expect(parted.notes).toContain('A comma is read as parting thousands.');
    const decimal = readOffsets(table('3,000', '1,250', '0,850', '0,900'));
    expect(decimal.stations.s1?.points[1]).toEqual([1.25, 0.2]);
    expect(decimal.notes).toContain('A comma is read as the decimal sign.');
  });

  it('more stations than can be worked with are told with their number', () => {
    const many = Array.from({ length: 300 }, (_, i) => i);
    const row = (head: string, value: (i: number) => number) => [head, ...many.map(value)].join('\t');
    const text = [row('Station', (i) => i), row('x', (i) => 40 * i), row('WL 0', () => 300), row('WL 500', () => 400)];
    expect(messages(text.join('\n'))).toEqual(['the table has 300 stations, at most 200 can be worked with']);
  });

  it('a text far longer than any table is refused at once', () => {
    expect(messages('1,'.repeat(300_000))).toEqual([
      'the text has 600000 characters, at most 500000: is it a table of offsets?',
    ]);
  });

  it('never throws, whatever is pasted', () => {
    const pieces = [
      'Station',
      'x',
      'WL 300',
      '2-3-4',
      '',
      '-',
      '1,5',
      '"',
      '\t',
      ';',
      '\n',
      'Keel',
      'Heights',
      '-300',
      'Sheer half-breadth',
      '1e9',
    ];
    let seed = 7;
    const next = (): number => {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      return seed;
    };
    for (let round = 0; round < 400; round += 1) {
      const text = Array.from({ length: 30 }, () => pieces[next() % pieces.length]).join(
        ['\t', ',', '\n', ';'][next() % 4],
      );
      expect(Array.isArray(readOffsets(text).faults)).toBe(true);
    }
  });
});
