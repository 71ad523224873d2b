import { ribsBeyondLining, withinRibs } from '../shape/hull/ribs';
import { hullSurface } from '../shape/hull/surface';
import type { HullSurface } from '../shape/hull/types';
import { deriveLayout } from '../shape/layout/derive';
import type { Layout } from '../shape/layout/types';
import { compartmentData, hullData, newHoleCost, newHoles, panelData, pose } from './source';
import { type ComputedStage, identical } from './store';

export const hull: ComputedStage<HullSurface | null> = {
  id: 'hull',
  compute: (_, read) => {
    const data = read(hullData);
    return data ? hullSurface(data) : null;
  },
  same: identical,
};

/** The hull as a hose along it finds it: within its ribs. */
export const hullWithinRibs: ComputedStage<HullSurface | null> = {
  id: 'hullWithinRibs',
  compute: (_, read) => {
    const data = read(hullData);
    const surface = read(hull);
    return data && surface ? withinRibs(surface, ribsBeyondLining(data.ribs, data.liningM)) : null;
  },
  same: identical,
};

export const layout: ComputedStage<Layout> = {
  id: 'layout',
  compute: (_, read) =>
    deriveLayout({
      compartments: read(compartmentData),
      panels: read(panelData),
      newHoles: read(newHoles),
      newHoleCostM: read(newHoleCost),
    }),
  same: identical,
};

/** Compartment that holds the centre of a thing; null in undrawn space or when it is not placed. */
export const compartmentOf: ComputedStage<string | null> = {
  id: 'compartmentOf',
  compute: (thingId, read) => {
    const placed = read(pose, thingId);
    return placed ? read(layout).compartmentAt(placed.at) : null;
  },
  same: identical,
};
