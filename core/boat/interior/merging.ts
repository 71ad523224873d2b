import { FillRule, unionD } from 'clipper2-ts';
import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import type { Vec2, Vec3 } from '../../base/vec';
import type { BoatRecipe, Draft } from '../edits';

import type { Boat, Compartment } from '../schema/boat';
import { facesOf, facingFace } from './faces';
import { boxDrawn, directionInBoat, drawnBounds, isDrawnBox, type Prismatic, redrawn, shiftedAsDrawn } from './placing';
import { withFaceMoved } from './shaping';
import { renamed } from './splitting';

export type Merged =
  | { readonly ok: true; readonly shape: Omit<Prismatic, 'yawDeg'> }
  | { readonly ok: false; readonly why: string };

type Shape2 = Omit<Prismatic, 'yawDeg'>;
/** Ranges and outlines this near are the same, metres. */
const SAME_M = 5e-4;
/** Corners this near to a straight side are none, metres: a few roundings to the micrometre. */
const STRAIGHT_M = 9e-6;
/** Corners this near to the other outline lie on it, metres. */
const WELD_M = 8e-6;
/** Two compartments merge across a bulkhead no thicker than this, metres: as far as a panel reaches. */
const REACH_M = 0.06;

/**
 * The one shape that two neighbours make together: side by side with the same range, or end to end with the same outline. The
 * thickness of a bulkhead between them goes to the first.
 */
export function mergedShape(one: Prismatic, other: Prismatic): Merged {
  if (Math.abs(one.yawDeg - other.yawDeg) > 1e-9) return { ok: false, why: 'The two are turned differently' };
  const whole = facesOf(one).flatMap((face) => {
    const found = facingFace(face, facesOf(other), REACH_M);
    return found ? [{ key: face.key, gapM: found.gapM }] : [];
  });
  const nearest = whole.sort((a, b) => Math.abs(a.gapM) - Math.abs(b.gapM))[0];
  if (!nearest) return { ok: false, why: 'The two have no face in common' };
  const grown: Prismatic = {
    yawDeg: one.yawDeg,
    ...(nearest.gapM === 0 ? one : redrawn(one, withFaceMoved(one, nearest.key, nearest.gapM))),
  };
  const straightOne = unturned(grown);
  const straightOther = unturned(other);
  const united = unionOfShapes(straightOne, straightOther) ?? unionAsBoxes(straightOne, straightOther);
  if (!united)
    return { ok: false, why: 'The two must have the same height, breadth or length along their common face' };
  return { ok: true, shape: backTurned(united, one.yawDeg) };
}

/** Drawn without its turn, about the boat's own origin, so that two can be compared. */
const unturned = (prism: Prismatic): Shape2 => aboutOrigin(prism, -prism.yawDeg);
/** And back: the shape whose turn about its own middle lands where a turn about the origin takes it. */
const backTurned = (shape: Shape2, yawDeg: number): Shape2 => aboutOrigin(shape, yawDeg);

function aboutOrigin(shape: Shape2, yawDeg: number): Shape2 {
  if (yawDeg === 0) return shape;
  const [low, high] = drawnBounds(shape);
  const middle: Vec3 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, 0];
  const to = directionInBoat({ ...shape, yawDeg }, middle);
  return shiftedAsDrawn(shape, [to[0] - middle[0], to[1] - middle[1], 0]);
}

function unionOfShapes(one: Shape2, other: Shape2): Shape2 | null {
  if (one.view !== other.view) return null;
  const near = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_M;
  if (near(one.rangeM[0], other.rangeM[0]) && near(one.rangeM[1], other.rangeM[1])) {
    const outline = unionOfOutlines(one.outline, other.outline);
    return outline
      ? { view: one.view, outline: outline.map((p): [number, number] => [p[0], p[1]]), rangeM: one.rangeM }
      : null;
  }
  const joins = near(one.rangeM[1], other.rangeM[0]) || near(other.rangeM[1], one.rangeM[0]);
  if (!joins || !sameOutline(one.outline, other.outline)) return null;
  const rangeM: [number, number] = [Math.min(one.rangeM[0], other.rangeM[0]), Math.max(one.rangeM[1], other.rangeM[1])];
  return { view: one.view, outline: one.outline, rangeM };
}

/** Two boxes that were drawn in different views, or differ along another axis. */
function unionAsBoxes(one: Shape2, other: Shape2): Shape2 | null {
  if (!isDrawnBox(one) || !isDrawnBox(other)) return null;
  for (const view of [one.view, 'plan', 'profile', 'section'] as const) {
    const united = unionOfShapes(boxDrawn(view, ...drawnBounds(one)), boxDrawn(view, ...drawnBounds(other)));
    if (united) return united;
  }
  return null;
}

function sameOutline(one: readonly Vec2[], other: readonly Vec2[]): boolean {
  const sum = unionOfOutlines(one, other);
  if (!sum) return false;
  const area = Math.abs(signedArea(one));
  const slack = SAME_M * Math.sqrt(area) * 4;
  return Math.abs(Math.abs(signedArea(other)) - area) < slack && Math.abs(Math.abs(signedArea(sum)) - area) < slack;
}

/** One outline around both, in the sense of the first; null where they leave a hole or do not meet along a side. */
function unionOfOutlines(one: readonly Vec2[], other: readonly Vec2[]): readonly Vec2[] | null {
  const welded = welding(one, other);
  const ring = (outline: readonly Vec2[]) => {
    const points = outline.map(([x, y]) => ({ x, y }));
    return signedArea(outline) < 0 ? points.reverse() : points;
  };
  const found = unionD([ring(welded[0]), ring(welded[1])], [], FillRule.NonZero, 8);
  const only = found[0];
  if (!only || found.length !== 1) return null;
  const outline = withoutStraight(only.map(({ x, y }): Vec2 => [x, y]));
  const turnedAsFirst = signedArea(outline) * signedArea(one) < 0 ? [...outline].reverse() : outline;
  return startingAt(turnedAsFirst, one[0] as Vec2);
}

