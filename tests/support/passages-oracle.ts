import type { RunReport } from '@core/engine/report';
import { above, angleBetween, gap, inRegion, onto, type P3, plus, times } from './geometry-oracle';
import { type HullMesh, skinDistanceInPlane } from './hull-oracle';
import type { OracleHole, OraclePanel, OraclePrism } from './interior-oracle';
import { DUST, fault, type Interior, type OracleRun, STEP, type Violation } from './run-oracle';
import type { Trace } from './trace-oracle';

const HOLE_PLACE = 0.001;
const SQUARE_RAD = 0.003;

interface Passage {
  readonly from: string;
  readonly to: string;
  readonly start: number;
  readonly end: number;
}

/** Where the run leaves one compartment and comes into another. */
function passagesOf(prisms: readonly OraclePrism[], run: OracleRun): { passages: Passage[]; faults: Violation[] } {
  const faults: Violation[] = [];
  const passages: Passage[] = [];
  const inside = (p: P3): OraclePrism[] =>
    prisms.filter(
      (one) =>
        [0, 1, 2].every(
          (k) =>
            (p[k] as number) >= (one.low[k] as number) - 1e-9 && (p[k] as number) <= (one.high[k] as number) + 1e-9,
        ) && one.contains(p),
    );
  const { lengthM } = run.trace;
  let room: OraclePrism | null = null;
  let left = 0;
  const steps = Math.max(2, Math.ceil(lengthM / (STEP / 2)));
  for (let i = 0; i <= steps; i++) {
    const s = (lengthM * i) / steps;
    const p = run.trace.at(s);
    if (room?.contains(p)) {
      left = s;
      continue;
    }
    const next: OraclePrism | undefined = inside(p)[0];
    if (!next) continue;
    if (room) passages.push({ from: room.id, to: next.id, start: left, end: s });
    else if (s > GAP_AT_PORT) faults.push(fault(run, 'outside', run.trace.at(0), s, 'starts in undrawn space'));
    room = next;
    left = s;
  }
  if (!room) faults.push(fault(run, 'outside', run.trace.at(0), lengthM, 'lies in no compartment'));
  else if (lengthM - left > GAP_AT_PORT)
    faults.push(fault(run, 'outside', run.trace.at(lengthM), lengthM - left, 'ends in undrawn space'));
  return { passages, faults };
}
const GAP_AT_PORT = 0.004;

export interface Pierced {
  readonly panel: number;
  readonly at: P3;
  readonly diameterM: number;
  readonly existing: boolean;
  readonly panelId: string;
  /** A hole of the boat, or a planned one: others may pass it too. */
  readonly shared: boolean;
  /** Where the run itself passes the middle plane, and how far along. */
  readonly passes: P3;
  readonly s: number;
}

/** Every way from one compartment into another is an open panel or a declared hole, and each declared hole is such a way. */
export function passageFaults(
  interior: Interior,
  run: OracleRun,
  hull: HullMesh | undefined,
): { faults: Violation[]; pierced: readonly Pierced[] } {
  const { passages, faults } = passagesOf(interior.prisms, run);
  const free = run.report.holes.map((hole) => ({ hole, used: false }));
  const pierced: Pierced[] = [];
  for (const passage of passages) {
    const way = panelAt(interior.panels, run.trace, passage);
    if (!way && inOpenGaps(interior.panels, run.trace, passage)) continue;
    if (!way) {
      faults.push(
        fault(
          run,
          'passage',
          run.trace.at(passage.start),
          passage.end - passage.start,
          `no panel from ${passage.from} to ${passage.to}`,
        ),
      );
      continue;
    }
    const panel = interior.panels[way.panel] as OraclePanel;
    if (panel.rule === 'open') continue;
    const at = run.trace.at(way.s);
    const near = free.filter((one) => !one.used).sort((a, b) => gap(a.hole.at, at) - gap(b.hole.at, at))[0];
    if (!near || gap(near.hole.at, at) > 0.1) {
      faults.push(fault(run, 'undeclared', at, 0, `passes from ${passage.from} to ${passage.to} without a hole`));
      continue;
    }
    near.used = true;
    const { hole } = near;
    const old = hole.existing || hole.newHoleId !== undefined ? oldHoleAt(panel, at) : null;
    const real = old ?? hole;
    pierced.push({
      panel: way.panel,
      at: real.at,
      diameterM: real.diameterM,
      existing: hole.existing,
      panelId: hole.panelId,
      shared: old !== null,
      passes: at,
      s: way.s,
    });
    faults.push(...holeFaults(run, panel, hole, way.s, hull));
  }
  for (const one of free)
    if (!one.used)
      faults.push(fault(run, 'holeUnused', one.hole.at, 0, `hole in ${one.hole.panelId} that the run does not pass`));
  return { faults, pierced };
}

