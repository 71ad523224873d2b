import type { Boat, LineKind } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { clearanceFaults, meetings } from './clearance-oracle';
import { feedFaults } from './feed-oracle';
import { angleBetween, gap, normalised, type P3, plus, times } from './geometry-oracle';
import type { HullMesh } from './hull-oracle';
import { holesApart, type Pierced, passageFaults, sharedHoleFaults } from './passages-oracle';
import {
  arrangementOf,
  DUST,
  fault,
  type Interior,
  interiorOf,
  leastRadiusOf,
  type OracleRun,
  readRun,
  STEP,
  type Violation,
} from './run-oracle';
import { directionOf, pointOf } from './things-oracle';
import { type OraclePrim, primLength, shapeFaults, tangentAt } from './trace-oracle';

export type { Violation } from './run-oracle';

const CLIP_NEAR = 0.005;

export interface OracleOptions {
  /** Kinds of the catalogue, for boats that name them. */
  readonly kinds?: Readonly<Record<string, LineKind>>;
  /** Must be given for a boat with a hull: its skin as triangles. */
  readonly hull?: HullMesh;
  /** Read before, when many runs are judged in one boat; default: read from the boat. */
  readonly interior?: Interior;
}

/**
 * Independent judge of the runs in a report: it reads the boat file alone, shares no code with the router, and tries every
 * solid by brute force. What it says is a fault of the run, not of the boat.
 */
export function checkRuns(
  boat: Boat,
  report: Pick<Report, 'arrangement' | 'runs'>,
  options: OracleOptions = {},
): Violation[] {
  if (boat.hull && !options.hull) throw new Error('checkRuns: the boat has a hull; expected its skin in options.hull');
  const interior = options.interior ?? interiorOf(boat, report);
  const violations: Violation[] = [];
  const runs: OracleRun[] = [];
  for (const run of report.runs) {
    if (run.status !== 'routed') continue;
    const line = boat.lines[run.lineId];
    const kind = line && (boat.lineKinds[line.kind] ?? options.kinds?.[line.kind]);
    if (!line || !kind) {
      violations.push({
        line: run.lineId,
        kind: 'unknownLine',
        at: null,
        amount: 0,
        detail: line?.kind ?? 'no such line',
      });
      continue;
    }
    const faults = shapeFaults(run.prims, leastRadiusOf(kind));
    violations.push(...faults.map(({ kind, at, amount, detail }) => ({ line: run.lineId, kind, at, amount, detail })));
    if (run.prims.length > 0) runs.push(readRun(boat, run, line, kind));
  }
  const pierced = new Map<OracleRun, readonly Pierced[]>();
  for (const run of runs) {
    const passed = passageFaults(interior, run, options.hull);
    pierced.set(run, passed.pierced);
    violations.push(
      ...endFaults(interior, boat, run),
      ...sumFaults(run),
      ...passed.faults,
      ...clearanceFaults(interior, run, passed.pierced, options.hull, ribsOf(boat)),
      ...feedFaults(interior, run, passed.pierced, options.hull),
      ...wishFaults(interior, boat, report, run, runs),
    );
  }
  violations.push(...meetings(runs, pierced), ...holesApart(interior, pierced), ...sharedHoleFaults(interior, pierced));
  return violations;
}

/** How far ribs stand out from the lining. */
export const ribsOf = ({ hull }: Boat): number => (hull?.ribs ? Math.max(0, hull.ribs.depthM - hull.liningM) : 0);

/** Ports met in place and direction; nothing bends before the rigid end and the port's straight length are past. */
function endFaults(interior: Interior, boat: Boat, run: OracleRun): Violation[] {
  const faults: Violation[] = [];
  const prims = run.report.prims as readonly OraclePrim[];
  (['from', 'to'] as const).forEach((which, k) => {
    const wish = run.line[which];
    const place = interior.places.get(wish.thing);
    const port = (boat.fixtures[wish.thing] ?? boat.parts[wish.thing])?.ports[wish.port];
    if (!place || !port) {
      faults.push(fault(run, 'port', null, 0, `${wish.thing}.${wish.port} is not placed, yet the run is there`));
      return;
    }
    const at = pointOf(place, port.at);
    const out = normalised(directionOf(place, port.direction));
    const prim = prims[k === 0 ? 0 : prims.length - 1] as OraclePrim;
    const end = k === 0 ? prim.from : prim.to;
    const fitted = run.line.ends[which] ?? run.kind.end;
    const elbow = fitted?.angleDeg ?? 0;
    // Of an elbow the hose begins at its corner.
    const drop = elbow === 0 ? 0 : (fitted?.dropM ?? fitted?.rigidM ?? run.kind.end?.rigidM ?? 0);
    const off = gap(end, plus(at, times(out, drop)));
    if (!(off <= 2e-6)) faults.push(fault(run, 'port', end, off, `${which} end is off its port`));
    const leaves = k === 0 ? tangentAt(prim, 0) : times(tangentAt(prim, primLength(prim)), -1);
    const turn = angleBetween(leaves, out);
    const aside = Math.abs(turn - (elbow * Math.PI) / 180);
    if (!(aside <= 1e-4)) faults.push(fault(run, 'port', end, aside, `${which} end leaves in another direction`));
    if (drop > 0) faults.push(...elbowFaults(interior, run, wish.thing, at, end, k));
    let straight = 0;
    for (const one of k === 0 ? prims : [...prims].reverse()) {
      if (one.kind !== 'line') break;
      straight += primLength(one);
    }
    const lead = run.lead[k] as number;
    if (straight < lead - 2e-6)
      faults.push(fault(run, 'lead', end, lead - straight, `${which} end bends before ${lead} m`));
  });
  return faults;
}

