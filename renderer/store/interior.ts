import { type BoatRecipe, freeId, lineDeleted, thingDeleted } from '@core/boat/edits';
import { compartmentsMerged, mergedShape } from '@core/boat/interior/merging';
import { compartmentCopiedAcross, compartmentMirrored } from '@core/boat/interior/mirroring';
import { panelChanged } from '@core/boat/interior/panel-data';
import { drawnBounds } from '@core/boat/interior/placing';
import {
  compartmentDeleted,
  compartmentDuplicated,
  openingDeleted,
  standingPlaceDeleted,
  surfaceDeleted,
} from '@core/boat/interior/removing';
import type { PanelData } from '@core/boat/schema/boat';
import { create } from 'zustand';
import { useApp } from './app';
import { deleteChosen } from './chosen';
import { layoutOf } from './derived';
import { placeOfPanel } from './panel-place';
import { pulledDeleted } from './pulled';
import { nameOfId } from './select';

/** What is done to whole compartments and to what hangs on them, as one edit each. */

/** The form for a new compartment by its numbers: up, and beside which. */
export interface CompartmentForm {
  readonly open: boolean;
  readonly beside: string | null;
}
export const useCompartmentForm = create<CompartmentForm>()(() => ({ open: false, beside: null }));

/** Opens the form, beside what is selected. */
export function newCompartment(): void {
  const { selection, setStage, select } = useApp.getState();
  const beside = selection?.kind === 'compartment' ? selection.id : null;
  setStage('compartments');
  select(null);
  useCompartmentForm.setState({ open: true, beside });
}

const apply = (label: string, recipe: BoatRecipe, then?: { readonly select: string }): boolean => {
  const { edit, select } = useApp.getState();
  const done = edit(label, recipe);
  if (done && then) select({ kind: 'compartment', id: then.select });
  return done;
};

export function mirrorCompartment(id: string): void {
  const own = useApp.getState().boat?.compartments[id];
  if (own) apply(`Mirror ${own.name} to the other side`, compartmentMirrored(id));
}

/** A twin on the other side of the centreline, with a name that says so. */
export function copyAcross(id: string): void {
  const { boat } = useApp.getState();
  const own = boat?.compartments[id];
  if (!boat || !own) return;
  const newId = freeId(boat.compartments, `${id}-across`);
  apply(`Copy ${own.name} to the other side`, compartmentCopiedAcross(id, newId, nameAcross(own.name)), {
    select: newId,
  });
}

/** `Locker, port` to `Locker, starboard` and back; other names say `across`. */
export function nameAcross(name: string): string {
  if (/\bport\b/i.test(name)) return name.replace(/\bport\b/i, (word) => (word[0] === 'P' ? 'Starboard' : 'starboard'));
  if (/\bstarboard\b/i.test(name)) return name.replace(/\bstarboard\b/i, (word) => (word[0] === 'S' ? 'Port' : 'port'));
  return `${name}, across`;
}

export function duplicateCompartment(id: string): void {
  const { boat } = useApp.getState();
  const own = boat?.compartments[id];
  if (!boat || !own) return;
  const [low, high] = drawnBounds(own);
  const newId = freeId(boat.compartments, `${id}-copy`);
  // Forward of the first, so that the two do not share space.
  apply(`Duplicate ${own.name}`, compartmentDuplicated(id, newId, `${own.name}, copy`, [high[0] - low[0], 0, 0]), {
    select: newId,
  });
}

/** Merges a neighbour into a compartment; says why where the two do not fit together. */
export function mergeCompartments(id: string, otherId: string): boolean {
  const { boat, showProblem } = useApp.getState();
  const [own, other] = [boat?.compartments[id], boat?.compartments[otherId]];
  if (!own || !other) return false;
  const merged = mergedShape(own, other);
  if (merged.ok) return apply(`Merge ${other.name} into ${own.name}`, compartmentsMerged(id, otherId), { select: id });
  showProblem({ title: `Not merged: ${own.name} and ${other.name}`, lines: [merged.why] });
  return false;
}

/** Deletes what is selected. False for what cannot be deleted. */
export function deleteSelected(): boolean {
  const { boat, selection, select, notify } = useApp.getState();
  if (!boat || !selection) return false;
  if (useApp.getState().alsoSelected.length > 0) return deleteChosen();
  if (pulledDeleted(selection)) return true;
  const { id } = selection;
  switch (selection.kind) {
    case 'compartment': {
      const own = boat.compartments[id];
      const kept = Object.values(boat.panels).filter((panel) => panel.between.includes(id)).length;
      if (!apply(`Delete ${own?.name ?? id}`, compartmentDeleted(id))) return true;
      if (kept > 0)
        notify(`Deleted. Data of ${kept} ${kept === 1 ? 'panel is' : 'panels are'} kept in Compartments. Undo: Ctrl Z`);
      break;
    }
    case 'opening':
      apply(`Delete ${boat.openings[id]?.name ?? id}`, openingDeleted(id));
      break;
    case 'surface':
      apply('Delete a mounting surface', surfaceDeleted(id));
      break;
    case 'standingPlace':
      apply(`Delete ${boat.standingPlaces[id]?.name ?? id}`, standingPlaceDeleted(id));
      break;
    case 'thing':
      apply(`Delete ${nameOfId(boat, id)}`, thingDeleted(id));
      break;
    case 'line':
      apply(`Delete ${nameOfId(boat, id)}`, lineDeleted(id));
      break;
    default:
      return false;
  }
  select(null);
  return true;
}

/** Goes round the panels of the selected compartment, or on from the selected panel. */
export function nextPanel(): void {
  const { boat, arrangementId, selection, select, notify } = useApp.getState();
  if (!boat) return;
  const { panels } = layoutOf(boat, arrangementId);
  const now = selection?.kind === 'panel' ? panels[selection.id] : undefined;
  const around = selection?.kind === 'compartment' ? selection.id : now?.between[0];
  const own = Object.values(panels).filter((panel) => around === undefined || panel.between.includes(around));
  const next = own[(own.findIndex(({ id }) => id === now?.id) + 1) % Math.max(1, own.length)];
  if (next) select({ kind: 'panel', id: next.id });
  else notify('No two compartments meet there');
}

/** Says what may pass the selected panel. */
export function setRule(rule: PanelData['rule']): void {
  const { boat, arrangementId, selection, edit, notify } = useApp.getState();
  const panel = boat && selection?.kind === 'panel' ? layoutOf(boat, arrangementId).panels[selection.id] : undefined;
  if (!panel) notify('Select a panel first');
  else
    edit(
      `Rule of ${panel.name}`,
      panelChanged(placeOfPanel(panel), (record) => {
        record.rule = rule;
      }),
    );
}
