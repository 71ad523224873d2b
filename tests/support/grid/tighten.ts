import type { RunReport } from '@core/engine/report';
import { angleBetween, gap, inner, minus, normalised, type P3, plus, times } from '../geometry-oracle';
import { rounded } from '../plant-oracle';
import { randomFrom } from '../random';
import type { OraclePrim } from '../trace-oracle';
import type { Near } from './near';

/** A hole of a way: where it may be within its panel, and what it costs. */
export interface HoleSpot {
  readonly panel: number;
  readonly at: P3;
  /** Unit, the way the run passes, and two directions in the panel. */
  readonly along: P3;
  readonly u: P3;
  readonly v: P3;
  readonly diameterM: number;
  readonly existing: boolean;
  readonly costM: number;
  /** Straight on each side of the middle plane. */
  readonly straightM: number;
  /** By how much a hole there is too near an edge, the skin or another hole; 0: it may be there. */
  offence(at: P3): number;
}

/** What a way is made of: its two ends with their straight leads, corners, and holes. `v` may be changed, the rest stands. */
export type Knot =
  | { readonly kind: 'lead'; readonly at: P3; readonly out: P3; readonly leastM: number; readonly v: number[] }
  | { readonly kind: 'free'; readonly v: number[] }
  | { readonly kind: 'hole'; readonly spot: HoleSpot; readonly v: number[] };

export interface Hose {
  readonly radius: number;
  readonly bend: number;
  /** Of the fittings: radius and length from the port. */
  readonly fitting: readonly [{ radius: number; length: number }, { radius: number; length: number }];
  /** Things that the two ends stand on: over the leads they don't count. */
  readonly owners: readonly [string, string];
}

/** Kept beyond what the judge asks, so that rounding costs no run. */
const SPARE = 0.0002;
const LOOK = 0.012;
const HAIR = 1e-6;
/** Prices of what must not be: metres of hose for a metre. All far above what breaking a rule can save. */
const TOO_NEAR = 40;
const TOO_NEAR_OVER = 300;
const NO_ROOM_TO_BEND = 30;
const HOLE_OFFENCE = 60;
/** Radians; a corner that turns back on itself has no fillet. */
const SHARPEST = 3;
const MOST_SWEEPS = 250;

interface Station {
  readonly p: P3;
  /** Rounded with the hose's bend radius; holes and ports are passed straight. */
  readonly bends: boolean;
  /** Straight that must be left on the way to the next station, and on the way from the one before. */
  readonly before: number;
  readonly after: number;
  /** Panel that is passed here. */
  readonly panel: number;
}

function stationsOf(knots: readonly Knot[]): Station[] {
  const stations: Station[] = [];
  const plain = { before: 0, after: 0, panel: -1 };
  knots.forEach((knot, k) => {
    if (knot.kind === 'free') {
      stations.push({ ...plain, p: [knot.v[0] as number, knot.v[1] as number, knot.v[2] as number], bends: true });
      return;
    }
    if (knot.kind === 'lead') {
      const tip = { ...plain, p: plus(knot.at, times(knot.out, knot.v[0] as number)), bends: true };
      const port = { ...plain, p: knot.at, bends: false, before: knot.leastM, after: knot.leastM };
      if (k === 0) stations.push(port, tip);
      else stations.push(tip, port);
      return;
    }
    const { spot } = knot;
    const q = holeAt(spot, knot.v);
    stations.push(
      { ...plain, p: plus(q, times(spot.along, -(knot.v[2] as number))), bends: true },
      { p: q, bends: false, before: spot.straightM, after: spot.straightM, panel: spot.panel },
      { ...plain, p: plus(q, times(spot.along, knot.v[3] as number)), bends: true },
    );
  });
  return stations;
}

const holeAt = (spot: HoleSpot, v: readonly number[]): P3 =>
  spot.existing ? spot.at : plus(spot.at, plus(times(spot.u, v[0] as number), times(spot.v, v[1] as number)));

/** What is wrong with the place of a hole, priced. */
const offenceOf = (knot: Knot): number =>
  knot.kind === 'hole' && !knot.spot.existing ? HOLE_OFFENCE * knot.spot.offence(holeAt(knot.spot, knot.v)) : 0;

interface Energy {
  readonly total: number;
  readonly wrong: number;
}

/** Price of a way with all that is wrong with it: it is drawn with fillets and looked at every few millimetres. */
function energyOf(knots: readonly Knot[], hose: Hose, near: Near): Energy {
  const stations = stationsOf(knots);
  const pieces = piecesOf(stations, hose, near, 0, stations.length - 1);
  let { total, wrong } = pieces;
  for (const knot of knots) {
    if (knot.kind === 'hole') total += knot.spot.costM + offenceOf(knot);
    wrong += offenceOf(knot);
  }
  return { total, wrong };
}

