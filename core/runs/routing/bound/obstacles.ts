import * as portable from '../../../base/portable';
import { add, along, cross, dot, norm, scale, squareTo, subtract, type Vec3 } from '../../../base/vec';
import type { Layout, Wall } from '../../../shape/layout/types';
import type { Solid } from '../../../shape/space/solids';
import { type Structure, structureOf } from '../structure';
import type { RoutingView } from '../types';
import { roomOf } from './crossings';
import { cutDomain, type Domain, domainOf } from './domain';
import type { BoundEvent } from './dual';

/**
 * What stands in a compartment, for the bound. A thing that lies across a leg is cut by a plane that has the leg's two ends on
 * different sides: the hose must pass the plane beside the cut, on one of four sides, or leave the compartment and come back.
 */
export interface Clutter {
  /** The cut that a straight string between two places would have to move most for, or null where it is free. */
  across(room: number, from: BoundEvent, to: BoundEvent, a: Vec3, b: Vec3): Cut | null;
  /** Where a hose that stays in the compartment may pass the plane of the cut: one convex piece a side that is open. */
  sides(room: number, cut: Cut): readonly BoundEvent[];
}

/** A rectangle that lies in a thing, in the plane dot(normal, p) = offset. */
export interface Cut {
  readonly owner: string;
  readonly normal: Vec3;
  readonly offset: number;
  readonly centre: Vec3;
  readonly axes: readonly [Vec3, Vec3];
  /** Half sides. */
  readonly half: readonly [number, number];
  /** How far the string lies inside of where the hose may pass. */
  readonly depthM: number;
}

/** A string that has to move less than this is left as it is. */
const WORTH_M = 0.004;
/** Outside a rounded rectangle a point is at least this share of the rounding beyond one of its sides. */
const CORNER_SHARE = Math.SQRT1_2;
const APART_M = 1e-4;
/** Doorways are this much deeper than the space between two outlines. */
const DOORWAY_M = 1e-3;

/** What stands in the cells of a boat, as hindrances to straight legs of a hose that thick. */
export function clutterOf(view: Pick<RoutingView, 'layout' | 'thingsIn'>, radiusM: number): Clutter {
  const { layout } = view;
  const structure = structureOf(layout);
  const cellOf = singleCells(layout);
  const beside = CORNER_SHARE * radiusM;
  const rooms = new Map<number, readonly Face[]>();
  const facesOf = (cell: number): readonly Face[] => {
    const known = rooms.get(cell) ?? facesFor(cell, structure, radiusM);
    rooms.set(cell, known);
    return known;
  };
  return {
    across(room, from, to, a, b) {
      const cell = cellOf.get(room);
      if (cell === undefined) return null;
      const way = subtract(b, a);
      if (norm(way) < APART_M) return null;
      let worst: Cut | null = null;
      for (const solid of view.thingsIn(cell)) {
        if (solid.layer === 'serviceKeepOut' || solid.type === 'capsule' || misses(solid, a, b, radiusM)) continue;
        for (const cut of cutsOf(solid, way)) {
          const depthM = depthOf(cut, from, to, a, b, beside);
          if (depthM > Math.max(WORTH_M, worst?.depthM ?? 0)) worst = { ...cut, depthM };
        }
      }
      return worst;
    },
    sides(room, { normal, offset, centre, axes, half }) {
      const cell = cellOf.get(room) as number;
      const { low, high } = layout.cells[cell] as Layout['cells'][number];
      const middle = scale(add(low, high), 0.5);
      const on = along(middle, normal, offset - dot(normal, middle));
      const reach = norm(subtract(high, low)) + 1;
      let whole: Domain | null = domainOf(
        [
          [1, 1],
          [-1, 1],
          [-1, -1],
          [1, -1],
        ].map(([i, j]) => along(along(on, axes[0], (i as number) * reach), axes[1], (j as number) * reach)),
        normal,
      );
      for (const face of facesOf(cell)) if (whole) whole = cutDomain(whole, face.normal, face.offset);
      if (!whole) return [];
      const found: BoundEvent[] = [];
      axes.forEach((axis, k) => {
        for (const side of [1, -1]) {
          const out = scale(axis, side);
          const start = dot(out, centre) + (half[k] as number) + beside;
          const domain = cutDomain(whole as Domain, scale(out, -1), -start);
          if (domain) found.push({ domain, tangent: null, stub: 0 });
        }
      });
      return found;
    },
  };
}

/** Rooms that are one cell, by their number; of those that share space nothing is known. */
function singleCells(layout: Layout): Map<number, number> {
  const room = roomOf(layout);
  const found = new Map<number, number>();
  const several = new Set<number>();
  for (const { index } of layout.cells) {
    const own = room(index);
    if (found.has(own)) several.add(own);
    found.set(own, index);
  }
  for (const one of several) found.delete(one);
  return found;
}

interface Face {
  readonly normal: Vec3;
  readonly offset: number;
}

