import { byId } from '../base/order';
import { sameValue } from '../boat/schema-walk';
import { wishesFor } from '../runs/routing/wishes/for-line';
import type { RunWishes } from '../runs/routing/wishes/wishes';
import { type WishZone, zonesOfRooms, zonesOfThing } from '../runs/routing/wishes/zones';
import { layout } from './shape-stages';
import { compartmentData, line, lineKind, pose, standingPlaces, thing, thingIds } from './source';
import { type ComputedStage, sameItems } from './store';

const NO_ZONES: readonly WishZone[] = [];

/** Zones about one thing; empty while it is not placed. */
const zonesOf: ComputedStage<readonly WishZone[]> = {
  id: 'zonesOf',
  compute: (thingId, read) => {
    const what = read(thing, thingId);
    const where = read(pose, thingId);
    if (!what || !where) return NO_ZONES;
    const found = zonesOfThing(thingId, what, where, read(layout));
    return found.length === 0 ? NO_ZONES : found;
  },
  same: sameValue,
};

/** Zones that compartments and standing places give. */
const roomZones: ComputedStage<readonly WishZone[]> = {
  id: 'roomZones',
  compute: (_, read) => zonesOfRooms(read(compartmentData), read(standingPlaces), read(layout)),
  same: sameValue,
};

const zonesByCell: ComputedStage<ReadonlyMap<number, readonly WishZone[]>> = {
  id: 'zonesByCell',
  compute: (_, read) => {
    const byCell = new Map<number, WishZone[]>();
    for (const zone of [...read(thingIds).flatMap((id) => read(zonesOf, id)), ...read(roomZones)])
      for (const cell of zone.cells) {
        const list = byCell.get(cell);
        if (list) list.push(zone);
        else byCell.set(cell, [zone]);
      }
    for (const list of byCell.values()) list.sort(byId);
    return byCell;
  },
  same: () => false,
};

/** Zones that touch a cell, sorted by id. Key: index of the cell. */
export const zonesInCell: ComputedStage<readonly WishZone[]> = {
  id: 'zonesInCell',
  compute: (cell, read) => read(zonesByCell).get(Number(cell)) ?? NO_ZONES,
  same: sameItems,
};

/** What a line should keep where it can, whether or not the router is asked to; null for a line whose ends are not known. */
export const lineWishes: ComputedStage<RunWishes | null> = {
  id: 'lineWishes',
  compute: (lineId, read) => {
    const what = read(line, lineId);
    const kind = what && read(lineKind, what.kind);
    const from = what && read(thing, what.from.thing);
    return what && kind && from ? wishesFor({ line: what, kind, from }) : null;
  },
  same: sameValue,
};