/** The part of the price that lies on the ways between stations `from` and `to`, each with the bend at its end. */
function piecesOf(stations: readonly Station[], hose: Hose, near: Near, from: number, to: number): Energy {
  const last = stations.length - 1;
  const point = (k: number): P3 => (stations[k] as Station).p;
  const turnAt = (k: number): number => {
    if (!stations[k]?.bends) return 0;
    const [a, b] = [minus(point(k), point(k - 1)), minus(point(k + 1), point(k))];
    return inner(a, a) < 1e-18 || inner(b, b) < 1e-18 ? 0 : angleBetween(a, b);
  };
  const tangentOf = (turn: number): number => (turn > 0 ? hose.bend * Math.tan(Math.min(turn, SHARPEST) / 2) : 0);
  const begin = Math.max(0, from);
  let [lengthM, wrong] = [0, 0];
  let ta = tangentOf(turnAt(begin));
  for (let k = begin; k < Math.min(last, to); k++) {
    const [here, there] = [stations[k] as Station, stations[k + 1] as Station];
    const turn = turnAt(k + 1);
    const tb = tangentOf(turn);
    const l = gap(here.p, there.p);
    const straight = l - ta - tb;
    lengthM += straight + hose.bend * turn;
    const reserve = here.after + there.before;
    wrong += NO_ROOM_TO_BEND * Math.max(0, reserve + (reserve > 0 ? SPARE : 0) - straight);
    if (l > 1e-9) wrong += straightTooNear(here, there, l, Math.min(l, ta), Math.max(0, straight), k, last, hose, near);
    if (turn > SHARPEST) wrong += 1 + turn;
    else if (turn > 1e-6) wrong += arcTooNear(here.p, there.p, point(k + 2), turn, tb, hose, near);
    ta = tb;
  }
  return { total: lengthM + wrong, wrong };
}

/** Along a straight from its first tangent point on. Over the leads the two things, over the way through a hole its panel, are left out. */
function straightTooNear(
  here: Station,
  there: Station,
  l: number,
  skipped: number,
  span: number,
  k: number,
  last: number,
  hose: Hose,
  near: Near,
): number {
  const d = times(minus(there.p, here.p), 1 / l);
  const [isFirst, isLast] = [k === 0, k + 1 === last];
  const marks = [
    isFirst ? [here.after, hose.fitting[0].length] : [],
    isLast ? [span - there.before, span - hose.fitting[1].length] : [],
    here.panel >= 0 ? [here.after] : [],
    there.panel >= 0 ? [span - there.before] : [],
  ].flat();
  return tooNear(span, marks, (s) => {
    const [fromPort, toPort] = [isFirst ? s : Number.POSITIVE_INFINITY, isLast ? span - s : Number.POSITIVE_INFINITY];
    const except: string[] = [];
    if (fromPort <= here.after) except.push(hose.owners[0]);
    if (toPort <= there.before) except.push(hose.owners[1]);
    if (here.panel >= 0 && s <= here.after) except.push(`panel ${here.panel}`);
    if (there.panel >= 0 && span - s <= there.before) except.push(`panel ${there.panel}`);
    const fat = Math.max(
      hose.radius,
      fromPort <= hose.fitting[0].length ? hose.fitting[0].radius : 0,
      toPort <= hose.fitting[1].length ? hose.fitting[1].radius : 0,
    );
    return fat + SPARE - near.at(plus(here.p, times(d, skipped + s)), except);
  });
}

function arcTooNear(before: P3, corner: P3, after: P3, turn: number, tangent: number, hose: Hose, near: Near): number {
  const into = normalised(minus(corner, before));
  const out = normalised(minus(after, corner));
  const from = plus(corner, times(into, -tangent));
  const across = normalised(minus(out, times(into, inner(into, out))));
  return tooNear(hose.bend * turn, [], (s) => {
    const a = s / hose.bend;
    const p = plus(from, plus(times(into, hose.bend * Math.sin(a)), times(across, hose.bend * (1 - Math.cos(a)))));
    return hose.radius + SPARE - near.at(p, []);
  });
}

/**
 * Price of coming too near along a piece: of the worst place and of the length over which. Free stretches are skipped by their room, but never
 * past a mark, where other things begin to count.
 */
function tooNear(lengthM: number, marks: readonly number[], short: (s: number) => number): number {
  let [worst, over] = [0, 0];
  for (let s = 0; ; ) {
    const lack = short(s);
    if (lack > 0) {
      worst = Math.max(worst, lack);
      over += lack * LOOK;
    }
    if (s >= lengthM) break;
    const next = Math.min(lengthM, s + Math.max(LOOK, -lack));
    s = marks.reduce((to, mark) => (s < mark + HAIR && to > mark + HAIR ? mark + HAIR : to), next);
  }
  return TOO_NEAR * worst + TOO_NEAR_OVER * over;
}