/** Half-spaces that hold the middle of a hose in this cell: closed faces moved in by its radius, doorways let it a little out. */
function facesFor(cell: number, structure: Structure, radiusM: number): readonly Face[] {
  const { layout } = structure;
  const { planes } = layout.cells[cell] as Layout['cells'][number];
  const walls = [...(structure.wallsOfCell[cell] as Int32Array)].map((k) => layout.walls[k] as Wall);
  const faces = planes.map(({ normal, offset }) => {
    let openM = -1;
    for (const index of structure.portalsOfCell[cell] as readonly number[]) {
      const { portal, panel } = structure.frames[index] as Structure['frames'][number];
      if (panel && panel.rule !== 'open') continue;
      const level = portal.polygon.reduce((most, p) => Math.max(most, dot(normal, p)), Number.NEGATIVE_INFINITY);
      // To the other side of the doorway: a run may round the end of a wall in it.
      const gapM = Math.max(0, panel?.gapM ?? 0) + DOORWAY_M;
      if (Math.abs(dot(normal, portal.normal)) > 0.99 && level > offset - gapM) openM = Math.max(openM, gapM);
    }
    if (openM >= 0) return { normal, offset: offset + openM, isClosed: false, inM: 0 };
    // Plates towards undrawn space stand outside, those of panels in the middle between two outlines.
    let surface = Number.POSITIVE_INFINITY;
    for (const wall of walls) {
      if (Math.abs(dot(normal, wall.normal)) < 0.999) continue;
      const level = dot(normal, wall.polygon[0] as Vec3) - offset;
      if (Math.abs(level) < FACING_M) surface = Math.min(surface, -level + wall.thicknessM / 2);
    }
    const inM = surface === Number.POSITIVE_INFINITY ? 0 : Math.max(0, radiusM + Math.min(0, surface));
    return { normal, offset, isClosed: true, inM };
  });
  return faces.map(({ normal, offset, isClosed, inM }) => {
    // At an obtuse edge with an open face the strip beside this one is not all near its wall.
    const isSure = isClosed && faces.every((other) => other.isClosed || dot(other.normal, normal) < 1e-6);
    return { normal, offset: isSure ? offset - inM : offset + (isClosed ? DOORWAY_M : 0) };
  });
}
/** A plate this near the plane of a face is its wall. */
const FACING_M = 0.06;

function misses(solid: Exclude<Solid, { type: 'capsule' }>, a: Vec3, b: Vec3, radiusM: number): boolean {
  const reach =
    solid.type === 'box' ? norm(solid.half) : portable.hypot(solid.radius, norm(subtract(solid.to, solid.from)) / 2);
  const centre = solid.type === 'box' ? solid.centre : scale(add(solid.from, solid.to), 0.5);
  const way = subtract(b, a);
  const t = Math.min(1, Math.max(0, dot(subtract(centre, a), way) / dot(way, way)));
  return norm(subtract(along(a, way, t), centre)) > reach + radiusM;
}

type Section = Omit<Cut, 'depthM'>;

/** Rectangles that lie wholly in the thing, in planes that a string the way given may cross. */
function cutsOf(solid: Exclude<Solid, { type: 'capsule' }>, way: Vec3): Section[] {
  const cuts: Section[] = [];
  const put = (at: Vec3, normal: Vec3, axes: readonly [Vec3, Vec3], half: readonly [number, number]): void => {
    cuts.push({ owner: solid.owner, normal, offset: dot(normal, at), centre: at, axes, half });
  };
  if (solid.type === 'box') {
    const { centre, half, axes } = solid;
    for (const k of [0, 1, 2] as const) {
      const [i, j] = [(k + 1) % 3, (k + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
      for (const share of [-1, 0, 1])
        put(along(centre, axes[k], share * half[k]), axes[k], [axes[i], axes[j]], [half[i], half[j]]);
    }
    return cuts;
  }
  const { from, to, radius } = solid;
  const span = subtract(to, from);
  const length = norm(span);
  if (length < 1e-9) return cuts;
  const axis = scale(span, 1 / length);
  const middle = along(from, axis, length / 2);
  const across = subtract(way, scale(axis, dot(way, axis)));
  const normal = norm(across) > 1e-6 ? scale(across, 1 / norm(across)) : squareTo(axis);
  const side = cross(axis, normal);
  for (const share of [-0.6, 0, 0.6])
    put(
      along(middle, normal, share * radius),
      normal,
      [axis, side],
      [length / 2, radius * Math.sqrt(1 - share * share)],
    );
  // The square in the circle, turned with the string.
  for (const share of [-0.5, 0, 0.5])
    put(along(middle, axis, share * length), axis, [normal, side], [radius * CORNER_SHARE, radius * CORNER_SHARE]);
  return cuts;
}

/** How far a string would have to move in the plane to pass the cut, 0 where the plane does not part the two ends. */
function depthOf(cut: Section, from: BoundEvent, to: BoundEvent, a: Vec3, b: Vec3, beside: number): number {
  const { normal, offset, centre, axes, half } = cut;
  const [ha, hb] = [dot(normal, a) - offset, dot(normal, b) - offset];
  if (ha * hb >= 0) return 0;
  const t = ha / (ha - hb);
  const off = subtract(along(a, subtract(b, a), t), centre);
  const depth = Math.min(
    half[0] + beside - Math.abs(dot(off, axes[0])),
    half[1] + beside - Math.abs(dot(off, axes[1])),
  );
  if (depth <= 0) return 0;
  const side = ha < 0 ? 1 : -1;
  // With the straight hose on both sides of a hole: the plane is passed by the leg itself.
  const isBehind = ({ domain, tangent, stub }: BoundEvent, way: number): boolean => {
    const straight = tangent ? Math.abs(dot(normal, tangent)) * stub : 0;
    return domain.ring.every((p) => way * (dot(normal, p) - offset) > APART_M + domain.roundM + straight);
  };
  return isBehind(from, -side) && isBehind(to, side) ? depth : 0;
}
