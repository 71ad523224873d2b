import type { Boat } from '@core/boat/schema/boat';
import { type Cut, compartmentInCut, type HullCut, hullCut, hullCutLines, wallsInCut } from '@core/output/views/cuts';
import type { Primitive } from '@core/output/views/drawing';
import { labelPlace } from '@core/output/views/polygons';
import type { HullSurface } from '@core/shape/hull/types';
import type { Layout } from '@core/shape/layout/types';
import type { CompartmentDrawn } from './shape';

/** What the boat itself shows in a cut; things and runs move and are drawn over it. */
export interface CutScene {
  readonly cut: Cut;
  readonly hull: readonly Primitive[];
  readonly walls: readonly Primitive[];
  readonly compartments: readonly CompartmentDrawn[];
}

const recent: { hull: HullSurface | null; layout: Layout; boat: unknown; scene: CutScene }[] = [];

export function cutScene(boat: Boat, hull: HullSurface | null, layout: Layout, cut: Cut): CutScene {
  const known = recent.find(
    (r) =>
      r.hull === hull &&
      r.layout === layout &&
      r.boat === boat.compartments &&
      r.scene.cut.frame === cut.frame &&
      r.scene.cut.at === cut.at,
  );
  if (known) return known.scene;
  const inHull: HullCut | null = hull ? hullCut(hull, cut) : null;
  const bounds = inHull && inHull.free.length > 0 ? inHull : null;
  const compartments = Object.entries(boat.compartments).flatMap(([id, { name }]): CompartmentDrawn[] => {
    const rings = compartmentInCut(layout, id, cut, bounds);
    return rings.length > 0 ? [{ id, name, rings, label: labelPlace(rings), areaM2: 0, primary: true }] : [];
  });
  const scene: CutScene = {
    cut,
    hull: inHull ? hullCutLines(inHull) : [],
    walls: wallsInCut(layout, cut, bounds),
    compartments,
  };
  recent.unshift({ hull, layout, boat: boat.compartments, scene });
  recent.length = Math.min(recent.length, 8);
  return scene;
}
