import { along, dot, type Vec2, type Vec3 } from '@core/base/vec';
import { type BoatRecipe, previewed } from '@core/boat/edits';
import {
  beyond,
  type DrawnFace,
  extentIn,
  faceOfKey,
  facesAgainst,
  facesOf,
  inFace,
  onFace,
} from '@core/boat/interior/faces';
import { staysSound } from '@core/boat/interior/remedies';
import { cornerMoved, type FaceMove, facesMoved } from '@core/boat/interior/shaping';
import type { Boat, Compartment } from '@core/boat/schema/boat';
import { depthAxis, depthOf, lift, project, type ViewFrame } from '@core/output/views/drawing';
import { nearestOnPolygon } from '@core/shape/layout/polygon';
import { type HeldShape, useDrawing } from '../../store/drawing';
import type { FieldView } from '../../store/types';
import type { Shaping } from '../../tools/gesture';
import { cornerAt, faceGrips } from '../../tools/grips';
import { type SnapOn, snapPoint } from '../../tools/point-snap';
import type { Scene } from '../scene';
import { pullOf, snapFieldOf } from './field';

/** A view as far as dragging needs it; the detail is one of the three, closer. */
export interface Looking {
  readonly view: FieldView;
  readonly frame: ViewFrame;
  readonly scale: number;
  /** Where the view cuts; null where it looks through all. */
  readonly cutAt: number | null;
}

const millimetres = (v: number): number => Math.round(v * 1000) / 1000 + 0;

/** What is held, as it would be with the pointer at a point of the paper; `from` is where it was taken. */
export function heldAt(
  scene: Scene,
  looking: Looking,
  what: Shaping,
  from: Vec2,
  to: Vec2,
  free: boolean,
): HeldShape | null {
  switch (what.kind) {
    case 'face':
      return faceHeld(scene, looking, what, from, to, free);
    case 'corner':
      return cornerHeld(scene, looking, what, to, free);
    default:
      return slidingHeld(scene, looking, what, from, to, free);
  }
}

function faceHeld(
  scene: Scene,
  { view, frame, scale }: Looking,
  what: Extract<Shaping, { kind: 'face' }>,
  from: Vec2,
  to: Vec2,
  free: boolean,
): HeldShape | null {
  const own = scene.boat.compartments[what.compartment];
  const grip = own ? faceGrips(own, frame).find(({ key }) => key === what.key) : undefined;
  if (!own || !grip) return null;
  const field = snapFieldOf(scene, frame, what.compartment, middleAcross(own, frame));
  const out = (p: Vec2): number => (p[0] - grip.a[0]) * grip.normal[0] + (p[1] - grip.a[1]) * grip.normal[1];
  // The point of the face that the hand took, where it would be now: that is what snaps.
  const at: Vec2 = [to[0] - out(from) * grip.normal[0], to[1] - out(from) * grip.normal[1]];
  const snapped = snapPoint(at, field, pullOf(scale, free));
  const isSquare = Math.abs(grip.normal[0]) > 1 - 1e-9 || Math.abs(grip.normal[1]) > 1 - 1e-9;
  const by = isSquare || snapped.on.length > 0 ? out(snapped.at) : millimetres(out(at));
  const moves = withPartners(scene.boat, { id: what.compartment, key: what.key, by });
  const across = (on: SnapOn): boolean =>
    isSquare
      ? Math.abs((on.b[0] - on.a[0]) * grip.normal[0] + (on.b[1] - on.a[1]) * grip.normal[1]) < 1e-6 ||
        on.kind === 'hull'
      : true;
  return shaped(
    scene.boat,
    what,
    view,
    `Move a face of ${own.name}`,
    facesMoved(moves),
    moves.map(({ id }) => id),
    snapped.on.filter(across),
  );
}

/** Share of a neighbour's face that must stand against this one for it to go along: then it is the other side of one bulkhead. */
const SAME_WALL = 0.9;

