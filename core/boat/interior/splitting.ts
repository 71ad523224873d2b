import * as portable from '../../base/portable';
import { dot, type Vec2, type Vec3 } from '../../base/vec';
import { type BoatRecipe, type Draft, freeId } from '../edits';
import type { Boat, Compartment } from '../schema/boat';
import { facesOf, liesOn } from './faces';
import {
  boxDrawn,
  directionAsDrawn,
  drawnBounds,
  drawnValues,
  fromBoat,
  isDrawnBox,
  type Prismatic,
  redrawn,
} from './placing';

/** A plane in the boat: through a point, square to a direction. */
export interface Cutting {
  readonly at: Vec3;
  readonly normal: Vec3;
}

export type Parts =
  | { readonly ok: true; readonly behind: Prismatic; readonly ahead: Prismatic }
  | { readonly ok: false; readonly why: string };

type Shape2 = Omit<Prismatic, 'yawDeg'>;
const SQUARE = 1e-6;
/** A cut this near to a corner goes through the corner, metres. */
const AT_CORNER = 1e-6;

/**
 * The two parts that a plane makes of a compartment: `ahead` on the side that the normal points to. The plane must run along
 * the range, or straight across it; a box is first drawn in the view in which it does. Of several chords of a hollow outline
 * the one nearest to the plane's point is cut.
 */
export function partsOf(own: Prismatic, cutting: Cutting): Parts {
  const normal = directionAsDrawn(own, cutting.normal);
  const at = fromBoat(own, cutting.at);
  const straight: Shape2 = { view: own.view, outline: own.outline, rangeM: own.rangeM };
  const shape = alongRange(straight, normal) ?? redrawnForCut(straight, normal);
  if (!shape) return { ok: false, why: 'Draw the cut square to the view in which the compartment is drawn' };
  const parts = cutShape(shape, at, normal);
  if (!parts) return { ok: false, why: 'The cut must cross the compartment from side to side' };
  const placed = (part: Shape2): Prismatic => ({ yawDeg: own.yawDeg, ...redrawn(own, part) });
  return { ok: true, behind: placed(parts[0]), ahead: placed(parts[1]) };
}

/** The shape itself where the plane runs along its range or straight across it. */
function alongRange(shape: Shape2, normal: Vec3): Shape2 | null {
  const [[nu, nv], nw] = drawnValues(shape.view, normal);
  return Math.abs(nw) < SQUARE || portable.hypot(nu, nv) < SQUARE ? shape : null;
}

function redrawnForCut(shape: Shape2, normal: Vec3): Shape2 | null {
  if (!isDrawnBox(shape)) return null;
  const [low, high] = drawnBounds(shape);
  for (const view of ['plan', 'profile', 'section'] as const) {
    const drawn = alongRange(boxDrawn(view, low, high), normal);
    if (drawn) return drawn;
  }
  return null;
}

function cutShape(shape: Shape2, at: Vec3, normal: Vec3): readonly [Shape2, Shape2] | null {
  const [n, nw] = drawnValues(shape.view, normal);
  const [p, w] = drawnValues(shape.view, at);
  if (Math.abs(nw) > 0.5) {
    const [from, to] = shape.rangeM;
    if (!(from + AT_CORNER < w && w < to - AT_CORNER)) return null;
    const below: Shape2 = { ...shape, rangeM: [from, w] };
    const above: Shape2 = { ...shape, rangeM: [w, to] };
    return nw > 0 ? [below, above] : [above, below];
  }
  const parts = cutOutline(shape.outline, p, n);
  if (!parts) return null;
  const withOutline = (outline: readonly Vec2[]): Shape2 => ({
    ...shape,
    outline: outline.map((q): [number, number] => [q[0], q[1]]),
  });
  return [withOutline(parts[0]), withOutline(parts[1])];
}

interface Crossing {
  readonly at: Vec2;
  /** Side that is crossed; where the cut goes through its first corner, `atCorner`. */
  readonly side: number;
  readonly atCorner: boolean;
  /** Place along the line. */
  readonly along: number;
}

/** Both parts of an outline cut along the chord nearest to `p` of the line through it square to `n`; behind first. */
function cutOutline(outline: readonly Vec2[], p: Vec2, n: Vec2): readonly [readonly Vec2[], readonly Vec2[]] | null {
  const count = outline.length;
  const off = (q: Vec2): number => (q[0] - p[0]) * n[0] + (q[1] - p[1]) * n[1];
  const place = (q: Vec2): number => (q[1] - p[1]) * n[0] - (q[0] - p[0]) * n[1];
  const crossings: Crossing[] = [];
  for (let side = 0; side < count; side++) {
    const [a, b] = [outline[side] as Vec2, outline[(side + 1) % count] as Vec2];
    const [da, db] = [off(a), off(b)];
    const before = off(outline[(side + count - 1) % count] as Vec2);
    if (Math.abs(da) < AT_CORNER) {
      // A corner that the line only touches does not part the outline.
      if (before * db < 0 && Math.abs(before) >= AT_CORNER && Math.abs(db) >= AT_CORNER)
        crossings.push({ at: a, side, atCorner: true, along: place(a) });
    } else if (Math.abs(db) >= AT_CORNER && da * db < 0) {
      const t = da / (da - db);
      const at: Vec2 = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
      crossings.push({ at, side, atCorner: false, along: place(at) });
    }
  }
  crossings.sort((a, b) => a.along - b.along);
  let best: readonly [Crossing, Crossing] | null = null;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (let k = 0; k + 1 < crossings.length; k += 2) {
    const [one, other] = [crossings[k] as Crossing, crossings[k + 1] as Crossing];
    const away = Math.max(one.along, -other.along, 0);
    if (away < bestDistance) {
      bestDistance = away;
      best = [one, other];
    }
  }
  if (!best) return null;
  const ring = (from: Crossing, to: Crossing): Vec2[] => {
    const out: Vec2[] = [from.at];
    let i = (from.side + 1) % count;
    const end = (to.side + 1) % count;
    for (let steps = 0; i !== end && steps < count; steps++, i = (i + 1) % count) out.push(outline[i] as Vec2);
    if (to.atCorner) return out;
    out.push(to.at);
    return out;
  };
  const one = ring(best[0], best[1]);
  const other = ring(best[1], best[0]);
  if (one.length < 3 || other.length < 3) return null;
  const side = one.slice(1).reduce((sum, q) => sum + off(q), 0);
  return side > 0 ? [other, one] : [one, other];
}

