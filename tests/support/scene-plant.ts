import type { Boat, Line } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { checkRuns } from './check-run';
import type { Dice } from './dice';
import { gap, minus, type OracleSolid, outer, type P3, plus, times } from './geometry-oracle';
import { rounded } from './plant-oracle';
import type { Interior } from './run-oracle';
import { type HullRoom, hullRoom, somewhere } from './scene-interior';
import { type Keep, type Stood, solidOf } from './scene-things';
import { type OraclePrim, primLength } from './trace-oracle';

export const keepOf = (prims: readonly OraclePrim[], radius: number): Keep => ({
  radius,
  points: prims.flatMap((prim) => {
    const n = Math.max(1, Math.ceil(primLength(prim) / 0.02));
    return Array.from({ length: n + 1 }, (_, k) => between(prim, k / n));
  }),
});
function between(prim: OraclePrim, t: number): P3 {
  if (prim.kind === 'line') return plus(prim.from, times(minus(prim.to, prim.from), t));
  const a = minus(prim.from, prim.centre);
  const b = outer(prim.normal, a);
  const turn = (primLength(prim) / prim.radius) * t;
  return plus(prim.centre, plus(times(a, Math.cos(turn)), times(b, Math.sin(turn))));
}

export interface Wish {
  readonly id: string;
  readonly kind: string;
  readonly radius: number;
  readonly bend: number;
  readonly from: readonly [Stood, Stood['ports'][number]];
  readonly to: readonly [Stood, Stood['ports'][number]];
  /** Room to the skin; default: that of the wineglass hull. */
  readonly hull?: HullRoom;
  /** What the line says of its own ends, and the straight lengths that its ports ask for; default: nothing. */
  readonly ends?: NonNullable<Line['ends']>;
  readonly straightM?: readonly [number, number];
}

export interface Planted {
  readonly prims: OraclePrim[];
  readonly lengthM: number;
  readonly holes: RunReport['holes'];
}

/** Draws random rounded polygons, through at most one new hole, until the judge lets one through. */
export function plant(
  d: Dice,
  boat: Boat,
  interior: Interior,
  { stood, keeps }: { readonly stood: readonly Stood[]; readonly keeps: readonly Keep[] },
  wish: Wish,
): Planted | null {
  const [fromRoom, toRoom] = [wish.from[0].room.id, wish.to[0].room.id];
  const panels = interior.panels.filter(
    (one) => one.rule === 'drill' && one.between.includes(fromRoom) && one.between.includes(toRoom),
  );
  if (fromRoom !== toRoom && panels.length === 0) return null;
  const solids: OracleSolid[] = stood.map(solidOf);
  const { fixtures, places } = ends(wish);
  const judged = { ...boat, fixtures, lines: { [wish.id]: lineOf(wish) } } as unknown as Boat;
  for (let tries = 0; tries < 60; tries++) {
    const drawn = draw(d, wish, fromRoom === toRoom ? [] : panels, fromRoom);
    if (!drawn) continue;
    const { prims, panel } = drawn;
    const holes = drawn.holes.map((hole) => ({
      ...hole,
      panelId: `planted ${panel ? interior.panels.indexOf(panel) : ''}`,
    }));
    const keep = keepOf(prims, wish.radius);
    if (!keep.points.every((p) => (wish.hull ?? hullRoom)(p) > wish.radius + 0.06)) continue;
    const near = keeps.some((one) =>
      one.points.some((p) => keep.points.some((q) => gap(p, q) < one.radius + wish.radius + 0.004)),
    );
    if (near) continue;
    const lengthM = prims.reduce((sum, one) => sum + primLength(one), 0);
    const run = {
      lineId: wish.id,
      status: 'routed',
      lengthM,
      lowerBoundM: 0,
      prims,
      holes,
      minClearanceM: null,
    } as const;
    const violations = checkRuns(
      judged,
      { arrangement: null, runs: [run] },
      { interior: { ...interior, solids, places } },
    );
    if (violations.length === 0) return { prims, lengthM, holes };
  }
  return null;
}

type Holes = { at: P3; diameterM: number; existing: boolean }[];

function draw(
  d: Dice,
  wish: Wish,
  panels: Interior['panels'],
  fromRoom: string,
): { prims: OraclePrim[]; holes: Holes; panel: Interior['panels'][number] | null } | null {
  const [a, b] = [wish.from[1], wish.to[1]];
  const free = (): number => d.from(wish.bend * 0.4, wish.bend * 1.6 + 0.1);
  const points: P3[] = [a.at, plus(a.at, times(a.direction, wish.radius + 0.07 + free()))];
  const holes: Holes = [];
  const panel = panels.length > 0 ? d.pick(panels) : null;
  if (panel) {
    const at = somewhere(d, panel, wish.radius + 0.03, wish.hull);
    if (!at) return null;
    const n = times(panel.frame.n, panel.between[0] === fromRoom ? 1 : -1);
    points.push(plus(at, times(n, -(wish.radius + 0.02 + free()))), plus(at, times(n, wish.radius + 0.02 + free())));
    holes.push({ at, diameterM: wish.radius * 2 + 0.002, existing: false });
  }
  points.push(plus(b.at, times(b.direction, wish.radius + 0.07 + free())), b.at);
  try {
    return { prims: rounded(points, wish.bend), holes, panel };
  } catch {
    return null;
  }
}

function ends(wish: Wish) {
  const spot = ([one, port]: Wish['from'], straightM = 0) => ({
    soft: false,
    sweeps: {},
    shape: { type: 'box', sizeM: times(one.half, 2) },
    ports: { p: { at: port.local, direction: port.localDirection, straightM } },
  });
  const pose = ([one]: Wish['from']) => ({ at: one.at, yawDeg: one.yawDeg, pitchDeg: 0, rollDeg: 0 });
  return {
    fixtures: {
      [wish.from[0].id]: spot(wish.from, wish.straightM?.[0]),
      [wish.to[0].id]: spot(wish.to, wish.straightM?.[1]),
    },
    places: new Map([
      [wish.from[0].id, pose(wish.from)],
      [wish.to[0].id, pose(wish.to)],
    ]),
  };
}

const lineOf = (wish: Wish) => ({
  name: wish.id,
  kind: wish.kind,
  from: { thing: wish.from[0].id, port: 'p' },
  to: { thing: wish.to[0].id, port: 'p' },
  ends: wish.ends ?? {},
});