/** The move of a face, and of those neighbours' faces that are the other side of the same bulkhead. */
export function withPartners(boat: Boat, move: FaceMove): readonly FaceMove[] {
  const own = boat.compartments[move.id];
  const face = own ? faceOfKey(own, move.key) : null;
  if (!face) return [move];
  const partners = facesAgainst(boat.compartments, move.id, move.key).flatMap(({ id, key }): FaceMove[] => {
    const their = faceOfKey(boat.compartments[id] as Compartment, key);
    return their && covered(face, their) >= SAME_WALL ? [{ id, key, by: -move.by }] : [];
  });
  return [move, ...partners];
}

/** Share of `their` bounds that lies within those of `face`, in its plane. */
function covered(face: DrawnFace, their: DrawnFace): number {
  const own = extentIn(face);
  const flat = their.polygon.map((p) => inFace(face, p));
  return ([0, 1] as const).reduce<number>((share, k) => {
    const values = flat.map((p) => p[k]);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const both = Math.min(high, own.high[k]) - Math.max(low, own.low[k]);
    return (share * Math.max(0, both)) / Math.max(1e-9, high - low);
  }, 1);
}

function cornerHeld(
  scene: Scene,
  { view, frame, scale }: Looking,
  what: Extract<Shaping, { kind: 'corner' }>,
  to: Vec2,
  free: boolean,
): HeldShape | null {
  const own = scene.boat.compartments[what.compartment];
  if (!own || what.corner >= own.outline.length) return null;
  const field = snapFieldOf(scene, frame, what.compartment, middleAcross(own, frame));
  const { at, on } = snapPoint(to, field, pullOf(scale, free));
  const place = lift(frame, at, depthOf(frame, cornerAt(own, what.corner)));
  const label = `Move a corner of ${own.name}`;
  return shaped(
    scene.boat,
    what,
    view,
    label,
    cornerMoved(what.compartment, what.corner, place),
    [what.compartment],
    on,
  );
}

/** The middle of a compartment across a view: there its hull is met. */
function middleAcross(own: Compartment, frame: ViewFrame): number {
  const values = facesOf(own).flatMap((face) => face.polygon.map((p) => p[depthAxis(frame)]));
  return (Math.min(...values) + Math.max(...values)) / 2;
}

/** Tried on the boat: a shape that the boat would refuse is not held. */
function shaped(
  boat: Boat,
  what: Shaping,
  view: FieldView,
  label: string,
  recipe: BoatRecipe,
  ids: readonly string[],
  on: readonly SnapOn[],
): HeldShape | null {
  const tried = previewed(boat, recipe);
  const shapes = Object.fromEntries(
    ids.flatMap((id) => {
      const own = tried.compartments[id];
      return own ? [[id, own] as const] : [];
    }),
  );
  const isSound = Object.entries(shapes).every(([id, own]) => staysSound(boat.compartments[id] ?? own, own));
  return isSound ? { what, view, label, recipe, shapes, at: null, on } : null;
}

/** Openings, surfaces and holes slide in their own plane; a standing place moves in the plane of the view. */
function slidingHeld(
  scene: Scene,
  { view, frame, scale }: Looking,
  what: Exclude<Shaping, { kind: 'face' | 'corner' }>,
  from: Vec2,
  to: Vec2,
  free: boolean,
): HeldShape | null {
  const start = placeOf(scene, what);
  if (!start) return null;
  const by = lift(frame, [to[0] - from[0], to[1] - from[1]], 0);
  const { stepM } = pullOf(scale, free);
  const round = (v: number): number => Math.round(Math.round(v / stepM) * stepM * 1e6) / 1e6;
  const moved: Vec3 = [start.at[0] + round(by[0]), start.at[1] + round(by[1]), start.at[2] + round(by[2])];
  const at = start.kept(moved);
  return { what, view, label: start.label, recipe: start.recipe(at), shapes: {}, at, on: [] };
}

