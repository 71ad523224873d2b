import { add, dot, type Vec3 } from '@core/base/vec';
import { faceOfKey } from '@core/boat/interior/faces';
import { compartmentShifted, cornerMoved, facesMoved } from '@core/boat/interior/shaping';
import { useApp } from '../../store/app';
import { useDrawing } from '../../store/drawing';
import type { Selection } from '../../store/types';
import { cornerAt } from '../../tools/grips';
import { withPartners } from './hold';

/** The face or corner in hand, else the whole of what is selected, by a step of the arrow keys. False for other selections. */
export function nudgeShape(selection: Selection | null, by: Vec3): boolean {
  const { boat, edit } = useApp.getState();
  if (!boat || !selection) return false;
  const { id } = selection;
  if (selection.kind === 'compartment') {
    const own = boat.compartments[id];
    if (!own) return true;
    const { grip } = useDrawing.getState();
    const inHand = grip && 'compartment' in grip && grip.compartment === id ? grip : null;
    if (inHand?.kind === 'face') {
      const face = faceOfKey(own, inHand.key);
      const out = face ? dot(face.normal, by) : 0;
      if (Math.abs(out) > 1e-6)
        edit(
          `Move a face of ${own.name}`,
          facesMoved(withPartners(boat, { id, key: inHand.key, by: out })),
          `nudge ${id} ${inHand.key}`,
        );
    } else if (inHand?.kind === 'corner' && inHand.corner < own.outline.length)
      edit(
        `Move a corner of ${own.name}`,
        cornerMoved(id, inHand.corner, add(cornerAt(own, inHand.corner), by)),
        `nudge ${id} corner ${inHand.corner}`,
      );
    else edit(`Move ${own.name}`, compartmentShifted(id, by), `nudge ${id}`);
    return true;
  }
  const group = GROUPS[selection.kind];
  if (!group) return false;
  edit(
    'Move it',
    (draft) => {
      const own = draft[group][id];
      if (own) own.at = [own.at[0] + by[0], own.at[1] + by[1], own.at[2] + by[2]];
    },
    `nudge ${group} ${id}`,
  );
  return true;
}

const GROUPS: Readonly<Partial<Record<Selection['kind'], 'openings' | 'mountingSurfaces' | 'standingPlaces'>>> = {
  opening: 'openings',
  surface: 'mountingSurfaces',
  standingPlace: 'standingPlaces',
};
