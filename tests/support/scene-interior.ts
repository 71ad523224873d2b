import type { boatSchema } from '@core/boat/schema/boat';
import type { z } from 'zod';
import { type Dice, micro, micro3 } from './dice';
import {
  inPolygon,
  lifted,
  minus,
  normalised,
  onto,
  outer,
  type P2,
  type P3,
  plus,
  times,
  turned,
} from './geometry-oracle';
import { type OraclePanel, type OraclePrism, panelsFrom, prismFrom } from './interior-oracle';
import { BOTH_SIDES, flaredCentre, flaredSide, steppedCentre, steppedSide } from './room-outlines';

export type BoatDraft = z.input<typeof boatSchema>;
export type Draft<K extends keyof BoatDraft> = NonNullable<BoatDraft[K]>;

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

/** A round-bilged boat: flat floors and a quick turn into upright sides. */
const BILGED: readonly P2[] = [
  [0.04, -1.1],
  [0.34, -0.98],
  [0.66, -0.8],
  [0.84, -0.52],
  [0.93, -0.15],
  [0.98, 0.3],
  [1, 0.75],
  [1.01, 1.15],
];

/** Rough room from a point to the skin, positive inside: only to put things where they may stand. */
export type HullRoom = (p: P3) => number;

export interface HullForm {
  readonly draft: NonNullable<BoatDraft['hull']>;
  readonly room: HullRoom;
}
/** What stands off the shell stays within the 60 mm that everything keeps from the rough skin. */
export const hullForm = (kind: 'wineglass' | 'bilged', inside: 'lined' | 'ribbed'): HullForm => {
  const shares = kind === 'wineglass' ? WINEGLASS : BILGED;
  return {
    draft: {
      ...hullDraft(shares),
      ...(inside === 'ribbed' ? { liningM: 0, ribs: { spacingM: 0.4, depthM: 0.025 } } : {}),
    },
    room: (p) => hullRoom(p, shares),
  };
};

export function hullDraft(shares: readonly P2[] = WINEGLASS): NonNullable<BoatDraft['hull']> {
  const stations: NonNullable<BoatDraft['hull']>['stations'] = {};
  for (let i = 0; i <= 8; i++) {
    const x = (LENGTH * i) / 8;
    stations[`s${i}`] = {
      xM: micro(x),
      points: shares.map(([b, z]) => [micro(b * halfBreadth(x)), micro(z + (z < 0 ? lift(x) : 0) * 0.9)]),
    };
  }
  return { stations, shellM: 0.014, liningM: 0.01 };
}

export function hullRoom(p: P3, shares: readonly P2[] = WINEGLASS): number {
  const z = p[2] < 0 ? p[2] - lift(p[0]) * 0.9 : p[2];
  const b = halfBreadth(p[0]);
  if (z < (shares[0] as P2)[1] || p[0] < 0.3 || p[0] > LENGTH - 0.3) return -1;
  for (let i = 0; i + 1 < shares.length; i++) {
    const [[b0, z0], [b1, z1]] = [shares[i] as P2, shares[i + 1] as P2];
    if (z > z1) continue;
    const share = b0 + ((b1 - b0) * (z - z0)) / (z1 - z0);
    const slope = Math.atan2(z1 - z0, (b1 - b0) * b + 1e-9);
    return (share * b - Math.abs(p[1])) * Math.sin(slope);
  }
  return -1;
}

export type Room = Draft<'compartments'>[string];

/** Bays along the boat, each cut into lockers drawn in plan, profile or section; some outlines are concave. */
export function interior(d: Dice): Record<string, Room> {
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
      put(`c${i}`, 'section', flaredCentre(ya, yb, sole, top), [x0, x1]);
      for (const [side, s] of BOTH_SIDES)
        put(`${side}${i}`, 'section', flaredSide(s, ya, yb, g, sole, top, d.from(0, 0.15)), [x0, x1]);
    } else if (style === 'plan') {
      const xm = (x0 + x1) / 2;
      put(`c${i}`, 'plan', steppedCentre([x0, xm, x1], ya, yb), [sole, top]);
      for (const [side, s] of BOTH_SIDES)
        put(`${side}${i}`, 'plan', steppedSide(s, [x0, xm, x1], ya, yb, g), [sole, top]);
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
        [-ya, ya],
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
export function yawed(rooms: Record<string, Room>, yawDeg: number): Record<string, Room> {
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

/** Rules and holes for every panel that the rooms make. */
export function panelsDraft(d: Dice, rooms: Record<string, Room>): Draft<'panels'> {
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
export const prismsOf = (rooms: Record<string, Room>): OraclePrism[] =>
  Object.entries(rooms).map(([id, room]) => prismFrom(id, { yawDeg: 0, ...room } as Parameters<typeof prismFrom>[1]));

export function somewhere(d: Dice, panel: OraclePanel, margin: number, hull: HullRoom = hullRoom): P3 | null {
  for (const region of panel.regions) {
    const points = region.boundary.flat();
    const [u0, u1] = [Math.min(...points.map((p) => p[0])), Math.max(...points.map((p) => p[0]))];
    const [v0, v1] = [Math.min(...points.map((p) => p[1])), Math.max(...points.map((p) => p[1]))];
    for (let tries = 0; tries < 40; tries++) {
      const q: P2 = [d.from(u0, u1), d.from(v0, v1)];
      const p = lifted(region.frame, q);
      if (
        hull(p) > margin + 0.03 &&
        ring(p, region.frame.n, margin).every((r) => region.all.every((poly) => inPolygon(onto(region.frame, r), poly)))
      )
        return p;
    }
  }
  return null;
}
/** Eight points round an axis. */
export const ring = (p: P3, axis: P3, r: number): P3[] => {
  const u = normalised(outer(axis, Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const v = outer(axis, u);
  return Array.from({ length: 8 }, (_, k) =>
    plus(p, plus(times(u, r * Math.cos((k * Math.PI) / 4)), times(v, r * Math.sin((k * Math.PI) / 4)))),
  );
};
