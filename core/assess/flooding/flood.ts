import { drownedFillTime, orificeFlow, SHORT_TUBE, tornHoseFlow } from '../../base/formulas/orifice';
import { dot, type Pose, pointInBoat, type Vec3 } from '../../base/vec';
import type { Service, Thing } from '../../boat/schema/boat';
import type { Circuit, PortNode } from '../../runs/circuit/circuit';
import { heightAbove } from '../../shape/hull/attitude';
import type { WaterPlane } from '../../shape/hull/types';
import { cellsIn, volumeBelow } from '../../shape/layout/room';
import type { Solid } from '../../shape/space/solids';
import { leastAlong } from '../../shape/space/things';
import { type Balance, balance, type FloodedSpace } from './balance';
import { loopHeight } from './loops';
import type { SeaArrival } from './sea-reach';
import { reachedAt, type Waterway } from './waterways';

/** A joint that may let go: the end of a line at a port, the lid of a strainer, the bowl of a filter. */
export interface FloodJoint {
  readonly what: 'end' | 'lid' | 'bowl';
  readonly thing: string;
  /** Line whose end it is; of a lid or bowl the line that brings the sea. */
  readonly line: string;
  readonly at: Vec3;
  /** Below the water that the outcome is about, metres. */
  readonly depthM: number;
  /** What shuts it off from the sea, nearest to the sea; null: nothing. */
  readonly stoppedBy: string | null;
  /** Whether the sea stands in it as valves normally stand. */
  readonly isOpen: boolean;
  readonly flowLMin: number;
  /** Discharge coefficient that the flow is reckoned with; null: losses of the hose by its length and bore. */
  readonly cd: number | null;
}

/** A thing that water harms. */
export interface FloodElectric {
  readonly thing: string;
  readonly compartment: string;
  /** Height above the final level of what water must reach to harm it, metres; negative: it is under. */
  readonly heightM: number;
}

export type FloodBand = 'under2' | '2to10' | '10to60' | 'over60';

/** What comes of joints in one compartment that let the sea in from one through-hull, while no pump runs. Plain data. */
export interface FloodOutcome {
  readonly throughHull: string;
  /** Where the joints are. */
  readonly compartment: string;
  readonly joints: readonly FloodJoint[];
  /** Heel in which they lie under water: upright where one does so upright. */
  readonly heelDeg: number;
  readonly down: 'upright' | 'port' | 'starboard';
  /** The final level, inside and out. */
  readonly water: WaterPlane;
  readonly sinkageM: number | null;
  readonly founders: boolean;
  /** Compartments that flood to that level, with what the water passes from one to the next. */
  readonly reached: readonly {
    readonly compartment: string;
    readonly through: string | null;
    readonly from: string | null;
    readonly volumeL: number;
  }[];
  /** Electrics in these, lowest first. */
  readonly electrics: readonly FloodElectric[];
  /** How long until the first of them is reached, or else until the final level. */
  readonly band: FloodBand;
}

export interface Water {
  readonly heelDeg: number;
  readonly down: 'upright' | 'port' | 'starboard';
  readonly water: WaterPlane;
}

/** The boat as floods ask for it. */
export interface FloodSite {
  readonly circuit: Circuit;
  readonly ways: readonly Waterway[];
  /** The balance of whatever is open to the sea together with a compartment. */
  readonly basin: (compartment: string, sea: Water) => Basin;
  /** Lines that the sea reaches from a through-hull. */
  readonly reach: (throughHull: string) => readonly SeaArrival[];
  /** Upright first, then heeled. */
  readonly waters: readonly Water[];
  readonly pose: (thing: string) => Pose | null;
  readonly solid: (thing: string) => Solid | null;
  /** Compartment of a point, or of the thing that it belongs to. */
  readonly compartmentAt: (at: Vec3, thing: string) => string | null;
  /** Things that water harms, with the compartment of each. */
  readonly electrics: readonly { readonly thing: string; readonly compartment: string }[];
  /** Length of the run of a line; null: it has none. */
  readonly lengthM: (line: string) => number | null;
  readonly boreM: (line: string) => number | null;
}

/** Where the water stands in the end in all that is open to one another, and what it takes to get there. */
export interface Basin extends Omit<Balance, 'reached'> {
  /** Of each compartment that floods, what it takes in. */
  readonly volumesM3: Readonly<Record<string, number>>;
  /** [metres from the final level, volume of all below it], from the lowest. */
  readonly fillM3: readonly (readonly [number, number])[];
}

/** Levels of the curve by which a basin fills. */
const FILL_LEVELS = 8;

