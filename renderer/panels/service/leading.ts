import type { Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { useApp } from '../../store/app';
import { placeOf, thingOf } from '../../store/select';
import type { Selection } from '../../store/types';

/** The record of a task that a word names: a thing, a run, an opening, a compartment; null for what is no record. */
export function recordOf(boat: Boat, owner: string): Selection | null {
  const [id = owner] = owner.split('/');
  if (thingOf(boat, id)) return { kind: 'thing', id };
  if (boat.lines[id]) return { kind: 'line', id };
  if (boat.openings[id]) return { kind: 'opening', id };
  return boat.compartments[id] ? { kind: 'compartment', id } : null;
}

/** To the inspector of a record: where service is judged, findings stand in its place. */
export function inspect(selection: Selection, at: Vec3 | null = null): void {
  const { boat, arrangementId, stage, setStage, goTo } = useApp.getState();
  if (stage === 'checks' || stage === 'sheets' || stage === 'hull') setStage('equipment');
  const place = selection.kind === 'thing' && boat ? placeOf(boat, arrangementId, selection.id)?.at : undefined;
  goTo(selection, at ?? place ?? null);
}
