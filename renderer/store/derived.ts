import type { Boat } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Layout } from '@core/shape/layout/types';
import { arrangementOf } from './select';

/**
 * Shapes that drawing and tables need beside the worker's answers. Edits keep the identity of what they do not touch,
 * so each is made once until its own records change.
 */
let hullFrom: Boat['hull'];
let hull: HullSurface | null = null;

export function hullOf(boat: Boat): HullSurface | null {
  if (boat.hull !== hullFrom) {
    hullFrom = boat.hull;
    hull = boat.hull ? hullSurface(boat.hull) : null;
  }
  return hull;
}

const NONE = {};
let layoutFrom: readonly unknown[] = [];
let layout: Layout | null = null;

export function layoutOf(boat: Boat, arrangementId: string | null): Layout {
  const newHoles = arrangementOf(boat, arrangementId)?.newHoles ?? NONE;
  const from = [boat.compartments, boat.panels, newHoles, boat.newHoleCostM];
  if (!layout || from.some((part, index) => part !== layoutFrom[index])) {
    layoutFrom = from;
    layout = deriveLayout({
      compartments: boat.compartments,
      panels: boat.panels,
      newHoles,
      newHoleCostM: boat.newHoleCostM,
    });
  }
  return layout;
}
