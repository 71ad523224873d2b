import { dot, scale, type Vec3 } from '../../base/vec';
import type { Draft } from '../edits';
import type { Boat, Compartment } from '../schema/boat';
import { beyond, type DrawnFace, facesOf, liesOn } from './faces';

/** A record this near to a face, and no further beside it, hangs on it. Metres. */
const HANGS_WITHIN_M = 0.1;
const PARALLEL = 0.95;

type Point = [number, number, number];

/** A record that hangs on a face of a compartment: its points follow, and its direction turns with the face. */
interface Hanging {
  readonly key: string;
  readonly at: Vec3;
  /** Of an opening or a surface; a panel's record has none. */
  readonly normal: Vec3 | null;
  follow(move: (p: Vec3) => Point, turned: Point | null): void;
}

const pointOf = (p: Vec3): Point => [p[0], p[1], p[2]];

/** Records of the boat that may hang on a face of this compartment. */
function hangingOn(boat: Draft<Boat>, id: string): Hanging[] {
  const found: Hanging[] = [];
  for (const [key, record] of Object.entries(boat.panels)) {
    if (record.setAside || !record.between.includes(id)) continue;
    found.push({
      key: `panels ${key}`,
      at: pointOf(record.near),
      normal: null,
      follow: (move) => {
        record.near = move(record.near);
        for (const hole of Object.values(record.holes)) hole.at = move(hole.at);
      },
    });
  }
  for (const [name, arrangement] of Object.entries(boat.arrangements)) {
    for (const [key, hole] of Object.entries(arrangement.newHoles)) {
      if (!hole.between.includes(id)) continue;
      const follow = (move: (p: Vec3) => Point): void => {
        hole.at = move(hole.at);
      };
      found.push({ key: `newHoles ${name} ${key}`, at: pointOf(hole.at), normal: null, follow });
    }
  }
  for (const [group, records] of [
    ['openings', boat.openings],
    ['mountingSurfaces', boat.mountingSurfaces],
  ] as const) {
    for (const [key, record] of Object.entries(records)) {
      const isIts = record.compartment === id || ('to' in record && record.to === id);
      if (!isIts) continue;
      found.push({
        key: `${group} ${key}`,
        at: pointOf(record.at),
        normal: pointOf(record.normal),
        follow: (move, turned) => {
          record.at = move(record.at);
          if (turned) record.normal = turned;
        },
      });
    }
  }
  return found;
}

/**
 * Panels' records, holes, openings and mounting surfaces on the faces of a compartment go where its faces go: each keeps its
 * distance from its face and turns with it. `carried` names what another compartment's face has taken along already.
 */
export function carryAlong(
  boat: Draft<Boat>,
  id: string,
  before: Compartment,
  after: Compartment,
  carried: Set<string>,
): void {
  const faces = facesOf(before);
  const moved = new Map(facesOf(after).map((face) => [face.key, face]));
  for (const one of hangingOn(boat, id)) {
    if (carried.has(one.key)) continue;
    const face = faceUnder(faces, one);
    const to = face ? moved.get(face.key) : undefined;
    if (!face || !to) continue;
    const isSame = dot(face.normal, to.normal) > 1 - 1e-12 && Math.abs(to.offset - face.offset) < 1e-9;
    if (isSame) continue;
    const turns = one.normal !== null && dot(face.normal, to.normal) < 1 - 1e-12;
    const sense = one.normal && dot(one.normal, face.normal) < 0 ? -1 : 1;
    one.follow((p) => ontoFace(face, to, p), turns ? pointOf(scale(to.normal, sense)) : null);
    carried.add(one.key);
  }
}

function faceUnder(faces: readonly DrawnFace[], { at, normal }: Hanging): DrawnFace | null {
  let best: DrawnFace | null = null;
  for (const face of faces) {
    if (normal && Math.abs(dot(normal, face.normal)) < PARALLEL) continue;
    if (Math.abs(beyond(face, at)) > HANGS_WITHIN_M || !liesOn(face, at, HANGS_WITHIN_M)) continue;
    if (!best || Math.abs(beyond(face, at)) < Math.abs(beyond(best, at))) best = face;
  }
  return best;
}

/** The point as far before the new face as it was before the old one. */
function ontoFace(face: DrawnFace, to: DrawnFace, p: Vec3): Point {
  const by = beyond(face, p) - beyond(to, p);
  return [p[0] + to.normal[0] * by, p[1] + to.normal[1] * by, p[2] + to.normal[2] * by];
}

/** All that hangs on a compartment goes through one motion of the whole: a shift, a turn, a mirror. */
export function carryWhole(
  boat: Draft<Boat>,
  id: string,
  before: Compartment,
  move: (p: Vec3) => Vec3,
  turn: (direction: Vec3) => Vec3,
): void {
  const faces = facesOf(before);
  for (const one of hangingOn(boat, id)) {
    if (!faceUnder(faces, one)) continue;
    one.follow((p) => pointOf(move(p)), one.normal ? pointOf(turn(one.normal)) : null);
  }
  for (const opening of Object.values(boat.openings)) {
    if (opening.compartment === id && opening.up) opening.up = pointOf(turn(opening.up));
  }
  movePillows(boat.compartments[id], move);
}

/** Where heads lie goes with the whole of a berth, not with one of its sides. */
export function movePillows(berth: Draft<Compartment> | undefined, move: (p: Vec3) => Vec3): void {
  if (berth?.pillows) berth.pillows = berth.pillows.map((pillow) => pointOf(move(pillow)));
}
