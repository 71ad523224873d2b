import type { Boat } from '@core/boat/schema/boat';
import { waterDensityOf } from '@core/boat/sea-water';
import { draughtScale, draughtSeries, type HydrostaticRow, hydrostaticTable } from '@core/shape/hull/hydrostatic-table';
import type { HullSurface, WaterPlane } from '@core/shape/hull/types';
import { useEffect, useState } from 'react';
import { useApp } from './app';
import { hullOf } from './derived';

/** Hydrostatics by draught at the reference trim. */
export interface DraughtTable {
  readonly referenceM: number;
  /** Round draughts and that of the reference attitude: the table. */
  readonly rows: readonly HydrostaticRow[];
  /** As many more between them as a smooth curve needs, in order of draught. */
  readonly curve: readonly HydrostaticRow[];
}

export const LEVEL_WATER: WaterPlane = { up: [0, 0, 1], levelM: 0 };

/** A hull under the hand changes with every frame: its curves wait until it rests for so long. */
const REST_MS = 120;
/** Rows are worked out in pieces no longer than this, so that the window stays quick. */
const SLICE_MS = 8;
/** The curve has this many points between keel and sheer. */
const CURVE_POINTS = 28;

const tables = new WeakMap<HullSurface, { readonly key: string; readonly table: DraughtTable }>();

/** The table of the boat afloat; null without a hull and until it is worked out for the first time. `isStale`: of an older hull. */
export function useDraughtTable(boat: Boat): { readonly table: DraughtTable | null; readonly isStale: boolean } {
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const surface = hullOf(boat);
  const { up, levelM } = attitude ?? LEVEL_WATER;
  const density = waterDensityOf(boat);
  const key = JSON.stringify([up, levelM, density]);
  const known = surface ? tables.get(surface) : undefined;
  const [shown, setShown] = useState<{
    readonly of: HullSurface | null;
    readonly key: string;
    readonly table: DraughtTable | null;
  }>({
    of: surface,
    key,
    table: known?.key === key ? known.table : null,
  });
  useEffect(() => {
    if (!surface) return;
    const found = tables.get(surface);
    if (found?.key === key) {
      setShown({ of: surface, key, table: found.table });
      return;
    }
    const [reference, waterDensityKgM3] = waterOf(key);
    return whenAtRest(surface, reference, waterDensityKgM3, (table) => {
      tables.set(surface, { key, table });
      setShown({ of: surface, key, table });
    });
  }, [surface, key]);
  if (!surface) return { table: null, isStale: false };
  return { table: shown.table, isStale: shown.of !== surface || shown.key !== key };
}

/** The key is the water itself, so that the effect depends on values and not on the report's identity. */
function waterOf(key: string): readonly [WaterPlane, number] {
  const [up, levelM, density] = JSON.parse(key) as [WaterPlane['up'], number, number];
  return [{ up, levelM }, density];
}

function whenAtRest(
  surface: HullSurface,
  reference: WaterPlane,
  waterDensityKgM3: number,
  done: (table: DraughtTable) => void,
): () => void {
  let timer = 0;
  let scale: ReturnType<typeof draughtScale> | null = null;
  let wanted: readonly number[] = [];
  const rows: HydrostaticRow[] = [];
  const slice = (): void => {
    const until = performance.now() + SLICE_MS;
    if (!scale) {
      scale = draughtScale(surface, reference);
      const { sheerM } = scale;
      const between = Array.from({ length: CURVE_POINTS }, (_, i) => (sheerM * (i + 1)) / CURVE_POINTS);
      wanted = sheerM > 0 ? [...new Set([...draughtSeries(scale), ...between])].sort((a, b) => a - b) : [];
    }
    while (rows.length < wanted.length && performance.now() < until)
      rows.push(...hydrostaticTable(surface, reference, { waterDensityKgM3, draughtsM: [wanted[rows.length] ?? 0] }));
    if (rows.length < wanted.length) {
      timer = window.setTimeout(slice, 0);
      return;
    }
    const series = new Set(draughtSeries(scale));
    done({ referenceM: scale.referenceM, rows: rows.filter(({ draughtM }) => series.has(draughtM)), curve: rows });
  };
  timer = window.setTimeout(slice, REST_MS);
  return () => window.clearTimeout(timer);
}

/** What is shown of the boat at one heel: sinkage with the displacement kept, and the rail that comes nearest to the water. */
export function heeledRow(boat: Boat, reference: WaterPlane, heelDeg: number): HydrostaticRow | null {
  const surface = hullOf(boat);
  if (!surface) return null;
  return hydrostaticTable(surface, reference, { waterDensityKgM3: waterDensityOf(boat), heelDeg })[0] ?? null;
}
