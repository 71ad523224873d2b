import type { Boat } from '@core/boat/schema/boat';
import type { Report, RunReport } from '@core/engine/report';
import { checkRuns, ribsOf } from '../check-run';
import { meetings } from '../clearance-oracle';
import { distanceToBoundary, gap, inRegion, lifted, normalised, onto, type P3, plus, times } from '../geometry-oracle';
import { type HullMesh, skinDistance } from '../hull-oracle';
import type { OraclePanel } from '../interior-oracle';
import { neededHole } from '../passages-oracle';
import { priceOf } from '../price-oracle';
import { type Interior, type OracleRun, readRun } from '../run-oracle';
import { directionOf, pointOf as placedPoint } from '../things-oracle';
import { type OraclePrim, primLength, traceOf } from '../trace-oracle';
import { type Lattice, latticeOf, nodeAt } from './lattice';
import { type FixedItems, fixedItems, Near } from './near';
import { drawn, type HoleSpot, type Hose, type Knot, tighten } from './tighten';
import { type Jump, Walk, type Waypoint } from './walk';

/** A run that the grid found and the judge let pass. */
export interface GridRun {
  readonly prims: readonly OraclePrim[];
  readonly holes: RunReport['holes'];
  readonly lengthM: number;
}

export interface GridWorld {
  readonly interior: Interior;
  readonly hull: HullMesh;
}
interface Ready {
  readonly lattice: Lattice;
  readonly fixed: FixedItems;
  readonly panelIds: readonly string[];
}
const ready = new WeakMap<Interior, Ready>();

function readyFor({ interior, hull }: GridWorld, ribsM: number): Ready {
  const known = ready.get(interior);
  if (known) return known;
  const within = { ...hull, insetM: hull.insetM + ribsM };
  const made = {
    lattice: latticeOf(interior, within),
    fixed: fixedItems(interior, within),
    panelIds: interior.panels.map((panel, k) => `${panel.between.join('|')} ${k}`),
  };
  ready.set(interior, made);
  return made;
}

const TRIES = 4;
/** A way may be looked for as if the hose bent more tightly: drawing it tight gives the bends their room, or shows that there is none. */
const BENDS = [1, 0.5];
/** Straights are drawn this much longer than they must be: where they end, the thing or panel that they leave counts again. */
const LONGER = 4e-4;
/** Between places for new holes. */
const HOLES_EVERY = 0.05;
const HOLE_SPARE = 0.001;

/**
 * Looks for a run of one line among the runs that a report gives the others: A* over a lattice of places and headings, drawn tight by trial,
 * let through by the judge alone. Shares nothing with the product's search. Null: found none, or the line must pass a clip point.
 */
export function gridRun(boat: Boat, report: Report, lineId: string, world: GridWorld): GridRun | null {
  const line = boat.lines[lineId];
  const kind = line && boat.lineKinds[line.kind];
  const own = report.runs.find((run) => run.lineId === lineId);
  const clips = Object.values(boat.arrangements).some((one) => one.clipPoints[lineId] !== undefined);
  if (!line || !kind || !own || clips) return null;
  const { lattice, fixed, panelIds } = readyFor(world, ribsOf(boat));
  const others = report.runs.flatMap((run): OracleRun[] => {
    const other = boat.lines[run.lineId];
    const its = other && boat.lineKinds[other.kind];
    return run.lineId === lineId || run.status !== 'routed' || !its ? [] : [readRun(boat, run, other, its)];
  });
  const shape = readRun(boat, { ...own, prims: [] }, line, kind);
  const bend = kind.bendRadiusM + (kind.radiusTo === 'inside' ? kind.outsideM / 2 : 0);
  const ends = (['from', 'to'] as const).map((which, k) => {
    const place = world.interior.places.get(line[which].thing);
    const port = (boat.fixtures[line[which].thing] ?? boat.parts[line[which].thing])?.ports[line[which].port];
    if (!place || !port) throw new Error(`gridRun: expected ${line[which].thing}.${line[which].port}`);
    const [at, out] = [placedPoint(place, port.at), normalised(directionOf(place, port.direction))];
    const leastM = (shape.lead[k] as number) + LONGER;
    return { at, out, leastM, tip: plus(at, times(out, leastM)) };
  }) as [End, End];
  const hose: Hose = {
    radius: shape.radius,
    bend,
    fitting: shape.fitting,
    owners: [line.from.thing, line.to.thing],
  };
  const near = new Near(fixed, others);
  const walk = new Walk(
    lattice,
    others.map(({ trace, radius }) => ({
      radius,
      points: Array.from({ length: Math.ceil(trace.lengthM / 0.02) + 1 }, (_, k) =>
        trace.at(Math.min(trace.lengthM, 0.02 * k)),
      ),
    })),
  );
  const needed = neededHole(shape);
  const taken = report.runs.flatMap((run) => (run.lineId === lineId ? [] : run.holes));
  const jumps = world.interior.panels.flatMap((panel, k) =>
    jumpsOf(panel, k, needed, shape.radius, taken, world, lattice),
  );
  let best: GridRun | null = null;
  const price = (run: GridRun): number => priceOf(world.interior, run);
  // A line that the router has led is known to be there: then only a cheaper run would be news.
  const tries = own.status === 'routed' ? BENDS.length : TRIES;
  for (let n = 0; n < tries && (n < BENDS.length || !best); n++) {
    const way = walk.search({
      radius: shape.radius,
      bend: (BENDS[n % BENDS.length] as number) * bend,
      from: ends[0],
      to: ends[1],
      jumps,
    });
    if (!way) continue;
    const knots = tighten(knotsOf(way, ends, bend), hose, near, 17 + n);
    const run = knots && judged(boat, own, drawn(knots, bend, panelIds), shape, others, world);
    if (run && (!best || price(run) < price(best))) best = run;
    if (!run) for (const point of way) walk.avoid(point.kind === 'hole' ? point.spot.at : point.at, 0.15, 0.08);
  }
  const most =
    line.supplied && !line.supplied.mayCut ? line.supplied.lengthM - line.supplied.spareM : Number.POSITIVE_INFINITY;
  return best && best.lengthM <= most ? best : null;
}

