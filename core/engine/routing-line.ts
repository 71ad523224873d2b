import {
  add,
  along,
  cosSin,
  cross,
  directionInBoat,
  distance,
  dot,
  norm,
  type Pose,
  pointInBoat,
  scale,
  squareTo,
  subtract,
  unit,
  type Vec3,
} from '../base/vec';
import type { Line, LineEndFitting, LineKind, Thing } from '../boat/schema/boat';
import type { BlockReason, Feed, Lead, RoutingLine } from '../runs/routing/types';
import type { RunWishes } from '../runs/routing/wishes/wishes';

/** Room between a hose or its end and the edge of the hole that it passes. */
export const HOLE_CLEARANCE_M = 0.001;

export interface LineFacts {
  readonly id: string;
  readonly line: Line;
  readonly kind: LineKind;
  readonly from: { readonly thing: Thing; readonly pose: Pose | null };
  readonly to: { readonly thing: Thing; readonly pose: Pose | null };
  readonly suction: boolean;
  readonly clipPoints: readonly Vec3[];
  readonly forbiddenCompartments: readonly string[];
  /** Null: none is asked of the router. */
  readonly wishes: RunWishes | null;
  /** What it leaves free in holes that are planned for other lines. */
  readonly keptInHoles?: RoutingLine['keptInHoles'];
  /** Clip points and thickness of the other lines: what hangs in the same clips. */
  readonly others?: readonly { readonly clipPoints: readonly Vec3[]; readonly outsideM: number }[];
}

export type Wish =
  | { readonly outcome: 'line'; readonly line: RoutingLine }
  | { readonly outcome: 'blocked'; readonly reason: BlockReason };

/**
 * What the router needs of a line. Radii are those of the centre line: a radius that the standard measures to the inside
 * of the bend grows by half the outside diameter.
 */
export function routingLine(facts: LineFacts): Wish {
  const { line, kind } = facts;
  for (const end of ['from', 'to'] as const) {
    const { thing, pose } = facts[end];
    const port = Object.hasOwn(thing.ports, line[end].port) ? thing.ports[line[end].port] : undefined;
    if (!port) return blocked('noSuchPort', line[end].thing);
    if (!pose) return blocked('notPlaced', line[end].thing);
  }
  const from = leadOf(facts, 'from');
  const to = leadOf(facts, 'to');
  const length = usableLength(line);
  const [feed, otherFeed] = feedsOf(line, kind);
  return {
    outcome: 'line',
    line: {
      id: facts.id,
      label: line.name,
      radiusM: kind.outsideM / 2,
      bendRadiusM: kind.bendRadiusM + (kind.radiusTo === 'inside' ? kind.outsideM / 2 : 0),
      from,
      to,
      holeRadiusM: feed.holeRadiusM,
      ...(isCrimped(line, kind) ? { feed, ...(otherFeed ? { otherFeed } : {}) } : {}),
      suction: facts.suction && facts.wishes !== null,
      ...(facts.wishes ? { wishes: facts.wishes } : {}),
      clipPoints: facts.clipPoints,
      ...clipsShared(facts),
      forbiddenCompartments: facts.forbiddenCompartments,
      ...(facts.keptInHoles && Object.keys(facts.keptInHoles).length > 0 ? { keptInHoles: facts.keptInHoles } : {}),
      ...(length === null ? {} : { lengthLimitM: length }),
    },
  };
}

/**
 * Diameter of the hole that a line needs. One end stays at its port, the other leads through all holes: the smaller one, or the bare
 * hose where an end is fitted after the hose is through.
 */
export const holeDiameter = (line: Line, kind: LineKind): number => 2 * feedsOf(line, kind)[0].holeRadiusM;

const isCrimped = (line: Line, kind: LineKind): boolean =>
  fitting(line, kind, 'from').crimped || fitting(line, kind, 'to').crimped;

/**
 * Ways of drawing a line in, the one with the smaller holes first; the other only where it has the shorter end. Of equal ends that at
 * `to` leads.
 */
function feedsOf(line: Line, kind: LineKind): readonly [Feed, Feed?] {
  const led = (end: 'from' | 'to'): Feed => {
    const { crimped, diameterM, rigidM } = fitting(line, kind, end);
    const widthM = Math.max(kind.outsideM, crimped ? (diameterM ?? 0) : 0);
    return {
      fedFrom: end === 'to' ? 'from' : 'to',
      holeRadiusM: widthM / 2 + HOLE_CLEARANCE_M,
      rigidM: crimped ? (rigidM ?? 0) : 0,
      radiusM: crimped ? widthM / 2 : 0,
    };
  };
  const [a, b] = [led('to'), led('from')];
  const isFirst = a.holeRadiusM < b.holeRadiusM || (a.holeRadiusM === b.holeRadiusM && a.rigidM <= b.rigidM);
  const [first, second] = isFirst ? [a, b] : [b, a];
  return second.rigidM < first.rigidM ? [first, second] : [first];
}

