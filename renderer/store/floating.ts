import type { Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { waterDensityOf } from '@core/boat/sea-water';
import { hydrostatics, immersionPerCm } from '@core/shape/hull/hydrostatics';
import type { HullSurface, WaterPlane } from '@core/shape/hull/types';
import { hullOf } from './derived';

/** What title block and Hull stage say of the boat afloat, at the reference attitude. */
export interface Float {
  readonly displacementKg: number;
  readonly waterplaneM2: number;
  readonly centre: Vec3;
  readonly draughtM: number;
  readonly kgPerCm: number;
}

const LEVEL: WaterPlane = { up: [0, 0, 1], levelM: 0 };
const floats = new WeakMap<HullSurface, { readonly key: string; readonly float: Float }>();

export function floatOf(boat: Boat, attitude: WaterPlane | null): Float | null {
  const hull = hullOf(boat);
  if (!hull) return null;
  const { up, levelM } = attitude ?? LEVEL;
  const density = waterDensityOf(boat);
  const key = JSON.stringify([up, levelM, density]);
  const known = floats.get(hull);
  if (known?.key === key) return known.float;
  const state = hydrostatics(hull, { up, levelM });
  const float = {
    displacementKg: state.volumeM3 * density,
    waterplaneM2: state.waterplaneM2,
    centre: state.buoyancy,
    draughtM: levelM - lowest(hull, up),
    kgPerCm: immersionPerCm(state, density),
  };
  floats.set(hull, { key, float });
  return float;
}

function lowest({ vertices }: HullSurface, up: Vec3): number {
  let least = Number.POSITIVE_INFINITY;
  for (let v = 0; v + 2 < vertices.length; v += 3) {
    const height = up[0] * (vertices[v] ?? 0) + up[1] * (vertices[v + 1] ?? 0) + up[2] * (vertices[v + 2] ?? 0);
    least = Math.min(least, height);
  }
  return least;
}