/**
 * Where open panels lie side by side, a run may round the end of what parts two compartments without entering the third:
 * all of it then lies in the gaps of open panels. Walls and clearances are judged apart.
 */
function inOpenGaps(panels: readonly OraclePanel[], trace: Trace, passage: Passage): boolean {
  const open = panels.filter((panel) => panel.rule === 'open');
  const holding = (s: number): OraclePanel[] =>
    open.filter(
      (panel) =>
        Math.abs(above(panel.frame, trace.at(s))) <= panel.gapM / 2 + STEP &&
        panel.regions.some((region) => inRegion(region, onto(region.frame, trace.at(s)))),
    );
  const count = Math.ceil((passage.end - passage.start) / STEP);
  const all = Array.from({ length: count + 1 }, (_, k) =>
    holding(passage.start + ((passage.end - passage.start) * k) / count),
  );
  return (
    all.every((some) => some.length > 0) &&
    (all[0] as OraclePanel[]).some((panel) => panel.between.includes(passage.from)) &&
    (all[count] as OraclePanel[]).some((panel) => panel.between.includes(passage.to))
  );
}

function panelAt(panels: readonly OraclePanel[], trace: Trace, passage: Passage): { panel: number; s: number } | null {
  const margin = 0.002;
  let best: { panel: number; s: number } | null = null;
  panels.forEach((panel, k) => {
    if (!panel.between.includes(passage.from) || !panel.between.includes(passage.to)) return;
    const side = (s: number): number => above(panel.frame, trace.at(s)) * (panel.between[0] === passage.from ? 1 : -1);
    let [lo, hi] = [Math.max(0, passage.start - margin), Math.min(trace.lengthM, passage.end + margin)];
    if (!(side(lo) <= 0 && side(hi) >= 0)) return;
    for (let i = 0; i < 60; i++) {
      const mid = (lo + hi) / 2;
      if (side(mid) <= 0) lo = mid;
      else hi = mid;
    }
    const p = trace.at(lo);
    if (panel.regions.some((region) => inRegion(region, onto(region.frame, p)))) best = { panel: k, s: lo };
  });
  return best;
}

