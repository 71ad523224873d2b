import type { Pose, Vec2, Vec3 } from '../../../base/vec';
import { lineKindOf } from '../../../boat/catalogue/line-kinds';
import { poseOf } from '../../../boat/edits';
import type { Boat, Line, LineKind, Thing } from '../../../boat/schema/boat';
import type { Report, RunReport } from '../../../engine/report';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout } from '../../../shape/layout/types';
import { type Bounds2, boundsOf } from '../../views/drawing';
import { boundsInBoat } from '../../views/envelope';
import { halfBreadthWithin, placesAlong } from '../../views/hull-lines';
import { type RunPath, type RunStyle, runPath, runStyle } from '../../views/runs';
import type { GeneralInput } from './general';

/** A thing that stands somewhere, with the number that it has in the list; things aboard have none. */
export interface DrawnThing {
  readonly id: string;
  readonly thing: Thing;
  readonly pose: Pose;
  readonly tag: string;
  readonly isPart: boolean;
  readonly number: number | null;
  readonly low: Vec3;
  readonly high: Vec3;
}

export interface DrawnRun {
  readonly tag: string;
  readonly line: Line;
  readonly kind: LineKind | undefined;
  readonly style: RunStyle;
  readonly report: RunReport;
  readonly path: RunPath;
}

/** The boat as the first sheet draws it, in boat metres. */
export interface GeneralScene {
  readonly boat: Boat;
  readonly report: Report;
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly arrangement: string;
  readonly things: readonly DrawnThing[];
  /** Runs of the plan; what is aboard is told apart by `line.existing`. */
  readonly runs: readonly DrawnRun[];
  readonly sectionX: number;
  /** What the views cover: x, y and z. */
  readonly low: Vec3;
  readonly high: Vec3;
}

/** How far behind the cut the section shows things, metres. */
export const SECTION_DEEP_M = 0.5;

/** Null where there is nothing to draw. */
export function sceneOf(input: GeneralInput): GeneralScene | null {
  const { boat, report, layout, hull } = input;
  const things = thingsOf(boat, report);
  const extent = extentOf(hull, layout, things);
  if (!extent) return null;
  const { arrangement } = report;
  return {
    boat,
    report,
    layout,
    hull,
    arrangement: arrangementText(boat, arrangement),
    things,
    runs: runsOf(boat, report),
    sectionX: sectionPlace(things, (extent.low[0] + extent.high[0]) / 2),
    ...extent,
  };
}

/** Name of the arrangement that is drawn. */
export const arrangementText = (boat: Boat, id: string | null): string =>
  id === null ? 'no arrangement' : (boat.arrangements[id]?.name ?? id);

function thingsOf(boat: Boat, report: Report): DrawnThing[] {
  const numbers = new Map<string, number>();
  report.takeoff.forEach((row, i) => {
    if (row.group === 'part') for (const id of row.from) numbers.set(id, i + 1);
  });
  const all = [
    ...Object.entries(boat.fixtures).map(([id, thing]) => ({ id, thing: thing as Thing, isPart: false })),
    ...Object.entries(boat.parts).map(([id, thing]) => ({ id, thing: thing as Thing, isPart: true })),
  ];
  return all
    .flatMap(({ id, thing, isPart }): DrawnThing[] => {
      const pose = poseOf(boat, report.arrangement, id);
      if (!pose) return [];
      const tag = thing.tag ?? id;
      return [{ id, thing, pose, tag, isPart, number: numbers.get(id) ?? null, ...boundsInBoat(thing.shape, pose) }];
    })
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}

function runsOf(boat: Boat, report: Report): DrawnRun[] {
  const end = (id: string) => {
    const thing = boat.parts[id] ?? boat.fixtures[id];
    const pose = poseOf(boat, report.arrangement, id);
    return thing && pose ? { thing, pose } : null;
  };
  return report.runs.flatMap((run): DrawnRun[] => {
    const line = boat.lines[run.lineId];
    if (!line) return [];
    const kind = lineKindOf(boat.lineKinds, line.kind);
    const path = runPath(run, line, kind, end(line.from.thing), end(line.to.thing));
    return [{ tag: line.tag ?? run.lineId, line, kind, style: runStyle(line, kind), report: run, path }];
  });
}

function extentOf(
  hull: HullSurface | null,
  layout: Layout,
  things: readonly DrawnThing[],
): { readonly low: Vec3; readonly high: Vec3 } | null {
  const points: Vec3[] = [
    ...layout.cells.flatMap(({ low, high }) => [low, high]),
    ...things.flatMap(({ low, high }) => [low, high]),
  ];
  if (hull)
    for (const x of placesAlong(hull, 40)) {
      const half = halfBreadthWithin(hull, x, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
      const side = Math.abs(hull.offsetM) + half;
      points.push([x, side, hull.sheerAt(x)], [x, -side, hull.keelAt(x)]);
    }
  const xy = boundsOf(points.map(([x, y]): Vec2 => [x, y]));
  const z: Bounds2 | null = boundsOf(points.map((p): Vec2 => [p[2], 0]));
  if (!xy || !z) return null;
  return { low: [...xy.low, z.low[0]], high: [...xy.high, z.high[0]] };
}

/** The place from which a section, looking forward, shows most parts; of equals the one nearest to the middle. */
function sectionPlace(things: readonly DrawnThing[], middle: number): number {
  const parts = things.filter(({ isPart }) => isPart);
  const seen = (x: number): number =>
    parts.filter(({ low, high }) => high[0] >= x && low[0] <= x + SECTION_DEEP_M).length;
  return parts
    .map(({ low, high }) => Math.round(((low[0] + high[0]) / 2) * 100) / 100)
    .reduce(
      (best, x) =>
        seen(x) > seen(best) || (seen(x) === seen(best) && Math.abs(x - middle) < Math.abs(best - middle)) ? x : best,
      Math.round(middle * 100) / 100,
    );
}
