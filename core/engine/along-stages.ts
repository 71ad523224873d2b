import { byId } from '../base/order';
import { placesOn, primLength } from '../runs/routing/prims';
import type { WishZone } from '../runs/routing/wishes/zones';
import type { Solid } from '../shape/space/solids';
import { run } from './final-run';
import { layout } from './shape-stages';
import { solidsInCell } from './solid-stages';
import { type ComputedStage, sameItems } from './store';
import { zonesInCell } from './zone-stages';

/** No cell that a run passes is thinner than this by chance. */
const LOOK_M = 0.02;

/** Cells that the run of a line passes, in order of their index. */
export const cellsAlong: ComputedStage<readonly number[]> = {
  id: 'cellsAlong',
  compute: (lineId, read) => {
    const outcome = read(run, lineId);
    if (outcome.status === 'blocked') return [];
    const cells = read(layout);
    const found = new Set<number>();
    for (const prim of outcome.prims) {
      const count = Math.max(1, Math.ceil(primLength(prim) / LOOK_M));
      const placeAt = placesOn(prim);
      for (let k = 0; k <= count; k += 1) {
        const cell = cells.cellAt(placeAt(k / count));
        if (cell !== null) found.add(cell);
      }
    }
    return [...found].sort((a, b) => a - b);
  },
  same: sameItems,
};

/** Zones in the cells that the run of a line passes, each once, sorted by id. */
export const zonesAlong: ComputedStage<readonly WishZone[]> = {
  id: 'zonesAlong',
  compute: (lineId, read) => {
    const found = new Map<string, WishZone>();
    for (const cell of read(cellsAlong, lineId))
      for (const zone of read(zonesInCell, String(cell))) found.set(zone.id, zone);
    return [...found.values()].sort(byId);
  },
  same: sameItems,
};

/** Spaces of service tasks in the cells that the run of a line passes, each once, sorted by id. */
export const servicesAlong: ComputedStage<readonly Solid[]> = {
  id: 'servicesAlong',
  compute: (lineId, read) => {
    const found = new Map<string, Solid>();
    for (const cell of read(cellsAlong, lineId))
      for (const solid of read(solidsInCell, String(cell)))
        if (solid.layer === 'serviceKeepOut') found.set(solid.id, solid);
    return [...found.values()].sort(byId);
  },
  same: sameItems,
};
