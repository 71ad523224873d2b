import { byId } from '../../base/order';
import { quantised } from '../../base/quantity';
import type { Line, LineEndFitting, LineKind, Part } from '../../boat/schema/boat';
import type { Crossing } from '../../runs/routing/types';
import type { Spare } from '../../runs/spare/spare';
import { materialText } from '../text/schema-words';
import { spareText } from '../text/spare-text';
import type { TakeoffRow } from './row';

/** Hose that is cut and trimmed away at each end: common practice. */
const MAKING_UP_PER_END_M = 0.05;
/** Reserve on lengths that are taken off a drawing: common practice. */
const RESERVE_SHARE = 0.1;
/** A hose made up with crimped ends is ordered by length; under pressure it may shorten by 4 %, SAE J1273 as quoted. */
const SHORTENING_SHARE = 0.04;
const MADE_UP_STEP_M = 0.05;
/** Grommets come in whole millimetres of hole. */
const MILLIMETRE = 0.001;

export interface TakeoffPart {
  readonly id: string;
  readonly part: Part;
  /** Name of the compartment, null in undrawn space; undefined: not placed. */
  readonly place: string | null | undefined;
}

export interface TakeoffLine {
  readonly id: string;
  readonly line: Line;
  readonly kindId: string;
  readonly kind: LineKind;
  readonly ends: readonly [LineEndFitting, LineEndFitting];
  /** Null when the line is blocked. */
  readonly run: { readonly lengthM: number; readonly crossings: readonly Crossing[] } | null;
  /** Where the length of a supplied hose goes that its run does not need; null where that is not known. */
  readonly spare: Spare | null;
  /** Names of the compartments of its ends. */
  readonly places: readonly [string, string];
}

export interface TakeoffInput {
  readonly parts: readonly TakeoffPart[];
  readonly lines: readonly TakeoffLine[];
  readonly panels: Readonly<
    Record<string, { readonly name: string; readonly thicknessM: number; readonly material: string }>
  >;
}

const UNDRAWN = 'undrawn space';

/**
 * The parts-and-lengths list: parts, hoses, tubes and cables by kind, end fittings, clips, holes, grommets, what is not
 * placed or not routed. What is aboard already is not listed. Neither rows nor totals depend on the order of the records.
 */
export function takeoff(input: TakeoffInput): readonly TakeoffRow[] {
  const parts = [...input.parts].sort(byId);
  const lines = [...input.lines].filter(({ line }) => !line.existing).sort(byId);
  return [
    ...parts.filter(({ place }) => place !== undefined).map(partRow),
    ...lengthRows(lines),
    ...endRows(lines),
    ...clipRows(lines),
    ...holeRows(lines, input.panels),
    ...missingRows(parts, lines),
  ];
}

function partRow({ id, part, place }: TakeoffPart): TakeoffRow {
  return {
    key: `part|${id}`,
    group: 'part',
    item: part.name,
    kind: part.kind,
    quantity: 1,
    unit: 'piece',
    buy: 1,
    place: place ?? UNDRAWN,
    from: [id],
    note: part.tag ?? '',
  };
}

function lengthRows(lines: readonly TakeoffLine[]): TakeoffRow[] {
  const rows: TakeoffRow[] = [];
  const byTheMetre = new Map<string, TakeoffLine[]>();
  for (const entry of lines) {
    const { supplied } = entry.line;
    if (supplied) rows.push(suppliedRow(entry, supplied));
    else if (!entry.run) continue;
    else if (entry.kind.crimpedEnds && entry.kind.soldByM === undefined) rows.push(madeUpRow(entry, entry.run.lengthM));
    else push(byTheMetre, entry.kindId, entry);
  }
  for (const [kindId, entries] of byTheMetre) rows.push(metreRow(kindId, entries));
  return rows.sort(byKey);
}

function suppliedRow(
  { id, line, kind, run, spare: laid }: TakeoffLine,
  supplied: NonNullable<Line['supplied']>,
): TakeoffRow {
  const leftM = run ? supplied.lengthM - run.lengthM : 0;
  const placed = laid ? spareText(laid) : '';
  const spare = run
    ? `${millimetres(Math.abs(leftM))} mm ${leftM < 0 ? 'short' : 'to spare'}${placed === '' ? '' : `: ${placed}`}`
    : 'not routed';
  return {
    key: `supplied|${id}`,
    group: kind.what,
    item: `${kind.name}, ${millimetres(supplied.lengthM)} mm over its ends`,
    kind: line.kind,
    quantity: 1,
    unit: 'piece',
    buy: 1,
    ...(run ? { leastM: quantised(run.lengthM), greatestM: Math.max(supplied.lengthM, quantised(run.lengthM)) } : {}),
    place: line.name,
    from: [id],
    note: supplied.mayCut ? `supplied, may be cut; ${spare}` : `supplied; ${spare}`,
  };
}