/** Least size of what must stay positive. */
function isLegal(knot: Knot): boolean {
  if (knot.kind === 'lead') return (knot.v[0] as number) >= knot.leastM;
  if (knot.kind === 'hole')
    return (knot.v[2] as number) >= knot.spot.straightM && (knot.v[3] as number) >= knot.spot.straightM;
  return true;
}

/**
 * Draws a way tight by trying: each corner in random directions, ever smaller, neighbours together, corners left out. Slow, and knows
 * nothing of gradients. Returns null where something stays wrong.
 */
export function tighten(start: readonly Knot[], hose: Hose, near: Near, seed: number): Knot[] | null {
  const next = randomFrom(seed);
  let knots: Knot[] = start.map((knot) => ({ ...knot, v: [...knot.v] }));
  let stations = stationsOf(knots);
  let gained = 0;
  /** Takes other values for knots `from` to `to` when that is better. */
  const tryValues = (from: number, to: number, by: readonly number[]): boolean => {
    const tried = knots.map((knot, k) =>
      k >= from && k <= to ? { ...knot, v: knot.v.map((v, i) => v + (by[i] ?? 0)) } : knot,
    );
    const moved = tried.slice(from, to + 1);
    if (!moved.every(isLegal)) return false;
    const other = stationsOf(tried);
    const first = stationCount(knots.slice(0, from));
    const [lo, hi] = [first - 2, first + stationCount(moved) + 1];
    const before = piecesOf(stations, hose, near, lo, hi).total + sum(knots.slice(from, to + 1).map(offenceOf));
    const after = piecesOf(other, hose, near, lo, hi).total + sum(moved.map(offenceOf));
    if (!(after < before - 1e-7)) return false;
    gained += before - after;
    [knots, stations] = [tried, other];
    return true;
  };
  const leaveOut = (k: number): void => {
    const fewer = knots.filter((_, i) => i !== k);
    const [before, after] = [energyOf(knots, hose, near).total, energyOf(fewer, hose, near).total];
    if (!(after < before - 1e-7)) return;
    gained += before - after;
    [knots, stations] = [fewer, stationsOf(fewer)];
  };
  for (let [step, sweeps] = [0.08, 0]; step > 0.0004 && sweeps < MOST_SWEEPS; sweeps++) {
    gained = 0;
    for (let k = knots.length - 2; k > 0; k--) if (knots[k]?.kind === 'free') leaveOut(k);
    for (let k = 0; k < knots.length; k++) {
      const { kind, v } = knots[k] as Knot;
      const directions = kind === 'free' ? frame(next) : v.map((_, i) => v.map((__, j) => (i === j ? 1 : 0)));
      for (const direction of directions)
        for (const sign of [1, -1]) {
          const by = direction.map((d) => d * sign * step);
          if (!tryValues(k, k, by)) continue;
          // On while it goes well.
          while (tryValues(k, k, by));
          break;
        }
      if (kind !== 'free' || knots[k + 1]?.kind !== 'free') continue;
      for (const direction of frame(next))
        for (const sign of [1, -1]) {
          const by = direction.map((d) => d * sign * step);
          tryValues(k, k + 1, by);
        }
    }
    if (gained < 0.03 * step) step /= 2;
  }
  return energyOf(knots, hose, near).wrong <= 1e-9 ? knots : null;
}

const sum = (values: readonly number[]): number => values.reduce((all, v) => all + v, 0);
const stationCount = (knots: readonly Knot[]): number =>
  knots.reduce((count, knot) => count + { free: 1, lead: 2, hole: 3 }[knot.kind], 0);

/** Three random directions square to one another. */
function frame(next: () => number): P3[] {
  const z = 2 * next() - 1;
  const t = 2 * Math.PI * next();
  const r = Math.sqrt(Math.max(0, 1 - z * z));
  const a: P3 = [r * Math.cos(t), r * Math.sin(t), z];
  const other: P3 = Math.abs(a[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const b = normalised([
    a[1] * other[2] - a[2] * other[1],
    a[2] * other[0] - a[0] * other[2],
    a[0] * other[1] - a[1] * other[0],
  ]);
  return [a, b, [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]];
}

/** The way as lines and arcs, with its holes. */
export function drawn(
  knots: readonly Knot[],
  bend: number,
  panelIds: readonly string[],
): { prims: OraclePrim[]; holes: RunReport['holes'] } {
  const holes = knots.flatMap((knot) =>
    knot.kind === 'hole'
      ? [
          {
            panelId: panelIds[knot.spot.panel] as string,
            at: holeAt(knot.spot, knot.v),
            diameterM: knot.spot.diameterM,
            existing: knot.spot.existing,
          },
        ]
      : [],
  );
  return {
    prims: rounded(
      stationsOf(knots).map(({ p }) => p),
      bend,
    ),
    holes,
  };
}
