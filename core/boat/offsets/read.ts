import type { Vec2 } from '../../base/vec';
import { type Hull, LIMITS } from '../schema/boat';
import { type DecimalSign, isLofted, type OffsetUnit, readOffsetCell } from './cell';
import { type OffsetGrid, offsetGrid, unitOfSize } from './grid';
import { labelOf, type OffsetLabel } from './labels';
import { type Drawn, stationOf } from './stations';

/** What a reader may know better than the table says. */
export interface OffsetChoices {
  readonly unit?: OffsetUnit | undefined;
  readonly decimal?: DecimalSign | undefined;
  /** Distance from one station to the next, metres, for a table without a row of distances. */
  readonly spacingM?: number | undefined;
  /** Height of the water above the line that heights are taken from, metres. */
  readonly waterM?: number | undefined;
}

export interface OffsetFault {
  /** Line of the text and cell of the line, from 1; 0 for the table as a whole. */
  readonly row: number;
  readonly column: number;
  /** `row 5, column 3: '2-13-0' has 13 inches, at most 11` */
  readonly message: string;
}

export interface ReadOffsets {
  readonly stations: Hull['stations'];
  /** Order of the stations along the boat. */
  readonly order: readonly string[];
  readonly faults: readonly OffsetFault[];
  /** What was taken for granted, in words. */
  readonly notes: readonly string[];
  readonly unit: OffsetUnit;
  readonly decimal: DecimalSign;
}

/** Two hundred stations of a hundred lines each stay below it; a longer text would only hold up the window. */
const MOST_CHARACTERS = 500_000;

/** A cell with its place in the text. */
interface Placed {
  readonly text: string;
  readonly row: number;
  readonly column: number;
}

interface TableLine {
  readonly label: OffsetLabel;
  readonly block: 'halfBreadths' | 'heights' | 'depths' | null;
  readonly heading: Placed;
  /** One a station, in the order of the table. */
  readonly cells: readonly Placed[];
}

/**
 * Reads a table of offsets: stations across with blocks of heights and half-breadths as the lofting floor writes them, stations
 * down, or a list of points (station, x, half-breadth, height). Everything that is wrong is told at once, by row and column,
 * and nothing of the table is dropped in silence: a table with faults gives the stations as far as they could be read, for
 * the eye, and must not be taken.
 */
export function readOffsets(text: string, choices: OffsetChoices = {}): ReadOffsets {
  const tooLong = text.length > MOST_CHARACTERS;
  const grid = offsetGrid(tooLong ? '' : text);
  const reading = new Reading(grid, choices);
  if (tooLong)
    reading.whole(`the text has ${text.length} characters, at most ${MOST_CHARACTERS}: is it a table of offsets?`);
  else if (grid.rows.length === 0) reading.whole('the table is empty: paste it, or open a CSV file');
  else if (isList(grid)) readList(grid, reading);
  else readTable(grid, reading);
  return reading.done();
}

/** Collects faults and stations, and reads figures the way the table is written. */
class Reading {
  readonly unit: OffsetUnit;
  readonly decimal: DecimalSign;
  readonly faults: OffsetFault[] = [];
  readonly notes: string[] = [];
  private readonly drawn: { id: string; xM: number; drawn: Drawn; at: Placed }[] = [];

  constructor(
    private readonly grid: OffsetGrid,
    readonly choices: OffsetChoices,
  ) {
    this.decimal = choices.decimal ?? grid.decimal;
    const told = choices.unit ?? grid.unit;
    this.unit = told ?? unitOfSize(greatestIn(grid, this.decimal));
    if (told === null || told === undefined)
      this.notes.push(`Taken for ${UNIT_WORDS[this.unit]}, from the size of the figures.`);
    if (this.decimal === ',') this.notes.push('A comma is read as the decimal sign.');
    if (grid.hasThousands) this.notes.push('A comma is read as parting thousands.');
  }

  at(row: number, column: number): Placed {
    return { text: this.grid.rows[row]?.[column] ?? '', row: this.grid.lineOf[row] ?? 0, column: column + 1 };
  }

  fault({ row, column }: Pick<Placed, 'row' | 'column'>, words: string): void {
    this.faults.push({ row, column, message: `row ${row}, column ${column}: ${words}` });
  }

  row(row: number, words: string): void {
    this.faults.push({ row, column: 0, message: `row ${row}: ${words}` });
  }

  whole(words: string): void {
    this.faults.push({ row: 0, column: 0, message: words });
  }

