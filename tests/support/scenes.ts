import type { boatSchema } from '@core/boat/schema/boat';
import type { z } from 'zod';
import { checkRuns } from './check-run';
import {
  gap,
  lifted,
  minus,
  normalised,
  type OracleSolid,
  onto,
  outer,
  type P2,
  type P3,
  plus,
  size,
  times,
  turned,
} from './geometry-oracle';
import { type OraclePanel, type OraclePrism, panelsFrom, prismFrom } from './interior-oracle';
import { rounded } from './plant-oracle';
import { type OraclePrim, primLength } from './trace-oracle';

export type BoatDraft = z.input<typeof boatSchema>;
type Draft<K extends keyof BoatDraft> = NonNullable<BoatDraft[K]>;

export interface Scene {
  readonly seed: number;
  readonly boat: BoatDraft;
  /** Runs that are there by construction: what a perfect router would at least find. */
  readonly planted: Readonly<Record<string, { readonly prims: readonly OraclePrim[]; readonly lengthM: number }>>;
}

/** A small generator of its own, so that a seed gives the same scene everywhere. */
export function dice(seed: number): {
  next: () => number;
  from: (a: number, b: number) => number;
  whole: (n: number) => number;
  pick: <T>(all: readonly T[]) => T;
} {
  let state = (seed * 2654435761) >>> 0 || 1;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const whole = (n: number): number => Math.min(n - 1, Math.floor(next() * n));
  return {
    next,
    whole,
    from: (a, b) => a + (b - a) * next(),
    pick: (all) => all[whole(all.length)] as (typeof all)[number],
  };
}
type Dice = ReturnType<typeof dice>;
const micro = (v: number): number => Math.round(v * 1e6) / 1e6;
const micro3 = (p: P3): [number, number, number] => [micro(p[0]), micro(p[1]), micro(p[2])];

const LENGTH = 12;
/** A long keel with a hollow garboard: [share of the half-breadth, z]. */
const WINEGLASS: readonly P2[] = [
  [0.04, -1.25],
  [0.07, -0.95],
  [0.1, -0.7],
  [0.22, -0.52],
  [0.5, -0.36],
  [0.78, -0.12],
  [0.93, 0.25],
  [1, 0.7],
  [1.02, 1.15],
];
const halfBreadth = (x: number): number => 1.9 * Math.max(0.05, 1 - ((x - 5.4) / 7.2) ** 2) ** 0.8;
const lift = (x: number): number => 0.5 * Math.max(0, Math.abs(x - 5.4) / 6.6 - 0.35) ** 1.5;

function hullDraft(): NonNullable<BoatDraft['hull']> {
  const stations: NonNullable<BoatDraft['hull']>['stations'] = {};
  for (let i = 0; i <= 8; i++) {
    const x = (LENGTH * i) / 8;
    stations[`s${i}`] = {
      xM: micro(x),
      points: WINEGLASS.map(([b, z]) => [micro(b * halfBreadth(x)), micro(z + (z < 0 ? lift(x) : 0) * 0.9)]),
    };
  }
  return { stations, shellM: 0.014, liningM: 0.01 };
}

/** Rough room to the skin, positive inside: only to put things where they may stand. */
function hullRoom(p: P3): number {
  const z = p[2] < 0 ? p[2] - lift(p[0]) * 0.9 : p[2];
  const b = halfBreadth(p[0]);
  if (z < (WINEGLASS[0] as P2)[1] || p[0] < 0.3 || p[0] > LENGTH - 0.3) return -1;
  for (let i = 0; i + 1 < WINEGLASS.length; i++) {
    const [[b0, z0], [b1, z1]] = [WINEGLASS[i] as P2, WINEGLASS[i + 1] as P2];
    if (z > z1) continue;
    const share = b0 + ((b1 - b0) * (z - z0)) / (z1 - z0);
    const slope = Math.atan2(z1 - z0, (b1 - b0) * b + 1e-9);
    return (share * b - Math.abs(p[1])) * Math.sin(slope);
  }
  return -1;
}

