import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { type FirstBoat, type FirstBoatInput, firstBoat } from '@core/engine/first-boat/first-boat';
import { deriveLayout } from '@core/shape/layout/derive';

export const ALL_ABOARD = { engine: true, intake: true, battery: true, waterTank: true, sink: true, freshPump: true };
const FIXTURES = ['engine', 'intake', 'house-bank', 'water-tank', 'sink', 'fresh-pump'];
/** Thinner than this between two faces a compartment is a sliver. */
const SLIVER_M = 0.02;

export interface JudgedBoat {
  readonly routed: number;
  readonly lines: number;
  /** What is wrong with it; empty for a good boat. */
  readonly remarks: readonly string[];
}

/** All slices of the work, one after the other. */
export function made(input: FirstBoatInput): FirstBoat {
  const work = firstBoat(input);
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

/** What every generated boat must be, whatever its dimensions. */
export function judgeFirstBoat(input: FirstBoatInput): JudgedBoat {
  const first = made(input);
  return first.ok
    ? judgeBoat(first.boat)
    : { routed: 0, lines: 0, remarks: first.problems.map(({ message }) => message) };
}

export function judgeBoat(boat: Boat): JudgedBoat {
  const remarks: string[] = [];
  const read = readBoat(writeBoat(boat));
  if (!read.ok) remarks.push('not readable');
  const layout = deriveLayout({
    compartments: boat.compartments,
    panels: boat.panels,
    newHoles: {},
    newHoleCostM: boat.newHoleCostM,
  });
  for (const { between, depthM } of layout.overlaps) remarks.push(`${between.join(' and ')} overlap by ${depthM}`);
  for (const { dataId, reason } of layout.orphans) remarks.push(`orphan ${dataId}: ${reason}`);
  for (const cell of layout.cells)
    for (const k of [0, 1, 2] as const)
      if (cell.high[k] - cell.low[k] < SLIVER_M) remarks.push(`sliver in ${cell.compartment}`);
  const report = analyze(boat);
  const { routed, blocked } = report.summary;
  if (routed < 0.8 * (routed + blocked)) {
    const which = report.runs.flatMap(({ status, lineId }) => (status === 'blocked' ? [lineId] : []));
    remarks.push(`${blocked} of ${routed + blocked} blocked: ${which.join(', ')}`);
  }
  for (const finding of report.findings)
    if (finding.outcome === 'fail' && finding.severity === 'danger')
      remarks.push(`danger ${finding.key} ${finding.reason}`);
  for (const id of Object.keys(boat.parts)) if (!report.places[id]) remarks.push(`${id} not placed`);
  for (const id of FIXTURES) if (!Object.hasOwn(boat.fixtures, id)) remarks.push(`no ${id}`);
  return { routed, lines: routed + blocked, remarks };
}