interface Sliding {
  readonly at: Vec3;
  readonly label: string;
  /** The nearest place that it may have. */
  kept(p: Vec3): Vec3;
  recipe(at: Vec3): BoatRecipe;
}

const point = (p: Vec3): [number, number, number] => [p[0], p[1], p[2]];

function placeOf(scene: Scene, what: Exclude<Shaping, { kind: 'face' | 'corner' }>): Sliding | null {
  const { boat, layout } = scene;
  switch (what.kind) {
    case 'standingPlace': {
      const place = boat.standingPlaces[what.id];
      if (!place) return null;
      return {
        at: place.at,
        label: `Move ${place.name}`,
        kept: (p) => p,
        recipe: (at) => (draft) => {
          const own = draft.standingPlaces[what.id];
          if (own) own.at = point(at);
        },
      };
    }
    case 'opening':
    case 'surface': {
      const group = what.kind === 'opening' ? 'openings' : 'mountingSurfaces';
      const record = boat[group][what.id];
      if (!record) return null;
      const face = faceBehind(boat, record);
      return {
        at: record.at,
        label: `Move ${record.name ?? 'a mounting surface'}`,
        kept: (p) => (face ? within(face, p, record) : p),
        recipe: (at) => (draft) => {
          const own = draft[group][what.id];
          if (own) own.at = point(at);
        },
      };
    }
    case 'hole': {
      const panel = layout.panels[what.panel];
      const dataId = panel?.dataId;
      const hole = panel?.holes.find(({ id }) => id === what.hole);
      if (!panel || !hole || dataId === undefined || hole.planned) return null;
      return {
        at: hole.at,
        label: 'Move a hole',
        kept: (p) => {
          const near = panel.pieces.map((piece) => nearestOnPolygon(piece, panel.normal, p));
          const far = (q: Vec3): number => Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
          return near.reduce((best, q) => (far(q) < far(best) ? q : best));
        },
        recipe: (at) => (draft) => {
          const own = draft.panels[dataId]?.holes[what.hole];
          if (own) own.at = point(at);
        },
      };
    }
  }
}

/** The face of its compartment that an opening or surface lies on. */
function faceBehind(
  boat: Boat,
  record: { readonly compartment: string; readonly at: Vec3; readonly normal: Vec3 },
): DrawnFace | null {
  const own = boat.compartments[record.compartment];
  if (!own) return null;
  const candidates = facesOf(own).filter((face) => Math.abs(dot(face.normal, record.normal)) > 0.9);
  const far = (face: DrawnFace): number => Math.abs(dot(face.normal, record.at) - face.offset);
  const best = candidates.sort((a, b) => far(a) - far(b))[0];
  return best && far(best) < 0.15 ? best : null;
}

/** The nearest place within the bounds of its face, at the distance from it that the record has. */
function within(
  face: DrawnFace,
  p: Vec3,
  { at, widthM, heightM }: { readonly at: Vec3; readonly widthM: number; readonly heightM: number },
): Vec3 {
  const { low, high } = extentIn(face);
  const flat = inFace(face, p);
  const hold = (k: 0 | 1, size: number): number => {
    const [a, b] = [low[k] + size / 2, high[k] - size / 2];
    return a > b ? (low[k] + high[k]) / 2 : Math.min(b, Math.max(a, flat[k]));
  };
  return along(onFace(face, [hold(0, widthM), hold(1, heightM)]), face.normal, beyond(face, at));
}

/** Lets go of what is held: one edit, or none. */
export function letGo(how: 'commit' | 'cancel', apply: (label: string, recipe: BoatRecipe) => boolean): void {
  const { held } = useDrawing.getState();
  useDrawing.setState({ held: null });
  if (held && how === 'commit') apply(held.label, held.recipe);
}

/** The held thing's own place on paper. */
export const heldOnPaper = (held: HeldShape, frame: ViewFrame): Vec2 | null =>
  held.at ? project(frame, held.at) : null;
