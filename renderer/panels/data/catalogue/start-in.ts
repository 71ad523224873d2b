import type { Boat } from '@core/boat/schema/boat';
import { useApp } from '../../../store/app';
import { layoutOf } from '../../../store/derived';

/** In place of a compartment: not aboard yet. */
export const UNPLACED = '';

/** Into which compartment a thing is first put: the one in hand, else the first locker at the section. */
export function startIn(boat: Boat): string {
  const { selection, sectionX, arrangementId } = useApp.getState();
  if (selection?.kind === 'compartment' && boat.compartments[selection.id]) return selection.id;
  const layout = layoutOf(boat, arrangementId);
  const near = Object.entries(layout.cellsOf).find(
    ([id, cells]) =>
      boat.compartments[id]?.kind === 'locker' &&
      cells.some((index) => {
        const cell = layout.cells[index];
        return cell !== undefined && cell.low[0] <= sectionX && sectionX <= cell.high[0];
      }),
  );
  return near?.[0] ?? Object.keys(boat.compartments)[0] ?? UNPLACED;
}
