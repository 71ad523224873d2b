import type { RunReport } from '@core/engine/report';
import { above, inner, inRegion, onto, type P3 } from './geometry-oracle';
import type { Interior, OracleRun } from './run-oracle';
import { type OraclePrim, primLength, traceOf } from './trace-oracle';

/** What a run costs by the boat file alone: its length, and what each hole that is not there yet costs in its panel. Metres of hose. */
export function priceOf(
  interior: Interior,
  run: { readonly prims: readonly OraclePrim[]; readonly holes: RunReport['holes'] },
): number {
  const lengthM = run.prims.reduce((sum, prim) => sum + primLength(prim), 0);
  return run.holes.reduce((sum, hole) => sum + (hole.existing ? 0 : drillingAt(interior, hole.at)), lengthM);
}

function drillingAt({ panels }: Interior, at: P3): number {
  const [nearest] = panels
    .filter((panel) => panel.rule !== 'open')
    .map((panel) => ({
      cost: panel.newHoleCostM,
      off: Math.min(
        ...panel.regions.map((region) =>
          inRegion(region, onto(region.frame, at)) ? Math.abs(above(region.frame, at)) : 1,
        ),
      ),
    }))
    .sort((a, b) => a.off - b.off);
  if (!nearest || nearest.off > 0.005) throw new Error(`priceOf: expected a panel at ${at.join(', ')}`);
  return nearest.cost;
}

const BETWEEN_LOOKS = 0.001;

/** Height of water trapped in the worst crest: its top over the higher of the lowest points before and behind it. Metres along `up`. */
export function trappedHeight(prims: readonly OraclePrim[], up: P3): number {
  const trace = traceOf(prims);
  const count = Math.max(2, Math.ceil(trace.lengthM / BETWEEN_LOOKS));
  const heights = Array.from({ length: count + 1 }, (_, k) => inner(trace.at((trace.lengthM * k) / count), up));
  const after: number[] = [];
  let low = Number.POSITIVE_INFINITY;
  for (let k = count; k >= 0; k--) {
    low = Math.min(low, heights[k] as number);
    after[k] = low;
  }
  let [before, worst] = [Number.POSITIVE_INFINITY, 0];
  heights.forEach((h, k) => {
    before = Math.min(before, h);
    worst = Math.max(worst, h - Math.max(before, after[k] as number));
  });
  return worst;
}

/**
 * What no run of this line can avoid: from a port that looks up the hose rises over its lead and the start of its first bend, whichever way
 * it goes on. Derived: over a lead l at slope d, then on a circle of radius R until it is level.
 */
export function forcedHeight(
  run: Pick<OracleRun, 'lead'>,
  bendRadiusM: number,
  ends: readonly [End, End],
  up: P3,
): number {
  const tops = ends.map(({ at, out }, k) => {
    const d = Math.min(1, Math.max(0, inner(out, up)));
    return inner(at, up) + (run.lead[k] as number) * d + bendRadiusM * (1 - Math.sqrt(1 - d * d));
  });
  return Math.max(0, Math.max(...tops) - Math.max(...ends.map(({ at }) => inner(at, up))));
}
export interface End {
  readonly at: P3;
  /** Unit, out of the thing. */
  readonly out: P3;
}