function holeFaults(
  run: OracleRun,
  panel: OraclePanel,
  hole: RunReport['holes'][number],
  s: number,
  hull: HullMesh | undefined,
): Violation[] {
  const faults: Violation[] = [];
  const say = (kind: Violation['kind'], amount: number, detail: string): void => {
    faults.push(fault(run, kind, hole.at, amount, `${hole.panelId}: ${detail}`));
  };
  const at = run.trace.at(s);
  const needed = neededHole(run);
  const lift = Math.abs(above(panel.frame, hole.at));
  if (lift > HOLE_PLACE) say('holePlace', lift, 'not in the middle plane of the panel');
  if (hole.diameterM < needed - 1e-6) say('holeSize', needed - hole.diameterM, `needs ${needed}`);
  const tilt = worstTilt(run, panel, s);
  if (tilt > SQUARE_RAD) say('holeSquare', tilt, 'the run is not square to the panel');
  const off = gap(hole.at, at);
  if (hole.existing || hole.newHoleId !== undefined) {
    const real = oldHoleAt(panel, at);
    if (!real || (off > HOLE_PLACE && gap(real.at, hole.at) > HOLE_PLACE))
      say('notExisting', off, 'no such hole in the boat');
    if (!real) return faults;
    if (hole.existing === (real.for !== null))
      say('notExisting', 0, hole.existing ? 'is planned, not there' : 'is there already');
    const play = (real.diameterM - needed) / 2;
    if (gap(real.at, at) > Math.max(0, play) + DUST)
      say('holePlace', gap(real.at, at) - play, 'the run does not fit through');
    if (hole.diameterM > real.diameterM + 1e-6)
      say('notExisting', hole.diameterM - real.diameterM, 'the hole is smaller');
    if (needed > real.diameterM + 1e-6) say('holeSize', needed - real.diameterM, `needs ${needed}`);
    const area = real.carriedM.reduce((sum, d) => sum + d * d, 0) + needed * needed;
    if (area > real.diameterM ** 2 + 1e-9)
      say('holeFull', area - real.diameterM ** 2, 'no room beside what it carries');
    // Beside a hose that lies off the middle the widest place is across from it (two circles in a circle).
    const beside = real.diameterM / 2 + gap(real.at, at) - run.radius;
    const widest = Math.max(0, ...real.carriedM);
    if (widest > beside + DUST) say('holeFull', widest - beside, 'lies on what it carries');
    return faults;
  }
  if (off > HOLE_PLACE) say('holePlace', off, 'the run passes elsewhere');
  if (panel.rule === 'noDrill') say('noDrill', 0, 'must not be drilled');
  const edge = hole.diameterM / 2 + panel.edgeM;
  if (!discInside(panel, hole.at, edge - DUST)) say('holeEdge', edge, 'too near the edge of the panel');
  if (hull) {
    const skin = skinDistanceInPlane(hull, panel.frame, hole.at);
    if (skin < edge - DUST) say('holeEdge', edge - skin, 'too near the hull');
  }
  return faults;
}

/** Greatest angle to the panel's normal while the hose is in the panel, in the gap between the two rooms, or within its own radius of either face. */
function worstTilt(run: OracleRun, panel: OraclePanel, s: number): number {
  const { lengthM } = run.trace;
  const reach = Math.max(panel.thicknessM / 2 + run.radius, panel.gapM / 2);
  let worst = 0;
  for (let k = -8; k <= 8; k++) {
    const tangent = run.trace.tangent(Math.min(lengthM, Math.max(0, s + (k / 8) * (reach - DUST))));
    const tilt = Math.min(angleBetween(tangent, panel.frame.n), angleBetween(times(tangent, -1), panel.frame.n));
    worst = Math.max(worst, tilt);
  }
  return worst;
}

/** Whether a disc lies in the regions of a panel together, wherever they join. */
function discInside(panel: OraclePanel, centre: P3, radius: number): boolean {
  const holds = (p: P3): boolean => panel.regions.some((region) => inRegion(region, onto(region.frame, p)));
  const { u, v } = panel.frame;
  // What lies in no region by rounding lies on a seam: a hair to the side it is inside.
  const nearly = (p: P3): boolean =>
    [
      [0, 0],
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ].some(([a = 0, b = 0]) => holds(plus(p, plus(times(u, a * HAIR), times(v, b * HAIR)))));
  for (const share of [0.25, 0.5, 0.75, 1])
    for (let k = 0; k < 180; k++) {
      const [c, s] = [Math.cos((k * Math.PI) / 90), Math.sin((k * Math.PI) / 90)];
      if (!nearly(plus(centre, plus(times(u, share * radius * c), times(v, share * radius * s))))) return false;
    }
  return true;
}
const HAIR = 5e-6;

/** The hole of the boat that the run goes through. */
const oldHoleAt = (panel: OraclePanel, at: P3): OracleHole | null =>
  panel.holes.find((one) => gap(one.at, at) < one.diameterM / 2 + HOLE_PLACE) ?? null;

