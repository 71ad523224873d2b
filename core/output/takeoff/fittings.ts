import { byKey } from '../../base/order';
import type { TakeoffInput, TakeoffLine, TakeoffPart } from './input';
import { piecesRow } from './pieces';
import type { Share, TakeoffRow } from './row';
import { millimetres, tenths, UNDRAWN_TEXT } from './words';

/** What holds lines and parts: end fittings, clamps, clips, screws. */

/** Clamps on a hose barb where the end says nothing else. */
const USUAL_CLAMPS = 2;

/** Rows of end fittings, and of the clamps of hose on barbs. */
export function endRows(lines: readonly TakeoffLine[]): TakeoffRow[] {
  const groups = new Map<string, { item: string; kindId: string; spread: Share[] }>();
  for (const { id, line, kindId, kind, fittings, ends } of lines) {
    // A supplied hose that must not be cut brings its ends.
    if (line.supplied && !line.supplied.mayCut) continue;
    fittings.forEach((end, k) => {
      if (end.name === undefined && end.diameterM === undefined && !end.crimped) return;
      const name = end.name ?? 'end fitting';
      // Its name may say how far it is bent.
      const angle = end.angleDeg === 0 || name.includes(`${end.angleDeg} degrees`) ? '' : `, ${end.angleDeg} degrees`;
      const key = `end|${kindId}|${name}${angle}`;
      const group = groups.get(key) ?? { item: `${kind.name}: ${name}${angle}`, kindId, spread: [] };
      group.spread.push({
        place: ends[k]?.place ?? '',
        quantity: 1,
        from: id,
        what: `${line.name}, at ${ends[k]?.name ?? ''}`,
      });
      groups.set(key, group);
    });
  }
  return [...groups]
    .map(([key, { item, kindId, spread }]) => piecesRow(key, 'end', item, kindId, spread, ''))
    .sort(byKey);
}

/** Clamps of hoses on barbs, by the diameter that they go round. */
export function clampRows(lines: readonly TakeoffLine[], practice: TakeoffInput['practice']): TakeoffRow[] {
  const groups = new Map<string, Share[]>();
  for (const { id, line, kind, fittings, ends } of lines) {
    if (kind.what !== 'hose' || (line.supplied && !line.supplied.mayCut)) continue;
    fittings.forEach((end, k) => {
      if (end.crimped) return;
      const quantity = end.clamps ?? USUAL_CLAMPS;
      if (quantity === 0) return;
      const size = tenths(kind.outsideM);
      const share = {
        place: ends[k]?.place ?? '',
        quantity,
        from: id,
        what: `${line.name}, at ${ends[k]?.name ?? ''}`,
      };
      groups.set(size, [...(groups.get(size) ?? []), share]);
    });
  }
  const said =
    practice === 'isoSmallCraft'
      ? 'ISO small-craft practice: two at every joint below the waterline, stainless'
      : 'US voluntary practice: one that is stainless all through will do; two below the waterline are usual';
  return [...groups]
    .map(([size, spread]) =>
      piecesRow(`clamp|${size}`, 'clamp', `Hose clamp for ${size} mm outside`, size, spread, said),
    )
    .sort(byKey);
}

/** Clips where the run can be held, by the diameter that they hold, so that no span is longer than its kind allows. */
export function clipRows(lines: readonly TakeoffLine[]): TakeoffRow[] {
  const groups = new Map<string, { spacings: Set<string>; spread: Share[]; far: number }>();
  for (const { id, line, kind, clips } of lines) {
    if (clips.length === 0 || kind.supportM === undefined) continue;
    const size = tenths(kind.outsideM);
    const group = groups.get(size) ?? { spacings: new Set(), spread: [], far: 0 };
    group.spacings.add(millimetres(kind.supportM));
    for (const { alongM, place, isFar } of clips) {
      group.spread.push({ place, quantity: 1, from: id, what: `${line.name}, at ${millimetres(alongM)} mm` });
      if (isFar) group.far += 1;
    }
    groups.set(size, group);
  }
  return [...groups]
    .map(([size, { spacings, spread, far }]) => {
      const every = `every ${[...spacings].sort().join(' or ')} mm at most`;
      const longer = far === 1 ? 'one span is' : `${far} spans are`;
      const note = far === 0 ? every : `${every}; ${longer} longer, nothing nearer holds`;
      return piecesRow(`clip|${size}`, 'clip', `Clip for ${size} mm`, size, spread, note);
    })
    .sort(byKey);
}

/** Screws of placed parts that say how many and how long. */
export function screwRows(parts: readonly TakeoffPart[]): TakeoffRow[] {
  const groups = new Map<string, Share[]>();
  for (const { id, part, place } of parts) {
    const { screws = 0, screwM } = part.mounting ?? {};
    if (screws === 0 || place === undefined) continue;
    const size = screwM === undefined ? '' : tenths(screwM);
    const share = { place: place ?? UNDRAWN_TEXT, quantity: screws, from: id, what: part.name };
    groups.set(size, [...(groups.get(size) ?? []), share]);
  }
  return [...groups]
    .map(([size, spread]) =>
      piecesRow(
        `screw|${size}`,
        'screw',
        size === '' ? 'Screw, length not entered' : `Screw, ${size} mm`,
        size,
        spread,
        'mind what is behind the face',
      ),
    )
    .sort(byKey);
}