/** The basin of a compartment. Whichever of those that it floods is asked for, the basin is the same. */
export function basinOf(start: string, space: FloodedSpace, sea: WaterPlane): Basin {
  const { reached: all, ...end } = balance(start, space, sea);
  const { up, levelM } = end.water;
  const { layout, hull, permeability } = space;
  const below = (id: string, aboveM: number): number =>
    permeability(id) * volumeBelow(layout, hull, id, { up, levelM: levelM + aboveM });
  const corners = all.flatMap((id) =>
    cellsIn(layout, id).flatMap((cell) => cell.corners.map((corner) => dot(corner, up))),
  );
  const depthM = Math.max(0, levelM - Math.min(levelM, ...corners));
  const fillM3 = Array.from({ length: FILL_LEVELS + 1 }, (_, k): readonly [number, number] => {
    const aboveM = depthM * (k / FILL_LEVELS - 1);
    return [aboveM, all.reduce((sum, id) => sum + below(id, aboveM), 0)];
  });
  return { ...end, volumesM3: Object.fromEntries(all.map((id) => [id, below(id, 0)])), fillM3 };
}

/** Kinds that hold water back with a bowl or a lid. */
const BOWLS: ReadonlySet<string> = new Set(['filter', 'carbonFilter']);
const LID_TASKS: ReadonlySet<Service['task']> = new Set(['basket', 'lid']);

/** Outcomes of one through-hull, by compartment; those whose joints lie in no compartment under an empty id. */
export function floodOutcomes(throughHull: string, site: FloodSite): readonly FloodOutcome[] {
  const opening = site.circuit.things[throughHull]?.opensToSea;
  const pose = site.pose(throughHull);
  if (!opening || !pose) return [];
  const hole = pointInBoat(pose, opening.at);
  const under = site.waters.filter(({ water }) => heightAbove(water, hole) < 0);
  if (under.length === 0) return [];
  const byCompartment = new Map<string, LooseJoint[]>();
  for (const joint of jointsOf(site.reach(throughHull), site)) {
    const compartment = site.compartmentAt(joint.at, joint.thing) ?? '';
    byCompartment.set(compartment, [...(byCompartment.get(compartment) ?? []), joint]);
  }
  return [...byCompartment.keys()].sort().flatMap((compartment) => {
    const joints = byCompartment.get(compartment) as LooseJoint[];
    const found = waterOver(joints, under, site);
    return found ? [outcomeOf(throughHull, compartment, found, site)] : [];
  });
}

type LooseJoint = Pick<FloodJoint, 'what' | 'thing' | 'line' | 'at' | 'stoppedBy' | 'isOpen'> & {
  readonly arrival: SeaArrival;
  /** Lines that the water passes before it gets there. */
  readonly before: readonly string[];
};

/** Every joint of the lines that the sea reaches, once each. */
function jointsOf(arrivals: readonly SeaArrival[], site: FloodSite): readonly LooseJoint[] {
  const joints: LooseJoint[] = [];
  const lidded = new Set<string>();
  for (const arrival of arrivals) {
    const { line, stoppedBy, isOpen, near, far } = arrival;
    const put = (what: FloodJoint['what'], thing: string, at: Vec3, before = arrival.lines): void => {
      joints.push({ what, thing, line, at, stoppedBy, isOpen, arrival, before });
    };
    const nearAt = placeOf(near, site);
    const farAt = placeOf(far, site);
    if (nearAt) put('end', near.thing, nearAt, arrival.lines.slice(0, -1));
    if (farAt) put('end', far.thing, farAt);
    const thing = site.circuit.things[far.thing];
    const what = thing?.kind === 'strainer' ? 'lid' : BOWLS.has(thing?.kind ?? '') ? 'bowl' : null;
    if (!thing || !what || !farAt || lidded.has(far.thing)) continue;
    lidded.add(far.thing);
    put(what, far.thing, what === 'lid' ? lidOf(far.thing, thing, site) : farAt);
  }
  return joints;
}

function placeOf(node: PortNode, { circuit, pose }: FloodSite): Vec3 | null {
  const placed = pose(node.thing);
  const port = circuit.things[node.thing]?.ports[node.port];
  return placed && port ? pointInBoat(placed, port.at) : null;
}

/** A lid is where its task begins, else the top of the envelope. A bowl hangs from the head at which the hose comes in. */
function lidOf(id: string, thing: Thing, site: FloodSite): Vec3 {
  const pose = site.pose(id) as Pose;
  const task = Object.values(thing.services).find(({ task: name }) => LID_TASKS.has(name));
  const heightM = thing.shape.type === 'box' ? thing.shape.sizeM[2] : thing.shape.lengthM;
  return pointInBoat(pose, task?.at ?? [0, 0, heightM / 2]);
}

