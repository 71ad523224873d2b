import { along, cross, dot, type Pose, pointInBoat, subtract, unit, type Vec2, type Vec3 } from '../../base/vec';
import type { Line, LineKind, Thing } from '../../boat/schema/boat';
import type { HoleReport, RunReport } from '../../engine/report';
import type { Layout } from '../../shape/layout/types';
import { circlePoints, passagesOf, pathOf, piecesBetween } from './curves';
import { depthAxis, type Primitive, project, stroke, type ViewFrame } from './drawing';

/** How a run is told from others: by colour and dash on the board, by dash and letter in grey on sheets. */
export type RunStyle = 'sea' | 'brine' | 'fresh' | 'pressure' | 'dc' | 'signal' | 'gauge' | 'other';

/** From this working pressure on, a hose is drawn as a cased line. */
export const CASED_FROM_BAR = 40;

export function runStyle(line: Pick<Line, 'medium'>, kind: Pick<LineKind, 'pressureBar'> | undefined): RunStyle {
  switch (line.medium) {
    case 'seaWater':
      return (kind?.pressureBar ?? 0) >= CASED_FROM_BAR ? 'pressure' : 'sea';
    case 'brine':
      return 'brine';
    case 'freshWater':
    case 'product':
      return 'fresh';
    case 'dcPower':
      return 'dc';
    case 'signal':
      return 'signal';
    case 'gauge':
      return 'gauge';
    case 'fuel':
    case 'waste':
    case 'air':
      return 'other';
  }
}

/** Letter that breaks the line. */
export const RUN_LETTER: Readonly<Partial<Record<RunStyle, string>>> = {
  sea: 'S',
  brine: 'B',
  fresh: 'F',
  pressure: 'S',
};

/** A run in space, ready for any view. */
export interface RunPath {
  readonly id: string;
  readonly routed: boolean;
  /** Centre line; of a run that was not found the straight wish from port to port, empty when an end is not placed. */
  readonly path: readonly Vec3[];
  /** Where a run that was not found stops: the cross. */
  readonly stopsAt: Vec3 | null;
  readonly radiusM: number;
  readonly holes: readonly HoleReport[];
}

export type End = { readonly thing: Pick<Thing, 'ports'>; readonly pose: Pose } | null;

export function runPath(run: RunReport, line: Line, kind: LineKind | undefined, from: End, to: End): RunPath {
  const radiusM = (kind?.outsideM ?? 0.02) / 2;
  if (run.status === 'routed')
    return { id: run.lineId, routed: true, path: pathOf(run.prims), stopsAt: null, radiusM, holes: run.holes };
  const a = portPlace(from, line.from.port);
  const b = portPlace(to, line.to.port);
  const path = a && b ? [a, b] : [];
  const stopsAt = run.reason?.at ?? (a && b ? along(a, subtract(b, a), 0.5) : null);
  return {
    id: run.lineId,
    routed: false,
    path: path.length > 0 && stopsAt ? bent(path, stopsAt) : path,
    stopsAt,
    radiusM,
    holes: [],
  };
}

const bent = (path: readonly Vec3[], at: Vec3): Vec3[] => [path[0] as Vec3, at, path[1] as Vec3];

function portPlace(end: End, portId: string): Vec3 | null {
  const port = end?.thing.ports[portId];
  return end && port ? pointInBoat(end.pose, port.at) : null;
}

/** The whole run on paper. */
export function runLines(run: RunPath, frame: ViewFrame): Primitive[] {
  if (run.path.length < 2) return [];
  return [
    stroke(
      `${run.id}/path`,
      run.id,
      run.routed ? 'run' : 'runMissing',
      run.path.map((p) => project(frame, p)),
    ),
  ];
}

/** The pieces of a run within a slab behind a cut, and rings where it passes the plane of the cut. */
export function runLinesInSlab(run: RunPath, frame: ViewFrame, low: number, high: number, cutAt: number): Primitive[] {
  const axis = depthAxis(frame);
  const pieces = piecesBetween(run.path, axis, low, high);
  const out: Primitive[] = pieces.map((piece, i) =>
    stroke(
      `${run.id}/path${i}`,
      run.id,
      run.routed ? 'run' : 'runMissing',
      piece.map((p) => project(frame, p)),
    ),
  );
  if (!run.routed) return out;
  const seen: Vec3 = frame.toViewer;
  for (const [i, p] of passagesOf(run.path, axis, cutAt).entries())
    out.push(
      stroke(
        `${run.id}/cut${i}`,
        run.id,
        'runCut',
        circlePoints(p, seen, run.radiusM).map((q) => project(frame, q)),
        true,
      ),
    );
  return out;
}

/** A crossing on paper. */
export interface CrossingMark {
  readonly id: string;
  readonly line: string;
  /** Which of the crossings of its run, from 0. */
  readonly index: number;
  readonly at: Vec2;
  readonly inBoat: Vec3;
  readonly diameterM: number;
  readonly existing: boolean;
  /** Direction of the panel on paper where it is seen edge on, else null: then the hole shows as a ring. */
  readonly edge: Vec2 | null;
}

export function crossingMarks(run: RunPath, layout: Pick<Layout, 'panels'>, frame: ViewFrame): CrossingMark[] {
  return run.holes.map((hole, i) => {
    const normal = layout.panels[hole.panelId]?.normal;
    const edgeOn = normal !== undefined && Math.abs(dot(normal, frame.toViewer)) < 0.3;
    const edge = edgeOn ? project(frame, unit(cross(frame.toViewer, normal))) : null;
    return {
      id: `${run.id}/hole${i}`,
      line: run.id,
      index: i,
      at: project(frame, hole.at),
      inBoat: hole.at,
      diameterM: hole.diameterM,
      existing: hole.existing,
      edge,
    };
  });
}