type Room = Draft<'compartments'>[string];

/** Bays along the boat, each cut into lockers drawn in plan, profile or section; some outlines are concave. */
function interior(d: Dice): Record<string, Room> {
  const rooms: Record<string, Room> = {};
  const bays = 5 + d.whole(2);
  let x = 1.1;
  const put = (name: string, view: Room['view'], outline: P2[], rangeM: P2): void => {
    rooms[name] = {
      name,
      view,
      outline: outline.map(([a, b]) => [micro(a), micro(b)]),
      rangeM: [micro(rangeM[0]), micro(rangeM[1])],
    };
  };
  for (let i = 0; i < bays; i++) {
    const long = d.from(1.2, 1.9);
    const [x0, x1] = [x, x + long];
    const g = d.pick([0, 0.006, 0.012, 0.02, 0.03]);
    const sole = d.from(-0.02, 0.08);
    const top = d.from(0.85, 1.0);
    const style = d.pick(['section', 'section', 'plan', 'profile'] as const);
    const ya = d.from(0.38, 0.6);
    const yb = ya + d.from(-0.12, 0.18);
    // Over the bilge: a centre and two sides, its walls sloped, stepped in plan, or straight.
    if (style === 'section') {
      put(
        `c${i}`,
        'section',
        [
          [-ya, sole],
          [ya, sole],
          [yb, top],
          [-yb, top],
        ],
        [x0, x1],
      );
      for (const [name, s] of [
        [`p${i}`, 1],
        [`s${i}`, -1],
      ] as const)
        put(
          name,
          'section',
          [
            [s * (ya + g), sole],
            [s * 2, sole + d.from(0, 0.15)],
            [s * 2, top],
            [s * (yb + g), top],
          ],
          [x0, x1],
        );
    } else if (style === 'plan') {
      const xm = (x0 + x1) / 2;
      put(
        `c${i}`,
        'plan',
        [
          [x0, -ya],
          [xm, -ya],
          [xm, -yb],
          [x1, -yb],
          [x1, yb],
          [xm, yb],
          [xm, ya],
          [x0, ya],
        ],
        [sole, top],
      );
      const shift = yb > ya ? g : -g;
      for (const [name, s] of [
        [`p${i}`, 1],
        [`s${i}`, -1],
      ] as const)
        put(
          name,
          'plan',
          [
            [x0, s * (ya + g)],
            [xm - shift, s * (ya + g)],
            [xm - shift, s * (yb + g)],
            [x1, s * (yb + g)],
            [x1, s * 2],
            [x0, s * 2],
          ],
          [sole, top],
        );
    } else {
      const xm = x0 + long * d.from(0.4, 0.6);
      const step = d.from(0.08, 0.18);
      put(
        `c${i}`,
        'profile',
        [
          [x0, sole],
          [xm, sole],
          [xm, sole + step],
          [x1, sole + step],
          [x1, top],
          [x0, top],
        ],
        [-ya, ya],
      );
      for (const [name, s] of [
        [`p${i}`, 1],
        [`s${i}`, -1],
      ] as const)
        put(
          name,
          'profile',
          [
            [x0, sole],
            [x1, sole],
            [x1, top],
            [x0, top],
          ],
          s > 0 ? [ya + g, 2] : [-2, -ya - g],
        );
      put(
        `b${i}`,
        'profile',
        [
          [x0, -0.75],
          [x1, -0.75],
          [x1, sole + step - g],
          [xm + g, sole + step - g],
          [xm + g, sole - g],
          [x0, sole - g],
        ],
        [-0.5, 0.5],
      );
    }
    if (style !== 'profile')
      put(
        `b${i}`,
        'section',
        [
          [-0.6, sole - g],
          [-0.35, -0.5],
          [-0.3, -0.9],
          [0.3, -0.9],
          [0.35, -0.5],
          [0.6, sole - g],
        ],
        [x0, x1],
      );
    x = x1 + d.pick([0, 0.012, 0.018, 0.03]);
  }
  return d.next() < 0.3 ? yawed(rooms, d.from(-5, 5)) : rooms;
}

