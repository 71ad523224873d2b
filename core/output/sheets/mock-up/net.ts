import * as portable from '../../../base/portable';
import { AXES, type Axis, along, cross, dot, scale, UNIT_AXES, type Vec2, type Vec3 } from '../../../base/vec';
import { halfOf } from '../../../boat/catalogue/face-places';
import type { Shape } from '../../../boat/schema/boat';
import { axisIndex } from '../../views/envelope';
import { circle, rectangle } from '../marks';

/** Local directions of a thing's own frame that its faces look: forward, aft, port, starboard, up, down. */
export type Way = '+x' | '-x' | '+y' | '-y' | '+z' | '-z';

/** A face of the envelope, laid flat with its outer side up; millimetres of the net, y down. */
export interface NetFace {
  /** `round` is the mantle of a cylinder. */
  readonly way: Way | 'round';
  readonly outline: readonly Vec2[];
  /** Room for words inside the outline. */
  readonly room: { readonly low: Vec2; readonly high: Vec2 };
  /** Where a local point of the thing, metres, comes to lie. */
  place(local: Vec3): Vec2;
  /** Where a local direction points on the flat face at a place; its length is what lies in the face. */
  turn(direction: Vec3, at: Vec3): Vec2;
  /** Distance of a local point from this face, metres, and the outward direction there. */
  near(local: Vec3): { readonly distanceM: number; readonly offM: number; readonly normal: Vec3 };
}

/** An envelope unfolded: what to cut, what to fold, what to glue under. */
export interface Net {
  readonly size: Vec2;
  readonly faces: readonly NetFace[];
  readonly cuts: readonly (readonly Vec2[])[];
  readonly folds: readonly (readonly [Vec2, Vec2])[];
  readonly flaps: readonly (readonly Vec2[])[];
}

const MM = 1000;
/** Glue flaps, millimetres: wide enough for a finger, never more than a good third of the narrowest side. */
const FLAP_MM = 15;
const FLAP_SHARE = 0.4;
/** Teeth that hold the end of a cylinder are about so wide. */
const TOOTH_MM = 15;
const FEWEST_TEETH = 12;
/** Between the mantle's teeth and a disc. */
const GAP_MM = 6;

function wayOf(direction: Vec3): Way {
  const axis = direction.findIndex((value) => Math.abs(value) > 0.5) as Axis;
  return `${direction[axis] > 0 ? '+' : '-'}${AXES[axis]}`;
}

/** Every way of unfolding that is worth a try; they differ in what lies next to what and so in the paper they need. */
export function netsOf(shape: Shape): Net[] {
  const flat =
    shape.type === 'box'
      ? UNIT_AXES.flatMap((up, k) => [
          boxNet(shape, up, UNIT_AXES[(k + 1) % 3] as Vec3),
          boxNet(shape, up, UNIT_AXES[(k + 2) % 3] as Vec3),
        ])
      : [cylinderNet(shape, true), cylinderNet(shape, false)];
  return flat.flatMap((net) => [net, quarterTurned(net)]);
}

/**
 * Four faces in a strip round `up`, beginning with the one that looks along `first`; the two others hang on the second of them.
 * On a face seen from outside, right x up on paper = out of the paper.
 */
function boxNet(shape: Shape, up: Vec3, first: Vec3): Net {
  const half = halfOf(shape);
  const extent = (direction: Vec3): number =>
    2 * MM * (Math.abs(direction[0]) * half[0] + Math.abs(direction[1]) * half[1] + Math.abs(direction[2]) * half[2]);
  const flap = Math.min(FLAP_MM, FLAP_SHARE * 2 * MM * Math.min(...half));
  const height = extent(up);
  const faces: NetFace[] = [];
  const folds: [Vec2, Vec2][] = [];
  const flaps: Vec2[][] = [];
  let normal = first;
  let x = 0;
  let host: { readonly x: number; readonly normal: Vec3; readonly right: Vec3; readonly width: number } | null = null;
  const strip: Vec2[] = [];
  for (let i = 0; i < 4; i++) {
    const right = cross(up, normal);
    const width = extent(right);
    faces.push(flatFace(half, normal, right, up, [x + width / 2, height / 2], width, height));
    if (i === 1) host = { x, normal, right, width };
    if (i > 0) folds.push(edge([x, 0], [x, height]));
    strip.push([x, 0]);
    x += width;
    normal = right;
  }
  if (!host) throw new Error('boxNet: expected a face to hang the lids on, got none');
  const depth = extent(host.normal);
  const { x: x0, width } = host;
  const x1 = x0 + width;
  const middle = x0 + width / 2;
  faces.push(
    flatFace(half, up, host.right, scale(host.normal, -1), [middle, -depth / 2], width, depth),
    flatFace(half, scale(up, -1), host.right, host.normal, [middle, height + depth / 2], width, depth),
  );
  folds.push(edge([x0, 0], [x1, 0]), edge([x0, height], [x1, height]));
  const hang = (from: Vec2, to: Vec2): readonly Vec2[] => {
    const ring = flapOn(from, to, flap);
    flaps.push(ring);
    folds.push(edge(from, to));
    return ring;
  };
  // Round the whole, clockwise on paper: flaps stand outward of the edges as they are walked.
  const cut: Vec2[] = [
    [0, 0],
    [x0, 0],
    ...hang([x0, 0], [x0, -depth]),
    ...hang([x0, -depth], [x1, -depth]),
    ...hang([x1, -depth], [x1, 0]),
    [x, 0],
    ...hang([x, 0], [x, height]),
    [x1, height],
    ...hang([x1, height], [x1, height + depth]),
    ...hang([x1, height + depth], [x0, height + depth]),
    ...hang([x0, height + depth], [x0, height]),
    [0, height],
  ];
  return movedToOrigin({ size: [0, 0], faces, cuts: [cut.filter(distinct)], folds, flaps });
}