function madeUpRow({ id, line, kind, places }: TakeoffLine, lengthM: number): TakeoffRow {
  const greatestM = lengthM * (1 + SHORTENING_SHARE);
  return {
    key: `made|${id}`,
    group: kind.what,
    item: `${kind.name}, made up with both ends`,
    kind: line.kind,
    quantity: quantised(lengthM),
    unit: 'm',
    buy: roundedUp(greatestM, MADE_UP_STEP_M),
    leastM: quantised(lengthM),
    greatestM: quantised(greatestM),
    place: between(places),
    from: [id],
    note: line.name,
  };
}

function metreRow(kindId: string, entries: readonly TakeoffLine[]): TakeoffRow {
  const kind = firstOf(entries).kind;
  const lengths = entries.map(({ run }) => run?.lengthM ?? 0);
  const least = total(lengths);
  const quantity = total(lengths.map((lengthM) => lengthM + 2 * MAKING_UP_PER_END_M));
  const needs = lengths.map((lengthM) => lengthM * (1 + RESERVE_SHARE) + 2 * MAKING_UP_PER_END_M);
  const greatest = total(needs);
  const packs = kind.soldLengthsM ? packsFor(needs, kind.soldLengthsM) : null;
  return {
    key: `line|${kindId}`,
    group: kind.what,
    item: kind.name,
    kind: kindId,
    quantity: quantised(quantity),
    unit: 'm',
    buy: packs ? quantised(total(packs)) : roundedUp(greatest, kind.soldByM ?? 0),
    leastM: quantised(least),
    greatestM: quantised(greatest),
    place: '',
    from: entries.map(({ id }) => id),
    note: [
      packs ? `sold in lengths: ${packs.map((lengthM) => `${lengthM} m`).join(' + ')}` : '',
      entries.map(({ line, run }) => `${line.name} ${millimetres(run?.lengthM ?? 0)} mm`).join('; '),
    ]
      .filter((part) => part !== '')
      .join('. '),
  };
}

/** Sold lengths that hold all pieces, none of them joined: longest piece first, each into the first pack with room. */
function packsFor(needs: readonly number[], sold: readonly number[]): number[] {
  const lengths = [...sold].sort((a, b) => a - b);
  const longest = lengths.at(-1) ?? 0;
  const packs: { lengthM: number; left: number }[] = [];
  for (const need of [...needs].sort((a, b) => b - a)) {
    const open = packs.find(({ left }) => left >= need);
    if (open) {
      open.left -= need;
      continue;
    }
    const lengthM = lengths.find((candidate) => candidate >= need) ?? roundedUp(need, longest);
    packs.push({ lengthM, left: lengthM - need });
  }
  return packs.map(({ lengthM }) => lengthM);
}

function endRows(lines: readonly TakeoffLine[]): TakeoffRow[] {
  const groups = new Map<string, { item: string; kindId: string; from: string[] }>();
  for (const { id, line, kindId, kind, ends } of lines) {
    // A supplied hose that must not be cut brings its ends.
    if (line.supplied && !line.supplied.mayCut) continue;
    for (const end of ends) {
      if (end.name === undefined && end.diameterM === undefined && !end.crimped) continue;
      const name = end.name ?? 'end fitting';
      const angle = end.angleDeg === 0 ? '' : `, ${end.angleDeg} degrees`;
      const key = `end|${kindId}|${name}${angle}`;
      const group = groups.get(key) ?? { item: `${kind.name}: ${name}${angle}`, kindId, from: [] };
      group.from.push(id);
      groups.set(key, group);
    }
  }
  return [...groups]
    .map(([key, { item, kindId, from }]) => piecesRow(key, 'end', item, kindId, from.length, [...new Set(from)], ''))
    .sort(byKey);
}

/** Clips so that no span of a run is longer than its kind allows. */
function clipRows(lines: readonly TakeoffLine[]): TakeoffRow[] {
  const groups = new Map<string, { kind: LineKind; count: number; from: string[] }>();
  for (const { id, kindId, kind, run } of lines) {
    if (!run || kind.supportM === undefined) continue;
    const count = Math.max(0, Math.ceil(run.lengthM / kind.supportM - 1e-9) - 1);
    if (count === 0) continue;
    const group = groups.get(kindId) ?? { kind, count: 0, from: [] };
    group.count += count;
    group.from.push(id);
    groups.set(kindId, group);
  }
  return [...groups]
    .map(([kindId, { kind, count, from }]) =>
      piecesRow(
        `clip|${kindId}`,
        'clip',
        `Clip for ${tenths(kind.outsideM)} mm`,
        kindId,
        count,
        from,
        `every ${millimetres(kind.supportM ?? 0)} mm at most`,
      ),
    )
    .sort(byKey);
}

