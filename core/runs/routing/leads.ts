import { along, type Vec3 } from '../../base/vec';
import type { BlockReason, Lead, RoutingLine } from './types';
import { LEAD_BEYOND_RADIUS_M, type Obstacle, type World } from './world';

/** An end of the line with what follows from it. */
export interface End {
  readonly lead: Lead;
  /** Straight from the port: rigid end, or until the hose has come clear of its own thing. */
  readonly leadM: number;
  readonly tip: Vec3;
  readonly cell: number;
  /** Capsules of other runs that start at the same port carry this owner. */
  readonly shared: string;
}

export const sharedOwner = (lead: Lead): string => `port:${lead.thing}.${lead.port}`;

export function endOf(world: World, line: RoutingLine, lead: Lead): End | BlockReason {
  const leadM = Math.max(lead.rigidM, line.radiusM + LEAD_BEYOND_RADIUS_M) + 1e-5;
  const tip = along(lead.at, lead.direction, leadM);
  const blocked = leadBlocked(world, line, lead, leadM, tip);
  if (blocked) return blocked;
  const cell = world.view.layout.cellAt(tip);
  if (cell === null || world.view.layout.cellAt(along(lead.at, lead.direction, 0.004)) === null)
    return { kind: 'portOutside', at: lead.at, blocker: lead.thing, shortByM: null, tries: 0 };
  return { lead, leadM, tip, cell, shared: sharedOwner(lead) };
}

/** The lead is where it is: whatever stands in it blocks the line, however the rest may run. */
function leadBlocked(world: World, line: RoutingLine, lead: Lead, leadM: number, tip: Vec3): BlockReason | null {
  const rigidTip = along(lead.at, lead.direction, lead.rigidM);
  const fat = Math.max(line.radiusM, lead.fittingRadiusM);
  const reach = leadM + fat + 0.01;
  const near = world.near(
    lead.at[0] - reach,
    lead.at[1] - reach,
    lead.at[2] - reach,
    lead.at[0] + reach,
    lead.at[1] + reach,
    lead.at[2] + reach,
  );
  let worst: BlockReason | null = null;
  const note = (blocker: string, shortByM: number): void => {
    if (shortByM > 1e-6 && shortByM > (worst?.shortByM ?? 0))
      worst = { kind: 'lead', at: lead.at, blocker, shortByM, tries: 0 };
  };
  const p = lead.at;
  const shared = sharedOwner(lead);
  for (const rank of near) {
    const obstacle = world.obstacles[rank] as Obstacle;
    if (obstacle.kind === 'thing' && obstacle.owner === lead.thing) continue;
    if (obstacle.kind === 'run' && obstacle.owner === shared) continue;
    const thin = line.radiusM + obstacle.gapM;
    const wide = fat + obstacle.gapM;
    const d = world.distance(rank, p[0], p[1], p[2], tip[0], tip[1], tip[2], thin);
    if (d < thin) note(obstacle.id, thin - d);
    if (lead.rigidM > 0 && fat > line.radiusM) {
      const e = world.distance(rank, p[0], p[1], p[2], rigidTip[0], rigidTip[1], rigidTip[2], wide);
      if (e < wide) note(obstacle.id, wide - e);
    }
  }
  const toHull = world.hullClearance(p[0], p[1], p[2], tip[0], tip[1], tip[2], line.radiusM);
  if (toHull < line.radiusM) note('hull', line.radiusM - toHull);
  if (lead.rigidM > 0) {
    const fatToHull = world.hullClearance(p[0], p[1], p[2], rigidTip[0], rigidTip[1], rigidTip[2], fat);
    if (fatToHull < fat) note('hull', fat - fatToHull);
  }
  return worst;
}