function flatFace(
  half: Vec3,
  normal: Vec3,
  right: Vec3,
  up: Vec3,
  centre: Vec2,
  width: number,
  height: number,
): NetFace {
  const out = Math.abs(dot(half, normal));
  const outline = rectangle(centre[0] - width / 2, centre[1] - height / 2, width, height);
  return {
    way: wayOf(normal),
    outline,
    room: { low: outline[0] as Vec2, high: outline[2] as Vec2 },
    place: (p) => [centre[0] + MM * dot(right, p), centre[1] - MM * dot(up, p)],
    turn: (d) => [dot(right, d), -dot(up, d)],
    near: (p) => {
      const offM = dot(normal, p) - out;
      const beyond = (value: number, reach: number): number => Math.max(0, Math.abs(value) - reach);
      const aside = portable.hypot(beyond(dot(right, p), width / 2 / MM), beyond(dot(up, p), height / 2 / MM));
      return { distanceM: portable.hypot(offM, aside), offM, normal };
    },
  };
}

/** The mantle with teeth along both rims and two discs, above and below it or beside it. */
function cylinderNet(shape: Extract<Shape, { type: 'cylinder' }>, stacked: boolean): Net {
  const k = axisIndex(shape.axis);
  const axis = UNIT_AXES[k];
  const u = UNIT_AXES[(k + 1) % 3] as Vec3;
  const v = UNIT_AXES[(k + 2) % 3] as Vec3;
  const radius = (shape.diameterM * MM) / 2;
  const round = 2 * Math.PI * radius;
  const height = shape.lengthM * MM;
  const flap = Math.min(FLAP_MM, FLAP_SHARE * 2 * radius);
  // The seam lies underneath, or aft on an upright cylinder: away from the eye.
  const seam = seamAngle(k);
  const angleOf = (p: Vec3): number => {
    const angle = portable.atan2(dot(v, p), dot(u, p)) - seam;
    return angle < 0 ? angle + 2 * Math.PI : angle;
  };
  const mantleOutline = rectangle(0, 0, round, height);
  const mantle: NetFace = {
    way: 'round',
    outline: mantleOutline,
    room: { low: [0, 0], high: [round, height] },
    place: (p) => [radius * angleOf(p), height / 2 - MM * dot(axis, p)],
    turn: (d, at) => {
      const out = radial(at, axis, u);
      return [dot(cross(axis, out), d), -dot(axis, d)];
    },
    near: (p) => {
      const normal = radial(p, axis, u);
      const offM = dot(normal, p) - radius / MM;
      const aside = Math.max(0, Math.abs(dot(axis, p)) - shape.lengthM / 2);
      return { distanceM: portable.hypot(offM, aside), offM, normal };
    },
  };
  const away = flap + GAP_MM + radius;
  const centres: readonly [Vec2, Vec2] = stacked
    ? [
        [radius, -away],
        [radius, height + away],
      ]
    : [
        [round + away, radius],
        [round + away, 3 * radius + GAP_MM],
      ];
  const disc = (sign: 1 | -1, centre: Vec2): NetFace => {
    const normal = scale(axis, sign);
    const up = scale(u, -sign);
    const inside = radius * Math.SQRT1_2;
    return {
      way: wayOf(normal),
      outline: circle(centre, radius),
      room: { low: [centre[0] - inside, centre[1] - inside], high: [centre[0] + inside, centre[1] + inside] },
      place: (p) => [centre[0] + MM * dot(v, p), centre[1] - MM * dot(up, p)],
      turn: (d) => [dot(v, d), -dot(up, d)],
      near: (p) => {
        const offM = dot(normal, p) - shape.lengthM / 2;
        const aside = Math.max(0, portable.hypot(dot(u, p), dot(v, p)) - radius / MM);
        return { distanceM: portable.hypot(offM, aside), offM, normal };
      },
    };
  };
  const faces = [mantle, disc(1, centres[0]), disc(-1, centres[1])];
  const rim = teethAlong(round, flap);
  const lowerRim = rim.map((tooth) => tooth.map(([px, py]): Vec2 => [round - px, height - py]));
  const seamFlap = flapOn([round, 0], [round, height], flap);
  const cut = [...rim.flat(), ...seamFlap, ...lowerRim.flat()];
  return movedToOrigin({
    size: [0, 0],
    faces,
    cuts: [cut.filter(distinct), ...faces.slice(1).map(({ outline }) => outline)],
    folds: [edge([0, 0], [round, 0]), edge([0, height], [round, height]), edge([round, 0], [round, height])],
    flaps: [...rim, ...lowerRim, seamFlap],
  });
}