/** Clip points this near to one another are one clip. */
const ONE_CLIP_M = 0.005;
/** More than the gap between two runs: what lies in a clip lies loose. */
const IN_CLIP_M = 0.004;

/** How far beside its clip points a line may pass: by all that hang in the same clips. */
function clipsShared({ kind, clipPoints, others = [] }: LineFacts): Pick<RoutingLine, 'clipAsideM'> {
  const asideM = clipPoints.map((at) => {
    const beside = others.filter((other) => other.clipPoints.some((one) => distance(one, at) <= ONE_CLIP_M));
    if (beside.length === 0) return 0;
    return beside.reduce((sum, { outsideM }) => sum + outsideM + IN_CLIP_M, kind.outsideM / 2 + ONE_CLIP_M);
  });
  return asideM.some((one) => one > 0) ? { clipAsideM: asideM } : {};
}

/** Length of hose between the ports that a supplied hose allows, null when it may be cut or none is supplied. */
export function usableLength({ supplied }: Line): number | null {
  return supplied && !supplied.mayCut ? supplied.lengthM - supplied.spareM : null;
}

/**
 * End fitting of a line. An end that the line itself describes stands for the usual one of its kind; diameter and rigid
 * length that it leaves out are those of the kind.
 */
export function fitting(line: Line, kind: LineKind, end: 'from' | 'to'): LineEndFitting {
  const own = line.ends[end];
  const usual = kind.end ?? { angleDeg: 0, swivel: false, crimped: kind.crimpedEnds };
  if (!own) return usual;
  const diameterM = own.diameterM ?? usual.diameterM;
  const rigidM = own.rigidM ?? usual.rigidM;
  return {
    ...own,
    // A kind that is made up with its ends has them on, whatever their shape.
    crimped: own.crimped || kind.crimpedEnds,
    ...(diameterM === undefined ? {} : { diameterM }),
    ...(rigidM === undefined ? {} : { rigidM }),
  };
}

function leadOf(facts: LineFacts, end: 'from' | 'to'): Lead {
  const { line, kind } = facts;
  const { thing: thingId, port: portId } = line[end];
  const port = facts[end].thing.ports[portId];
  const { pose } = facts[end];
  if (!port || !pose) throw new Error(`leadOf: expected a placed port ${thingId}.${portId}`);
  const { diameterM, rigidM, dropM, angleDeg, swivel, crimped } = fitting(line, kind, end);
  const portAt = pointInBoat(pose, port.at);
  const straight = unit(directionInBoat(pose, port.direction));
  const corner = angleDeg === 0 ? portAt : along(portAt, straight, dropM ?? rigidM ?? 0);
  const turns = angleDeg === 0 ? [straight] : elbowTurns(straight, angleDeg, towards(facts, end, corner));
  return {
    thing: thingId,
    port: portId,
    at: corner,
    direction: turns[0] as Vec3,
    ...(angleDeg === 0 ? {} : { portAt, turns }),
    rigidM: (rigidM ?? 0) + (kind.straightM ?? 0) + port.straightM,
    fittingM: rigidM ?? 0,
    fittingRadiusM: Math.max(diameterM ?? 0, kind.outsideM) / 2,
    swivel,
    crimped,
  };
}

const ELBOW_TURNS = 8;

/** The ways that an elbow may be turned before it is tightened, that towards the other end of its line first. */
function elbowTurns(straight: Vec3, angleDeg: number, wish: Vec3): readonly Vec3[] {
  const across = subtract(wish, scale(straight, dot(wish, straight)));
  const side = norm(across) > 1e-6 ? unit(across) : unit(cross(straight, squareTo(straight)));
  const other = cross(straight, side);
  const [cos, sin] = cosSin(angleDeg);
  return Array.from({ length: ELBOW_TURNS }, (_, k) => {
    const [c, s] = cosSin((360 * k) / ELBOW_TURNS);
    return unit(add(scale(straight, cos), add(scale(side, sin * c), scale(other, sin * s))));
  });
}

function towards(facts: LineFacts, end: 'from' | 'to', at: Vec3): Vec3 {
  const other = end === 'from' ? 'to' : 'from';
  const { thing, pose } = facts[other];
  const port = thing.ports[facts.line[other].port];
  return port && pose ? subtract(pointInBoat(pose, port.at), at) : squareTo([0, 0, 1]);
}

const blocked = (kind: BlockReason['kind'], blocker: string): Wish => ({
  outcome: 'blocked',
  reason: { kind, at: null, blocker, shortByM: null, tries: 0 },
});
