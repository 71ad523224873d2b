import { analyze } from '@core/analyze';
import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { hullSurface } from '@core/shape/hull/surface';
import { checkRuns, type Violation } from '../support/check-run';
import { type Scene, scene } from '../support/scenes';

/** A scene routed by the product and judged by the oracle. */
export interface Judged {
  readonly scene: Scene;
  readonly boat: Boat;
  readonly report: Report;
  readonly violations: readonly Violation[];
}

export function boatOf(draft: unknown): Boat {
  const read = checkBoat(draft);
  if (!read.ok) throw new Error(`boatOf: ${read.problems.map((one) => one.message).join('; ')}`);
  return read.boat;
}

export const judge = (boat: Boat, report: Report): Violation[] =>
  checkRuns(boat, report, { kinds: LINE_KINDS, ...(boat.hull ? { hull: hullSurface(boat.hull) } : {}) });

export function judgedScene(seed: number, planted: boolean): Judged {
  const drawn = scene(seed, { planted });
  const boat = boatOf(drawn.boat);
  const report = analyze(boat);
  return { scene: drawn, boat, report, violations: judge(boat, report) };
}

export interface SceneCount {
  readonly seed: number;
  readonly planted: boolean;
  readonly lines: number;
  readonly routed: number;
  /** Lines blocked by a proof. */
  readonly proved: number;
  readonly violations: readonly string[];
  /** Bounds above a length or a cost that the judge accepted, planted ones among them. */
  readonly boundsAbove: readonly string[];
  /** Least bend radius of the blocked lines' kinds, millimetres. */
  readonly missedRadii: readonly number[];
  /** Length over bound minus 1, one for each routed line. */
  readonly gaps: readonly number[];
}

export function countScene(seed: number, planted: boolean): SceneCount {
  const { scene: drawn, boat, report, violations } = judgedScene(seed, planted);
  const boundsAbove: string[] = [];
  const missedRadii: number[] = [];
  const gaps: number[] = [];
  for (const run of report.runs) {
    const known = drawn.planted[run.lineId]?.lengthM;
    for (const length of [run.lengthM, known])
      if (length != null && run.lowerBoundM > length) boundsAbove.push(`${run.lineId}: ${run.lowerBoundM} > ${length}`);
    if (run.costM !== undefined && run.costBoundM !== undefined && run.costBoundM > run.costM)
      boundsAbove.push(`${run.lineId}: cost ${run.costBoundM} > ${run.costM}`);
    if (run.status === 'routed' && run.lengthM !== null) gaps.push(run.lengthM / run.lowerBoundM - 1);
    else missedRadii.push(Number(boat.lines[run.lineId]?.kind.split('-')[1]));
  }
  return {
    seed,
    planted,
    lines: report.runs.length,
    routed: report.runs.filter((run) => run.status === 'routed').length,
    proved: report.runs.filter((run) => run.proved).length,
    violations: violations.map((one) => `${one.line} ${one.kind} ${one.amount} ${one.detail}`),
    boundsAbove,
    missedRadii,
    gaps,
  };
}