function holeRows(lines: readonly TakeoffLine[], panels: TakeoffInput['panels']): TakeoffRow[] {
  const holes: TakeoffRow[] = [];
  const grommets = new Map<number, { count: number; from: string[] }>();
  const shared = new Map<string, string[]>();
  for (const { id, run } of lines)
    for (const { newHoleId } of run?.crossings ?? [])
      if (newHoleId !== undefined) shared.set(newHoleId, [...new Set([...(shared.get(newHoleId) ?? []), id])]);
  const named = new Map(lines.map(({ id, line }) => [id, line.name]));
  const listed = new Set<string>();
  for (const { id, run } of lines) {
    const passes = new Map<string, number>();
    for (const { panelId, at, holeAt, diameterM, holeId, newHoleId } of run?.crossings ?? []) {
      // A planned hole is drilled once, whoever shares it.
      if (newHoleId === undefined ? holeId !== null : listed.has(newHoleId)) continue;
      if (newHoleId !== undefined) listed.add(newHoleId);
      const users = newHoleId === undefined ? [id] : (shared.get(newHoleId) ?? [id]);
      const place = holeAt ?? at;
      const pass = (passes.get(panelId) ?? 0) + 1;
      passes.set(panelId, pass);
      const panel = panels[panelId];
      const drillM = roundedUp(diameterM, MILLIMETRE);
      const thickness = panel ? `, ${millimetres(panel.thicknessM)} mm ${materialText(panel.material)}` : '';
      holes.push({
        key: `hole|${panelId}|${id}|${pass}`,
        group: 'hole',
        item: `Hole ${millimetres(drillM)} mm for ${users.map((user) => named.get(user) ?? user).join(', ')}`,
        kind: panelId,
        quantity: 1,
        unit: 'piece',
        buy: 0,
        place: panel?.name ?? panelId,
        from: users,
        note: `centre at x ${millimetres(place[0])}, y ${millimetres(place[1])}, z ${millimetres(place[2])} mm${thickness}`,
      });
      const size = Math.round(drillM / MILLIMETRE);
      const group = grommets.get(size) ?? { count: 0, from: [] };
      group.count += 1;
      group.from.push(...users);
      grommets.set(size, group);
    }
  }
  const grommetRows = [...grommets]
    .sort(([a], [b]) => a - b)
    .map(([size, { count, from }]) =>
      piecesRow(
        `grommet|${size}`,
        'grommet',
        `Grommet for a hole of ${size} mm`,
        String(size),
        count,
        [...new Set(from)],
        '',
      ),
    );
  return [...holes.sort(byKey), ...grommetRows];
}

function missingRows(parts: readonly TakeoffPart[], lines: readonly TakeoffLine[]): TakeoffRow[] {
  return [
    ...parts
      .filter(({ place }) => place === undefined)
      .map(({ id, part }) =>
        piecesRow(`notPlaced|${id}`, 'notPlaced', part.name, part.kind, 1, [id], 'not placed in this arrangement'),
      ),
    ...lines
      .filter(({ run }) => !run)
      .map(({ id, line, kindId }) =>
        piecesRow(`notRouted|${id}`, 'notPlaced', line.name, kindId, 1, [id], 'no run, so no length'),
      ),
  ];
}

function piecesRow(
  key: string,
  group: TakeoffRow['group'],
  item: string,
  kind: string,
  quantity: number,
  from: readonly string[],
  note: string,
): TakeoffRow {
  return { key, group, item, kind, quantity, unit: 'piece', buy: quantity, place: '', from, note };
}

/** The next multiple of `step`; without a step the value itself. Dust of sums does not cost a step. */
export function roundedUp(value: number, step: number): number {
  if (step <= 0) return quantised(value);
  return quantised(Math.ceil(value / step - 1e-6) * step);
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
const millimetres = (metres: number): string => String(Math.round(metres * 1000));
const tenths = (metres: number): string => String(Math.round(metres * 10000) / 10);
const between = ([from, to]: readonly [string, string]): string => (from === to ? from : `${from} to ${to}`);
const byKey = (a: TakeoffRow, b: TakeoffRow): number => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0);

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

function firstOf<T>(items: readonly T[]): T {
  const [first] = items;
  if (first === undefined) throw new Error('firstOf: expected at least one item, got none');
  return first;
}