/** Angle about axis k, from its next axis, that looks down; aft for the upright axis. */
const seamAngle = (k: Axis): number => (k === 0 ? -Math.PI / 2 : k === 1 ? -Math.PI : -Math.PI);

/** Out of the axis towards a point; on the axis itself any direction will do. */
function radial(p: Vec3, axis: Vec3, otherwise: Vec3): Vec3 {
  const off = along(p, axis, -dot(axis, p));
  const length = Math.sqrt(dot(off, off));
  return length < 1e-9 ? otherwise : scale(off, 1 / length);
}

/** Teeth that stand up from an edge of this length, from left to right. */
function teethAlong(length: number, flap: number): Vec2[][] {
  const n = Math.max(FEWEST_TEETH, Math.round(length / TOOTH_MM));
  const step = length / n;
  return Array.from({ length: n }, (_, i) => flapOn([i * step, 0], [(i + 1) * step, 0], flap));
}

/** A trapezium to the left of the way from one point to another as paper is read with y down: outside, when walked clockwise. */
function flapOn(from: Vec2, to: Vec2, widthMm: number): Vec2[] {
  const length = portable.hypot(to[0] - from[0], to[1] - from[1]);
  const dx = (to[0] - from[0]) / length;
  const dy = (to[1] - from[1]) / length;
  const width = Math.min(widthMm, length);
  const slant = Math.min(width, length * 0.3);
  const out = (p: Vec2, forward: number): Vec2 => [p[0] + dy * width + dx * forward, p[1] - dx * width + dy * forward];
  return [from, out(from, slant), out(to, -slant), to];
}

const edge = (a: Vec2, b: Vec2): [Vec2, Vec2] => [a, b];
const distinct = (p: Vec2, i: number, all: readonly Vec2[]): boolean => {
  const before = all[(i + all.length - 1) % all.length] as Vec2;
  return portable.hypot(p[0] - before[0], p[1] - before[1]) > 1e-9;
};

const movedToOrigin = (net: Net): Net => {
  const all = net.cuts.flat();
  const low: Vec2 = [Math.min(...all.map((p) => p[0])), Math.min(...all.map((p) => p[1]))];
  const high: Vec2 = [Math.max(...all.map((p) => p[0])), Math.max(...all.map((p) => p[1]))];
  const moved = mapped(net, ([x, y]) => [x - low[0], y - low[1]]);
  return { ...moved, size: [high[0] - low[0], high[1] - low[1]] };
};

/** The net turned clockwise by a right angle. */
function quarterTurned(net: Net): Net {
  const turned = mapped(
    net,
    ([x, y]) => [net.size[1] - y, x],
    ([x, y]) => [-y, x],
  );
  return { ...turned, size: [net.size[1], net.size[0]] };
}

/** Moves of the plane that keep lengths and the sense of turning. */
function mapped(net: Net, move: (p: Vec2) => Vec2, turned: (d: Vec2) => Vec2 = (d) => d): Net {
  return {
    size: net.size,
    cuts: net.cuts.map((ring) => ring.map(move)),
    flaps: net.flaps.map((ring) => ring.map(move)),
    folds: net.folds.map(([a, b]) => edge(move(a), move(b))),
    faces: net.faces.map((face) => {
      const corners = [move(face.room.low), move(face.room.high)] as const;
      return {
        ...face,
        outline: face.outline.map(move),
        room: {
          low: [Math.min(corners[0][0], corners[1][0]), Math.min(corners[0][1], corners[1][1])],
          high: [Math.max(corners[0][0], corners[1][0]), Math.max(corners[0][1], corners[1][1])],
        },
        place: (p) => move(face.place(p)),
        turn: (d, at) => turned(face.turn(d, at)),
      };
    }),
  };
}
