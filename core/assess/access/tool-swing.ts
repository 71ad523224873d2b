import * as portable from '../../base/portable';
import { along, cross, degrees, dot, norm, radians, scale, subtract, unit, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { smaller, TOUCH_M } from '../../shape/space/contact';
import { convexOf } from '../../shape/space/convex';
import { areApart } from '../../shape/space/convex-distance';
import { HULL } from '../../shape/space/free-depth';
import { SolidPack } from '../../shape/space/kernel';
import { linesOver } from '../../shape/space/overlap';
import type { BoxSolid, CylinderSolid, Solid } from '../../shape/space/solids';
import { openingFrame } from '../../shape/space/ways-in';
import { byCount, type Met, type Named, obstructionsIn } from './in-the-way';
import type { Obstruction } from './reach/types';

/** Room for knuckles at the end of a handle and over its head (from memory, design handbooks of maintainability), metres. */
const KNUCKLES_M = 0.045;
/** A handle with the fingers about it, across the handle in the plane of its swing (from memory), metres. */
const HANDLE_WIDE_M = 0.03;
/** Opening for a screwdriver whose hand turns 180 degrees: 107 x 117 mm (from memory, as above): the wider across, metres. */
const DRIVER_HAND_M = 0.117;
/** Length of its handle, and half the thickness of its blade, metres. */
const DRIVER_HANDLE_M = 0.1;
const DRIVER_BLADE_M = 0.006;
/** Spokes of a full turn; the ends of a free arc are then found to an eighth of one. */
const SPOKES = 96;
const FINER = 8;
/** Spokes drawn of an arc are about this far from one another, degrees. */
const DRAWN_EVERY_DEG = 15;

/** A tool on a nut, screw, bowl or spindle. */
export interface TurnedTool {
  /** A driver stands on the axis; a spanner swings about it on the side of whoever works, a strap to both sides of the hub. */
  readonly kind: 'driver' | 'spanner' | 'strap';
  readonly hub: Vec3;
  /** Unit: from the hub to whoever works. */
  readonly axis: Vec3;
  /** Radius that it sweeps, knuckles included; of a driver its whole length with the hand, metres. */
  readonly lengthM: number;
  /** Thickness of its head along the axis, metres. */
  readonly headM: number;
  readonly neededDeg: number;
}

export interface ToolSwing {
  readonly isFree: boolean;
  /** Longest arc that is free, degrees; of a driver 360 or 0. */
  readonly freeDeg: number;
  readonly neededDeg: number;
  /** Middle of the grip at both ends and in the middle of the arc that is used, and the unit vector of the handle there. */
  readonly grips: readonly { readonly at: Vec3; readonly handle: Vec3 }[];
  /** Where the hand comes from, unit: what stands off the axis. */
  readonly axis: Vec3;
  /** What stands in the circle, by the number of spokes that it stops. */
  readonly blockers: readonly Met[];
  readonly swept: readonly Solid[];
}

/** Angle through which a tool can be turned without meeting anything, against what it needs to take hold again. */
export function swingOf(tool: TurnedTool, around: readonly Obstruction[], hull: HullSurface | null = null): ToolSwing {
  // The room of a tool is no farther from its hub than this in any direction.
  const outM = tool.lengthM + tool.headM + KNUCKLES_M + HANDLE_WIDE_M;
  const { hub } = tool;
  const obstructions = obstructionsIn(
    around,
    [hub[0] - outM, hub[1] - outM, hub[2] - outM],
    [hub[0] + outM, hub[1] + outM, hub[2] + outM],
  );
  return tool.kind === 'driver'
    ? inLine(tool, nearOf(obstructions, hull))
    : swung(tool, nearOf(inCircle(tool, obstructions), hull));
}

const nearOf = (obstructions: readonly Obstruction[], hull: HullSurface | null): Near => ({
  obstructions,
  pack: new SolidPack(obstructions.map(({ solid }) => solid)),
  hull,
});

/** What meets the flat drum that holds all places of the tool: nothing else stops any of them. */
function inCircle(tool: TurnedTool, obstructions: readonly Obstruction[]): readonly Obstruction[] {
  const step = (2 * Math.PI) / SPOKES;
  const { half, centre } = spokeOf(tool, 0, step / 2);
  const lift = dot(subtract(centre, tool.hub), tool.axis);
  const drum: CylinderSolid = {
    type: 'cylinder',
    id: 'tool/circle',
    owner: 'tool',
    label: '',
    layer: 'sweep',
    from: along(tool.hub, tool.axis, lift - half[2]),
    to: along(tool.hub, tool.axis, lift + half[2]),
    radius: portable.hypot(2 * half[0], half[1]),
  };
  const body = convexOf(drum);
  return obstructions.filter(({ solid }) => !areApart(body, convexOf(solid)));
}

function swung(tool: TurnedTool, near: Near): ToolSwing {
  const step = (2 * Math.PI) / SPOKES;
  // Wide enough for all between half a step before and half a step behind.
  const stops = Array.from({ length: SPOKES }, (_, k) => metBy(spokeOf(tool, k * step, step / 2), near));
  const isFree = stops.map((met) => met.length === 0);
  const arc = longestArc(isFree, step, (angle, halfStep) => metBy(spokeOf(tool, angle, halfStep), near).length === 0);
  const freeDeg = arc ? degrees(arc.to - arc.from) : 0;
  const used = arc ? usedOf(arc, radians(tool.neededDeg)) : null;
  const gripM = Math.max(0, tool.lengthM - 2 * KNUCKLES_M);
  const ends = used ? [used.from, (used.from + used.to) / 2, used.to] : [];
  const drawn = used ? Math.max(1, Math.ceil(degrees(used.to - used.from) / DRAWN_EVERY_DEG)) : 0;
  return {
    isFree: freeDeg >= tool.neededDeg - 1e-9,
    freeDeg,
    neededDeg: tool.neededDeg,
    axis: tool.axis,
    grips: ends.map((angle) => {
      const handle = spokeWay(tool.axis, angle);
      return { at: along(along(tool.hub, handle, gripM), tool.axis, tool.headM / 2), handle };
    }),
    blockers: byCount(stops),
    swept: used
      ? Array.from({ length: drawn + 1 }, (_, k) => spokeOf(tool, used.from + ((used.to - used.from) * k) / drawn, 0))
      : [],
  };
}

/** A driver, its hand and the knuckles behind it, straight off the screw. */
function inLine(tool: TurnedTool, near: Near): ToolSwing {
  const { hub, axis, lengthM } = tool;
  const handle = along(hub, axis, Math.max(0, lengthM - KNUCKLES_M - DRIVER_HANDLE_M));
  const piece = (id: string, from: Vec3, to: Vec3, radius: number): CylinderSolid => ({
    type: 'cylinder',
    id,
    owner: 'tool',
    label: '',
    layer: 'sweep',
    from,
    to,
    radius,
  });
  const swept = [
    piece('tool/hand', handle, along(hub, axis, lengthM), DRIVER_HAND_M / 2),
    piece('tool/blade', along(hub, axis, tool.headM), handle, DRIVER_BLADE_M),
  ];
  const stops = swept.map((solid) => metBy(solid, near));
  const isFree = stops.every((met) => met.length === 0);
  return {
    isFree,
    freeDeg: isFree ? 360 : 0,
    neededDeg: tool.neededDeg,
    axis,
    grips: [{ at: along(handle, axis, DRIVER_HANDLE_M / 2), handle: axis }],
    blockers: byCount(stops),
    swept,
  };
}

/** Directions about an axis from one that is mirrored with the boat. */
function spokeWay(axis: Vec3, angle: number): Vec3 {
  const { up, across } = openingFrame({ normal: [...axis] });
  return along(scale(up, portable.cos(angle)), across, portable.sin(angle));
}

/** The handle at an angle, with the knuckles, grown so that it covers itself turned by so much either way. */
function spokeOf(tool: TurnedTool, angle: number, eitherWay: number): BoxSolid {
  const way = spokeWay(tool.axis, angle);
  const [cos, sin] = [portable.cos(eitherWay), portable.sin(eitherWay)];
  const outM = tool.lengthM;
  const farM = outM + (HANDLE_WIDE_M / 2) * sin;
  const nearM = -(HANDLE_WIDE_M / 2) * sin;
  const deepM = tool.headM + KNUCKLES_M;
  return {
    type: 'box',
    id: 'tool',
    owner: 'tool',
    label: '',
    layer: 'sweep',
    centre: along(along(tool.hub, way, (farM + nearM) / 2), tool.axis, tool.kind === 'strap' ? 0 : deepM / 2),
    half: [(farM - nearM) / 2, (HANDLE_WIDE_M / 2) * cos + outM * sin, deepM / 2],
    axes: [way, cross(tool.axis, way), tool.axis],
  };
}

/** Where a free arc begins and ends, radians. */
interface Arc {
  readonly from: number;
  readonly to: number;
}

/** Longest run of free spokes, its ends then moved out by finer spokes; each free spoke stands for all within half a step of it. */
function longestArc(
  isFree: readonly boolean[],
  step: number,
  isFreeAt: (angle: number, eitherWay: number) => boolean,
): Arc | null {
  const count = isFree.length;
  if (isFree.every(Boolean)) return { from: 0, to: 2 * Math.PI };
  const fine = step / FINER;
  const beyond = (end: number, sign: 1 | -1): number => {
    let steps = 0;
    while (steps < FINER && isFreeAt(end + sign * fine * (steps + 0.5), fine / 2)) steps += 1;
    return end + sign * fine * steps;
  };
  let best: Arc | null = null;
  for (let start = 0; start < count; start += 1) {
    if (!isFree[start] || isFree[(start + count - 1) % count]) continue;
    let length = 1;
    while (isFree[(start + length) % count]) length += 1;
    const arc = { from: beyond((start - 0.5) * step, -1), to: beyond((start + length - 0.5) * step, 1) };
    if (!best || arc.to - arc.from > best.to - best.from + 1e-9) best = arc;
  }
  return best;
}

/** The middle of an arc, as much of it as is needed. */
function usedOf(arc: Arc, needed: number): Arc {
  const middle = (arc.from + arc.to) / 2;
  const half = Math.min(needed, arc.to - arc.from) / 2;
  return { from: middle - half, to: middle + half };
}

interface Near {
  readonly obstructions: readonly Obstruction[];
  readonly pack: SolidPack;
  readonly hull: HullSurface | null;
}

/** What a solid overlaps; the hull too. Touching is no overlap. */
function metBy(solid: BoxSolid | CylinderSolid, { obstructions, pack, hull }: Near): Named[] {
  const { from, to, inM, outM } = coreOf(solid);
  let drawnIn: Solid | null = null;
  const met = obstructions.filter(({ solid: other }, k) => {
    const gapM = pack.distance(k, from[0], from[1], from[2], to[0], to[1], to[2], outM);
    // Nothing of the solid is farther than this from its middle line, and all that is near to the line is inside it.
    if (gapM >= outM) return false;
    if (gapM < inM - TOUCH_M) return true;
    drawnIn ??= smaller(solid, TOUCH_M);
    return !areApart(convexOf(drawnIn), convexOf(other));
  });
  if (!hull || hull.clearance(from, to, outM) >= outM) return met;
  const isOut = linesOver(smaller(solid, TOUCH_M)).some(([a, b]) => hull.clearance(a, b, TOUCH_M) < 0);
  return isOut ? [...met, HULL] : met;
}

/** A line along a solid such that a capsule of the inner radius about it lies within, and all of the solid within the outer. */
function coreOf(solid: BoxSolid | CylinderSolid): { from: Vec3; to: Vec3; inM: number; outM: number } {
  if (solid.type === 'cylinder') {
    const span = subtract(solid.to, solid.from);
    const inM = Math.min(solid.radius, norm(span) / 2);
    const way = unit(span);
    const [from, to] = [along(solid.from, way, inM), along(solid.to, way, -inM)];
    return { from, to, inM, outM: portable.hypot(inM, solid.radius) };
  }
  const [length, wide, deep] = solid.half;
  const inM = Math.min(length, wide, deep);
  const reach = length - inM;
  const [way] = solid.axes;
  return {
    from: along(solid.centre, way, -reach),
    to: along(solid.centre, way, reach),
    inM,
    outM: portable.hypot(inM, wide, deep),
  };
}
