import { byKey } from '../../base/order';
import type { Vec3 } from '../../base/vec';
import { materialText } from '../text/schema-words';
import type { TakeoffInput, TakeoffLine } from './input';
import { roundedUp } from './lengths';
import { piecesRow } from './pieces';
import type { HolePlace, Share, TakeoffRow } from './row';
import { drillText, millimetres, UNDRAWN_TEXT } from './words';

/** Grommets come in whole millimetres of hole. */
const MILLIMETRE = 0.001;

interface Hole {
  readonly key: string;
  readonly panelId: string;
  readonly at: Vec3;
  readonly drillM: number;
  readonly users: readonly string[];
}

/** Holes to be drilled, each with its place on the panel, and the grommets that line them. */
export function holeRows(lines: readonly TakeoffLine[], input: TakeoffInput): TakeoffRow[] {
  const named = new Map(lines.map(({ id, line }) => [id, line.name]));
  const rows: TakeoffRow[] = [];
  const grommets = new Map<number, Share[]>();
  for (const { key, panelId, at, drillM, users } of holesOf(lines)) {
    const panel = input.panels[panelId];
    const { from, edges } = input.drilling(panelId, at);
    const place: HolePlace = {
      panelId,
      panel: panel?.name ?? panelId,
      diameterM: drillM,
      thicknessM: panel?.thicknessM ?? null,
      at,
      drillFrom: from === null ? null : input.compartmentName(from),
      edges,
    };
    const what = users.map((user) => named.get(user) ?? user).join(', ');
    const goes = place.drillFrom ?? UNDRAWN_TEXT;
    const size = Math.round(drillM / MILLIMETRE);
    const thickness = panel ? `, ${millimetres(panel.thicknessM)} mm ${materialText(panel.material)}` : '';
    const centre = at.map(millimetres);
    rows.push(
      piecesRow(
        key,
        'hole',
        `Hole ${size} mm for ${what}`,
        panelId,
        users.slice(0, 1).map((user) => ({ place: goes, quantity: 1, from: user, what: place.panel })),
        `${drillText(place)}; centre at x ${centre[0]}, y ${centre[1]}, z ${centre[2]} mm${thickness}`,
        { buy: 0, place: place.panel, from: users, hole: place },
      ),
    );
    const shares = users.map((user, k) => ({ place: goes, quantity: k === 0 ? 1 : 0, from: user, what: place.panel }));
    grommets.set(size, [...(grommets.get(size) ?? []), ...shares]);
  }
  const grommetRows = [...grommets]
    .sort(([a], [b]) => a - b)
    .map(([size, spread]) => {
      const row = piecesRow(`grommet|${size}`, 'grommet', `Grommet for a hole of ${size} mm`, String(size), spread, '');
      return { ...row, spread: spread.filter(({ quantity }) => quantity > 0) };
    });
  return [...rows.sort(byKey), ...grommetRows];
}

function holesOf(lines: readonly TakeoffLine[]): readonly Hole[] {
  const shared = new Map<string, string[]>();
  for (const { id, run } of lines)
    for (const { newHoleId } of run?.crossings ?? [])
      if (newHoleId !== undefined) shared.set(newHoleId, [...new Set([...(shared.get(newHoleId) ?? []), id])]);
  const holes: Hole[] = [];
  const listed = new Set<string>();
  for (const { id, run } of lines) {
    const passes = new Map<string, number>();
    for (const { panelId, at, holeAt, diameterM, holeId, newHoleId } of run?.crossings ?? []) {
      // A planned hole is drilled once, whoever shares it.
      if (newHoleId === undefined ? holeId !== null : listed.has(newHoleId)) continue;
      if (newHoleId !== undefined) listed.add(newHoleId);
      const pass = (passes.get(panelId) ?? 0) + 1;
      passes.set(panelId, pass);
      holes.push({
        key: newHoleId === undefined ? `hole|${panelId}|${id}|${pass}` : `hole|${newHoleId}`,
        panelId,
        at: holeAt ?? at,
        drillM: roundedUp(diameterM, MILLIMETRE),
        users: newHoleId === undefined ? [id] : (shared.get(newHoleId) ?? [id]),
      });
    }
  }
  return holes;
}
