import type { Boat, Line, LineKind } from '@core/boat/schema/boat';
import type { Report, RunReport } from '@core/engine/report';
import type { OracleSolid, P3 } from './geometry-oracle';
import {
  type OraclePanel,
  type OraclePrism,
  type OracleWall,
  panelsFrom,
  prismFrom,
  wallsFrom,
} from './interior-oracle';
import { type OraclePlace, placesOf, solidsFrom } from './things-oracle';
import { type Trace, traceOf } from './trace-oracle';

/** Rounding that is no fault. */
export const DUST = 2e-5;
/** A hose leaves its port straight until it is clear of its own thing: over its own radius and this much. */
export const BEYOND_RADIUS = 0.006;
/** Between two looks at a run, metres. */
export const STEP = 0.003;

/** What the judge says of a run: a fault of the run, not of the boat. */
export interface Violation {
  readonly line: string;
  readonly kind:
    | 'unknownLine'
    | 'radius'
    | 'arc'
    | 'joint'
    | 'tangent'
    | 'empty'
    | 'port'
    | 'lead'
    | 'clearance'
    | 'fitting'
    | 'wall'
    | 'hull'
    | 'runs'
    | 'outside'
    | 'passage'
    | 'undeclared'
    | 'holePlace'
    | 'holeSize'
    | 'holeEdge'
    | 'holeSquare'
    | 'holeOverlap'
    | 'notExisting'
    | 'holeFull'
    | 'planned'
    | 'feed'
    | 'noDrill'
    | 'holeUnused'
    | 'length'
    | 'bound'
    | 'forbidden'
    | 'clipPoint';
  readonly at: P3 | null;
  /** How much is wrong: metres, or radians for angles. */
  readonly amount: number;
  readonly detail: string;
}

export const fault = (
  run: OracleRun,
  kind: Violation['kind'],
  at: P3 | null,
  amount: number,
  detail: string,
): Violation => ({
  line: run.report.lineId,
  kind,
  at,
  amount,
  detail,
});

export interface Interior {
  readonly prisms: readonly OraclePrism[];
  readonly panels: readonly OraclePanel[];
  readonly walls: readonly OracleWall[];
  readonly solids: readonly OracleSolid[];
  readonly places: ReadonlyMap<string, OraclePlace>;
}

export function arrangementOf(
  boat: Boat,
  report: Pick<Report, 'arrangement'>,
): Boat['arrangements'][string] | undefined {
  const key = report.arrangement ?? boat.currentArrangement ?? Object.keys(boat.arrangements).sort()[0];
  return key === undefined ? undefined : boat.arrangements[key];
}

export function interiorOf(boat: Boat, report: Pick<Report, 'arrangement'>): Interior {
  const arrangement = arrangementOf(boat, report);
  const prisms = Object.entries(boat.compartments).map(([id, one]) => prismFrom(id, one));
  const panels = panelsFrom(boat, prisms, arrangement?.newHoles ?? {});
  const places = placesOf(boat, arrangement);
  return { prisms, panels, walls: wallsFrom(prisms, panels), solids: solidsFrom(boat, places), places };
}

export interface OracleRun {
  readonly report: RunReport;
  readonly line: Line;
  readonly kind: LineKind;
  readonly radius: number;
  readonly trace: Trace;
  /** Least straight lengths at the two ends, and the radius and length of the end fittings. */
  readonly lead: readonly [number, number];
  readonly fitting: readonly [{ radius: number; length: number }, { radius: number; length: number }];
}

/** Of the centre line: the standard may measure to the inside of the bend. */
export const leastRadiusOf = (kind: LineKind): number =>
  kind.bendRadiusM + (kind.radiusTo === 'inside' ? kind.outsideM / 2 : 0);

export function readRun(boat: Boat, report: RunReport, line: Line, kind: LineKind): OracleRun {
  const radius = kind.outsideM / 2;
  const ends = (['from', 'to'] as const).map((which) => {
    const fitting = { ...kind.end, ...line.ends[which] };
    const wish = line[which];
    const port = (boat.fixtures[wish.thing] ?? boat.parts[wish.thing])?.ports[wish.port];
    const rigid = fitting.rigidM ?? 0;
    const straight = Math.max(rigid + (kind.straightM ?? 0) + (port?.straightM ?? 0), radius + BEYOND_RADIUS);
    return { rigid, straight, radius: Math.max(radius, (fitting.diameterM ?? 0) / 2) };
  }) as [End, End];
  return {
    report,
    line,
    kind,
    radius,
    trace: traceOf(report.prims),
    lead: [ends[0].straight, ends[1].straight],
    fitting: [
      { radius: ends[0].radius, length: ends[0].rigid },
      { radius: ends[1].radius, length: ends[1].rigid },
    ],
  };
}
type End = { rigid: number; straight: number; radius: number };
