import { distanceToRegion, type P3, plus, times } from './geometry-oracle';
import { type HullMesh, skinDistance } from './hull-oracle';
import type { OraclePanel } from './interior-oracle';
import { neededHole, type Pierced } from './passages-oracle';
import { DUST, fault, type Interior, type OracleRun, type Violation } from './run-oracle';

const SLICE = 0.002;
const RAYS = 24;

/** The end that comes through the holes: the one that the run names, else the smaller. Null where the bare hose does. */
function leadingEnd(run: OracleRun): { readonly radius: number; readonly length: number } | null {
  const ends = (['from', 'to'] as const).map((which, k) => {
    const own = run.line.ends[which] ?? run.kind.end;
    const isOn = (own?.crimped ?? false) || run.kind.crimpedEnds;
    return isOn ? (run.fitting[k] as { radius: number; length: number }) : null;
  });
  const named = run.report.holes.find((hole) => hole.fedFrom !== undefined)?.fedFrom;
  if (named) return ends[named === 'from' ? 1 : 0] ?? null;
  const [a, b] = ends;
  return a && b ? (a.radius <= b.radius ? a : b) : null;
}

/**
 * A crimped end comes through a hole square to its panel: a cylinder of its length and radius is free on both sides. By points of the cylinder;
 * of walls, which are faces, by the distance of its axis and of its flat end.
 */
export function feedFaults(
  interior: Interior,
  run: OracleRun,
  pierced: readonly Pierced[],
  hull: HullMesh | undefined,
): Violation[] {
  const end = leadingEnd(run);
  if (!end || end.length === 0) return [];
  const faults: Violation[] = [];
  for (const pass of pierced) {
    const panel = interior.panels[pass.panel] as OraclePanel;
    for (const side of [-1, 1]) {
      const n = times(panel.frame.n, side);
      const start = plus(pass.passes, times(n, panel.thicknessM / 2));
      const on = (along: number, out = 0, angle = 0): P3 =>
        plus(
          plus(start, times(n, along)),
          plus(times(panel.frame.u, out * Math.cos(angle)), times(panel.frame.v, out * Math.sin(angle))),
        );
      const say = (label: string, amount: number): void => {
        faults.push(fault(run, 'feed', pass.passes, amount, `${pass.panelId}: ${label}`));
      };
      const slices = Array.from({ length: Math.ceil(end.length / SLICE) + 1 }, (_, i) =>
        Math.min(end.length - DUST, i * SLICE),
      );
      for (const solid of interior.solids) {
        const isHit = slices.some((along) => {
          const shares = along > end.length - 2 * SLICE ? [0, 0.5, 1] : [0, 1];
          return shares.some((share) =>
            Array.from({ length: RAYS }, (_, k) =>
              on(along, share * (end.radius - DUST), (2 * Math.PI * k) / RAYS),
            ).some((p) => solid.distance(p) <= 0),
          );
        });
        if (isHit) say(solid.label, 0);
      }
      for (const wall of interior.walls) {
        if (wall.panel === pass.panel) continue;
        for (const along of slices) {
          if (along < Math.min(end.radius, end.length / 2)) continue;
          const need = Math.min(end.radius, end.length - along + DUST) - 2 * DUST;
          const short = need - distanceToRegion(wall.region, on(along), []);
          if (short > DUST) {
            say(wall.label, short);
            break;
          }
        }
      }
      if (hull)
        for (const along of slices.filter((one) => one >= end.radius && one <= end.length - end.radius)) {
          const short = end.radius - (skinDistance(hull, on(along)) - hull.insetM);
          if (short > DUST) {
            say('hull', short);
            break;
          }
        }
    }
    const needed = neededHole(run);
    if (pass.diameterM < needed - 1e-6)
      faults.push(fault(run, 'holeSize', pass.passes, needed - pass.diameterM, 'end'));
  }
  return faults;
}