  /** Metres, or null for an empty cell and for a fault, which is told. */
  length(cell: Placed): number | null {
    const read = readOffsetCell(cell.text, this.unit, this.decimal);
    if (read.kind === 'fault') this.fault(cell, read.words);
    return read.kind === 'value' ? read.valueM : null;
  }

  station(name: string, xM: number, drawn: Drawn, at: Placed): void {
    this.drawn.push({ id: name, xM, drawn, at });
  }

  done(): ReadOffsets {
    const stations: Hull['stations'] = {};
    const rising = [...this.drawn];
    const falls = rising.length > 1 && (rising[0]?.xM ?? 0) > (rising.at(-1)?.xM ?? 0);
    if (falls) {
      rising.reverse();
      this.notes.push('The table begins at the bow: its stations are turned round.');
    }
    rising.forEach(({ xM, at, id }, i) => {
      const before = rising[i - 1];
      if (!before) return;
      if (Math.abs(xM - before.xM) < 0.001)
        this.fault(at, `station ${id} stands where station ${before.id} stands, at ${millimetres(xM)}`);
      else if (xM < before.xM)
        this.fault(
          at,
          `station ${id} at ${millimetres(xM)} is out of order: station ${before.id} before it is at ${millimetres(before.xM)}`,
        );
    });
    // A figure that cannot be read leaves a gap: what the gap makes of a station is no fault of its own.
    const hasGaps = this.faults.length > 0;
    const width = String(Math.max(0, rising.length - 1)).length;
    const order = rising.map(({ xM, drawn, at, id }, number) => {
      const key = `s${String(number).padStart(width, '0')}`;
      const { station, faults } = stationOf(xM, drawn);
      for (const { words, place } of faults)
        if (place !== null || !hasGaps) this.fault(place ?? at, `station ${id}: ${words}`);
      stations[key] = station;
      return key;
    });
    if (this.faults.length === 0 && order.length < 2) this.whole('a hull needs two stations at least');
    if (order.length > LIMITS.stations)
      this.whole(`the table has ${order.length} stations, at most ${LIMITS.stations} can be worked with`);
    this.faults.sort((a, b) => a.row - b.row || a.column - b.column);
    return { stations, order, faults: this.faults, notes: this.notes, unit: this.unit, decimal: this.decimal };
  }
}

const UNIT_WORDS: Readonly<Record<OffsetUnit, string>> = {
  mm: 'millimetres',
  cm: 'centimetres',
  m: 'metres',
  'ft-in-8': 'feet, inches and eighths',
};

const millimetres = (metres: number): string => `${Math.round(metres * 1000)} mm`;

function greatestIn({ rows }: OffsetGrid, decimal: DecimalSign): number {
  let greatest = 0;
  const across = new Set((rows[0] ?? []).flatMap((cell, i) => (labelOf(cell)?.kind === 'x' ? [i] : [])));
  for (const row of rows) {
    const label = labelOf(row[0] ?? '');
    // Distances along the boat are larger than what is across it: they would mislead.
    if (label?.kind === 'x' || label?.kind === 'station') continue;
    for (const [column, cell] of row.entries()) {
      if (column === 0 || across.has(column)) continue;
      const value = Number((decimal === ',' ? cell.replace(',', '.') : cell).replace('−', '-'));
      if (cell !== '' && Number.isFinite(value)) greatest = Math.max(greatest, Math.abs(value));
    }
  }
  return greatest;
}

/** A list has headings for half-breadth and height beside each other, one point a row. */
function isList({ rows }: OffsetGrid): boolean {
  const kinds = (rows[0] ?? []).map((cell) => labelOf(cell)?.kind);
  return kinds.includes('halfBreadth') && kinds.includes('height');
}

