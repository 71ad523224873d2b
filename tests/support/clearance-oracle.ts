import { distanceToRegion, distanceToSegment, onto, type P2, type P3 } from './geometry-oracle';
import { type HullMesh, skinDistance, withinHull } from './hull-oracle';
import type { Pierced } from './passages-oracle';
import { DUST, fault, type Interior, leastRadiusOf, type OracleRun, STEP, type Violation } from './run-oracle';

const GAP_BETWEEN_RUNS = 0.002;
/** Where nothing is asked; no farther than one step over a lead. */
const FAR = 0.05;

/** Distances from the centre line to every solid; a step never exceeds what the least distance allows to be skipped. */
export function clearanceFaults(
  interior: Interior,
  run: OracleRun,
  pierced: readonly Pierced[],
  hull: HullMesh | undefined,
  ribsM = 0,
): Violation[] {
  const { trace, radius } = run;
  const worst = new Map<string, Violation>();
  const note = (kind: Violation['kind'], label: string, at: P3, amount: number): void => {
    const key = `${kind}|${label}`;
    if ((worst.get(key)?.amount ?? 0) < amount) worst.set(key, fault(run, kind, at, amount, label));
  };
  const { lengthM } = trace;
  const fat = (s: number): number =>
    Math.max(
      radius,
      s <= run.fitting[0].length ? run.fitting[0].radius : 0,
      lengthM - s <= run.fitting[1].length ? run.fitting[1].radius : 0,
    );
  const widest = Math.max(radius, run.fitting[0].radius, run.fitting[1].radius);
  const walk = (distance: (p: P3, s: number) => number, hit: (s: number, short: number) => void): void => {
    for (let s = 0; ; ) {
      const d = distance(trace.at(s), s);
      const short = fat(s) - d;
      if (short > DUST) hit(s, short);
      if (s >= lengthM) return;
      s = Math.min(lengthM, s + Math.max(STEP, d - widest));
    }
  };
  for (const solid of interior.solids) {
    const own = [solid.owner === run.line.from.thing, solid.owner === run.line.to.thing];
    walk(
      (p) => solid.distance(p),
      (s, short) => {
        if ((own[0] && s <= run.lead[0] + 1e-6) || (own[1] && lengthM - s <= run.lead[1] + 1e-6)) return;
        note(
          fat(s) > radius && short - (fat(s) - radius) <= DUST ? 'fitting' : 'clearance',
          solid.label,
          trace.at(s),
          short,
        );
      },
    );
  }
  for (const wall of interior.walls) {
    const holes = pierced
      .filter((one) => one.panel === wall.panel)
      .map((one) => ({ at: onto(wall.region.frame, one.at) as P2, radius: one.diameterM / 2 }));
    walk(
      (p) => distanceToRegion(wall.region, p, holes),
      (s, short) => note('wall', wall.label, trace.at(s), short),
    );
  }
  if (hull) {
    walk(
      (p) => skinDistance(hull, p) - hull.insetM,
      (s, short) => note('hull', 'hull', trace.at(s), short),
    );
    // Ribs may stand anywhere along the skin, except where an end of the run stands among them.
    const ends = [run.lead[0], lengthM - run.lead[1]].map((s) => skinDistance(hull, trace.at(s)) - hull.insetM);
    if (ribsM > 0 && ends.every((free) => free >= ribsM + radius + DUST))
      walk(
        (p, s) => (s < run.lead[0] || s > lengthM - run.lead[1] ? FAR : skinDistance(hull, p) - hull.insetM - ribsM),
        (s, short) => note('hull', 'ribs', trace.at(s), short),
      );
    for (const s of [0, lengthM / 2, lengthM])
      if (!withinHull(hull, trace.at(s))) note('hull', 'outside the hull', trace.at(s), 1);
  }
  return [...worst.values()];
}

interface Chain {
  readonly points: readonly P3[];
  readonly low: P3;
  readonly high: P3;
  readonly start: number;
  readonly end: number;
}

