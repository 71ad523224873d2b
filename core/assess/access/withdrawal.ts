import * as portable from '../../base/portable';
import { along, cross, dot, norm, radians, scale, subtract, unit, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { travelToContact } from '../../shape/space/contact';
import { convexOf } from '../../shape/space/convex';
import type { Blocker } from '../../shape/space/free-depth';
import { overlapWithHull } from '../../shape/space/overlap';
import type { Solid } from '../../shape/space/solids';
import { type InTheWay, sweepPast, turnedSolid } from '../../shape/space/sweep';
import { openingFrame } from '../../shape/space/ways-in';
import { inTheWay, obstructionsIn } from './in-the-way';
import type { Obstruction } from './reach/types';

export interface WithdrawalOptions {
  /** It may be tilted and taken out sideways where it does not come straight: a bowl, not an element. */
  readonly tiltOk: boolean;
  /** How far it must come straight before it can be tilted: a bowl out of its head, metres; default none. */
  readonly dropM?: number;
  /** How far it must go sideways then to be out; default its own width that way. */
  readonly sideM?: number;
  /** So much further is looked for room than it must go straight, metres; default none. */
  readonly beyondM?: number;
  readonly hull?: HullSurface | null;
}

/** How a bowl comes out that has no room to come straight. */
export interface TiltedWay {
  readonly dropM: number;
  readonly tiltDeg: number;
  /** Unit: the way it is taken out, and how far that way is free, looked at as far as is needed. */
  readonly sideways: Vec3;
  readonly sidewaysM: number;
}

export interface Withdrawal {
  readonly isOut: boolean;
  readonly how: 'straight' | 'tilted' | null;
  /** Straight travel that is free, at most what is asked for and looked for beyond; exact for boxes and cylinders. */
  readonly freeM: number;
  readonly lengthM: number;
  /** What stops the straight travel first, and where; beyond the length asked for too, where that is looked at. */
  readonly blocker: Blocker | null;
  /** What else keeps it from being tilted and taken out sideways; none where it comes out, or need not be tilted. */
  readonly beside: readonly Blocker[];
  readonly tilted: TiltedWay | null;
  /** The space that it goes through, to be drawn. */
  readonly swept: readonly Solid[];
}

/** Places at which it is tilted, between the least drop and where it is stopped. */
const DROPS = 5;
const SIDES = 8;
/** Tilts at which it is tried to be taken out, degrees. */
const TILT_STEP_DEG = 15;
const MOST_TILT_DEG = 75;
/** Copies drawn of what moves aslant are this far from one another, metres. */
const DRAWN_EVERY_M = 0.1;
/** Cosine from which a body goes along one of its own axes. */
const IS_ALONG = 1 - 1e-9;

/**
 * Whether a bowl, cartridge or element comes out: straight along `direction` (unit) by `lengthM`, or dropped as far as it goes, tilted and
 * taken out sideways. What belongs to the thing itself is left out by the caller; while it tilts, the head that it hung from is in its
 * way, as wide as itself.
 */
export function withdrawalOf(
  body: Solid,
  direction: Vec3,
  lengthM: number,
  around: readonly Obstruction[],
  options: WithdrawalOptions,
): Withdrawal {
  const hull = hullBefore(body, direction, lengthM, options.hull ?? null);
  const lookM = lengthM + (options.beyondM ?? 0);
  const near = nearTo(body, lookM + widest(body), around).map(inTheWay);
  const straight = sweepPast(near, hull, body, { kind: 'straight', direction, distanceM: lookM });
  const found = { freeM: straight.free, lengthM, blocker: straight.blocker, beside: [] };
  if (!straight.blocker || straight.free >= lengthM)
    return { ...found, isOut: true, how: 'straight', tilted: null, swept: sweptStraight(body, direction, lengthM) };
  const tilted = options.tiltOk ? tiltedWay(body, direction, straight.free, near, options) : null;
  return tilted
    ? { ...found, isOut: true, how: 'tilted', tilted: tilted.way, swept: tilted.swept }
    : {
        ...found,
        isOut: false,
        how: null,
        tilted: null,
        beside: options.tiltOk ? besideOf(body, direction, straight.free, near, options) : [],
        swept: sweptStraight(body, direction, straight.free),
      };
}

/** What stops it to each side, dropped as far as it must be, or as it goes: each once, in the order of the sides. */
function besideOf(
  body: Solid,
  direction: Vec3,
  freeM: number,
  near: readonly InTheWay[],
  { dropM = 0, sideM, hull = null }: WithdrawalOptions,
): readonly Blocker[] {
  const dropped = shifted(body, direction, Math.min(dropM, freeM));
  const met = new Map<string, Blocker>();
  for (const side of sidesOf(direction)) {
    const distanceM = sideM ?? reachAlong(body, side);
    const { blocker } = sweepPast(near, hull, dropped, { kind: 'straight', direction: side, distanceM });
    if (blocker && !met.has(blocker.owner)) met.set(blocker.owner, blocker);
  }
  return [...met.values()];
}

/** Directions square to one, all round. */
function sidesOf(direction: Vec3): readonly Vec3[] {
  const { up, across } = openingFrame({ normal: [...direction] });
  return Array.from({ length: SIDES }, (_, n) => {
    const angle = (2 * Math.PI * n) / SIDES;
    return along(scale(across, portable.cos(angle)), up, portable.sin(angle));
  });
}

/** What is let into the skin, as a log fitting is, comes inboard out of it: no hull is before what is clear of it half way and at the end. */
function hullBefore(body: Solid, direction: Vec3, lengthM: number, hull: HullSurface | null): HullSurface | null {
  if (!hull) return null;
  const isOutside = (byM: number): boolean => overlapWithHull(shifted(body, direction, byM), hull) !== null;
  return isOutside(0) && !isOutside(lengthM / 2) && !isOutside(lengthM) ? null : hull;
}

const widest = (body: Solid): number => {
  const { low, high } = convexOf(body);
  return portable.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
};

function nearTo(body: Solid, reachM: number, around: readonly Obstruction[]): readonly Obstruction[] {
  const { low, high } = convexOf(body);
  return obstructionsIn(
    around,
    [low[0] - reachM, low[1] - reachM, low[2] - reachM],
    [high[0] + reachM, high[1] + reachM, high[2] + reachM],
  );
}

function tiltedWay(
  body: Solid,
  direction: Vec3,
  freeM: number,
  near: readonly InTheWay[],
  options: WithdrawalOptions,
): { readonly way: TiltedWay; readonly swept: readonly Solid[] } | null {
  const least = options.dropM ?? 0;
  if (freeM < least) return null;
  const hull = options.hull ?? null;
  const others = [...near, headOf(body, direction)];
  const sides = sidesOf(direction);
  for (let k = 0; k < DROPS; k += 1) {
    const dropM = least + ((freeM - least) * k) / (DROPS - 1);
    const dropped = shifted(body, direction, dropM);
    const room = new SideRoom(others, hull);
    for (let tiltDeg = 0; tiltDeg <= MOST_TILT_DEG; tiltDeg += TILT_STEP_DEG) {
      for (const side of sides) {
        const needM = options.sideM ?? reachAlong(body, side);
        // Upright, about which rim is no question.
        for (const { about, axis } of pivotsOf(dropped, direction, side).slice(0, tiltDeg === 0 ? 1 : 2)) {
          const tilted = turnedSolid(dropped, about, axis, radians(tiltDeg));
          const sideways = [side, unit(along(side, direction, 1))].find((way) => room.isFree(tilted, way, needM));
          if (!sideways) continue;
          const turn = sweepPast(others, hull, dropped, { kind: 'turn', about, axis, angleDeg: tiltDeg });
          if (turn.blocker) continue;
          return {
            way: { dropM, tiltDeg, sideways, sidewaysM: needM },
            swept: [
              ...sweptStraight(body, direction, dropM),
              turnedSolid(dropped, about, axis, radians(tiltDeg / 2)),
              tilted,
              shifted(tilted, sideways, needM),
            ],
          };
        }
      }
    }
  }
  return null;
}

/** Asks of many ways whether they are free: what stopped the last is likely to stop the next. */
class SideRoom {
  private likely = 0;

  constructor(
    private readonly others: readonly InTheWay[],
    private readonly hull: HullSurface | null,
  ) {}

  isFree(body: Solid, direction: Vec3, distanceM: number): boolean {
    for (let n = 0; n < this.others.length; n += 1) {
      const k = (this.likely + n) % this.others.length;
      const { body: other } = this.others[k] as InTheWay;
      if (!travelToContact(body, other, direction, distanceM)) continue;
      this.likely = k;
      return false;
    }
    return !this.hull || sweepPast([], this.hull, body, { kind: 'straight', direction, distanceM }).blocker === null;
  }
}

/** What the body hung from: as wide as itself, above it. */
function headOf(body: Solid, direction: Vec3): InTheWay {
  const solid = shifted(body, direction, -reachAlong(body, direction));
  return inTheWay({ owner: body.owner, label: body.label, solid });
}

/** About the lower rim on the side it comes out, top first; and about the upper rim on the other side, bottom first. */
function pivotsOf(body: Solid, direction: Vec3, side: Vec3): readonly { readonly about: Vec3; readonly axis: Vec3 }[] {
  const { centre } = convexOf(body);
  const [deep, wide] = [reachAlong(body, direction) / 2, reachAlong(body, side) / 2];
  const axis = cross(direction, side);
  return [
    { about: along(along(centre, direction, deep), side, wide), axis: scale(axis, -1) },
    { about: along(along(centre, direction, -deep), side, -wide), axis },
  ];
}

/** Extent of a body along a direction. */
function reachAlong(body: Solid, d: Vec3): number {
  const { support } = convexOf(body);
  return dot(subtract(support(d), support(scale(d, -1))), d);
}

const shifted = (body: Solid, direction: Vec3, by: number): Solid =>
  body.type === 'box'
    ? { ...body, centre: along(body.centre, direction, by) }
    : { ...body, from: along(body.from, direction, by), to: along(body.to, direction, by) };

/** What a body sweeps along a straight way: one solid where it goes along itself, copies of it otherwise. */
function sweptStraight(body: Solid, direction: Vec3, lengthM: number): readonly Solid[] {
  if (lengthM <= 0) return [body];
  if (body.type === 'box') {
    const k = body.axes.findIndex((axis) => Math.abs(dot(axis, direction)) > IS_ALONG);
    if (k >= 0) {
      const half = body.half.map((h, i) => (i === k ? h + lengthM / 2 : h)) as unknown as Vec3;
      return [{ ...body, centre: along(body.centre, direction, lengthM / 2), half }];
    }
  } else {
    const span = subtract(body.to, body.from);
    const cosine = norm(span) > 1e-9 ? dot(unit(span), direction) : 0;
    if (cosine > IS_ALONG) return [{ ...body, to: along(body.to, direction, lengthM) }];
    if (cosine < -IS_ALONG) return [{ ...body, from: along(body.from, direction, lengthM) }];
  }
  const copies = Math.ceil(lengthM / DRAWN_EVERY_M);
  return Array.from({ length: copies + 1 }, (_, k) => shifted(body, direction, (lengthM * k) / copies));
}