function readList(grid: OffsetGrid, reading: Reading): void {
  const kinds = (grid.rows[0] ?? []).map((cell) => labelOf(cell)?.kind ?? null);
  const column = (kind: OffsetLabel['kind']): number => kinds.indexOf(kind);
  const [x, y, z] = [column('x'), column('halfBreadth'), column('height')];
  const [name, knuckle] = [column('station'), column('knuckle')];
  if (x < 0) {
    reading.row(grid.lineOf[0] ?? 1, 'a column x is needed: where each station stands');
    return;
  }
  let open: { name: string; xM: number; points: Vec2[]; places: Placed[]; knuckles: number[]; at: Placed } | null =
    null;
  const close = () => {
    if (!open) return;
    const { points, places, knuckles } = open;
    reading.station(open.name, open.xM, { kind: 'inOrder', points, places, knuckles }, open.at);
    open = null;
  };
  for (let row = 1; row < grid.rows.length; row += 1) {
    if (!isEven(grid, reading, row, kinds.length)) continue;
    const xM = reading.length(reading.at(row, x));
    const yM = reading.length(reading.at(row, y));
    const zM = reading.length(reading.at(row, z));
    for (const [value, at] of [
      [xM, x],
      [yM, y],
      [zM, z],
    ] as const)
      if (value === null && reading.at(row, at).text === '') reading.fault(reading.at(row, at), 'a figure is missing');
    if (xM === null || yM === null || zM === null) continue;
    const own = name >= 0 ? reading.at(row, name).text : millimetres(xM);
    const now = open as { name: string; xM: number } | null;
    if (!now || now.name !== own || now.xM !== xM) {
      close();
      open = { name: own, xM, points: [], places: [], knuckles: [], at: reading.at(row, x) };
    }
    const station = open as unknown as { points: Vec2[]; places: Placed[]; knuckles: number[] };
    if (knuckle >= 0 && /^(1|x|yes|true|k|knuckle)$/i.test(reading.at(row, knuckle).text))
      station.knuckles.push(station.points.length);
    station.points.push([yM, zM]);
    station.places.push(reading.at(row, z));
  }
  close();
}

function isEven(grid: OffsetGrid, reading: Reading, row: number, wanted: number): boolean {
  const cells = grid.rows[row] ?? [];
  const line = grid.lineOf[row] ?? 0;
  if (cells.length === wanted) return true;
  const beyond = cells.slice(wanted).some((cell) => cell !== '');
  const missing = cells.length < wanted;
  if (!missing && !beyond) return true;
  const count = `${cells.length} ${cells.length === 1 ? 'cell' : 'cells'}`;
  reading.row(
    line,
    missing
      ? `${count}, the heading has ${wanted}: put - where there is no figure`
      : `${count}, the heading has ${wanted}`,
  );
  return false;
}

/** Stations across or down. Read as rows of lines over columns of stations. */
function readTable(grid: OffsetGrid, reading: Reading): void {
  const across = isAcross(grid);
  const heading = across ? headingRow(grid) : 0;
  const count = across ? (grid.rows[heading]?.length ?? 0) : grid.rows.length;
  if (across)
    grid.rows.forEach((_, row) => {
      if (row > heading && !isBlockRow(grid, row)) isEven(grid, reading, row, count);
    });
  else for (let row = 1; row < grid.rows.length; row += 1) isEven(grid, reading, row, grid.rows[0]?.length ?? 0);
  const lines = linesOf(grid, reading, across, heading, count);
  const names = lines.find(({ label }) => label.kind === 'station');
  const total = Math.max(0, count - 1);
  const at = (line: TableLine | undefined, station: number): Placed | undefined => line?.cells[station];
  const xs = lines.find(({ label }) => label.kind === 'x');
  const where = distances(reading, xs, names, total);
  if (!where) return;
  for (let station = 0; station < total; station += 1) {
    const name = at(names, station)?.text || String(station);
    const xM = where[station] ?? null;
    const place = at(xs, station) ?? at(names, station) ?? reading.at(0, 0);
    if (xM === null) {
      if (!reading.faults.some((fault) => fault.row === place.row && fault.column === place.column))
        reading.fault(place, `where station ${name} stands is not given`);
      continue;
    }
    reading.station(name, xM, drawnAt(reading, lines, station), place);
  }
}

function isAcross({ rows }: OffsetGrid): boolean {
  const isLine = (cell: string): boolean => {
    const kind = labelOf(cell)?.kind;
    return kind !== undefined && kind !== 'station' && kind !== 'x' && kind !== 'halfBreadths' && kind !== 'heights';
  };
  const inColumn = rows.filter((row) => isLine(row[0] ?? '')).length;
  const inRow = (rows[0] ?? []).filter(isLine).length;
  return inColumn >= inRow;
}

/** The row of the stations' names, else the first row. */
const headingRow = ({ rows }: OffsetGrid): number =>
  Math.max(
    0,
    rows.findIndex((row) => labelOf(row[0] ?? '')?.kind === 'station'),
  );

/** A row that only says what the rows below it are. */
function isBlockRow({ rows }: OffsetGrid, row: number): boolean {
  const [first = '', ...rest] = rows[row] ?? [];
  const kind = labelOf(first)?.kind;
  return (kind === 'halfBreadths' || kind === 'heights' || kind === undefined) && rest.every((cell) => cell === '');
}