/** The run as chords of 3 mm, in chains of 20 with their bounds. */
function chainsOf(run: OracleRun): Chain[] {
  const count = Math.max(1, Math.ceil(run.trace.lengthM / STEP));
  const point = (i: number): P3 => run.trace.at((run.trace.lengthM * i) / count);
  const chains: Chain[] = [];
  for (let i = 0; i < count; i += 20) {
    const last = Math.min(count, i + 20);
    const points = Array.from({ length: last - i + 1 }, (_, k) => point(i + k));
    const bound = (pick: (...v: number[]) => number): P3 => [
      pick(...points.map((p) => p[0])),
      pick(...points.map((p) => p[1])),
      pick(...points.map((p) => p[2])),
    ];
    const along = (k: number): number => (run.trace.lengthM * k) / count;
    chains.push({ points, low: bound(Math.min), high: bound(Math.max), start: along(i), end: along(last) });
  }
  return chains;
}

/**
 * Every two runs keep 2 mm between their surfaces, except beside a port that they share; beside a hole that both pass they may touch.
 */
export function meetings(
  runs: readonly OracleRun[],
  pierced: ReadonlyMap<OracleRun, readonly Pierced[]> = new Map(),
): Violation[] {
  const chains = runs.map(chainsOf);
  const faults: Violation[] = [];
  runs.forEach((a, i) => {
    runs.forEach((b, j) => {
      if (j <= i) return;
      const need = a.radius + b.radius + GAP_BETWEEN_RUNS;
      const shared = sharedPorts(a, b);
      const inHoles = sharedHoles([a, pierced.get(a) ?? []], [b, pierced.get(b) ?? []]);
      let [worst, at] = [0, null as P3 | null];
      for (const ca of chains[i] as Chain[])
        for (const cb of chains[j] as Chain[]) {
          if (
            [0, 1, 2].some(
              (k) =>
                (ca.low[k] as number) - (cb.high[k] as number) > need ||
                (cb.low[k] as number) - (ca.high[k] as number) > need,
            )
          )
            continue;
          if (shared.some((one) => one(ca, cb))) continue;
          const asked = inHoles.some((one) => one(ca, cb)) ? a.radius + b.radius : need;
          for (const p of ca.points)
            for (let k = 0; k + 1 < cb.points.length; k++) {
              const short = asked - distanceToSegment(p, cb.points[k] as P3, cb.points[k + 1] as P3);
              if (short > worst) [worst, at] = [short, p];
            }
        }
      if (worst > 5e-5) faults.push(fault(a, 'runs', at, worst, `too near ${b.report.lineId}`));
    });
  });
  return faults;
}

/** Beside a hole of the boat, or a planned one, until bends of their radius have had room to part two runs. */
function sharedHoles(
  [a, ofA]: readonly [OracleRun, readonly Pierced[]],
  [b, ofB]: readonly [OracleRun, readonly Pierced[]],
): ((ca: Chain, cb: Chain) => boolean)[] {
  return ofA.flatMap((hole) => {
    const other = ofB.find((one) => one.shared && hole.shared && one.panel === hole.panel && one.at === hole.at);
    if (!other) return [];
    const beside = (run: OracleRun, pass: Pierced, chain: Chain): boolean => {
      const reach = 3 * run.radius + leastRadiusOf(run.kind) + PARTED_BEYOND;
      return chain.start < pass.s + reach && chain.end > pass.s - reach;
    };
    return [(ca: Chain, cb: Chain) => beside(a, hole, ca) || beside(b, other, cb)];
  });
}
/** Half a panel and half a chord of the widest bend. */
const PARTED_BEYOND = 0.06;

/** Two lines on one port lie on each other there: over three hose diameters beyond the longer lead nothing is compared. */
function sharedPorts(a: OracleRun, b: OracleRun): ((ca: Chain, cb: Chain) => boolean)[] {
  const tests: ((ca: Chain, cb: Chain) => boolean)[] = [];
  (['from', 'to'] as const).forEach((wa, i) => {
    (['from', 'to'] as const).forEach((wb, j) => {
      if (a.line[wa].thing !== b.line[wb].thing || a.line[wa].port !== b.line[wb].port) return;
      const reach = Math.max(a.lead[i] as number, b.lead[j] as number) + 6 * Math.max(a.radius, b.radius);
      tests.push(
        (ca, cb) =>
          (i === 0 ? ca.start : a.trace.lengthM - ca.end) < reach &&
          (j === 0 ? cb.start : b.trace.lengthM - cb.end) < reach,
      );
    });
  });
  return tests;
}
