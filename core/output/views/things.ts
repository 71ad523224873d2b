import { type Axis, dot, type Pose, pointInBoat, rotationOf, type Vec2, type Vec3 } from '../../base/vec';
import { halfOf } from '../../boat/catalogue/face-places';
import type { Thing } from '../../boat/schema/boat';
import { servicesWithRoom } from '../../shape/space/things';
import { area, type Bounds2, boundsOf, type Primitive, project, type Role, stroke, type ViewFrame } from './drawing';
import { keepOutOutline, serviceOutline, silhouetteOf } from './envelope';
import type { Ring } from './polygons';
import { FACE_AXES, faceSymbol } from './symbols';

/** A thing on paper: what it covers, and its strokes. */
export interface ThingLines {
  readonly id: string;
  /** What the true envelope covers: for touching, framing and measuring. */
  readonly envelope: Ring;
  readonly bounds: Bounds2;
  readonly strokes: readonly Primitive[];
}

/** Joinery, soft things and structure are drawn lighter than equipment. */
const LIGHT = new Set<Thing['kind']>([
  'joinery',
  'mastStep',
  'keelBolts',
  'chainplate',
  'emergencyTiller',
  'sink',
  'head',
  'exhaust',
]);

export function thingLines(
  id: string,
  thing: Pick<Thing, 'kind' | 'shape'>,
  pose: Pose,
  frame: ViewFrame,
  of: 'part' | 'fixture',
): ThingLines {
  const envelope = silhouetteOf(thing.shape, pose, frame);
  const bounds = boundsOf(envelope);
  if (!bounds) throw new Error(`thingLines: the envelope of ${id} covers nothing`);
  const role: Role = LIGHT.has(thing.kind) ? 'joinery' : of;
  const { axis, side, slanted } = facing(pose, frame);
  const symbol = faceSymbol(thing, axis);
  const onFace = (points: readonly Vec2[]) =>
    points.map((p) => project(frame, pointInBoat(pose, onAxis(thing, axis, side, p))));
  // Aslant, a body drawn on one face would float inside the box: the whole envelope is the truth then.
  const outline = symbol.outline && !slanted ? onFace(symbol.outline) : envelope;
  return {
    id,
    envelope,
    bounds,
    strokes: [
      area(`${id}/body`, id, role, [outline]),
      ...symbol.strokes.map((s, i) => stroke(`${id}/symbol${i}`, id, s.role, onFace(s.points), s.closed)),
    ],
  };
}

/** Local axis and side that looks most at the eye; slanted when no axis looks straight at it. */
function facing(pose: Pose, frame: ViewFrame): { axis: Axis; side: 1 | -1; slanted: boolean } {
  const r = rotationOf(pose);
  let axis: Axis = 0;
  let best = 0;
  for (const k of [0, 1, 2] as const) {
    const towards = dot(r[k], frame.toViewer);
    // The margin keeps the choice the same for things that are turned by exactly half a quarter.
    if (Math.abs(towards) > Math.abs(best) + 1e-9) {
      best = towards;
      axis = k;
    }
  }
  return { axis, side: best < 0 ? -1 : 1, slanted: Math.abs(best) < 0.995 };
}

function onAxis(thing: Pick<Thing, 'shape'>, axis: Axis, side: 1 | -1, [u, v]: Vec2): Vec3 {
  const [first, second] = FACE_AXES[axis];
  const local: [number, number, number] = [0, 0, 0];
  local[axis] = side * halfOf(thing.shape)[axis];
  local[first] = u;
  local[second] = v;
  return local;
}

/** Spaces that a fixture or part moves through, and those its service asks for. */
export function clearanceLines(
  id: string,
  thing: Pick<Thing, 'sweeps' | 'services'>,
  pose: Pose,
  frame: ViewFrame,
): Primitive[] {
  return [
    ...Object.entries(thing.sweeps).map(([key, space]) =>
      stroke(`${id}/sweep/${key}`, id, 'sweep', keepOutOutline(space, pose, frame), true),
    ),
    ...Object.entries(servicesWithRoom(thing)).map(([key, service]) =>
      stroke(`${id}/service/${key}`, id, 'service', serviceOutline(service, pose, frame), true),
    ),
  ];
}
