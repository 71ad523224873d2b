import type { Vec2, Vec3 } from '../../base/vec';
import { type BoatRecipe, type Draft, freeId } from '../edits';
import type { Boat, Opening } from '../schema/boat';
import { axesIn, type DrawnFace, extentIn, inFace, onFace } from './faces';

export type MountingSurface = Boat['mountingSurfaces'][string];

/** What a drag on a face marks out: its middle, and its size along the level and the upright direction of the face, metres. */
export interface OnFace {
  readonly at: Vec3;
  readonly widthM: number;
  readonly heightM: number;
}

/** Least side of an opening or surface, metres: a finger goes through. */
const LEAST_M = 0.02;

/** A drag tells a size to a centimetre at best: finer figures would look like a reading. */
const DRAWN_STEP_M = 0.01;
const drawnSize = (sizeM: number): number => Math.round(Math.round(sizeM / DRAWN_STEP_M) * DRAWN_STEP_M * 1e6) / 1e6;

/** The rectangle between two points of a face, or of a size about a point; kept within the face's bounds. */
export function markedOn(face: DrawnFace, from: Vec3, to: Vec3, least: Vec2 = [LEAST_M, LEAST_M]): OnFace {
  const { low, high } = extentIn(face);
  const a = inFace(face, from);
  const b = inFace(face, to);
  const range = ([0, 1] as const).map((k): Vec2 => {
    const size = Math.min(high[k] - low[k], Math.max(drawnSize(Math.abs(a[k] - b[k])), least[k]));
    const middle = (a[k] + b[k]) / 2;
    const centre = Math.min(high[k] - size / 2, Math.max(low[k] + size / 2, middle));
    return [centre, size];
  });
  const [[u, width], [v, height]] = range as [Vec2, Vec2];
  return { at: onFace(face, [u, v]), widthM: width, heightM: height };
}

const point = (p: Vec3): [number, number, number] => [p[0] + 0, p[1] + 0, p[2] + 0];

/** An opening in a face of a compartment. Its height runs along the upright direction of the face. */
export function openingIn(
  face: DrawnFace,
  marked: OnFace,
  words: Pick<Opening, 'name' | 'compartment' | 'to'>,
): Opening {
  const [, up] = axesIn(face.normal);
  return {
    ...words,
    at: point(marked.at),
    normal: point(face.normal),
    up: point(up),
    widthM: marked.widthM,
    heightM: marked.heightM,
    shape: 'rectangle',
    how: 'liftOut',
    moveFirst: [],
    // Drawn, not taken with a rule: the owner says so when it was.
    grade: 'taped',
  };
}

/** A face of a compartment that something can be screwed to. */
export function surfaceOn(face: DrawnFace, marked: OnFace, compartment: string): MountingSurface {
  return {
    compartment,
    at: point(marked.at),
    normal: point([-face.normal[0], -face.normal[1], -face.normal[2]]),
    widthM: marked.widthM,
    heightM: marked.heightM,
    material: 'ply',
    thicknessM: 0.012,
    behind: 'unknown',
  };
}

/** Adds an opening under the next free id. */
export const openingAdded =
  (opening: Opening): BoatRecipe =>
  (boat) => {
    boat.openings[freeId(boat.openings, `${opening.compartment}-opening`)] = copyOf(opening);
  };

export const surfaceAdded =
  (surface: MountingSurface): BoatRecipe =>
  (boat) => {
    boat.mountingSurfaces[freeId(boat.mountingSurfaces, `${surface.compartment}-surface`)] = copyOf(surface);
  };

/** Adds a place where a person stands, sits or kneels. */
export const standingPlaceAdded =
  (id: string, place: Boat['standingPlaces'][string]): BoatRecipe =>
  (boat) => {
    boat.standingPlaces[id] = copyOf(place);
  };

const copyOf = <T>(value: T): Draft<T> => JSON.parse(JSON.stringify(value)) as Draft<T>;
