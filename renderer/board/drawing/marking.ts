import { distanceToSegment } from '@core/base/segment';
import { along, type Vec2, type Vec3 } from '@core/base/vec';
import { freeId } from '@core/boat/edits';
import { axesIn, beyond, type DrawnFace, extentIn, faceOfKey, facesOf, sideWord } from '@core/boat/interior/faces';
import { panelHoleAdded } from '@core/boat/interior/panel-data';
import {
  markedOn,
  openingAdded,
  openingIn,
  standingPlaceAdded,
  surfaceAdded,
  surfaceOn,
} from '@core/boat/interior/ways';
import type { Boat } from '@core/boat/schema/boat';
import { depthAxis, depthOf, FRAMES, lift, project, type ViewFrame } from '@core/output/views/drawing';
import { nearestOnPolygon } from '@core/shape/layout/polygon';
import type { Layout, Panel } from '@core/shape/layout/types';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { type Marking, NOTHING_DRAWN, useDrawing } from '../../store/drawing';
import { placeOfPanel } from '../../store/panel-place';
import { faceGrips, frontFace } from '../../tools/grips';
import { type PickArea, pickCompartment } from '../pick';
import type { Scene } from '../scene';
import type { Looking } from './hold';

/** A face seen edge on is taken from this far, pixels. */
const EDGE_PX = 6;
/** What a click without a drag marks out, metres: an arm goes through. */
const USUAL: Vec2 = [0.4, 0.3];

/** A face of a compartment under the pointer, and the point of it that is meant. */
export interface FaceUnder {
  readonly compartment: string;
  readonly face: DrawnFace;
  readonly at: Vec3;
}

/** Faces seen edge on come first, those of the selected compartment before others; else the face that looks at the eye. */
export function faceUnder(
  scene: Scene,
  { frame, scale }: Looking,
  at: Vec2,
  areas: readonly PickArea[],
): FaceUnder | null {
  const { boat, selection } = scene;
  const selected = selection?.kind === 'compartment' ? selection.id : null;
  let best: { found: FaceUnder; far: number } | null = null;
  for (const [id, compartment] of Object.entries(boat.compartments)) {
    if (frame.name === 'section' && !isCutAt(boat, id, scene.sectionX)) continue;
    for (const grip of faceGrips(compartment, frame)) {
      const far = distanceToSegment(at, grip.a, grip.b) * scale + (id === selected ? 0 : EDGE_PX / 3);
      if (far > EDGE_PX || (best && best.far <= far)) continue;
      best = { found: { compartment: id, face: grip.face, at: onEdge(grip.face, frame, at) }, far };
    }
  }
  if (best) return best.found;
  const picked = pickCompartment(at, areas)?.id ?? null;
  const id =
    selected !== null && areas.some((area) => area.id === selected && pickCompartment(at, [area])) ? selected : picked;
  const compartment = id === null ? undefined : boat.compartments[id];
  const front = compartment ? frontFace(compartment, frame) : null;
  if (id === null || !front) return null;
  return { compartment: id, face: front, at: lift(frame, at, depthOf(frame, front.centre)) };
}

function isCutAt(boat: Boat, id: string, x: number): boolean {
  const own = boat.compartments[id];
  const xs = own ? facesOf(own).flatMap((face) => face.polygon.map((p) => p[0])) : [];
  return Math.min(...xs) <= x && x <= Math.max(...xs);
}

/** The point of a face seen edge on, at its middle across the view. */
function onEdge(face: DrawnFace, frame: ViewFrame, at: Vec2): Vec3 {
  const p = lift(frame, at, depthOf(frame, face.centre));
  return along(p, face.normal, -beyond(face, p));
}

/** The face with a pointer that may have left it: the nearest point of its plane. */
export function pointOnFace(face: DrawnFace, frame: ViewFrame, at: Vec2): Vec3 {
  const p = lift(frame, at, depthOf(frame, face.centre));
  return along(p, face.normal, -beyond(face, p));
}