/** The whole interior turned about one vertical: each prism turns about its own centre, so that centre is carried round. */
function yawed(rooms: Record<string, Room>, yawDeg: number): Record<string, Room> {
  const deg = micro(yawDeg);
  return Object.fromEntries(
    Object.entries(rooms).map(([id, room]) => {
      const { low, high } = prismFrom(id, { ...room, yawDeg: 0, kind: 'locker', grade: 'taped' } as Parameters<
        typeof prismFrom
      >[1]);
      const c: P3 = [(low[0] + high[0]) / 2 - 6, (low[1] + high[1]) / 2, 0];
      const [dx, dy] = minus(turned(c, deg, 0, 0), c);
      const moved = ([a, b]: readonly [number, number]): [number, number] =>
        room.view === 'plan'
          ? [micro(a + dx), micro(b + dy)]
          : room.view === 'profile'
            ? [micro(a + dx), b]
            : [micro(a + dy), b];
      const shift = room.view === 'plan' ? 0 : room.view === 'profile' ? dy : dx;
      return [
        id,
        {
          ...room,
          yawDeg: deg,
          outline: room.outline.map(moved),
          rangeM: [micro(room.rangeM[0] + shift), micro(room.rangeM[1] + shift)],
        },
      ];
    }),
  );
}

const KINDS = [
  // [outside mm, least radius of the centre line mm]
  [12, 25],
  [16, 40],
  [12, 50],
  [18, 60],
  [20, 75],
  [26, 90],
  [24, 100],
] as const;
const STIFF = [
  [18, 130],
  [19, 140],
  [26, 150],
  [34, 170],
  [38, 200],
] as const;

function kindsDraft(): Draft<'lineKinds'> {
  const kinds: Draft<'lineKinds'> = {};
  for (const [out, r] of [...KINDS, ...STIFF])
    kinds[`k${out}-${r}`] = {
      name: `hose ${out} R ${r}`,
      what: 'hose',
      outsideM: out / 1000,
      bendRadiusM: r / 1000 - (r % 50 === 0 ? 0 : out / 2000),
      radiusTo: r % 50 === 0 ? 'centreline' : 'inside',
      ...(r >= 130 ? { end: { rigidM: 0.06, diameterM: out / 1000 + 0.006 } } : {}),
    };
  return kinds;
}

interface Stood {
  readonly id: string;
  readonly room: OraclePrism;
  readonly at: P3;
  readonly half: P3;
  readonly yawDeg: number;
  readonly reach: number;
  ports: { id: string; at: P3; direction: P3; local: P3; localDirection: P3 }[];
}

const corners = (at: P3, half: P3, yawDeg: number): P3[] =>
  [-1, 0, 1].flatMap((i) =>
    [-1, 0, 1].flatMap((j) =>
      [-1, 1].map((k) => plus(at, turned([i * half[0], j * half[1], k * half[2]], yawDeg, 0, 0))),
    ),
  );

/** A box somewhere in a room, clear of its walls, of the hull and of what stands there. */
function stand(
  d: Dice,
  id: string,
  room: OraclePrism,
  half: P3,
  stood: readonly Stood[],
  keepClear: readonly Keep[],
): Stood | null {
  for (let tries = 0; tries < 60; tries++) {
    const yawDeg = d.next() < 0.35 ? micro(d.from(-45, 45)) : 0;
    const at = micro3([
      d.from(room.low[0], room.high[0]),
      d.from(room.low[1], room.high[1]),
      d.from(room.low[2], room.high[2]),
    ]);
    const reach = size(half);
    const grown: P3 = [half[0] + 0.03, half[1] + 0.03, half[2] + 0.02];
    if (!corners(at, grown, yawDeg).every((p) => room.contains(p) && hullRoom(p) > 0.06)) continue;
    if (stood.some((one) => gap(one.at, at) < one.reach + reach + 0.01 && overlap(one, { at, half: grown, yawDeg })))
      continue;
    const local = (p: P3): P3 => turned(minus(p, at), -yawDeg, 0, 0);
    if (keepClear.some((keep) => keep.points.some((p) => outside(local(p), half) < keep.radius))) continue;
    return { id, room, at, half, yawDeg, reach, ports: [] };
  }
  return null;
}
interface Keep {
  readonly points: readonly P3[];
  readonly radius: number;
}
const outside = (p: P3, half: P3): number =>
  Math.hypot(
    Math.max(0, Math.abs(p[0]) - half[0]),
    Math.max(0, Math.abs(p[1]) - half[1]),
    Math.max(0, Math.abs(p[2]) - half[2]),
  );

