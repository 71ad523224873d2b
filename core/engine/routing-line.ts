import {
  add,
  cosSin,
  cross,
  directionInBoat,
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
import type { BlockReason, Lead, RoutingLine } from '../runs/routing/types';
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
  return {
    outcome: 'line',
    line: {
      id: facts.id,
      label: line.name,
      radiusM: kind.outsideM / 2,
      bendRadiusM: kind.bendRadiusM + (kind.radiusTo === 'inside' ? kind.outsideM / 2 : 0),
      from,
      to,
      holeRadiusM: holeDiameter(line, kind) / 2,
      suction: facts.suction && facts.wishes !== null,
      ...(facts.wishes ? { wishes: facts.wishes } : {}),
      clipPoints: facts.clipPoints,
      forbiddenCompartments: facts.forbiddenCompartments,
      ...(facts.keptInHoles && Object.keys(facts.keptInHoles).length > 0 ? { keptInHoles: facts.keptInHoles } : {}),
      ...(length === null ? {} : { lengthLimitM: length }),
    },
  };
}

/**
 * Diameter of the hole that a line needs. An end that is crimped on passes the holes with its hose, and which end leads is
 * not known before the day: the larger one counts. Other ends are fitted after the bare hose is through.
 */
export function holeDiameter(line: Line, kind: LineKind): number {
  const ends = [fitting(line, kind, 'from'), fitting(line, kind, 'to')];
  const passing = ends.flatMap((end) => (end.crimped ? [end.diameterM ?? 0] : []));
  return Math.max(kind.outsideM, ...passing) + 2 * HOLE_CLEARANCE_M;
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
  const { diameterM, rigidM, angleDeg, swivel, crimped } = fitting(line, kind, end);
  const at = pointInBoat(pose, port.at);
  const straight = unit(directionInBoat(pose, port.direction));
  return {
    thing: thingId,
    port: portId,
    at,
    direction: angleDeg === 0 ? straight : elbow(straight, angleDeg, towards(facts, end, at)),
    rigidM: (rigidM ?? 0) + port.straightM,
    fittingRadiusM: Math.max(diameterM ?? 0, kind.outsideM) / 2,
    swivel,
    crimped,
  };
}

/** An elbow is turned towards the other end of its line before it is tightened. */
function elbow(straight: Vec3, angleDeg: number, wish: Vec3): Vec3 {
  const across = subtract(wish, scale(straight, dot(wish, straight)));
  const side = norm(across) > 1e-6 ? unit(across) : unit(cross(straight, squareTo(straight)));
  const [cos, sin] = cosSin(angleDeg);
  return unit(add(scale(straight, cos), scale(side, sin)));
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
