import { byId } from '../../base/order';
import { add, along, dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';
import type { Layout, Panel } from '../layout/types';
import { type Convex, convexOf, roomPlate, wallBody } from './convex';
import { nearestPoints } from './convex-distance';
import type { Blocker } from './free-depth';
import { boundsOf, type PlateSolid, SolidPack } from './kernel';
import { LookUp } from './look-up';
import type { Layer, Solid } from './solids';

/** What moves: a hose, an arm, a part, an eye, a drop. They differ in this alone. */
export interface Mover {
  readonly radiusM: number;
  /** Layers of solids that stop it. Walls and the hull always do. */
  readonly stoppedBy: ReadonlySet<Layer>;
  /** Owners of solids that do not stop it: the thing that it belongs to. */
  readonly ignores?: ReadonlySet<string>;
  /** What passing a panel costs, in metres of way; null where it does not pass. */
  passage(panel: Panel): number | null;
}

export interface Clearance {
  /** Free distance between the surface of the shape, grown by the mover's radius, and the nearest thing; negative: how deep. */
  readonly freeM: number;
  /** Null beyond the cut-off. */
  readonly blocker: Blocker | null;
}

/** One thing that may stop a mover. */
export interface Obstacle {
  readonly name: Omit<Blocker, 'at'>;
  readonly layer: Layer | 'wall';
  readonly panel: Panel | null;
  readonly body: Convex;
}

/** What the queries share: obstacles with their look-up. */
export interface Scene {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly obstacles: readonly Obstacle[];
  /** Obstacles that stop the mover and whose bounds meet the box, in order of their ids. */
  near(low: Vec3, high: Vec3, mover: Mover): number[];
  /** Free distance of a segment, grown by the mover's radius, up to the cut-off. */
  segment(from: Vec3, to: Vec3, mover: Mover, cutoffM: number): Clearance;
}

export function sceneOf(layout: Layout, hull: HullSurface | null, solids: readonly Solid[]): Scene {
  const ordered = [...solids].sort(byId);
  const fromSolids = ordered.map((solid): Obstacle & { readonly shape: Solid } => ({
    name: { id: solid.id, owner: solid.owner, label: solid.label, layer: solid.layer },
    layer: solid.layer,
    panel: null,
    body: convexOf(solid),
    shape: solid,
  }));
  const fromWalls = layout.walls.map((wall): Obstacle & { readonly shape: PlateSolid } => {
    const panel = wall.panelId === undefined ? undefined : layout.panels[wall.panelId];
    const owner = wall.panelId ?? wall.id.split('/', 1)[0] ?? wall.id;
    return {
      name: { id: wall.id, owner, label: wall.label, layer: 'wall' },
      layer: 'wall',
      panel: panel ?? null,
      body: wallBody(wall, layout.panels),
      shape: { type: 'plate', id: wall.id, label: wall.label, normal: wall.normal, ...roomPlate(wall, layout.panels) },
    };
  });
  const obstacles = [...fromSolids, ...fromWalls];
  const pack = new SolidPack(obstacles.map((o) => o.shape));
  const lookUp = new LookUp(
    obstacles.map((o) => {
      const [x0, y0, z0, x1, y1, z1] = boundsOf(o.shape);
      return [
        [x0, y0, z0],
        [x1, y1, z1],
      ] as const;
    }),
  );
  const stops = (o: Obstacle, mover: Mover): boolean => {
    if (o.layer === 'wall') return o.panel === null || mover.passage(o.panel) === null;
    return mover.stoppedBy.has(o.layer) && !mover.ignores?.has(o.name.owner);
  };
  const near = (low: Vec3, high: Vec3, mover: Mover): number[] =>
    lookUp.within(low, high).filter((i) => stops(obstacles[i] as Obstacle, mover));

  return {
    layout,
    hull,
    obstacles,
    near,
    segment(from, to, mover, cutoffM) {
      let least = cutoffM + mover.radiusM;
      let found: number | 'hull' | null = null;
      const pad = (sign: 1 | -1): Vec3 => {
        const pick = sign === 1 ? Math.max : Math.min;
        const reach = sign * least;
        return [pick(from[0], to[0]) + reach, pick(from[1], to[1]) + reach, pick(from[2], to[2]) + reach];
      };
      for (const i of near(pad(-1), pad(1), mover)) {
        const d = pack.distance(i, from[0], from[1], from[2], to[0], to[1], to[2], least);
        if (d < least) {
          least = d;
          found = i;
        }
      }
      if (hull) {
        const d = hull.clearance(from, to, least);
        if (d < least) {
          least = d;
          found = 'hull';
        }
      }
      if (found === null) return { freeM: cutoffM, blocker: null };
      if (found === 'hull')
        return { freeM: least - mover.radiusM, blocker: { ...HULL, at: nearestToHull(hull as HullSurface, from, to) } };
      const obstacle = obstacles[found] as Obstacle;
      const { onFirst } = nearestPoints(segmentBody(from, to), obstacle.body);
      return { freeM: least - mover.radiusM, blocker: { ...obstacle.name, at: onFirst } };
    },
  };
}

export const HULL: Omit<Blocker, 'at'> = { id: 'hull', owner: 'hull', label: 'hull', layer: 'hull' };

/** A segment as a convex body without thickness. */
const segmentBody = (from: Vec3, to: Vec3): Convex => ({
  support: (d) => (dot(d, to) > dot(d, from) ? to : from),
  centre: scale(add(from, to), 0.5),
  low: from,
  high: to,
  normals: [],
  edges: [],
  isPolytope: true,
  faces: () => [],
});

export function nearestToHull(hull: HullSurface, from: Vec3, to: Vec3): Vec3 {
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= 16; k++) {
    const p = along(from, subtract(to, from), k / 16);
    const d = hull.clearance(p, p, 1);
    if (d < least - 1e-9) {
      least = d;
      best = p;
    }
  }
  return best;
}
