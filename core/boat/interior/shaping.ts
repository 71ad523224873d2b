import * as portable from '../../base/portable';
import { along, type Vec2, type Vec3 } from '../../base/vec';
import type { BoatRecipe, Draft } from '../edits';
import type { Boat, Compartment } from '../schema/boat';
import { carryAlong, carryWhole } from './carry';
import { type FaceKey, faceOfKey, sideOf } from './faces';
import {
  directionAsDrawn,
  directionInBoat,
  drawnValues,
  fromBoat,
  intoBoat,
  type Prismatic,
  redrawn,
  shiftedAsDrawn,
} from './placing';

/** Sides that meet at a flatter angle than this (its sine) cannot be slid along: their corner moves square to the face. */
const FLAT = 0.05;

export interface FaceMove {
  readonly id: string;
  readonly key: FaceKey;
  /** Outwards, metres. */
  readonly by: number;
}

/** Adds a compartment; defaults are filled in by the check of the edit. */
export const compartmentAdded =
  (
    id: string,
    compartment: Pick<Compartment, 'name' | 'view' | 'outline' | 'rangeM'> & Partial<Compartment>,
  ): BoatRecipe =>
  (boat) => {
    const added: Compartment = { kind: 'locker', yawDeg: 0, grade: 'taped', ...compartment };
    boat.compartments[id] = JSON.parse(JSON.stringify(added)) as Draft<Compartment>;
  };

/**
 * Moves faces square to themselves; the sides beside a moved side are lengthened or cut along their own planes. What hangs on
 * the faces goes with them.
 */
export const facesMoved =
  (moves: readonly FaceMove[]): BoatRecipe =>
  (boat) => {
    const carried = new Set<string>();
    for (const { id, key, by } of moves) {
      reshaped(boat, id, (own) => withFaceMoved(own, key, by), carried);
    }
  };

/** Moves one corner of the outline to the place, in the boat, that its point at the low end of the range shall have. */
export const cornerMoved =
  (id: string, corner: number, to: Vec3): BoatRecipe =>
  (boat) =>
    reshaped(boat, id, (own) => {
      const [uv] = drawnValues(own.view, fromBoat(own, to));
      return withOutline(
        own,
        own.outline.map((p, i): Vec2 => (i === corner ? uv : p)),
      );
    });

/** Adds a corner in the side that starts at corner `side`; without a place, in its middle. */
export const cornerAdded =
  (id: string, side: number, at?: Vec3): BoatRecipe =>
  (boat) =>
    reshaped(boat, id, (own) => {
      const [a, b] = [own.outline[side] as Vec2, own.outline[(side + 1) % own.outline.length] as Vec2];
      const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      const corner = at === undefined ? middle : drawnValues(own.view, fromBoat(own, at))[0];
      return withOutline(own, [...own.outline.slice(0, side + 1), corner, ...own.outline.slice(side + 1)]);
    });

/** Takes a corner out; a triangle keeps its three. */
export const cornerRemoved =
  (id: string, corner: number): BoatRecipe =>
  (boat) =>
    reshaped(boat, id, (own) =>
      own.outline.length <= 3
        ? own
        : withOutline(
            own,
            own.outline.filter((_, i) => i !== corner),
          ),
    );

/** Shifts a whole compartment with all that hangs on it. */
export const compartmentShifted =
  (id: string, by: Vec3): BoatRecipe =>
  (boat) => {
    const own = boat.compartments[id];
    if (!own) return;
    carryWhole(
      boat,
      id,
      own as Compartment,
      (p) => along(p, by, 1),
      (d) => d,
    );
    take(own, shiftedAsDrawn(own as Compartment, by));
  };

/** Turns a compartment about the vertical through its middle, with all that hangs on it. */
export const compartmentTurned =
  (id: string, yawDeg: number): BoatRecipe =>
  (boat) => {
    const own = boat.compartments[id];
    if (!own || own.yawDeg === yawDeg) return;
    const before: Prismatic = JSON.parse(JSON.stringify(own));
    const after: Prismatic = { ...before, yawDeg };
    const step: Prismatic = { ...before, yawDeg: yawDeg - before.yawDeg };
    carryWhole(
      boat,
      id,
      own as Compartment,
      (p) => intoBoat(after, fromBoat(before, p)),
      (d) => directionInBoat(step, d),
    );
    own.yawDeg = yawDeg;
  };

/** Changes the shape of one compartment and takes along what hangs on its faces. A shape that adds or drops sides takes nothing. */
function reshaped(
  boat: Draft<Boat>,
  id: string,
  change: (own: Compartment) => Omit<Prismatic, 'yawDeg'>,
  carried = new Set<string>(),
): void {
  const own = boat.compartments[id];
  if (!own) return;
  const before: Compartment = JSON.parse(JSON.stringify(own));
  const next = change(before);
  const after: Compartment = { ...before, ...redrawn(before, next) };
  if (after.outline.length === before.outline.length) carryAlong(boat, id, before, after, carried);
  take(own, after);
}

function take(own: Draft<Compartment>, next: Omit<Prismatic, 'yawDeg'>): void {
  own.view = next.view;
  own.outline = next.outline.map((p): [number, number] => [p[0], p[1]]);
  own.rangeM = [next.rangeM[0], next.rangeM[1]];
}

const withOutline = (own: Prismatic, outline: readonly Vec2[]): Omit<Prismatic, 'yawDeg'> => ({
  view: own.view,
  outline: outline.map((p): [number, number] => [p[0], p[1]]),
  rangeM: own.rangeM,
});

/** The compartment with one face moved outwards by some metres. */
export function withFaceMoved(own: Prismatic, key: FaceKey, by: number): Omit<Prismatic, 'yawDeg'> {
  const [from, to] = own.rangeM;
  if (key === 'low') return { ...withOutline(own, own.outline), rangeM: [from - by, to] };
  if (key === 'high') return { ...withOutline(own, own.outline), rangeM: [from, to + by] };
  const side = sideOf(key) ?? 0;
  const face = faceOfKey(own, key);
  if (!face) return own;
  const outward = drawnValues(own.view, directionAsDrawn(own, face.normal))[0];
  const n = own.outline.length;
  const corner = (i: number): Vec2 => own.outline[(i + n) % n] as Vec2;
  const [a, b] = [corner(side), corner(side + 1)];
  const moved = (p: Vec2, beyondIt: Vec2): Vec2 => {
    // Along the neighbouring side, so that its plane stays; a side that runs on nearly straight gives no hold.
    const [dx, dy] = [p[0] - beyondIt[0], p[1] - beyondIt[1]];
    const length = portable.hypot(dx, dy);
    const slope = (dx * outward[0] + dy * outward[1]) / Math.max(length, 1e-12);
    if (Math.abs(slope) < FLAT) return [p[0] + outward[0] * by, p[1] + outward[1] * by];
    return [p[0] + (dx / length) * (by / slope), p[1] + (dy / length) * (by / slope)];
  };
  const newA = moved(a, corner(side - 1));
  const newB = moved(b, corner(side + 2));
  return withOutline(
    own,
    own.outline.map((p, i) => (i === side ? newA : i === (side + 1) % n ? newB : p)),
  );
}
