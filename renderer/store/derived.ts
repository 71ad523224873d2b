import type { Boat } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { deriveLayout, type LayoutInput } from '@core/shape/layout/derive';
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
let interior: LayoutInput | null = null;

/** What the layout is made from: the same object for as long as none of it changes. */
export function layoutInputOf(boat: Boat, arrangementId: string | null): LayoutInput {
  const now: LayoutInput = {
    compartments: boat.compartments,
    panels: boat.panels,
    newHoles: arrangementOf(boat, arrangementId)?.newHoles ?? NONE,
    newHoleCostM: boat.newHoleCostM,
  };
  const before = interior;
  if (!before || KEYS.some((key) => before[key] !== now[key])) interior = now;
  return interior ?? now;
}

const KEYS = ['compartments', 'panels', 'newHoles', 'newHoleCostM'] as const satisfies readonly (keyof LayoutInput)[];
let layoutFrom: LayoutInput | null = null;
let layout: Layout | null = null;

export function layoutOf(boat: Boat, arrangementId: string | null): Layout {
  const from = layoutInputOf(boat, arrangementId);
  if (!layout || from !== layoutFrom) {
    layoutFrom = from;
    layout = deriveLayout(from);
  }
  return layout;
}
