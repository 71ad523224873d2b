import type { Vec3 } from '../../base/vec';
import { type BoatRecipe, type Draft, freeId } from '../edits';
import type { PanelData } from '../schema/boat';

/** A derived panel as far as its record is concerned. */
export interface PanelPlace {
  readonly between: readonly [string, string];
  /** A point on the panel, surely nearer to it than to another of the same pair. */
  readonly near: Vec3;
  /** Record that is bound to it. */
  readonly dataId?: string | undefined;
}

const point = (p: Vec3): [number, number, number] => [p[0], p[1], p[2]];

/** Changes the record of a panel; a panel without one gets it. */
export const panelChanged =
  (panel: PanelPlace, change: (record: Draft<PanelData>) => void): BoatRecipe =>
  (boat) => {
    const known = panel.dataId === undefined ? undefined : boat.panels[panel.dataId];
    if (known) {
      change(known);
      return;
    }
    const record: Draft<PanelData> = {
      between: [...panel.between],
      near: point(panel.near),
      rule: 'drill',
      holes: {},
    };
    change(record);
    boat.panels[freeId(boat.panels, panel.between.join('-'))] = record;
  };

/** Adds a hole that is there already, metres. */
export const panelHoleAdded = (panel: PanelPlace, at: Vec3, diameterM: number): BoatRecipe =>
  panelChanged(panel, (record) => {
    record.holes[freeId(record.holes, 'hole')] = { at: point(at), diameterM, carries: {} };
  });

/**
 * Binds a record that lost its panel to another panel. Where that has a record of its own, the holes and whatever the other
 * does not say go into it.
 */
export const panelDataBound =
  (dataId: string, panel: PanelPlace): BoatRecipe =>
  (boat) => {
    const record = boat.panels[dataId];
    if (!record) return;
    const by = [0, 1, 2].map((k) => (panel.near[k] ?? 0) - (record.near[k] ?? 0));
    const moved = (at: readonly [number, number, number]): [number, number, number] => [
      at[0] + (by[0] ?? 0),
      at[1] + (by[1] ?? 0),
      at[2] + (by[2] ?? 0),
    ];
    for (const hole of Object.values(record.holes)) hole.at = moved(hole.at);
    const bound = panel.dataId === undefined || panel.dataId === dataId ? undefined : boat.panels[panel.dataId];
    if (!bound) {
      record.between = [...panel.between];
      record.near = point(panel.near);
      delete record.setAside;
      return;
    }
    for (const [key, hole] of Object.entries(record.holes)) bound.holes[freeId(bound.holes, key)] = hole;
    for (const key of ['name', 'thicknessM', 'material', 'newHoleCostM', 'edgeM', 'grade'] as const) {
      if (bound[key] === undefined && record[key] !== undefined) Object.assign(bound, { [key]: record[key] });
    }
    delete boat.panels[dataId];
  };

/** Binds a hole that is still to be drilled, and lost its panel, to another one. */
export const newHoleBound =
  (arrangementId: string, holeId: string, panel: PanelPlace): BoatRecipe =>
  (boat) => {
    const hole = boat.arrangements[arrangementId]?.newHoles[holeId];
    if (!hole) return;
    hole.between = [...panel.between];
    hole.at = point(panel.near);
  };

export const panelDataRemoved =
  (dataId: string): BoatRecipe =>
  (boat) => {
    delete boat.panels[dataId];
  };

export const newHoleRemoved =
  (arrangementId: string, holeId: string): BoatRecipe =>
  (boat) => {
    delete boat.arrangements[arrangementId]?.newHoles[holeId];
  };
