import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { hullSurface } from '@core/shape/hull/surface';
import { above, distanceToBoundary, inRegion, onto, type P3, times } from '../support/geometry-oracle';
import type { OracleWall } from '../support/interior-oracle';
import { hullSolid, Manifold, type Solid } from '../support/manifold-oracle';
import {
  freeSolids,
  type Pierced,
  roomFor,
  type Standing,
  standing,
  touches,
  tubeSolid,
  volumeOf,
} from '../support/manifold-runs';
import { interiorOf, type OracleRun, readRun } from '../support/run-oracle';

/** A routed run as a solid of manifold-3d, and the space that it shares with what it must clear. */
export interface Swept {
  readonly what: string;
  /** Cubic metres, by what they are shared with. */
  readonly shared: readonly { readonly with: string; readonly m3: number }[];
  /** What of it lies outside the hull once it is moved 4 m to port. */
  readonly overboardM3: number;
}
/** The same hose moved into a wall that it lies beside. */
export interface Pressed {
  readonly what: string;
  readonly apartM: number;
  readonly m3: number;
}
export interface SweptRuns {
  readonly runs: readonly Swept[];
  readonly pressed: readonly Pressed[];
}

/** The hose is drawn this much thinner. */
const LESS_M = 0.0005;
const PRESS_M = 0.005;
/** A hose this near to a wall, over this much of the wall's inside, lies beside it. */
const BESIDE_M = 0.06;
const INSIDE_M = 0.02;
/** The skin is closed by a lid this high. */
const TOP_M = 6;

/** The routed runs of a boat, at most so many, and at most so many of them beside walls. */
export function swept(
  boat: Boat,
  report: Pick<Report, 'arrangement' | 'runs'>,
  most = Number.POSITIVE_INFINITY,
): SweptRuns {
  const interior = interiorOf(boat, report);
  const routed = report.runs.filter((run) => run.status === 'routed');
  const holes: Pierced[] = routed.flatMap((run) => run.holes);
  const things = standing(boat, interior, holes);
  const rooms = roomFor(boat, interior, holes);
  if (!boat.hull) throw new Error(`swept: expected a boat with a hull`);
  const skin = hullSurface(boat.hull);
  const hull = hullSolid(skin, TOP_M);
  const hoses = routed.map((report) => {
    const line = boat.lines[report.lineId] as (typeof boat.lines)[string];
    const kind = boat.lineKinds[line.kind] as (typeof boat.lineKinds)[string];
    const run = readRun(boat, report, line, kind);
    return { run, solid: tubeOf(run, run.radius - LESS_M) };
  });
  const runs = hoses.slice(0, most).map(({ run, solid }, k): Swept => {
    const shared = sharedWith(run, solid, things, rooms);
    hoses.slice(k + 1).forEach((other) => {
      if (touches(solid, other.solid))
        shared.push({ with: other.run.report.lineId, m3: volumeOf(solid.intersect(other.solid)) });
    });
    // As thick as hose, shell and lining together, inside the bare skin.
    const lined = tubeOf(run, run.radius + skin.insetM - LESS_M);
    shared.push({ with: 'hull', m3: volumeOf(lined.subtract(hull)) });
    const overboard = solid.translate(0, 4, 0);
    return {
      what: run.report.lineId,
      shared,
      overboardM3: volumeOf(overboard.subtract(hull)),
    };
  });
  const pressed: Pressed[] = [];
  for (const { run, solid } of hoses)
    for (const wall of interior.walls) {
      const beside = pressed.length < most && besideWall(run, wall, holes);
      if (!beside) continue;
      const moved = solid.translate(...beside.towards);
      const m3 = sharedWith(run, moved, things, rooms).reduce((sum, one) => sum + one.m3, 0);
      pressed.push({ what: `${run.report.lineId} ${wall.label}`, apartM: beside.apartM, m3 });
    }
  hull.delete();
  freeSolids();
  return { runs, pressed };
}

const tubeOf = (run: OracleRun, radiusM: number, from = 0, to = run.trace.lengthM): Solid =>
  tubeSolid(run.report.prims, radiusM, from, to);

/** Of its own thing a hose comes clear over its lead; of all rooms together it leaves no part outside. */
function sharedWith(
  run: OracleRun,
  solid: Solid,
  things: readonly Standing[],
  rooms: readonly Solid[],
): { with: string; m3: number }[] {
  const { line, lead, trace } = run;
  const shared: { with: string; m3: number }[] = [];
  for (const { name, owner, solid: thing } of things) {
    if (!touches(solid, thing)) continue;
    const isOwn = [owner === line.from.thing, owner === line.to.thing];
    const hose = isOwn.some((own) => own)
      ? tubeOf(run, run.radius - LESS_M, isOwn[0] ? lead[0] : 0, trace.lengthM - (isOwn[1] ? lead[1] : 0))
      : solid;
    shared.push({ with: name, m3: volumeOf(hose.intersect(thing)) });
  }
  const near = rooms.filter((room) => touches(solid, room));
  shared.push({ with: 'undrawn space', m3: volumeOf(Manifold.difference([solid, ...near])) });
  return shared;
}

/** How to move a run until it is 5 mm in a wall that it lies beside, null where it lies beside none. */
function besideWall(
  { trace, radius }: OracleRun,
  { region }: OracleWall,
  holes: readonly Pierced[],
): { readonly towards: [number, number, number]; readonly apartM: number } | null {
  const { frame } = region;
  const spots = holes.filter(({ at }) => Math.abs(above(frame, at)) < 0.1);
  let nearest: { readonly towards: P3; readonly apartM: number } | null = null;
  for (let s = 0; s <= trace.lengthM; s += 0.01) {
    const p = trace.at(s);
    const height = above(frame, p);
    const apartM = Math.abs(height) - radius;
    if (apartM > BESIDE_M || apartM < -LESS_M || apartM >= (nearest?.apartM ?? Infinity)) continue;
    const foot = onto(frame, p);
    if (!inRegion(region, foot) || distanceToBoundary(region, foot) < INSIDE_M) continue;
    const inHole = spots.some(({ at, diameterM }) => {
      const [u, v] = onto(frame, at);
      return Math.hypot(foot[0] - u, foot[1] - v) < diameterM / 2 + INSIDE_M;
    });
    if (!inHole) nearest = { apartM, towards: times(frame.n, -Math.sign(height) * (apartM + PRESS_M)) };
  }
  return nearest && { towards: [...nearest.towards] as [number, number, number], apartM: nearest.apartM };
}