/** The leg of an elbow from its port to its corner is as thick as the fitting. */
function elbowFaults(interior: Interior, run: OracleRun, thing: string, at: P3, corner: P3, k: number): Violation[] {
  const { radius } = run.fitting[k] as { radius: number };
  const faults: Violation[] = [];
  for (const solid of interior.solids) {
    if (solid.owner === thing) continue;
    let worst = 0;
    for (let i = 0; i <= 40; i++) {
      const p = plus(times(at, 1 - i / 40), times(corner, i / 40));
      worst = Math.max(worst, radius - solid.distance(p));
    }
    if (worst > DUST) faults.push(fault(run, 'fitting', corner, worst, `elbow meets ${solid.label}`));
  }
  return faults;
}

function sumFaults(run: OracleRun): Violation[] {
  const faults: Violation[] = [];
  const claimed = run.report.lengthM;
  const off = claimed === null ? Number.POSITIVE_INFINITY : Math.abs(claimed - run.trace.lengthM);
  if (!(off <= 2e-6))
    faults.push(fault(run, 'length', null, off, `says ${claimed}, its primitives sum to ${run.trace.lengthM}`));
  const over = run.report.lowerBoundM - run.trace.lengthM;
  if (!(over <= 1e-9)) faults.push(fault(run, 'bound', null, over, 'bound exceeds the length'));
  const { costM, costBoundM } = run.report;
  if (costM !== undefined && costBoundM !== undefined && !(costBoundM <= costM + 1e-9))
    faults.push(fault(run, 'bound', null, costBoundM - costM, 'bound of cost exceeds the cost'));
  return faults;
}

/** Where another run passes a clip point, one that shares it lies beside that run. */
function besideAt(at: P3, run: OracleRun, all: readonly OracleRun[]): number {
  let most = 0;
  for (const other of all) {
    if (other === run) continue;
    const apart = run.radius + other.radius + GAP_BETWEEN_RUNS;
    for (let s = 0; s <= other.trace.lengthM; s += STEP)
      if (gap(other.trace.at(s), at) < apart) {
        most = Math.max(most, 2 * apart);
        break;
      }
  }
  return most;
}
const GAP_BETWEEN_RUNS = 0.002;

/** Points that the run must pass, compartments that it must not enter. */
function wishFaults(
  interior: Interior,
  boat: Boat,
  report: Pick<Report, 'arrangement'>,
  run: OracleRun,
  all: readonly OracleRun[],
): Violation[] {
  const faults: Violation[] = [];
  const arrangement = arrangementOf(boat, report);
  const { lengthM } = run.trace;
  const forbidden = arrangement?.forbidden?.[run.report.lineId] ?? [];
  if (forbidden.length > 0)
    for (const prism of interior.prisms.filter((one) => forbidden.includes(one.id)))
      for (let s = 0; s <= lengthM; s += STEP)
        if (prism.contains(run.trace.at(s))) {
          faults.push(fault(run, 'forbidden', run.trace.at(s), 0, prism.id));
          break;
        }
  const clips = Object.values(arrangement?.clipPoints[run.report.lineId] ?? {}).sort((a, b) => a.order - b.order);
  let since = 0;
  for (const clip of clips) {
    let [best, where] = [Number.POSITIVE_INFINITY, since];
    for (let s = since; s <= lengthM; s += STEP) {
      const d = gap(run.trace.at(s), clip.at);
      if (d < best) [best, where] = [d, s];
    }
    if (best > CLIP_NEAR + besideAt(clip.at, run, all))
      faults.push(fault(run, 'clipPoint', clip.at, best, 'passes it by'));
    since = where;
  }
  return faults;
}
