import { signedArea } from '@core/base/ring';
import type { Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { compartmentOutline } from '@core/output/views/compartments';
import { PLAN, PROFILE, type Primitive, project, stroke, type ViewFrame } from '@core/output/views/drawing';
import { planLines, profileLines, waterTrace } from '@core/output/views/hull-lines';
import { labelPlace, type Ring } from '@core/output/views/polygons';
import { floatAt, hydrostatics } from '@core/shape/hull/hydrostatics';
import type { HullSurface, WaterPlane } from '@core/shape/hull/types';
import type { Layout } from '@core/shape/layout/types';
import { PerView } from './per-view';
import type { Extent } from './sheet';

/** What the boat is made of, as the board draws it. Rebuilt only when its records are other ones: edits keep identity. */

export interface CompartmentDrawn {
  readonly id: string;
  readonly name: string;
  readonly rings: readonly Ring[];
  /** Middle of its name on paper, and the room there, metres. */
  readonly label: { readonly at: readonly [number, number]; readonly widthM: number; readonly heightM: number } | null;
  readonly areaM2: number;
  /** Drawn in full weight and named first: on the centreline in profile, above the sole in plan, all in a cut. */
  readonly primary: boolean;
}

const drawnCompartments = new PerView<Layout, readonly CompartmentDrawn[]>();
/** Compartments of plan or profile, larger ones first. */
export function compartmentsDrawn(
  boat: Boat,
  layout: Layout,
  hull: HullSurface | null,
  frame: ViewFrame,
): readonly CompartmentDrawn[] {
  const known = drawnCompartments.get(layout, frame.name);
  if (known) return known;
  const drawn = Object.entries(boat.compartments)
    .map(([id, { name, kind }]): CompartmentDrawn => {
      const rings = compartmentOutline(layout, id, frame, hull);
      const primary = frame.name === 'plan' ? kind !== 'bilge' : onCentreline(layout, id);
      const areaM2 = rings.reduce((sum, ring) => sum + Math.abs(signedArea(ring)), 0);
      return { id, name, rings, label: labelPlace(rings), areaM2, primary };
    })
    .sort((a, b) => b.areaM2 - a.areaM2 || (a.id < b.id ? -1 : 1));
  return drawnCompartments.set(layout, frame.name, drawn);
}

const onCentreline = (layout: Layout, id: string): boolean =>
  (layout.cellsOf[id] ?? []).some((index) => {
    const cell = layout.cells[index];
    return cell !== undefined && cell.low[1] < 0 && cell.high[1] > 0;
  });

export interface HullDrawn {
  readonly profile: readonly Primitive[];
  readonly plan: readonly Primitive[];
}
const drawnHulls = new WeakMap<HullSurface, HullDrawn>();
export function hullDrawn(hull: HullSurface): HullDrawn {
  const known = drawnHulls.get(hull);
  if (known) return known;
  const drawn = { profile: profileLines(hull), plan: planLines(hull) };
  drawnHulls.set(hull, drawn);
  return drawn;
}

/** Water of the boat heeled by some degrees, + to starboard, at the displacement that it has upright. */
export function heeledWater(hull: HullSurface, upright: WaterPlane, heelDeg: number): WaterPlane | null {
  if (heelDeg === 0) return null;
  const { volumeM3 } = hydrostatics(hull, upright);
  const c = Math.cos((heelDeg * Math.PI) / 180);
  const s = Math.sin((heelDeg * Math.PI) / 180);
  const [x, y, z] = upright.up;
  // Starboard goes down: the vertical leans to port in the boat.
  const up: Vec3 = [x, y * c + z * s, z * c - y * s];
  const levelM = floatAt(hull, { volumeM3, up });
  return levelM === null ? null : { up, levelM };
}

/** Traces of level and heeled water on the skin, in plan and profile. Starboard is the near side of a profile. */
export function waterDrawn(
  hull: HullSurface,
  upright: WaterPlane,
  heeled: WaterPlane | null,
): Record<'profile' | 'plan', Primitive[]> {
  const level = waterTrace(hull, upright);
  const out: Record<'profile' | 'plan', Primitive[]> = { profile: [], plan: [] };
  const add = (view: 'profile' | 'plan', id: string, role: Primitive['role'], points: readonly Vec3[]) => {
    const frame = view === 'plan' ? PLAN : PROFILE;
    if (points.length > 1)
      out[view].push(
        stroke(
          `water/${id}`,
          'water',
          role,
          points.map((p) => project(frame, p)),
        ),
      );
  };
  add('plan', 'level-port', 'waterlineHull', level.port);
  add('plan', 'level-starboard', 'waterlineHull', level.starboard);
  if (heeled) {
    const trace = waterTrace(hull, heeled);
    for (const view of ['profile', 'plan'] as const) {
      const starboardDown = heeled.up[1] > 0;
      add(view, 'heeled-starboard', starboardDown ? 'heeledNear' : 'heeledFar', trace.starboard);
      add(view, 'heeled-port', starboardDown ? 'heeledFar' : 'heeledNear', trace.port);
    }
  }
  return out;
}

/** Without a hull there is room to draw neighbours beside what is there, metres. */
const ROOM_M = 1;

/** What the board shows next: as before while that holds all, else grown by what it lacks, so that nothing jumps under the hand. */
export function keptExtent(before: Extent | null, next: Extent): Extent {
  if (!before) return next;
  const low: Vec3 = [
    Math.min(before.low[0], next.low[0]),
    Math.min(before.low[1], next.low[1]),
    Math.min(before.low[2], next.low[2]),
  ];
  const high: Vec3 = [
    Math.max(before.high[0], next.high[0]),
    Math.max(before.high[1], next.high[1]),
    Math.max(before.high[2], next.high[2]),
  ];
  const isSame = [0, 1, 2].every((k) => low[k] === before.low[k] && high[k] === before.high[k]);
  return isSame ? before : { low, high };
}

/** All that the board shows, with a margin; a boat without a hull is as large as its compartments. */
export function extentOf(hull: HullSurface | null, layout: Layout): Extent {
  const low: [number, number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: [number, number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const take = (p: Vec3) => {
    for (const k of [0, 1, 2] as const) {
      low[k] = Math.min(low[k], p[k]);
      high[k] = Math.max(high[k], p[k]);
    }
  };
  if (hull) {
    const { vertices } = hull;
    for (let i = 0; i < vertices.length; i += 3)
      take([vertices[i] as number, vertices[i + 1] as number, vertices[i + 2] as number]);
  }
  for (const cell of layout.cells) {
    // A hull bounds what reaches beyond it, but for what stands above the sheer.
    if (!hull) {
      take([cell.low[0] - ROOM_M, cell.low[1] - ROOM_M, cell.low[2] - ROOM_M / 2]);
      take([cell.high[0] + ROOM_M, cell.high[1] + ROOM_M, cell.high[2] + ROOM_M / 2]);
    } else take([Math.min(Math.max(cell.low[0], low[0]), high[0]), 0, cell.high[2]]);
  }
  if (!(low[0] < high[0])) return { low: [0, -2, -1], high: [10, 2, 2] };
  const margin = 0.012 * (high[0] - low[0]);
  return {
    low: [low[0] - margin, low[1] - margin, low[2] - margin],
    high: [high[0] + margin, high[1] + margin, high[2] + margin],
  };
}
