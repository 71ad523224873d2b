import type { Vec3 } from '../../base/vec';
import type { Opening, Service, Thing } from '../../boat/schema/boat';
import type { HullSurface, WaterPlane } from '../../shape/hull/types';
import { volumeBelow } from '../../shape/layout/room';
import type { Layout } from '../../shape/layout/types';
import { isOpenBetween } from './falling';
import { reachedBy, sillHeight, type Waterway } from './waterways';

/** Tasks in which a filter or strainer is opened and what it holds runs out. */
const OPENS: ReadonlySet<Service['task']> = new Set(['bowlDrop', 'basket', 'lid', 'carbon']);
const HOLDS: ReadonlySet<string> = new Set(['filter', 'carbonFilter', 'strainer']);

/** Litres that run out in a task; null: something does and nobody says how much; 0: nothing does. */
export function spillOf(thing: Pick<Thing, 'kind' | 'liquidL'>, service: Service): number | null {
  if (service.spillL !== undefined) return service.spillL;
  if (!HOLDS.has(thing.kind) || !OPENS.has(service.task)) return 0;
  return thing.liquidL ?? null;
}

/** Litres that a thing catches from above; null: as much as comes. */
export const catches = ({ kind, catchesL }: Pick<Thing, 'kind' | 'catchesL'>): number | null =>
  catchesL ?? (kind === 'sink' ? null : 0);

/** A fall is followed this often, and no deeper than this. */
const STEP_M = 0.01;
const DEEPEST_M = 5;

/** Compartment in which something lands that falls from a point, through what is open below; null where nothing is drawn. */
export function fallsInto(
  from: Vec3,
  start: string | null,
  { layout, openings }: { readonly layout: Layout; readonly openings: Readonly<Record<string, Opening>> },
): string | null {
  let home = layout.compartmentAt(from) ?? start;
  for (let fallM = STEP_M; fallM < DEEPEST_M; fallM += STEP_M) {
    const next: Vec3 = [from[0], from[1], from[2] - fallM];
    const here = layout.compartmentAt(next);
    if (here === null) continue;
    if (home !== null && here !== home && !isOpenBetween(home, here, { layout, openings })) return home;
    home = here;
  }
  return home;
}

/** A puddle gets over an edge that stands no higher than this above it. */
const OVER_M = 0.01;

/**
 * Compartments that a spill runs on into, the first one included: by limber holes and open panels, and over any other lower edge that the
 * spill rises to.
 */
export function runsOn(start: string, litres: number, { layout, hull, ways, level }: SpillRoom): readonly string[] {
  const isPassed = (from: string, way: Waterway): boolean => {
    if (way.kind === 'limberHole' || way.kind === 'openPanel') return true;
    const sill = { up: level.up, levelM: level.levelM + sillHeight(way, level) - OVER_M };
    return volumeBelow(layout, hull, from, sill) * 1000 <= litres;
  };
  return reachedBy(start, ways, isPassed).map(({ compartment }) => compartment);
}

export interface SpillRoom {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly ways: readonly Waterway[];
  /** The floating water: what is level aboard. */
  readonly level: WaterPlane;
}
