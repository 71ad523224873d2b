import { along, distance, type Vec3 } from '../../base/vec';
import { leadStraightM } from './straights';
import type { BlockReason, Lead, RoutingLine } from './types';
import type { Obstacle, World } from './world';

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

/** Why an end cannot be. `isProof`: even the rigid end, or the port itself, has no room, and what stands there is no run. */
export interface LeadBlock {
  readonly reason: BlockReason;
  readonly isProof: boolean;
}

export const sharedOwner = (lead: Lead): string => `port:${lead.thing}.${lead.port}`;

export function endOf(world: World, line: RoutingLine, lead: Lead): End | LeadBlock {
  const leadM = leadStraightM(lead, line.radiusM) + 1e-5;
  const tip = along(lead.at, lead.direction, leadM);
  const blocked = leadBlocked(world, line, lead, leadM, tip);
  if (blocked) return blocked;
  const cell = world.view.layout.cellAt(tip);
  if (cell === null || world.view.layout.cellAt(along(lead.at, lead.direction, 0.004)) === null)
    return {
      reason: { kind: 'portOutside', at: lead.at, blocker: lead.thing, shortByM: null, tries: 0 },
      isProof: false,
    };
  return { lead, leadM, tip, cell, shared: sharedOwner(lead) };
}

/** The lead is where it is: whatever stands in it blocks the line, however the rest may run. */
function leadBlocked(world: World, line: RoutingLine, lead: Lead, leadM: number, tip: Vec3): LeadBlock | null {
  const fittingM = lead.fittingM ?? lead.rigidM;
  const fittingTip = along(lead.at, lead.direction, fittingM);
  const rigidTip = along(lead.at, lead.direction, lead.rigidM);
  // Of an elbow the leg from the port to its corner as well.
  const portAt = lead.portAt ?? lead.at;
  const fat = Math.max(line.radiusM, lead.fittingRadiusM);
  const reach = leadM + distance(lead.at, portAt) + fat + 0.01;
  const near = world.near(
    lead.at[0] - reach,
    lead.at[1] - reach,
    lead.at[2] - reach,
    lead.at[0] + reach,
    lead.at[1] + reach,
    lead.at[2] + reach,
  );
  let worst: LeadBlock | null = null;
  const note = (blocker: string, shortByM: number, isProof: boolean): void => {
    if (shortByM > 1e-6 && shortByM > (worst?.reason.shortByM ?? 0))
      worst = { reason: { kind: 'lead', at: lead.at, blocker, shortByM, tries: 0 }, isProof };
  };
  const p = lead.at;
  const shared = sharedOwner(lead);
  for (const rank of near) {
    const obstacle = world.obstacles[rank] as Obstacle;
    if (obstacle.kind === 'thing' && obstacle.owner === lead.thing) continue;
    if (obstacle.kind === 'run' && obstacle.owner === shared) continue;
    const thin = line.radiusM + obstacle.gapM;
    const wide = fat + obstacle.gapM;
    const to = (end: Vec3, need: number): number => need - world.distance(rank, ...p, ...end, need);
    const rigid = Math.max(
      to(fittingTip, fittingM > 0 ? wide : thin),
      to(rigidTip, thin),
      lead.portAt ? to(portAt, wide) : 0,
      0,
    );
    note(obstacle.id, Math.max(rigid, to(tip, thin)), rigid > 1e-6 && obstacle.kind !== 'run');
  }
  const toHull = (end: Vec3, need: number): number => need - world.skinClearance(...p, ...end, need);
  const rigid = Math.max(
    toHull(fittingTip, fittingM > 0 ? fat : line.radiusM),
    toHull(rigidTip, line.radiusM),
    lead.portAt ? toHull(portAt, fat) : 0,
    0,
  );
  note('hull', Math.max(rigid, toHull(tip, line.radiusM)), rigid > 1e-6);
  return worst;
}
