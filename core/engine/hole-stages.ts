import { nearestOpening } from '../assess/access/opening-reach';
import { dischargesOf, usersOf } from '../assess/water/hole-users';
import { type HeelingWaters, heelingWaters } from '../assess/water/immersion';
import {
  type Hole,
  type HoleRanking,
  type HoleRole,
  type OtherOutlet,
  type RunningWater,
  rankHoles,
} from '../assess/water/which-hole';
import { pointInBoat, UP } from '../base/vec';
import { combine } from '../boat/accuracy';
import { LIVING_SPACES, SET_PUMPS } from '../boat/kinds';
import type { Thing } from '../boat/schema/boat';
import { sameValue } from '../boat/schema-walk';
import { postureFor } from '../rules/access/seacock-handle';
import type { Facts } from '../rules/facts';
import { type Circuit, keyOf, portsOf } from '../runs/circuit/circuit';
import { canBeShut } from '../runs/circuit/valves';
import { factsOver } from './facts';
import { hull } from './shape-stages';
import { demands, fixtureIds } from './source';
import { type ComputedStage, identical, type Read } from './store';
import { attitude } from './water-stages';

/** Bores that a set asks for where its pumps do not say: common practice, no source. Metres. */
const USUAL_BORE_M: Readonly<Record<HoleRole, number>> = { intake: 0.019, outlet: 0.013 };

const heeling: ComputedStage<HeelingWaters> = {
  id: 'heeling',
  compute: (_, read) => heelingWaters(read(attitude), read(hull)),
  same: identical,
};

/** Every through-hull of the boat as intake and as outlet. Key: the year that it is, or nothing. */
export const holes: ComputedStage<HoleRanking> = {
  id: 'holes',
  compute: (year, read) => {
    const facts = factsOver(read);
    return rankHoles({
      holes: read(fixtureIds).flatMap((id) => holeOf(id, facts) ?? []),
      otherOutlets: read(fixtureIds).flatMap((id) => outletOf(id, facts) ?? []),
      running: runningOf(facts),
      heeling: read(heeling),
      boreM: boresOf(facts),
      noHaulOut: isDemanded(read, 'noHaulOut'),
      year: year === '' ? null : Number(year),
    });
  },
  same: sameValue,
};

const isDemanded = (read: Read, kind: string): boolean =>
  Object.values(read(demands) ?? {}).some((demand) => demand.kind === kind);

function runningOf(facts: Facts): readonly RunningWater[] {
  const states = facts.runStates();
  return facts.runningWaters().map(({ id, name, heelDeg, down, water }) => ({
    name,
    heelDeg,
    down,
    water,
    use: states[id.split('/')[0] ?? id]?.use ?? 'anchored',
  }));
}

/** The widest sea-water inlet and brine outlet of the set's own pumps. */
function boresOf(facts: Facts): Readonly<Record<HoleRole, number>> {
  const widest = (role: 'in' | 'out', medium: string): number =>
    Math.max(
      0,
      ...facts
        .thingIds()
        .filter((id) => SET_PUMPS.has(facts.thing(id)?.kind ?? ''))
        .flatMap((id) => Object.values(facts.thing(id)?.ports ?? {}))
        .filter((port) => port.role === role && port.medium === medium)
        .map((port) => port.boreM ?? 0),
    );
  return {
    intake: widest('in', 'seaWater') || USUAL_BORE_M.intake,
    outlet: widest('out', 'brine') || USUAL_BORE_M.outlet,
  };
}

function holeOf(id: string, facts: Facts): Hole | null {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  const opening = thing?.opensToSea;
  if (!thing || !pose || !opening) return null;
  const circuit = facts.circuit();
  const users = usersOf(circuit, id);
  const shutBy = valveOf(circuit, id);
  const sharedBy = [...users, ...(thing.sharedBy ?? [])];
  const kinds = users.map((user) => circuit.things[user]?.kind);
  const draws = opening.use !== 'outlet';
  return {
    id,
    at: pointInBoat(pose, opening.at),
    boreM: opening.boreM,
    use: opening.use,
    isLog: thing.kind === 'logFitting',
    ...(opening.material === undefined ? {} : { material: opening.material }),
    ...(opening.fittedYear === undefined ? {} : { fittedYear: opening.fittedYear }),
    valve: shutBy === null ? 'none' : valveKind(circuit.things[shutBy]),
    sharedBy,
    feedsEngine: draws && (kinds.includes('engine') || (thing.sharedBy ?? []).some((name) => /engine/i.test(name))),
    discharges: dischargesOf(thing, users, circuit),
    reach: reachOf(shutBy ?? id, facts),
    depthGradeM: combine(...[...facts.gradesAlong(id, UP), facts.gradeOfWater()].map(({ gradeM }) => gradeM)),
  };
}

/** An exhaust that is drawn without a hole in the hull still ends over the side. */
function outletOf(id: string, facts: Facts): OtherOutlet | null {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (thing?.kind !== 'exhaust' || thing.opensToSea || !pose) return null;
  return { id, at: pose.at, discharges: ['exhaust'] };
}

function valveKind(thing: Thing | undefined): Hole['valve'] {
  const kind = thing?.valve?.kind;
  return kind === 'gate' ? 'gate' : kind === undefined || kind === 'ball' ? 'ball' : 'other';
}

/** What shuts a through-hull: itself, or what stands at the other end of its first line. */
function valveOf(circuit: Circuit, id: string): string | null {
  if (canBeShut(circuit.things[id])) return id;
  const next = portsOf(circuit, id).flatMap((port) =>
    circuit
      .edgesAt(port)
      .flatMap((edge) => (edge.kind === 'line' ? [keyOf(edge.a) === keyOf(port) ? edge.b.thing : edge.a.thing] : [])),
  );
  return next.sort().find((thing) => canBeShut(circuit.things[thing])) ?? null;
}

function reachOf(id: string, facts: Facts): Hole['reach'] {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  const compartment = facts.compartmentOf(id);
  if (!thing || !pose || compartment === null)
    return { kind: 'unknown', enterNext: `Draw the compartment that holds ${thing?.name ?? id}` };
  if (LIVING_SPACES.has(facts.compartmentKind(compartment) ?? '')) return { kind: 'stands' };
  const handle = pointInBoat(pose, thing.valve?.handle?.at ?? [0, 0, 0]);
  const nearest = nearestOpening(facts.openings(), compartment, handle);
  if (!nearest) return { kind: 'unknown', enterNext: `Draw the opening into ${facts.compartmentName(compartment)}` };
  const opening = facts.openings()[nearest.id];
  if (!opening) return { kind: 'unknown', enterNext: `Draw the opening into ${facts.compartmentName(compartment)}` };
  const { value, limit } = postureFor(opening, nearest.distanceM, handle, facts);
  return {
    kind: 'reach',
    distanceM: value,
    limitM: limit,
    gradeM: combine(facts.gradeOf(id).gradeM, facts.gradeOf(nearest.id).gradeM),
  };
}