/** The hose passes every hole, and the end that leads where that is crimped on: the one named, else the smaller of two. */
export function neededHole(run: OracleRun): number {
  const ends = (['from', 'to'] as const).map((which) => {
    const end = run.line.ends[which] ?? run.kind.end;
    return end?.crimped || run.kind.crimpedEnds ? (end?.diameterM ?? run.kind.end?.diameterM ?? 0) : 0;
  });
  const named = run.report.holes.find((hole) => hole.fedFrom !== undefined)?.fedFrom;
  return Math.max(run.radius * 2, named ? (ends[named === 'from' ? 1 : 0] as number) : Math.min(...ends));
}

/**
 * What passes one hole of the boat, or a planned one, lies in it together with what it carries: by area, and any two by their width, the one
 * drawn in before the other. Who it is planned for passes that panel nowhere else.
 */
export function sharedHoleFaults(interior: Interior, pierced: ReadonlyMap<OracleRun, readonly Pierced[]>): Violation[] {
  const faults: Violation[] = [];
  interior.panels.forEach((panel, k) => {
    for (const hole of panel.holes) {
      const through = [...pierced].flatMap(([run, passes]) =>
        passes.filter((one) => one.shared && one.panel === k && one.at === hole.at).map((pass) => ({ run, pass })),
      );
      through.forEach(({ run, pass }, i) => {
        const say = (amount: number, detail: string): void => {
          faults.push(fault(run, 'holeFull', pass.passes, amount, `${pass.panelId}: ${detail}`));
        };
        const area =
          hole.carriedM.reduce((sum, d) => sum + d * d, 0) +
          through.reduce((sum, one) => sum + (2 * one.run.radius) ** 2, 0);
        if (i === 0 && area > hole.diameterM ** 2 + 1e-9) say(area - hole.diameterM ** 2, 'holds too much');
        for (const other of through.slice(i + 1)) {
          const apart = gap(pass.passes, other.pass.passes);
          const touch = run.radius + other.run.radius;
          if (apart < touch - DUST) say(touch - apart, `lies on ${other.run.report.lineId}`);
          const width = Math.min(neededHole(run) + 2 * other.run.radius, neededHole(other.run) + 2 * run.radius);
          if (width > hole.diameterM + DUST) say(width - hole.diameterM, `no way in beside ${other.run.report.lineId}`);
        }
      });
      for (const lineId of hole.for ?? [])
        for (const [run, passes] of pierced) {
          if (run.report.lineId !== lineId) continue;
          const own = passes.filter((one) => one.panel === k);
          if (!own.some((one) => one.at === hole.at))
            faults.push(fault(run, 'planned', hole.at, 0, `does not pass ${hole.id}, which is made for it`));
          const elsewhere = own.find(
            (one) => !panel.holes.some((other) => other.at === one.at && other.for?.includes(lineId)),
          );
          if (elsewhere) faults.push(fault(run, 'planned', elsewhere.passes, 0, `passes the panel beside ${hole.id}`));
        }
    }
  });
  return faults;
}

/** Holes of one panel do not run into each other, new ones or old ones; one panel keeps one id. */
export function holesApart(interior: Interior, pierced: ReadonlyMap<OracleRun, readonly Pierced[]>): Violation[] {
  const faults: Violation[] = [];
  const all = [...pierced].flatMap(([run, holes]) => holes.map((hole) => ({ run, hole })));
  const named = new Map<string, number>();
  all.forEach(({ run, hole }, i) => {
    const known = named.get(hole.panelId);
    if (known !== undefined && known !== hole.panel)
      faults.push(fault(run, 'passage', hole.at, 0, `${hole.panelId} names two panels`));
    named.set(hole.panelId, hole.panel);
    if (hole.shared) return;
    const others = [
      ...all.slice(i + 1).map((one) => one.hole),
      ...(interior.panels[hole.panel] as OraclePanel).holes.map((one) => ({ ...one, panel: hole.panel })),
    ];
    for (const other of others) {
      if (other.panel !== hole.panel) continue;
      const short = (hole.diameterM + other.diameterM) / 2 - gap(hole.at, other.at);
      if (short > DUST) faults.push(fault(run, 'holeOverlap', hole.at, short, `${hole.panelId}: meets another hole`));
    }
  });
  return faults;
}
