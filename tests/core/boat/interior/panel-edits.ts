import { type BoatRecipe, edit, freeId } from '@core/boat/edits';
import { facesAgainst, facesOf } from '@core/boat/interior/faces';
import { compartmentsMerged } from '@core/boat/interior/merging';
import { compartmentCopiedAcross, compartmentMirrored } from '@core/boat/interior/mirroring';
import { compartmentDeleted, compartmentDuplicated } from '@core/boat/interior/removing';
import {
  compartmentShifted,
  compartmentTurned,
  cornerAdded,
  cornerMoved,
  cornerRemoved,
  facesMoved,
} from '@core/boat/interior/shaping';
import { compartmentSplit } from '@core/boat/interior/splitting';
import type { Boat } from '@core/boat/schema/boat';
import { deriveLayout } from '@core/shape/layout/derive';
import { expect } from 'vitest';
import { type Dice, dice } from '../../../support/dice';
import { box, drawnBoat } from './shapes';

export const layoutOf = (boat: Boat) =>
  deriveLayout({
    compartments: boat.compartments,
    panels: boat.panels,
    newHoles: boat.arrangements.one?.newHoles ?? {},
    newHoleCostM: boat.newHoleCostM,
  });

/** Six boxes in two rows, a record with a hole on every inner panel, and one towards undrawn space. */
export function twoRows(): Boat {
  const compartments: Record<string, object> = {};
  const panels: Record<string, object> = {};
  for (const i of [0, 1, 2]) {
    compartments[`p${i}`] = box(`Port ${i}`, [i, i + 1], [0, 0.8], [0, 0.6]);
    compartments[`s${i}`] = box(`Starboard ${i}`, [i, i + 1], [-0.8, 0], [0, 0.6]);
    panels[`middle${i}`] = record([`p${i}`, `s${i}`], [i + 0.5, 0, 0.3], 0.01 + i / 1000);
    if (i === 0) continue;
    panels[`port${i}`] = record([`p${i - 1}`, `p${i}`], [i, 0.4, 0.3], 0.02 + i / 1000);
    panels[`starboard${i}`] = record([`s${i - 1}`, `s${i}`], [i, -0.4, 0.3], 0.03 + i / 1000);
  }
  panels.outer = record(['p1', 'undrawn'], [1.5, 0.8, 0.3], 0.04);
  const newHoles = { drilled: { between: ['p0', 'p1'], at: [1, 0.2, 0.2], diameterM: 0.02 } };
  return drawnBoat({ compartments, panels, arrangements: { one: { name: 'One', newHoles } } });
}

const record = (between: readonly string[], near: readonly number[], thicknessM: number): object => ({
  between,
  near,
  thicknessM,
  rule: 'noDrill',
  material: 'ply',
  holes: { [`hole${thicknessM}`]: { at: near, diameterM: 0.03 } },
});

/** One edit of whatever kind, on whatever is there. */
function anyEdit(boat: Boat, luck: Dice): BoatRecipe {
  const ids = Object.keys(boat.compartments);
  const id = ids.length === 0 ? 'none' : luck.pick(ids);
  const own = boat.compartments[id];
  const faces = own ? facesOf(own) : [];
  const face = faces.length === 0 ? null : luck.pick(faces);
  const corner = luck.whole(own?.outline.length ?? 1);
  const by = luck.from(-0.3, 0.3);
  switch (luck.whole(12)) {
    case 0:
      return compartmentDeleted(id);
    case 1:
      return compartmentSplit(
        id,
        {
          at: face?.centre ?? [0, 0, 0],
          normal: luck.pick([
            [1, 0, 0],
            [0, 1, 0],
            [0, 0, 1],
          ] as const),
        },
        freeId(boat.compartments, `${id}-part`),
        'Part',
      );
    case 2:
    case 3: {
      const others = facesAgainst(boat.compartments, id, face?.key ?? '');
      return compartmentsMerged(id, others.length > 0 ? luck.pick(others).id : luck.pick(ids));
    }
    case 4:
      return compartmentMirrored(id);
    case 5:
      return compartmentCopiedAcross(id, freeId(boat.compartments, `${id}-across`), 'Across');
    case 6:
      return compartmentDuplicated(id, freeId(boat.compartments, `${id}-copy`), 'Copy', [by, by, 0]);
    case 7:
      return compartmentShifted(id, [by, 0, by]);
    case 8:
      return compartmentTurned(id, luck.from(-40, 40));
    case 9:
      return cornerAdded(id, corner);
    case 10:
      return luck.whole(2) === 0
        ? cornerRemoved(id, corner)
        : cornerMoved(id, corner, [luck.from(0, 3), luck.from(-1, 1), luck.from(0, 0.6)]);
    default:
      return facesMoved(face ? [{ id, key: face.key, by }] : []);
  }
}

/** Sequences of edits by their seeds: after each edit every record of a panel is bound or listed, and none loses what it says. */
export function heldThroughEdits(first: number, count: number): { readonly edits: number; readonly orphans: number } {
  let edits = 0;
  let orphans = 0;
  for (let seed = first; seed < first + count; seed++) {
    const luck = dice(seed);
    let boat = twoRows();
    const thicknesses = Object.values(boat.panels).map(({ thicknessM }) => thicknessM);
    for (let step = 0; step < 12; step++) {
      const result = edit(boat, anyEdit(boat, luck));
      // An edit that would make a file that cannot be read is refused as a whole.
      if (!result.ok) continue;
      edits++;
      boat = result.boat;
      const layout = layoutOf(boat);
      const known = new Set([
        ...Object.values(layout.panels).flatMap(({ dataId }) => dataId ?? []),
        ...layout.walls.flatMap(({ dataId }) => dataId ?? []),
        ...layout.orphans.flatMap(({ what, dataId }) => (what === 'panel' ? dataId : [])),
      ]);
      expect([seed, step, Object.keys(boat.panels).filter((id) => !known.has(id))]).toEqual([seed, step, []]);
      orphans += layout.orphans.length;
    }
    // Each board is known by its own thickness: none is lost, nor its rule, its material or its hole.
    for (const thicknessM of thicknesses) {
      const kept = Object.values(boat.panels).filter((one) => one.thicknessM === thicknessM);
      expect([seed, thicknessM, kept.length > 0]).toEqual([seed, thicknessM, true]);
      for (const { rule, material } of kept) expect([rule, material]).toEqual(['noDrill', 'ply']);
      expect(kept.flatMap(({ holes }) => Object.keys(holes))).toContain(`hole${thicknessM}`);
    }
  }
  return { edits, orphans };
}