/** Separating directions of two upright boxes: their own sides and the vertical. */
function overlap(a: { at: P3; half: P3; yawDeg: number }, b: { at: P3; half: P3; yawDeg: number }): boolean {
  const axes = [a, b]
    .flatMap((one) => [turned([1, 0, 0], one.yawDeg, 0, 0), turned([0, 1, 0], one.yawDeg, 0, 0)])
    .concat([[0, 0, 1]]);
  const span = (one: { at: P3; half: P3; yawDeg: number }, axis: P3): P2 => {
    const along = corners(one.at, one.half, one.yawDeg).map((p) => p[0] * axis[0] + p[1] * axis[1] + p[2] * axis[2]);
    return [Math.min(...along), Math.max(...along)];
  };
  return axes.every((axis) => {
    const [[a0, a1], [b0, b1]] = [span(a, axis), span(b, axis)];
    return a1 > b0 && b1 > a0;
  });
}

/** A port on a side of a thing with straight room before it. */
function openPort(
  d: Dice,
  thing: Stood,
  radius: number,
  room: number,
  solids: readonly OracleSolid[],
  keeps: readonly Keep[],
): { port: Stood['ports'][number]; keep: Keep } | null {
  for (let tries = 0; tries < 40; tries++) {
    const axis = d.whole(3);
    const sign = d.next() < 0.5 ? -1 : 1;
    const localDirection: [number, number, number] = [0, 0, 0];
    localDirection[axis] = sign;
    const local = micro3(
      [0, 1, 2].map((k) =>
        k === axis ? sign * (thing.half[k] as number) : d.from(-0.7, 0.7) * (thing.half[k] as number),
      ) as unknown as P3,
    );
    const direction = turned(localDirection, thing.yawDeg, 0, 0);
    const at = plus(thing.at, turned(local, thing.yawDeg, 0, 0));
    if (thing.ports.some((one) => gap(one.at, at) < 0.07)) continue;
    const points = Array.from({ length: 12 }, (_, k) => plus(at, times(direction, ((k + 1) * room) / 12)));
    const need = radius + 0.012;
    const ok = points.every(
      (p) =>
        hullRoom(p) > need + 0.05 &&
        ring(p, direction, need).every((q) => thing.room.contains(q)) &&
        solids.every((solid) => solid.owner === thing.id || solid.distance(p) > need) &&
        keeps.every((keep) => keep.points.every((q) => gap(p, q) > need + keep.radius)),
    );
    if (!ok) continue;
    const id = `n${thing.ports.length}`;
    return { port: { id, at, direction, local, localDirection }, keep: { points: [at, ...points], radius: need } };
  }
  return null;
}
const ring = (p: P3, axis: P3, r: number): P3[] => {
  const u = normalised(outer(axis, Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const v = outer(axis, u);
  return Array.from({ length: 8 }, (_, k) =>
    plus(p, plus(times(u, r * Math.cos((k * Math.PI) / 4)), times(v, r * Math.sin((k * Math.PI) / 4)))),
  );
};
const solidOf = (one: Stood): OracleSolid => ({
  owner: one.id,
  label: one.id,
  low: minus(one.at, [one.reach, one.reach, one.reach]),
  high: plus(one.at, [one.reach, one.reach, one.reach]),
  distance: (p) => outside(turned(minus(p, one.at), -one.yawDeg, 0, 0), one.half),
});

/** Rules and holes for every panel that the rooms make. */
function panelsDraft(d: Dice, rooms: Record<string, Room>): Draft<'panels'> {
  const panels: Draft<'panels'> = {};
  const bare = { compartments: rooms, panels: {} } as unknown as Parameters<typeof panelsFrom>[0];
  panelsFrom(bare, prismsOf(rooms), {}).forEach((panel, k) => {
    const inside = somewhere(d, panel, 0.05);
    if (!inside) return;
    const rule = d.next() < 0.25 ? 'noDrill' : d.next() < 0.2 ? 'open' : 'drill';
    const holes: Record<string, { at: [number, number, number]; diameterM: number; carries: Record<string, never> }> =
      {};
    if (rule !== 'open' && d.next() < 0.5)
      holes.loom = { at: micro3(inside), diameterM: d.pick([0.025, 0.03, 0.04, 0.05]), carries: {} };
    panels[`q${k}`] = {
      between: [panel.between[0], panel.between[1]],
      near: micro3(inside),
      rule,
      holes,
      newHoleCostM: micro(d.from(0.1, 0.6)),
    };
  });
  return panels;
}
const prismsOf = (rooms: Record<string, Room>): OraclePrism[] =>
  Object.entries(rooms).map(([id, room]) => prismFrom(id, { yawDeg: 0, ...room } as Parameters<typeof prismFrom>[1]));

function somewhere(d: Dice, panel: OraclePanel, margin: number): P3 | null {
  for (const region of panel.regions) {
    const points = region.boundary.flat();
    const [u0, u1] = [Math.min(...points.map((p) => p[0])), Math.max(...points.map((p) => p[0]))];
    const [v0, v1] = [Math.min(...points.map((p) => p[1])), Math.max(...points.map((p) => p[1]))];
    for (let tries = 0; tries < 40; tries++) {
      const q: P2 = [d.from(u0, u1), d.from(v0, v1)];
      const p = lifted(region.frame, q);
      if (
        hullRoom(p) > margin + 0.03 &&
        ring(p, region.frame.n, margin).every((r) => region.all.every((poly) => insideOf(poly, onto(region.frame, r))))
      )
        return p;
    }
  }
  return null;
}
const insideOf = (polygon: readonly P2[], p: P2): boolean =>
  polygon.reduce((inside, [xi, yi], i) => {
    const [xj, yj] = polygon[(i + polygon.length - 1) % polygon.length] as P2;
    return yi > p[1] !== yj > p[1] && p[0] < xi + ((p[1] - yi) / (yj - yi)) * (xj - xi) ? !inside : inside;
  }, false);

/**
 * A whole boat from a seed: hull with hollow sections, bays of lockers, panels of which a quarter must not be drilled,
 * equipment with ports that have room, 14 to 25 lines, and about three obstacles a cubic metre.
 * `planted`: runs are drawn first and the obstacles are put round them.
 */
export function scene(
  seed: number,
  options: { readonly planted?: boolean; readonly obstaclesPerM3?: number } = {},
): Scene {
  const d = dice(seed);
  const rooms = interior(d);
  const prisms = prismsOf(rooms).filter((room) => roomy(room));
  const panels = panelsDraft(d, rooms);
  const stood: Stood[] = [];
  const keeps: Keep[] = [];
  for (let k = 0; k < 26; k++) {
    const half: P3 =
      k === 0 ? [0.16, 0.14, 0.12] : [micro(d.from(0.04, 0.13)), micro(d.from(0.04, 0.11)), micro(d.from(0.04, 0.13))];
    const one = stand(d, `t${k}`, d.pick(prisms), half, stood, []);
    if (one) stood.push(one);
  }
  const lineKinds = kindsDraft();
  const lines: Draft<'lines'> = {};
  const planted: Record<string, { prims: OraclePrim[]; lengthM: number }> = {};
  const bare = {
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'x',
    compartments: rooms,
    panels,
    lineKinds,
  } as const;
  const wanted = 14 + d.whole(12);
  for (let n = 0, tries = 0; n < wanted && tries < 200; tries++) {
    const [out, r] = d.next() < 0.3 ? d.pick(STIFF) : d.pick(KINDS);
    const hub = n < 5 && stood[0] ? stood[0] : d.pick(stood);
    const near = stood.filter((one) => one !== hub && gap(one.at, hub.at) < 4);
    if (near.length === 0) continue;
    const other = d.pick(near);
    const room = Math.max(r >= 130 ? 0.06 : 0, out / 2000 + 0.006) + Math.min(0.12, r / 1000);
    const solids = stood.map(solidOf);
    const a = openPort(d, hub, out / 2000, room, solids, keeps);
    if (!a) continue;
    const b = openPort(d, other, out / 2000, room, solids, [...keeps, a.keep]);
    if (!b) continue;
    const id = `l${n}`;
    const keep = [a.keep, b.keep];
    if (options.planted) {
      const run = plant(
        d,
        { ...bare, solids, keeps },
        { id, kind: `k${out}-${r}`, radius: out / 2000, bend: r / 1000, from: [hub, a.port], to: [other, b.port] },
      );
      if (!run) continue;
      planted[id] = run;
      keep.push(keepOf(run.prims, out / 2000 + 0.004));
    }
    hub.ports.push({ ...a.port, id: `n${hub.ports.length}` });
    other.ports.push({ ...b.port, id: `n${other.ports.length}` });
    keeps.push(...keep);
    lines[id] = {
      name: id,
      kind: `k${out}-${r}`,
      medium: d.next() < 0.2 ? 'seaWater' : 'product',
      from: { thing: hub.id, port: `n${hub.ports.length - 1}` },
      to: { thing: other.id, port: `n${other.ports.length - 1}` },
    };
    n += 1;
  }
  const per = options.obstaclesPerM3 ?? 3;
  for (const room of prisms) {
    const volume = (room.high[0] - room.low[0]) * (room.high[1] - room.low[1]) * (room.high[2] - room.low[2]) * 0.6;
    const count = Math.round(volume * per * d.from(0.6, 1.4));
    for (let k = 0; k < count; k++) {
      const half: P3 = [micro(d.from(0.03, 0.2)), micro(d.from(0.03, 0.16)), micro(d.from(0.03, 0.16))];
      const one = stand(d, `x${room.id}-${k}`, room, half, stood, keeps);
      if (one) stood.push(one);
    }
  }
  const fixtures: Draft<'fixtures'> = {};
  for (const one of stood)
    fixtures[one.id] = {
      name: one.id,
      kind: 'other',
      shape: { type: 'box', sizeM: micro3(times(one.half, 2)) },
      pose: { at: micro3(one.at), yawDeg: one.yawDeg },
      ports: Object.fromEntries(
        one.ports.map((p) => [p.id, { at: micro3(p.local), direction: micro3(p.localDirection) }]),
      ),
    };
  return {
    seed,
    planted,
    boat: {
      format: 'underberth-boat',
      schemaVersion: 1,
      name: `Scene ${seed}`,
      hull: hullDraft(),
      compartments: rooms,
      panels,
      fixtures,
      lineKinds,
      lines,
    },
  };
}

/** A room in which anything at all can stand. */
const roomy = (room: OraclePrism): boolean => {
  const c = times(plus(room.low, room.high), 0.5);
  return hullRoom([c[0], c[1] * 0.7, c[2]]) > 0.1;
};

const keepOf = (prims: readonly OraclePrim[], radius: number): Keep => ({
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

interface Wish {
  readonly id: string;
  readonly kind: string;
  readonly radius: number;
  readonly bend: number;
  readonly from: readonly [Stood, Stood['ports'][number]];
  readonly to: readonly [Stood, Stood['ports'][number]];
}

/** Draws random rounded polygons, through at most one new hole, until the judge lets one through. */
function plant(
  d: Dice,
  bare: Omit<BoatDraft, 'hull'> & { readonly solids: readonly OracleSolid[]; readonly keeps: readonly Keep[] },
  wish: Wish,
): { prims: OraclePrim[]; lengthM: number } | null {
  const [fromRoom, toRoom] = [wish.from[0].room.id, wish.to[0].room.id];
  const boat = { ...bare, arrangements: {}, lines: {}, fixtures: {} } as unknown as Parameters<typeof checkRuns>[0];
  const panels =
    fromRoom === toRoom
      ? []
      : panelsFrom(boat, prismsOf((bare.compartments ?? {}) as Record<string, Room>), {}).filter(
          (p) => p.between.includes(fromRoom) && p.between.includes(toRoom) && p.rule === 'drill',
        );
  if (fromRoom !== toRoom && panels.length === 0) return null;
  for (let tries = 0; tries < 25; tries++) {
    const [a, b] = [wish.from[1], wish.to[1]];
    const free = (): number => d.from(wish.bend * 0.6, wish.bend * 2 + 0.2);
    const points: P3[] = [a.at, plus(a.at, times(a.direction, wish.radius + 0.07 + free()))];
    const holes: { panelId: string; at: P3; diameterM: number; existing: boolean }[] = [];
    if (panels.length > 0) {
      const panel = d.pick(panels);
      const at = somewhere(d, panel, wish.radius + 0.03);
      if (!at) continue;
      const n = times(panel.frame.n, panel.between[0] === fromRoom ? 1 : -1);
      const stub = wish.radius + 0.02 + free();
      points.push(plus(at, times(n, -stub)), plus(at, times(n, stub)));
      holes.push({ panelId: 'planted', at, diameterM: wish.radius * 2, existing: false });
    }
    points.push(plus(b.at, times(b.direction, wish.radius + 0.07 + free())), b.at);
    let prims: OraclePrim[];
    try {
      prims = rounded(points, wish.bend);
    } catch {
      continue;
    }
    const keep = keepOf(prims, wish.radius);
    if (!keep.points.every((p) => hullRoom(p) > wish.radius + 0.06)) continue;
    if (
      bare.keeps.some((one) =>
        one.points.some((p) => keep.points.some((q) => gap(p, q) < one.radius + wish.radius + 0.004)),
      )
    )
      continue;
    const far = keep.points.filter((p) => gap(p, a.at) > wish.radius + 0.08 && gap(p, b.at) > wish.radius + 0.08);
    if (bare.solids.some((solid) => far.some((p) => solid.distance(p) < wish.radius + 0.004))) continue;
    const lengthM = prims.reduce((sum, one) => sum + primLength(one), 0);
    const line = {
      name: wish.id,
      kind: wish.kind,
      medium: 'product',
      from: { thing: 'a', port: 'p' },
      to: { thing: 'b', port: 'p' },
      ends: {},
      existing: false,
    };
    const spot = (one: Stood, p: Stood['ports'][number]) => ({
      name: 'x',
      kind: 'other',
      massKg: 0,
      services: {},
      sweeps: {},
      soft: false,
      shape: { type: 'box', sizeM: times(one.half, 2) },
      pose: { at: one.at, yawDeg: one.yawDeg, pitchDeg: 0, rollDeg: 0 },
      ports: { p: { at: p.local, direction: p.localDirection, straightM: 0, role: 'both' } },
    });
    const kinds = Object.fromEntries(
      Object.entries(bare.lineKinds ?? {}).map(([id, one]) => [id, { crimpedEnds: false, ...one }]),
    );
    const judged = {
      ...boat,
      lineKinds: kinds,
      lines: { [wish.id]: line },
      fixtures: { a: spot(wish.from[0], a), b: spot(wish.to[0], b) },
    } as unknown as Parameters<typeof checkRuns>[0];
    const violations = checkRuns(judged, {
      arrangement: null,
      runs: [{ lineId: wish.id, status: 'routed', lengthM, lowerBoundM: 0, prims, holes, minClearanceM: null }],
    });
    if (violations.length === 0) return { prims, lengthM };
  }
  return null;
}
