import { byId } from '../base/order';
import { meets } from '../base/slices';
import type { Vec3 } from '../base/vec';
import { sameValue } from '../boat/schema-walk';
import type { LineCrossing } from '../rules/facts';
import { boxAround, placesOn, primLength } from '../runs/routing/prims';
import type { WishZone } from '../runs/routing/wishes/zones';
import type { Solid } from '../shape/space/solids';
import { run } from './final-run';
import { layout } from './shape-stages';
import { boxOf, solidsInCell } from './solid-stages';
import { line, lineIds, lineKind } from './source';
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

const crossings: ComputedStage<readonly LineCrossing[]> = {
  id: 'crossings',
  compute: (lineId, read) => {
    const outcome = read(run, lineId);
    return outcome.status === 'routed' ? outcome.crossings.map((crossing) => ({ line: lineId, ...crossing })) : [];
  },
  same: sameValue,
};

const NO_CROSSINGS: readonly LineCrossing[] = [];

/** Where runs pass panels, by panel. */
const crossingsByPanel: ComputedStage<ReadonlyMap<string, readonly LineCrossing[]>> = {
  id: 'crossingsByPanel',
  compute: (_, read) => {
    const byPanel = new Map<string, LineCrossing[]>();
    for (const crossing of read(lineIds).flatMap((id) => read(crossings, id))) {
      const list = byPanel.get(crossing.panelId);
      if (list) list.push(crossing);
      else byPanel.set(crossing.panelId, [crossing]);
    }
    return byPanel;
  },
  same: () => false,
};

/** Where runs pass one panel, so that a run which moves asks again only about those that it passes. */
export const crossingsOf: ComputedStage<readonly LineCrossing[]> = {
  id: 'crossingsOf',
  compute: (panelId, read) => read(crossingsByPanel).get(panelId) ?? NO_CROSSINGS,
  same: sameItems,
};

/** The box around the run of a line with its hose; null where it has none. */
const boxAlong: ComputedStage<{ readonly low: Vec3; readonly high: Vec3 } | null> = {
  id: 'boxAlong',
  compute: (lineId, read) => {
    const outcome = read(run, lineId);
    const kind = read(line, lineId)?.kind;
    if (outcome.status !== 'routed') return null;
    const radius = ((kind === undefined ? undefined : read(lineKind, kind)?.outsideM) ?? 0) / 2;
    return boxAround(outcome.prims, radius);
  },
  same: sameValue,
};

/** Lines whose runs come into a box. Key: `boxKey`. */
export const runsInBox: ComputedStage<readonly string[]> = {
  id: 'runsInBox',
  compute: (key, read) => {
    const { low, high } = boxOf(key);
    return read(lineIds).filter((id) => {
      const box = read(boxAlong, id);
      return box !== null && meets(box, low, high);
    });
  },
  same: sameItems,
};
