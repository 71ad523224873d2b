import { byId } from '../../base/order';
import { clampRows, clipRows, endRows, screwRows } from './fittings';
import { holeRows } from './holes';
import type { TakeoffInput, TakeoffLine, TakeoffPart } from './input';
import { labelRows } from './labels';
import { lengthRows } from './lengths';
import { piecesRow } from './pieces';
import type { TakeoffRow } from './row';
import { UNDRAWN_TEXT } from './words';

/**
 * The parts-and-lengths list: parts, hoses, tubes and cables by kind with their cuts, end fittings, clamps, clips, screws, holes,
 * grommets, labels, and what is not placed or not routed. What is aboard already is not listed. Neither rows nor totals depend
 * on the order of the records.
 */
export function takeoff(input: TakeoffInput): readonly TakeoffRow[] {
  const parts = [...input.parts].sort(byId);
  const lines = input.lines.filter(({ line }) => !line.existing).sort(byId);
  const routed = lines.filter(({ run }) => run !== null);
  return [
    ...parts.filter(({ place }) => place !== undefined).map(partRow),
    ...lengthRows(lines, { ...input, suppliedLengths: [...input.suppliedLengths].sort(byId) }),
    ...endRows(lines),
    ...clampRows(lines, input.practice),
    ...clipRows(lines),
    ...screwRows(parts),
    ...holeRows(lines, input),
    ...labelRows(routed, parts),
    ...missingRows(parts, lines),
  ];
}

function partRow({ id, part, place }: TakeoffPart): TakeoffRow {
  const share = { place: place ?? UNDRAWN_TEXT, quantity: 1, from: id, what: part.name };
  const { priceEach } = part;
  return piecesRow(
    `part|${id}`,
    'part',
    part.name,
    part.kind,
    [share],
    part.tag ?? '',
    priceEach === undefined ? {} : { unitPrice: priceEach, price: priceEach },
  );
}

function missingRows(parts: readonly TakeoffPart[], lines: readonly TakeoffLine[]): TakeoffRow[] {
  return [
    ...parts
      .filter(({ place }) => place === undefined)
      .map(({ id, part }) =>
        piecesRow(
          `notPlaced|${id}`,
          'notPlaced',
          part.name,
          part.kind,
          [{ place: '', quantity: 1, from: id, what: part.name }],
          'not placed in this arrangement',
          part.priceEach === undefined ? {} : { unitPrice: part.priceEach, price: part.priceEach },
        ),
      ),
    ...lines
      .filter(({ run }) => !run)
      .map(({ id, line, kindId }) =>
        piecesRow(
          `notRouted|${id}`,
          'notPlaced',
          line.name,
          kindId,
          [{ place: '', quantity: 1, from: id, what: line.name }],
          'no run, so no length',
        ),
      ),
  ];
}