/** Both outlines with the corners of either in the sides of the other that they all but touch, so that common sides are so exactly. */
function welding(one: readonly Vec2[], other: readonly Vec2[]): readonly [readonly Vec2[], readonly Vec2[]] {
  const near = (p: Vec2, q: Vec2): boolean => portable.hypot(p[0] - q[0], p[1] - q[1]) <= WELD_M;
  const moved = other.map((p) => one.find((q) => near(p, q)) ?? p);
  return [withCornersOf(moved, one), withCornersOf(one, moved)];
}

function withCornersOf(corners: readonly Vec2[], outline: readonly Vec2[]): Vec2[] {
  return outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length] as Vec2;
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const length = portable.hypot(dx, dy);
    const along = (p: Vec2): number => ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length;
    const off = (p: Vec2): number => Math.abs((p[0] - a[0]) * dy - (p[1] - a[1]) * dx) / length;
    const within = corners
      .filter((p) => off(p) <= WELD_M && along(p) > WELD_M && along(p) < length - WELD_M)
      .sort((p, q) => along(p) - along(q));
    return [a, ...within];
  });
}

function withoutStraight(outline: readonly Vec2[]): Vec2[] {
  const corners = [...outline];
  for (let i = 0; i < corners.length && corners.length > 3; ) {
    const n = corners.length;
    const [a, p, b] = [corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]] as [Vec2, Vec2, Vec2];
    const base = portable.hypot(b[0] - a[0], b[1] - a[1]);
    const off = Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / Math.max(base, 1e-12);
    if (off > STRAIGHT_M) i++;
    else {
      corners.splice(i, 1);
      i = 0;
    }
  }
  return corners;
}

/** The ring begun at the corner nearest to a point, so that an outline keeps its numbering where it can. */
function startingAt(outline: readonly Vec2[], p: Vec2): readonly Vec2[] {
  let best = 0;
  outline.forEach((q, i) => {
    const b = outline[best] as Vec2;
    if (portable.hypot(q[0] - p[0], q[1] - p[1]) < portable.hypot(b[0] - p[0], b[1] - p[1])) best = i;
  });
  return [...outline.slice(best), ...outline.slice(0, best)];
}

/**
 * Merges a compartment into its neighbour, which keeps its id and name. Records of the panel between them are set aside, all
 * others go over.
 */
export const compartmentsMerged =
  (id: string, otherId: string): BoatRecipe =>
  (boat) => {
    const own = boat.compartments[id];
    const other = boat.compartments[otherId];
    if (!own || !other) return;
    const merged = mergedShape(JSON.parse(JSON.stringify(own)), JSON.parse(JSON.stringify(other)) as Compartment);
    if (!merged.ok) return;
    Object.assign(own, JSON.parse(JSON.stringify(merged.shape)));
    if (other.pillows) own.pillows = [...(own.pillows ?? []), ...other.pillows];
    handOver(boat, otherId, id);
    delete boat.compartments[otherId];
  };

/** Whatever names one compartment names the other from now on. */
function handOver(boat: Draft<Boat>, from: string, to: string): void {
  for (const panel of Object.values(boat.panels)) {
    if (!panel.between.includes(from)) continue;
    if (panel.between.includes(to)) panel.setAside = true;
    else panel.between = renamed(panel.between, from, to);
  }
  for (const [key, opening] of Object.entries(boat.openings)) {
    const inside = [opening.compartment, opening.to].every((name) => name === from || name === to);
    // The wall that it was in is gone.
    if (inside) dropOpening(boat, key);
    else if (opening.compartment === from) opening.compartment = to;
    else if (opening.to === from) opening.to = to;
  }
  for (const record of [...Object.values(boat.mountingSurfaces), ...Object.values(boat.standingPlaces)]) {
    if (record.compartment === from) record.compartment = to;
  }
  for (const picture of Object.values(boat.pictures ?? {})) if (picture.compartment === from) picture.compartment = to;
  for (const [key, hole] of Object.entries(boat.flooding?.limberHoles ?? {})) {
    if (!hole.between.includes(from)) continue;
    if (hole.between.includes(to)) delete boat.flooding?.limberHoles?.[key];
    else hole.between = renamed(hole.between, from, to);
  }
  for (const arrangement of Object.values(boat.arrangements)) {
    for (const hole of Object.values(arrangement.newHoles)) {
      if (!hole.between.includes(from)) continue;
      // A hole in the wall between them has no panel any more: it is listed until it is bound or removed.
      hole.between = hole.between.includes(to) ? [to, 'undrawn'] : renamed(hole.between, from, to);
    }
    for (const [line, forbidden] of Object.entries(arrangement.forbidden ?? {})) {
      if (arrangement.forbidden && forbidden.includes(from))
        arrangement.forbidden[line] = [...new Set(forbidden.map((name) => (name === from ? to : name)))];
    }
  }
}

/** Removes an opening and every way in that led through it. */
export function dropOpening(boat: Draft<Boat>, id: string): void {
  delete boat.openings[id];
  for (const arrangement of Object.values(boat.arrangements))
    for (const place of Object.values(arrangement.places)) if (place.wayIn?.includes(id)) delete place.wayIn;
}