/** The water in which joints lie under: upright where one does so, else the one in which one lies deepest. Joints above it are left out. */
function waterOver(
  joints: readonly LooseJoint[],
  waters: readonly Water[],
  site: FloodSite,
): { readonly joints: readonly (LooseJoint & { readonly depthM: number })[]; readonly in: Water } | null {
  let best: ReturnType<typeof waterOver> = null;
  for (const one of waters) {
    const wet = joints.flatMap((joint) => {
      const depthM = -heightAbove(one.water, joint.at);
      const isPastLoop = joint.arrival.loops.some((loop) => {
        const thing = site.circuit.things[loop];
        const pose = site.pose(loop);
        return thing && pose && loopHeight({ thing, pose, solid: site.solid(loop) }, one.water) > 0;
      });
      return depthM > 0 && !isPastLoop ? [{ ...joint, depthM }] : [];
    });
    if (wet.length === 0) continue;
    if (one.down === 'upright') return { joints: wet, in: one };
    const deepest = (of: readonly { readonly depthM: number }[]): number => Math.max(...of.map(({ depthM }) => depthM));
    if (!best || deepest(wet) > deepest(best.joints)) best = { joints: wet, in: one };
  }
  return best;
}

function outcomeOf(
  throughHull: string,
  compartment: string,
  { joints, in: sea }: NonNullable<ReturnType<typeof waterOver>>,
  site: FloodSite,
): FloodOutcome {
  const end = site.basin(compartment, sea);
  const reached = reachedAt(compartment, site.ways, end.water);
  const floods = new Set(reached.map((one) => one.compartment));
  const electrics = site.electrics
    .filter((one) => floods.has(one.compartment))
    .flatMap((one): FloodElectric[] => {
      const solid = site.solid(one.thing);
      if (!solid) return [];
      const wetM = site.circuit.things[one.thing]?.electric?.wetM ?? 0;
      return [{ ...one, heightM: leastAlong(solid, end.water.up) + wetM - end.water.levelM }];
    })
    .sort((a, b) => a.heightM - b.heightM || (a.thing < b.thing ? -1 : 1));
  const flowing = joints.map((joint) => withFlow(joint, throughHull, site));
  const fastest = flowing.reduce((most, one) => (one.flowLMin > most.flowLMin ? one : most));
  const harmM = Math.min(0, electrics[0]?.heightM ?? 0);
  return {
    throughHull,
    compartment,
    joints: flowing,
    heelDeg: sea.heelDeg,
    down: sea.down,
    water: end.water,
    sinkageM: end.sinkageM,
    founders: end.founders,
    reached: reached.map((one) => ({ ...one, volumeL: 1000 * (end.volumesM3[one.compartment] ?? 0) })),
    electrics,
    band: bandOf(secondsTo(harmM, fastest, end)),
  };
}

/** A hose off its through-hull leaves a short tube; a joint farther on has the hose before it. */
function withFlow(
  { arrival: _, before, ...joint }: LooseJoint & { readonly depthM: number },
  throughHull: string,
  site: FloodSite,
): FloodJoint {
  const opensM = site.circuit.things[throughHull]?.opensToSea?.boreM ?? 0;
  const boreM = Math.min(opensM, ...before.map((line) => site.boreM(line) ?? opensM));
  const lengths = before.map((line) => site.lengthM(line));
  const isTube = before.length === 0 || lengths.some((length) => length === null);
  const lengthM = lengths.reduce<number>((sum, length) => sum + (length ?? 0), 0);
  const { cd } = SHORT_TUBE;
  return {
    ...joint,
    flowLMin: isTube
      ? orificeFlow({ headM: joint.depthM, diameterM: boreM, cd })
      : tornHoseFlow({ headM: joint.depthM, boreM, lengthM }),
    cd: isTube ? cd : null,
  };
}

/** Seconds until the water stands `toM` (0 or less) from its final level, all that floods taken as one basin. */
function secondsTo(toM: number, joint: FloodJoint, { water, fillM3 }: Basin): number {
  const depthM = water.levelM - dot(joint.at, water.up);
  const dryToM = Math.min(toM, -depthM);
  const dryM3 = volumeAt(fillM3, dryToM);
  const drySeconds = dryM3 / (joint.flowLMin / 60_000);
  const riseM = toM - dryToM;
  if (riseM <= 0) return drySeconds;
  const planM2 = (volumeAt(fillM3, toM) - dryM3) / riseM;
  return drySeconds + drownedFillTime({ planM2, headM: depthM, riseM, firstFlowLMin: joint.flowLMin });
}

/** Straight between the levels of a curve. */
function volumeAt(fillM3: Basin['fillM3'], aboveM: number): number {
  const upper = fillM3.findIndex(([levelM]) => levelM >= aboveM);
  const [high, low] = [fillM3[upper < 0 ? fillM3.length - 1 : upper], fillM3[Math.max(0, upper - 1)]];
  if (!high || !low) return 0;
  const span = high[0] - low[0];
  const share = span > 0 ? Math.min(1, Math.max(0, (aboveM - low[0]) / span)) : 1;
  return low[1] + (high[1] - low[1]) * share;
}

const bandOf = (seconds: number): FloodBand =>
  seconds < 120 ? 'under2' : seconds <= 600 ? '2to10' : seconds <= 3600 ? '10to60' : 'over60';
