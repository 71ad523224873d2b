import { byKey } from '../../base/order';
import { quantised } from '../../base/quantity';
import type { LineKind } from '../../boat/schema/boat';
import { spareText } from '../text/spare-text';
import { cuttingPlan, type Sold } from './cutting';
import type { Allowances, SuppliedLength, TakeoffInput, TakeoffLine } from './input';
import { type CutLength, type CutPiece, GROUPS, type TakeoffRow } from './row';
import { millimetres } from './words';

/** Hoses with crimped ends are ordered in steps of this: common practice. */
const MADE_UP_STEP_M = 0.05;
/** Lengths are reckoned in whole tenths of a millimetre, so that pieces and waste add up to the last digit. */
const TENTH_M = 0.0001;
const inTenths = (metres: number): number => Math.round(metres / TENTH_M);
const upToTenths = (metres: number): number => Math.ceil(metres / TENTH_M - 1e-6);
const inMetres = (tenths: number): number => tenths / 10_000;

/** Hose, tube and cable: what is supplied for a line, what is made up to length, what is cut from coils. */
export function lengthRows(lines: readonly TakeoffLine[], input: TakeoffInput): TakeoffRow[] {
  const rows: TakeoffRow[] = [];
  const byTheMetre = new Map<string, TakeoffLine[]>();
  for (const entry of lines) {
    const { supplied } = entry.line;
    if (supplied) rows.push(suppliedRow(entry, supplied));
    else if (!entry.run) continue;
    else if (isMadeUp(entry.kind)) rows.push(madeUpRow(entry, entry.run.lengthM, input.allowances));
    else byTheMetre.set(entry.kindId, [...(byTheMetre.get(entry.kindId) ?? []), entry]);
  }
  for (const [kindId, entries] of byTheMetre) {
    const [first] = entries;
    if (first) rows.push(metreRow(kindId, first.kind, entries, input));
  }
  return rows.sort((a, b) => GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) || byKey(a, b));
}

/** Ordered to length with its ends crimped on; nobody cuts it aboard. */
const isMadeUp = (kind: LineKind): boolean =>
  kind.crimpedEnds && kind.soldByM === undefined && kind.soldLengthsM === undefined;

function suppliedRow(
  { id, line, kind, run, spare: laid, ends, doubtM }: TakeoffLine,
  supplied: NonNullable<TakeoffLine['line']['supplied']>,
): TakeoffRow {
  const leftM = run ? supplied.lengthM - run.lengthM : 0;
  const placed = laid ? spareText(laid) : '';
  const spare = run
    ? `${millimetres(Math.abs(leftM))} mm ${leftM < 0 ? 'short' : 'to spare'}${placed === '' ? '' : `: ${placed}`}`
    : 'not routed';
  const cuts = laid?.kind === 'cut' ? [cutOf(supplied.lengthM, laid.toM, id, line.name)] : null;
  return {
    key: `supplied|${id}`,
    group: kind.what,
    item: `${kind.name}, ${millimetres(supplied.lengthM)} mm over its ends`,
    kind: line.kind,
    quantity: 1,
    unit: 'piece',
    buy: 0,
    ...(run
      ? { leastM: quantised(Math.max(0, run.lengthM - doubtM)), greatestM: quantised(run.lengthM + doubtM) }
      : {}),
    place: line.name,
    from: [id],
    note: `${supplied.mayCut ? 'supplied, may be cut' : 'supplied'}; ${spare}`,
    spread: [{ place: ends[0].place, quantity: 1, from: id, what: line.name }],
    ...(cuts ? { cuts } : {}),
  };
}

function cutOf(lengthM: number, toM: number, lineId: string, name: string): CutLength {
  const whole = inTenths(lengthM);
  const piece = Math.min(whole, inTenths(toM));
  return {
    lengthM: inMetres(whole),
    supplied: true,
    name: `supplied for ${name}`,
    pieces: [{ lineId, name, lengthM: inMetres(piece) }],
    wasteM: inMetres(whole - piece),
  };
}

function madeUpRow(
  { id, line, kind, ends, doubtM }: TakeoffLine,
  lengthM: number,
  { shorteningShare }: Allowances,
): TakeoffRow {
  const greatestM = (lengthM + doubtM) * (1 + shorteningShare);
  const buy = roundedUp(greatestM, MADE_UP_STEP_M);
  return {
    key: `made|${id}`,
    group: kind.what,
    item: `${kind.name}, made up with both ends`,
    kind: line.kind,
    quantity: quantised(lengthM),
    unit: 'm',
    buy,
    leastM: quantised(Math.max(0, lengthM - doubtM)),
    greatestM: quantised(greatestM),
    place: ends[0].place === ends[1].place ? ends[0].place : `${ends[0].place} to ${ends[1].place}`,
    from: [id],
    note: `${line.name}; lay a string along the real way before it is ordered`,
    spread: [{ place: ends[0].place, quantity: 1, from: id, what: line.name }],
    ...priced(kind.pricePerM, buy),
  };
}

