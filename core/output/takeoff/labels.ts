import { byKey } from '../../base/order';
import { MEDIUM_WORDS } from '../text/schema-words';
import type { TakeoffLine, TakeoffPart } from './input';
import { piecesRow } from './pieces';
import type { Share, TakeoffRow } from './row';
import { UNDRAWN_TEXT } from './words';

/** Labels: every hose end with what flows and which way, every wire end, every valve and every seacock of the plan. */
export function labelRows(lines: readonly TakeoffLine[], parts: readonly TakeoffPart[]): TakeoffRow[] {
  const groups = new Map<string, { item: string; kind: string; note: string; spread: Share[] }>();
  const put = (key: string, item: string, kind: string, note: string, share: Share): void => {
    const group = groups.get(key) ?? { item, kind, note, spread: [] };
    group.spread.push(share);
    groups.set(key, group);
  };
  for (const { id, line, kind, ends } of lines) {
    const medium = MEDIUM_WORDS[line.medium];
    const [from, to] = ends;
    ends.forEach((end) => {
      const place = end.place;
      if (kind.what === 'cable')
        put(
          `label|wire|${line.medium}`,
          `Wire label: ${medium}`,
          line.medium,
          'at both ends, with the name of the line',
          {
            place,
            quantity: 1,
            from: id,
            what: `${line.name}: ${from.name} to ${to.name}`,
          },
        );
      else
        put(
          `label|hose|${line.medium}`,
          `Hose label with arrow: ${medium}`,
          line.medium,
          'at both ends, the arrow along the flow',
          {
            place,
            quantity: 1,
            from: id,
            what: `${line.name}, arrow ${end === from ? `to ${to.name}` : `from ${from.name}`}`,
          },
        );
    });
  }
  const valves = new Map<string, Share & { readonly isSeacock: boolean }>();
  for (const { id, part, place } of parts)
    if (place !== undefined && (part.valve || part.kind === 'seacock'))
      valves.set(id, {
        place: place ?? UNDRAWN_TEXT,
        quantity: 1,
        from: id,
        what: part.name,
        isSeacock: part.kind === 'seacock',
      });
  for (const { ends } of lines)
    for (const { thing, name, place, isSeacock, isValve } of ends)
      if ((isSeacock || isValve) && !valves.has(thing))
        valves.set(thing, { place, quantity: 1, from: thing, what: name, isSeacock });
  for (const [, { isSeacock, ...share }] of [...valves].sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (isSeacock)
      put('label|seacock', 'Seacock label', 'seacock', 'what it feeds or drains, and which way is shut', share);
    else put('label|valve', 'Valve label', 'valve', 'its name, and each position', share);
  }
  return [...groups]
    .map(([key, { item, kind, note, spread }]) => piecesRow(key, 'label', item, kind, spread, note))
    .sort(byKey);
}