/**
 * Parts a compartment in two by a plane. The part behind keeps the id and what lies on its side; the part ahead takes the rest.
 * A panel that runs past the cut becomes one on either side, of the same board, each with its own holes.
 */
export const compartmentSplit =
  (id: string, cutting: Cutting, newId: string, newName: string): BoatRecipe =>
  (boat) => {
    const own = boat.compartments[id];
    if (!own) return;
    const before: Compartment = JSON.parse(JSON.stringify(own));
    const parts = partsOf(before, cutting);
    if (!parts.ok) return;
    const ahead = (p: Vec3): boolean =>
      dot([p[0] - cutting.at[0], p[1] - cutting.at[1], p[2] - cutting.at[2]], cutting.normal) > 0;
    boat.compartments[newId] = { ...JSON.parse(JSON.stringify(before)), ...plain(parts.ahead), name: newName };
    Object.assign(own, plain(parts.behind));
    const { pillows } = own;
    const fore = boat.compartments[newId];
    if (pillows && fore) {
      own.pillows = pillows.filter((pillow) => !ahead(pillow));
      fore.pillows = pillows.filter(ahead);
    }
    shareOut(boat, id, newId, ahead, parts);
  };

const plain = ({ view, outline, rangeM }: Prismatic): Omit<Draft<Compartment>, 'name' | 'kind' | 'grade' | 'yawDeg'> =>
  JSON.parse(JSON.stringify({ view, outline, rangeM }));

type Halves = Extract<Parts, { ok: true }>;

function shareOut(boat: Draft<Boat>, id: string, newId: string, ahead: (p: Vec3) => boolean, halves: Halves): void {
  for (const opening of Object.values(boat.openings)) {
    if (!ahead(opening.at)) continue;
    if (opening.compartment === id) opening.compartment = newId;
    else if (opening.to === id) opening.to = newId;
  }
  for (const record of [...Object.values(boat.mountingSurfaces), ...Object.values(boat.standingPlaces)]) {
    if (record.compartment === id && ahead(record.at)) record.compartment = newId;
  }
  for (const arrangement of Object.values(boat.arrangements)) {
    for (const hole of Object.values(arrangement.newHoles)) {
      if (ahead(hole.at)) hole.between = renamed(hole.between, id, newId);
    }
    for (const forbidden of Object.values(arrangement.forbidden ?? {})) {
      if (forbidden.includes(id)) forbidden.push(newId);
    }
  }
  for (const key of Object.keys(boat.panels)) sharePanel(boat, key, id, newId, ahead, halves);
}

export const renamed = (between: readonly string[], from: string, to: string): [string, string] => {
  const [a = '', b = ''] = between.map((name) => (name === from ? to : name));
  return [a, b];
};

function sharePanel(
  boat: Draft<Boat>,
  key: string,
  id: string,
  newId: string,
  ahead: (p: Vec3) => boolean,
  { behind, ahead: aheadPart }: Halves,
): void {
  const record = boat.panels[key];
  if (!record || record.setAside || !record.between.includes(id)) return;
  const isAhead = ahead(record.near);
  const mine = isAhead ? newId : id;
  const otherPart = isAhead ? behind : aheadPart;
  const otherHoles = Object.entries(record.holes).filter(([, hole]) => ahead(hole.at) !== isAhead);
  const elsewhere = record.between.find((name) => name !== id) ?? '';
  const near = otherHoles[0]?.[1].at ?? besidePoint(boat, elsewhere, otherPart);
  const before = [...record.between] as [string, string];
  record.between = renamed(before, id, mine);
  if (near === null) return;
  const copy: typeof record = JSON.parse(JSON.stringify(record));
  copy.between = renamed(before, id, isAhead ? id : newId);
  copy.near = [near[0], near[1], near[2]];
  copy.holes = JSON.parse(JSON.stringify(Object.fromEntries(otherHoles)));
  for (const [hole] of otherHoles) delete record.holes[hole];
  boat.panels[freeId(boat.panels, copy.between.join('-'))] = copy;
}

/** The middle of the face of a part that stands against another compartment; null where none does. */
function besidePoint(boat: Draft<Boat>, other: string, part: Prismatic): Vec3 | null {
  const neighbour = boat.compartments[other];
  if (!neighbour) return null;
  for (const face of facesOf(part)) {
    for (const their of facesOf(neighbour as Compartment)) {
      if (dot(face.normal, their.normal) > -0.99985) continue;
      const gap = dot(face.normal, their.centre) - face.offset;
      if (gap < -0.004 || gap > 0.06) continue;
      if (liesOn(face, their.centre, 0)) return their.centre;
      if (liesOn(their, face.centre, 0)) return face.centre;
    }
  }
  return null;
}