/** What a drag from one point of a face to another marks out; across a view it has the usual size. */
export function marking(what: Marking['what'], { frame, view }: Looking, under: FaceUnder, to: Vec3): Marking {
  const isClick = Math.hypot(to[0] - under.at[0], to[1] - under.at[1], to[2] - under.at[2]) < 0.01;
  const axes = axesIn(under.face.normal);
  const least = axes.map((axis, k) => {
    const seen = Math.hypot(...project(frame, axis)) > 0.3;
    return seen && !isClick ? 0.02 : (USUAL[k] as number);
  }) as [number, number];
  return {
    what,
    view,
    compartment: under.compartment,
    key: under.face.key,
    from: under.at,
    marked: markedOn(under.face, under.at, to, least),
  };
}

/** What lies on the other side of a face at a point: a compartment, else the outside. */
function otherSide(layout: Layout, compartment: string, face: DrawnFace, at: Vec3): string {
  for (const step of [0.01, 0.035, 0.07]) {
    const found = layout.compartmentAt(along(at, face.normal, step));
    if (found !== null && found !== compartment) return found;
  }
  return 'outside';
}

/** Makes the opening or surface that is marked out, and selects it. */
export function makeMarked(
  boat: Boat,
  arrangementId: string | null,
  { what, compartment, key, marked }: Omit<Marking, 'view' | 'from'>,
): boolean {
  const own = boat.compartments[compartment];
  const face = own ? faceOfKey(own, key) : null;
  if (!own || !face) return false;
  const { edit, select, notify } = useApp.getState();
  if (what === 'surface') {
    const id = freeId(boat.mountingSurfaces, `${compartment}-surface`);
    const name = `${own.name}, ${sideWord(face.normal)}`;
    if (!edit(`Mounting surface in ${own.name}`, surfaceAdded({ ...surfaceOn(face, marked, compartment), name })))
      return false;
    select({ kind: 'surface', id });
    return true;
  }
  const id = freeId(boat.openings, `${compartment}-opening`);
  const to = otherSide(layoutOf(boat, arrangementId), compartment, face, marked.at);
  const name = `${own.name} ${face.normal[2] > 0.7 ? 'lid' : 'door'}`;
  if (!edit(`Opening in ${own.name}`, openingAdded(openingIn(face, marked, { name, compartment, to })))) return false;
  select({ kind: 'opening', id });
  notify(`Added ${name}. Undo: Ctrl Z`);
  return true;
}

/** An opening or surface in the middle of the first face that looks that way, of the usual size or what the face leaves. */
export function hangOn(compartment: string, side: string, what: Marking['what']): void {
  const { boat, arrangementId, notify } = useApp.getState();
  const own = boat?.compartments[compartment];
  const face = own ? facesOf(own).find(({ normal }) => sideWord(normal) === side) : undefined;
  if (boat && face) makeMarked(boat, arrangementId, middleOf(face, compartment, what));
  else notify(`No face of it is the ${side}`);
}

export function middleOf(face: DrawnFace, compartment: string, what: Marking['what']): Omit<Marking, 'view' | 'from'> {
  const { low, high } = extentIn(face);
  const size = ([0, 1] as const).map((k) => Math.min(USUAL[k] as number, (high[k] - low[k]) * 0.8)) as [number, number];
  return { what, compartment, key: face.key, marked: markedOn(face, face.centre, face.centre, size) };
}

