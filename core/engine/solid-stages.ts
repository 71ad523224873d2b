import { byId } from '../base/order';
import { meets, Slices } from '../base/slices';
import type { Vec3 } from '../base/vec';
import { sameValue } from '../boat/schema-walk';
import { surfaceUnder } from '../rules/mounted';
import type { Solid } from '../shape/space/solids';
import { cellsTouching, solidBounds, thingSolids } from '../shape/space/things';
import { layout } from './shape-stages';
import { fixtureIds, mountingSurfaces, placeChoices, pose, type Source, thing, thingIds } from './source';
import { type ComputedStage, type InputStage, identical, sameItems } from './store';

/** A hose whose centre line lies in one cell may touch what stands this far into the next one, through an open face. */
export const CELL_MARGIN_M = 0.06;
const NO_SOLIDS: readonly Solid[] = [];
const NO_THINGS: readonly string[] = [];

/** Envelope, sweeps and service spaces of one thing in the boat; empty while it is not placed. */
export const solidsOf: ComputedStage<readonly Solid[]> = {
  id: 'solidsOf',
  compute: (thingId, read) => {
    const what = read(thing, thingId);
    const where = read(pose, thingId);
    return what && where ? thingSolids(thingId, what, where) : NO_SOLIDS;
  },
  same: sameValue,
};

const cellsOf: ComputedStage<readonly (readonly number[])[]> = {
  id: 'cellsOf',
  compute: (thingId, read) => {
    const cells = read(layout);
    return read(solidsOf, thingId).map((solid) => cellsTouching(cells, solid, CELL_MARGIN_M));
  },
  same: (a, b) => a.length === b.length && a.every((cells, index) => sameItems(cells, b[index] ?? [])),
};

/** Things by cell. Stays while things move within their cells. */
const thingsByCell: ComputedStage<ReadonlyMap<number, readonly string[]>> = {
  id: 'thingsByCell',
  compute: (_, read) => {
    const byCell = new Map<number, string[]>();
    for (const id of read(thingIds)) {
      for (const cell of new Set(read(cellsOf, id).flat())) {
        const list = byCell.get(cell);
        if (list) list.push(id);
        else byCell.set(cell, [id]);
      }
    }
    return byCell;
  },
  same: () => false,
};

/** Key: index of the cell. */
const thingsInCell: ComputedStage<readonly string[]> = {
  id: 'thingsInCell',
  compute: (cell, read) => read(thingsByCell).get(Number(cell)) ?? NO_THINGS,
  same: sameItems,
};

/** Solids that touch a cell, sorted by id. Key: index of the cell. */
export const solidsInCell: ComputedStage<readonly Solid[]> = {
  id: 'solidsInCell',
  compute: (key, read) => {
    const cell = Number(key);
    const found = read(thingsInCell, key).flatMap((id) => {
      const cells = read(cellsOf, id);
      return read(solidsOf, id).filter((_, index) => cells[index]?.includes(cell));
    });
    return found.length === 0 ? NO_SOLIDS : found.sort(byId);
  },
  same: sameValue,
};

export interface BoundedSolid {
  readonly solid: Solid;
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Envelope and sweeps of one thing with their bounds; service spaces stop nobody. */
export const boundsOf: ComputedStage<readonly BoundedSolid[]> = {
  id: 'boundsOf',
  compute: (thingId, read) =>
    read(solidsOf, thingId)
      .filter(({ layer }) => layer !== 'serviceKeepOut')
      .map((solid) => ({ solid, ...solidBounds(solid) })),
  same: (a, b) => a.length === b.length && a.every(({ solid }, index) => solid === b[index]?.solid),
};

const slicesOfAll = (
  id: string,
  things: InputStage<Source, readonly string[]>,
): ComputedStage<Slices<BoundedSolid>> => ({
  id,
  compute: (_, read) => new Slices(read(things).flatMap((thingId) => read(boundsOf, thingId))),
  same: () => false,
});

/** One slice of the boat by itself, so that a move asks again only about what lies beside it. Key: number of the slice. */
const oneSlice = (id: string, all: ComputedStage<Slices<BoundedSolid>>): ComputedStage<readonly BoundedSolid[]> => ({
  id,
  compute: (slice, read) => read(all).slice(Number(slice)),
  same: sameItems,
});

export const boxKey = (low: Vec3, high: Vec3): string => [...low, ...high].join(',');
export function boxOf(key: string): { readonly low: Vec3; readonly high: Vec3 } {
  const [lx = 0, ly = 0, lz = 0, hx = 0, hy = 0, hz = 0] = key.split(',').map(Number);
  return { low: [lx, ly, lz], high: [hx, hy, hz] };
}

const inBox = (id: string, slices: ComputedStage<readonly BoundedSolid[]>): ComputedStage<readonly Solid[]> => ({
  id,
  compute: (key, read) => {
    const { low, high } = boxOf(key);
    const found = new Set<Solid>();
    for (const slice of Slices.across({ low, high }))
      for (const one of read(slices, String(slice))) if (meets(one, low, high)) found.add(one.solid);
    return [...found].sort(byId);
  },
  same: sameValue,
});

/** Envelopes and sweeps of fixtures and parts whose bounds meet a box, sorted by id. Key: `boxKey`. */
export const solidsInBox = inBox('solidsInBox', oneSlice('allSlice', slicesOfAll('allBounds', thingIds)));
/** The same for fixtures alone. */
export const fixedSolidsInBox = inBox(
  'fixedSolidsInBox',
  oneSlice('fixedSlice', slicesOfAll('fixedBounds', fixtureIds)),
);

/** The surface that a placed part is screwed to, as it says or as it lies: stays as it is while the part slides along it. */
export const surfaceOf: ComputedStage<string | null> = {
  id: 'surfaceOf',
  compute: (partId, read) =>
    surfaceUnder(partId, {
      mountedOn: (id) => read(placeChoices, id)?.mountedOn ?? null,
      thing: (id) => read(thing, id) ?? null,
      pose: (id) => read(pose, id),
      mountingSurfaces: () => read(mountingSurfaces),
    })?.id ?? null,
  same: identical,
};
