/**
 * A clip holds several runs side by side: where one of earlier rank passes a clip point already, the next lies beside it there.
 */
import * as portable from '../../base/portable';
import { footOnLeg } from '../../base/segment';
import { along, cross, distance, squareTo, subtract, unit, type Vec3 } from '../../base/vec';
import type { RoutingLine } from './types';
import { RUN_GAP_M, type World } from './world';

const PLACES = 12;
/** Kept more than the gap between runs: the band then has nothing to correct. */
const EASE_M = 0.001;

/** The clip points of a line as it can pass them: where they are, or beside the runs that hang in the same clip already. */
export const clipsBeside = (world: World, line: RoutingLine): readonly Vec3[] =>
  line.clipPoints.map((at, k) => placeAt(world, line, at, line.clipAsideM?.[k] ?? 0));

function placeAt(world: World, line: RoutingLine, at: Vec3, asideM: number): Vec3 {
  const cell = asideM > 0 ? world.view.layout.cellAt(at) : null;
  if (cell === null) return at;
  // On the side that its own ends lie on.
  const detour = (p: Vec3): number => distance(line.from.at, p) + distance(p, line.to.at);
  let best: Vec3 | null = null;
  for (const run of world.view.runsIn(cell)) {
    const foot = footOnLeg(at, run.from, run.to);
    const apart = run.radius + line.radiusM + RUN_GAP_M;
    if (distance(at, foot) >= apart) continue;
    const out = apart + EASE_M;
    const length = distance(run.from, run.to);
    const way: Vec3 = length > 1e-9 ? unit(subtract(run.to, run.from)) : [0, 0, 1];
    const u = squareTo(way);
    const v = cross(way, u);
    for (let k = 0; k < PLACES; k += 1) {
      const angle = (2 * Math.PI * k) / PLACES;
      const p = along(along(foot, u, out * portable.cos(angle)), v, out * portable.sin(angle));
      if (distance(p, at) > asideM || (best && detour(p) > detour(best) - 1e-9)) continue;
      if (world.view.layout.cellAt(p) === cell && world.isClear(cell, ...p, ...p, line.radiusM)) best = p;
    }
  }
  return best ?? at;
}