/** A panel under the pointer: one seen edge on, else one that a section shows from the front near its plane. */
export function panelUnder(
  scene: Scene,
  { frame, scale, cutAt }: Looking,
  at: Vec2,
  alsoFront: boolean,
): { readonly panel: Panel; readonly at: Vec3 } | null {
  const axis = depthAxis(frame);
  let best: { panel: Panel; at: Vec3; far: number } | null = null;
  const preferred = scene.selection?.kind === 'panel' ? scene.selection.id : null;
  for (const panel of Object.values(scene.layout.panels)) {
    const corners = panel.pieces.flat();
    const depths = corners.map((p) => p[axis]);
    const [low, high] = [Math.min(...depths), Math.max(...depths)];
    const isFront = Math.abs(depthOf(frame, panel.normal)) > 0.99;
    if (cutAt !== null && (isFront ? Math.abs(cutAt - low) > FRONT_M : cutAt < low || cutAt > high)) continue;
    if (isFront && (!alsoFront || (cutAt === null && panel.id !== preferred))) continue;
    if (!isFront && Math.abs(depthOf(frame, panel.normal)) > 0.3) continue;
    const depth = (cutAt ?? (low + high) / 2) * (frame.toViewer[axis] as number);
    const p = lift(frame, at, depth);
    const near = panel.pieces
      .map((piece) => nearestOnPolygon(piece, panel.normal, p))
      .reduce((a, b) => (farOf(a, p) <= farOf(b, p) ? a : b));
    const [u, v] = project(frame, near);
    const far = Math.hypot(u - at[0], v - at[1]) * scale - (panel.id === preferred ? 2 : 0);
    const reach = isFront ? 1 : PANEL_PX;
    if (far > reach || (best && best.far <= far)) continue;
    best = { panel, at: near, far };
  }
  return best ? { panel: best.panel, at: best.at } : null;
}

const farOf = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
/** A bulkhead this near to the section is what a press on it means, metres. */
const FRONT_M = 0.25;
/** A panel seen edge on is taken from this far, pixels. */
const PANEL_PX = 6;

/** What a new hole gets, metres: a 19 mm hose with its clamp room passes. */
const HOLE_M = 0.03;

export function makeHole(panel: Panel, at: Vec3): void {
  const { edit, select } = useApp.getState();
  if (edit(`Hole in ${panel.name}`, panelHoleAdded(placeOfPanel(panel), at, HOLE_M)))
    select({ kind: 'panel', id: panel.id });
}

/** A place to stand or kneel where the drawing was pressed: on the floor of the compartment under it. */
export function makeStanding(scene: Scene, { frame }: Looking, at: Vec2, areas: readonly PickArea[]): void {
  const { boat } = scene;
  const id = pickCompartment(at, areas)?.id ?? null;
  const own = id === null ? undefined : boat.compartments[id];
  const corners = own ? facesOf(own).flatMap((face) => face.polygon) : [];
  const middle = (k: 0 | 1 | 2): number =>
    (Math.min(...corners.map((p) => p[k])) + Math.max(...corners.map((p) => p[k]))) / 2;
  const placed: [number, number, number] = [...lift(frame, at, 0)] as [number, number, number];
  if (own) {
    placed[depthAxis(frame)] = middle(depthAxis(frame));
    placed[2] = Math.min(...corners.map((p) => p[2]));
  } else if (frame === FRAMES.section) placed[0] = scene.sectionX;
  addStanding(boat, placed, id);
}

export function addStanding(boat: Boat, at: Vec3, compartment: string | null): void {
  const { edit, select, setTool } = useApp.getState();
  const id = freeId(boat.standingPlaces, 'standing-place');
  const own = compartment === null ? undefined : boat.compartments[compartment];
  const name = own ? `In ${own.name}` : 'Standing place';
  const rounded = at.map((v) => Math.round(v * 100) / 100 + 0) as [number, number, number];
  const place = { name, at: rounded, posture: 'kneel' as const, ...(compartment === null ? {} : { compartment }) };
  if (!edit(`Add a standing place`, standingPlaceAdded(id, place))) return;
  select({ kind: 'standingPlace', id });
  setTool('select');
}

/** Forgets what is being drawn, held and marked. */
export const dropDrawing = (): boolean => {
  const { draft, held, marking: marked } = useDrawing.getState();
  useDrawing.setState({ ...NOTHING_DRAWN, proposed: null });
  return draft !== null || held !== null || marked !== null;
};