function metreRow(
  kindId: string,
  kind: LineKind,
  entries: readonly TakeoffLine[],
  { allowances, suppliedLengths }: TakeoffInput,
): TakeoffRow {
  const { makingUpM, reserveShare } = allowances;
  const runs = entries.map(({ run, doubtM }) => ({ lengthM: run?.lengthM ?? 0, doubtM }));
  const pieces = runs.map(({ lengthM }) => inTenths(lengthM + 2 * makingUpM));
  const needs = runs.map(({ lengthM, doubtM }) =>
    upToTenths(lengthM + Math.max(doubtM, lengthM * reserveShare) + 2 * makingUpM),
  );
  const leastM = total(runs.map(({ lengthM, doubtM }) => Math.max(0, lengthM - doubtM) + 2 * makingUpM));
  const there = suppliedLengths.filter((length) => length.kind === kindId);
  const plan = cuttingPlan({
    needs,
    onHand: there.map(({ lengthM }) => Math.floor(lengthM / TENTH_M + 1e-6)),
    sold: soldOf(kind),
  });
  const cuts = plan.stocks.map((stock): CutLength => {
    const cut = stock.pieces.map((at): CutPiece => {
      const entry = entries[at] as TakeoffLine;
      return { lineId: entry.id, name: entry.line.name, lengthM: inMetres(pieces[at] ?? 0) };
    });
    return {
      lengthM: inMetres(stock.length),
      supplied: stock.onHand !== null,
      name:
        stock.onHand !== null
          ? nameOfSupply(there[stock.onHand])
          : stock.isSpecial
            ? 'longer than it is sold: order it in one piece'
            : '',
      pieces: cut,
      wasteM: inMetres(stock.length - stock.pieces.reduce((sum, at) => sum + (pieces[at] ?? 0), 0)),
    };
  });
  cuts.sort(
    (a, b) => Number(b.supplied) - Number(a.supplied) || b.lengthM - a.lengthM || (firstId(a) < firstId(b) ? -1 : 1),
  );
  const gap = plan.bought - plan.leastBought;
  const buy = inMetres(plan.bought);
  return {
    key: `line|${kindId}`,
    group: kind.what,
    item: kind.name,
    kind: kindId,
    quantity: inMetres(pieces.reduce((sum, piece) => sum + piece, 0)),
    unit: 'm',
    buy,
    leastM: quantised(leastM),
    greatestM: inMetres(needs.reduce((sum, need) => sum + need, 0)),
    place: '',
    from: entries.map(({ id }) => id),
    note: [
      boughtText(cuts, kind),
      suppliedText(cuts),
      gap > 0 ? `at most ${millimetres(inMetres(gap))} mm more than the least possible` : '',
    ]
      .filter((part) => part !== '')
      .join('; '),
    spread: entries.map(({ id, line, ends }) => ({ place: ends[0].place, quantity: 1, from: id, what: line.name })),
    cuts,
    ...(gap > 0 ? { gapM: inMetres(gap) } : {}),
    ...priced(kind.pricePerM, buy),
  };
}

function soldOf({ soldLengthsM, soldByM }: LineKind): Sold {
  if (soldLengthsM && soldLengthsM.length > 0)
    return { lengths: soldLengthsM.map((length) => Math.max(1, inTenths(length))) };
  return { step: Math.max(1, inTenths(soldByM ?? 0)) };
}

const nameOfSupply = (supply: SuppliedLength | undefined): string => supply?.name ?? 'supplied length';
const firstId = ({ pieces }: CutLength): string => pieces[0]?.lineId ?? '';

/** `2 x 10 m + 1 x 5 m`: which lengths are bought, where they are sold in lengths. */
function boughtText(cuts: readonly CutLength[], kind: LineKind): string {
  if (!kind.soldLengthsM || kind.soldLengthsM.length === 0) return '';
  const counts = new Map<number, number>();
  for (const { supplied, lengthM } of cuts) if (!supplied) counts.set(lengthM, (counts.get(lengthM) ?? 0) + 1);
  return [...counts].map(([lengthM, count]) => `${count} x ${lengthM} m`).join(' + ');
}

const suppliedText = (cuts: readonly CutLength[]): string =>
  cuts
    .filter(({ supplied }) => supplied)
    .map(({ name, lengthM, pieces }) => `${pieces.map((piece) => piece.name).join(', ')} from ${name}, ${lengthM} m`)
    .join('; ');

const priced = (unitPrice: number | undefined, buy: number): { unitPrice?: number; price?: number } =>
  unitPrice === undefined ? {} : { unitPrice, price: quantised(unitPrice * buy) };

/** The next multiple of `step`; without a step the value itself. Dust of sums does not cost a step. */
export function roundedUp(value: number, step: number): number {
  if (step <= 0) return quantised(value);
  return quantised(Math.ceil(value / step - 1e-6) * step);
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