interface End {
  readonly at: P3;
  readonly out: P3;
  readonly leastM: number;
  readonly tip: P3;
}

/** Places where the hose may pass a panel: holes that are there and have room, and new ones on a raster; both ways each. */
function jumpsOf(
  panel: OraclePanel,
  index: number,
  needed: number,
  radius: number,
  taken: RunReport['holes'],
  { hull, interior }: GridWorld,
  lattice: Lattice,
): Jump[] {
  if (panel.rule === 'open') return [];
  const straightM = Math.max(panel.thicknessM / 2 + radius, panel.gapM / 2) + LONGER;
  const jumps: Jump[] = [];
  const put = (at: P3, existing: boolean, diameterM: number, offence: HoleSpot['offence']): void => {
    const { u, v, n } = panel.frame;
    const costM = existing ? 0 : panel.newHoleCostM;
    for (const sign of [1, -1]) {
      const along = times(n, sign);
      const spot = { panel: index, at, along, u, v, diameterM, existing, costM, straightM, offence };
      const rooms = panel.between.map((id) => interior.prisms.findIndex((one) => one.id === id));
      jumps.push({ spot, rooms: (sign > 0 ? rooms : rooms.reverse()) as [number, number] });
    }
  };
  for (const hole of panel.holes) {
    const isTaken = taken.some((one) => gap(one.at, hole.at) < hole.diameterM / 2);
    const area = hole.carriedM.reduce((sum, d) => sum + d * d, (needed + 2 * HOLE_SPARE) ** 2);
    if (!isTaken && hole.diameterM >= needed + 2 * HOLE_SPARE && area <= hole.diameterM ** 2)
      put(hole.at, true, hole.diameterM, () => 0);
  }
  if (panel.rule === 'noDrill') return jumps;
  const diameterM = needed + 2 * HOLE_SPARE;
  const edge = diameterM / 2 + panel.edgeM;
  const apart = [
    ...panel.holes.map((one) => ({ at: one.at, diameterM: one.diameterM })),
    ...taken.filter((one) => !one.existing),
  ];
  for (const region of panel.regions) {
    const offence = (at: P3): number => {
      const q = onto(region.frame, at);
      const room = distanceToBoundary(region, q) * (inRegion(region, q) ? 1 : -1);
      const node = nodeAt(lattice, at);
      const far = node >= 0 && (lattice.skin[node] as number) > edge + 0.04;
      return (
        Math.max(0, edge + 2e-4 - room) +
        (far ? 0 : Math.max(0, edge + 2e-4 - skinDistance(hull, at))) +
        apart.reduce((sum, one) => sum + Math.max(0, (one.diameterM + diameterM) / 2 + 2e-4 - gap(one.at, at)), 0)
      );
    };
    const points = region.boundary.flat();
    const span = (k: 0 | 1): [number, number] => [
      Math.min(...points.map((p) => p[k])),
      Math.max(...points.map((p) => p[k])),
    ];
    const [[u0, u1], [v0, v1]] = [span(0), span(1)];
    for (let u = u0 + HOLES_EVERY / 2; u < u1; u += HOLES_EVERY)
      for (let v = v0 + HOLES_EVERY / 2; v < v1; v += HOLES_EVERY) {
        const at = lifted(region.frame, [u, v]);
        const node = nodeAt(lattice, at);
        if (node < 0 || (lattice.skin[node] as number) < edge - 0.03) continue;
        if (offence(at) < 0.02) put(at, false, diameterM, offence);
      }
  }
  return jumps;
}

function knotsOf(way: readonly Waypoint[], [from, to]: readonly [End, End], bend: number): Knot[] {
  const out = Math.min(0.1, 0.3 * bend);
  const lead = ({ at, out: direction, leastM }: End): Knot => ({
    kind: 'lead',
    at,
    out: direction,
    leastM,
    v: [leastM + out],
  });
  return [
    lead(from),
    ...way.map((point): Knot => {
      if (point.kind === 'corner') return { kind: 'free', v: [...point.at] };
      const { straightM } = point.spot;
      return { kind: 'hole', spot: point.spot, v: [0, 0, straightM + out, straightM + out] };
    }),
    lead(to),
  ];
}

/** The run when nothing is wrong with it, alone and among the others. */
function judged(
  boat: Boat,
  own: RunReport,
  { prims, holes }: { readonly prims: readonly OraclePrim[]; readonly holes: RunReport['holes'] },
  shape: OracleRun,
  others: readonly OracleRun[],
  world: GridWorld,
): GridRun | null {
  const lengthM = prims.reduce((sum, prim) => sum + primLength(prim), 0);
  const { reason: _, costM: __, costBoundM: ___, ...rest } = own;
  const run: RunReport = { ...rest, status: 'routed', prims, holes, lengthM, lowerBoundM: 0, minClearanceM: null };
  if (checkRuns(boat, { arrangement: null, runs: [run] }, world).length > 0) return null;
  const mine: OracleRun = { ...shape, report: run, trace: traceOf(prims) };
  return others.some((other) => meetings([mine, other]).length > 0) ? null : { prims, holes, lengthM };
}