function linesOf(grid: OffsetGrid, reading: Reading, across: boolean, heading: number, count: number): TableLine[] {
  const lines: TableLine[] = [];
  let block: TableLine['block'] = null;
  const length = across ? grid.rows.length : (grid.rows[0]?.length ?? 0);
  for (let i = 0; i < length; i += 1) {
    const own = across ? reading.at(i, 0) : reading.at(0, i);
    const label = labelOf(own.text);
    if (label?.kind === 'halfBreadths') block = 'halfBreadths';
    if (label?.kind === 'heights') block = label.below ? 'depths' : 'heights';
    const cells = Array.from({ length: Math.max(0, count - 1) }, (_, k) =>
      across ? reading.at(i, k + 1) : reading.at(k + 1, i),
    );
    if (across && isBlockRow(grid, i)) continue;
    if (!label) {
      // The title of the sheet may stand above the table.
      if (across && i < heading) continue;
      reading.fault(
        own,
        `'${own.text}' is no heading: WL 300, Buttock 300, Sheer, Keel, Chine, x or Station is expected`,
      );
      continue;
    }
    if (label.kind === 'point' || label.kind === 'halfBreadths' || label.kind === 'heights') continue;
    lines.push({ label, block, heading: own, cells });
  }
  return lines;
}

/** x of every station in metres, null where it cannot be read. */
function distances(
  reading: Reading,
  xs: TableLine | undefined,
  names: TableLine | undefined,
  total: number,
): readonly (number | null)[] | null {
  const { spacingM } = reading.choices;
  if (xs?.label.kind === 'x') {
    const read = xs.cells.map((cell) => reading.length(cell));
    if (xs.label.from === 'aft') return read;
    const greatest = Math.max(...read.flatMap((value) => value ?? []));
    return read.map((value) => (value === null ? null : greatest - value));
  }
  if (spacingM !== undefined && spacingM > 0) return Array.from({ length: total }, (_, i) => i * spacingM);
  if (!names) reading.whole('the row of stations is missing: its heading is Station');
  else reading.whole('where the stations stand is not given: add a row x, or type the distance from one to the next');
  return null;
}

/** The points that the lines of a table give one station, and where they stand. */
function drawnAt(reading: Reading, lines: readonly TableLine[], station: number): Drawn {
  const waterM = reading.choices.waterM ?? 0;
  const points: { at: Vec2; place: Placed; line: string; isKnuckle: boolean }[] = [];
  const halves = new Map<string, { y?: number; z?: number; place: Placed }>();
  for (const { label, block, heading, cells } of lines) {
    const cell = cells[station];
    if (!cell || label.kind === 'station' || label.kind === 'x') continue;
    const value = reading.length(cell);
    if (label.kind === 'waterline' || label.kind === 'buttock') {
      if (label.text === null) {
        if (station === 0)
          reading.fault(
            heading,
            `'${heading.text}' does not say its ${label.kind === 'waterline' ? 'height: WL 300' : 'half-breadth: Buttock 300'}`,
          );
        continue;
      }
      const level = levelOf(reading, label.text, heading, station);
      if (level === null || value === null) continue;
      const height = block === 'depths' ? -value : value;
      const at: Vec2 = label.kind === 'waterline' ? [value, level - waterM] : [level, height - waterM];
      points.push({ at, place: cell, line: heading.text, isKnuckle: false });
    } else if (label.kind === 'sheer' || label.kind === 'keel' || label.kind === 'knuckle') {
      if (value === null) continue;
      const isHeight = label.of === null ? block === 'heights' || block === 'depths' : label.of === 'height';
      const pair = halves.get(label.kind) ?? { place: cell };
      if (isHeight) halves.set(label.kind, { ...pair, z: (block === 'depths' ? -value : value) - waterM, place: cell });
      else halves.set(label.kind, { ...pair, y: value });
    }
  }
  return {
    kind: 'fromLines',
    points,
    keel: halves.get('keel'),
    sheer: halves.get('sheer'),
    knuckle: halves.get('knuckle'),
  };
}

/** The figure of a heading. Told once, at the first station. */
function levelOf(reading: Reading, text: string, heading: Placed, station: number): number | null {
  const unit = isLofted(text) ? 'ft-in-8' : reading.unit;
  const read = readOffsetCell(text, /^[-−]?0$/.test(text) ? 'mm' : unit, reading.decimal);
  if (read.kind === 'value') return read.valueM;
  if (station === 0)
    reading.fault(heading, read.kind === 'fault' ? read.words : `'${heading.text}' does not say its height`);
  return null;
}
