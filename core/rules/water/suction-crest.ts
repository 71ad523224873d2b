import { type SeaWay, seaWay } from '../../assess/water/sea-way';
import { pointInBoat, UP, type Vec3 } from '../../base/vec';
import { SET_PUMPS } from '../../boat/kinds';
import { type Circuit, isPump, keyOf } from '../../runs/circuit/circuit';
import { forcedCrest } from '../../runs/forced-crest';
import { trappedCrest, unrolledProfile } from '../../runs/profile';
import { heightAbove } from '../../shape/hull/attitude';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts, HeeledWater } from '../facts';
import type { GradeShare } from '../finding';
import { type Judged, judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** Trapped height that a hose between clips has anyway, metres. Common practice, no source. */
const LIMITS = inBoth({ trappedM: 0.02 });

/** Air gathers in a high point of a suction hose, and the pump loses its water. */
export const suctionCrest = defineRule({
  id: 'water/suction-crest',
  question: 'Does any suction hose trap air in a high point that cannot be bled?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: [
    'Air from a leaking strainer lid or shaft seal.',
    'How well the pump draws air along.',
    'Sag between clips.',
  ],
  hazards: [],
  subjects: (facts) => [...facts.lineIds().filter((id) => facts.isSuction(id)), ...thingsOnSuction(facts)],
  check(subject, facts): readonly Verdict[] {
    return [facts.line(subject) ? inTheHose(subject, facts) : inTheThing(subject, facts)];
  },
});

/** A high point of one line between its two ends. */
function inTheHose(lineId: string, facts: Facts): Verdict {
  const line = facts.line(lineId);
  const run = facts.run(lineId);
  if (!line || !run || run.status === 'blocked') {
    const isPlaced = run?.status === 'blocked' && run.reason.kind !== 'notPlaced';
    if (!isPlaced) return { outcome: 'notApplicable', reason: 'notPlaced' };
    return { outcome: 'cannotTell', reason: 'noRun', enterNext: 'Make room for the run first' };
  }
  const found = facts.runningWaters().flatMap((state): High[] => {
    const crest = trappedCrest(unrolledProfile(run.prims, state.water));
    return crest ? [{ state, ...crest }] : [];
  });
  const limitM = limitOf(facts);
  const highest = worstOf(found, limitM);
  const worst = highest && { ...highest, trappedM: highest.trappedM - tailRise(lineId, highest, facts) };
  const ends = [line.from.thing, line.to.thing];
  // A hose that only rises or falls does so wherever its ends really are.
  const grade = found.length === 0 ? [] : ends.flatMap((id) => facts.gradesAlong(id, UP));
  const verdict = verdictOf(worst, limitM, ends, 'trapsAir', grade, (judged) => withRunDoubt(judged, lineId, facts));
  return verdict.outcome === 'fail' && worst ? withForced(verdict, lineId, worst, facts) : verdict;
}

/** What of a crest under water the tail of a through-hull makes, metres: it faces up on every boat, and the sea keeps it full. */
function tailRise(lineId: string, { state, heightM }: High, facts: Facts): number {
  const asked = heightM <= 0 ? facts.routingLine(lineId) : null;
  const forced = asked && forcedCrest(asked, state.water.up);
  return asked && forced && facts.thing(asked[forced.end].thing)?.opensToSea ? forced.trappedM : 0;
}

/** What of a crest no run can avoid, and the port that sees to that. */
function withForced(verdict: Verdict & { outcome: 'fail' }, lineId: string, { state }: High, facts: Facts): Verdict {
  const asked = facts.routingLine(lineId);
  const forced = asked && forcedCrest(asked, state.water.up);
  if (!asked || !forced || forced.trappedM < WORTH_SAYING_M) return verdict;
  const { thing, port } = asked[forced.end];
  const named = facts.thing(thing);
  if (named?.opensToSea) return verdict;
  return {
    ...verdict,
    data: {
      ...verdict.data,
      forcedM: forced.trappedM,
      forcedBy: named?.name ?? thing,
      forcedRole: named?.ports[port]?.role ?? 'both',
    },
  };
}
/** A forced crest lower than this is not worth a port that is turned. */
const WORTH_SAYING_M = 0.005;

/** A high point at a thing between two suction lines: it must bleed there. */
function inTheThing(id: string, facts: Facts): Verdict {
  const thing = facts.thing(id);
  const way = suctionWays(facts).find(({ things }) => things.slice(1, -1).includes(id));
  if (!thing || !way) return { outcome: 'notApplicable', reason: 'notPlaced' };
  const found = facts.runningWaters().flatMap((state): High[] => {
    const heights = way.steps.flatMap(({ edge, to }) => {
      const from = keyOf(edge.a) === keyOf(to) ? edge.b : edge.a;
      return [from, to].flatMap((node) => {
        const pose = facts.pose(node.thing);
        const port = facts.thing(node.thing)?.ports[node.port];
        if (!pose || !port) return [];
        const at = pointInBoat(pose, port.at);
        return [{ thing: node.thing, at, heightM: heightAbove(state.water, at) }];
      });
    });
    const own = heights.filter((one) => one.thing === id);
    const top = own.reduce<(typeof own)[number] | null>(
      (best, one) => (best && best.heightM >= one.heightM ? best : one),
      null,
    );
    if (!top) return [];
    const first = heights.findIndex((one) => one.thing === id);
    const before = heights.slice(0, first);
    const after = heights.slice(first).filter((one) => one.thing !== id);
    const lowest = (list: typeof heights) => Math.min(...list.map((one) => one.heightM));
    if (before.length === 0 || after.length === 0) return [];
    return [
      {
        state,
        at: top.at,
        heightM: top.heightM,
        trappedM: top.heightM - Math.max(lowest(before), lowest(after)),
      },
    ];
  });
  const limitM = limitOf(facts);
  const worst = worstOf(found, limitM);
  if (!worst) return { outcome: 'notApplicable', reason: 'notPlaced' };
  const at = way.things.indexOf(id);
  const grade = way.things.slice(Math.max(0, at - 1), at + 2).flatMap((one) => facts.gradesAlong(one, UP));
  if (worst.trappedM <= limitM || worst.heightM <= 0)
    return verdictOf(
      { ...worst, trappedM: worst.heightM <= 0 ? 0 : worst.trappedM },
      limitM,
      [],
      'thingTrapsAir',
      grade,
    );
  if (thing.bleeds) return verdictOf({ ...worst, trappedM: 0 }, limitM, [], 'thingTrapsAir', []);
  if (thing.bleeds === undefined) {
    return {
      outcome: 'cannotTell',
      reason: 'bleedsUnknown',
      enterNext: `Enter whether air can be let out of ${thing.name}`,
      at: worst.at,
      data: { trappedM: worst.trappedM },
    };
  }
  return verdictOf(worst, limitM, [], 'thingTrapsAir', grade);
}

const limitOf = (facts: Facts): number => LIMITS[facts.profile()].trappedM;

interface High {
  readonly state: HeeledWater;
  readonly at: Vec3;
  readonly heightM: number;
  readonly trappedM: number;
}

/** Of the waters in which the set runs: what traps air over its water counts before what can be bled under it. */
const worstOf = (found: readonly High[], limitM: number): High | null =>
  found.reduce<High | null>((best, next) => {
    if (!best) return next;
    const rank = (one: High) => (one.trappedM > limitM ? (one.heightM > 0 ? 2 : 1) : 0);
    return rank(next) > rank(best) || (rank(next) === rank(best) && next.trappedM > best.trappedM + 1e-9) ? next : best;
  }, null);

function verdictOf(
  worst: High | null,
  limitM: number,
  related: readonly string[],
  reason: string,
  grade: readonly GradeShare[],
  doubted: (judged: Judged) => Judged = (judged) => judged,
): Verdict {
  // A thing that lies below its neighbours has room to spare before it traps air.
  const signedM = worst?.trappedM ?? 0;
  const { met, ...judged } = doubted(judge({ value: signedM, limit: limitM, bound: 'atMost', unit: 'm', grade }));
  const compared = { ...judged, measured: { ...judged.measured, value: Math.max(0, signedM) } };
  if (!worst) return { outcome: 'pass', ...compared, related };
  const { state, heightM, at } = worst;
  const data = { heightM, state: state.name, heelDeg: state.heelDeg, down: state.down, trimDeg: state.trimDeg };
  if (met) return { outcome: 'pass', ...compared, related, at, data };
  const isWet = heightM <= 0;
  return {
    outcome: 'fail',
    severity: isWet ? 'advice' : 'fault',
    reason: isWet ? 'bleedHere' : reason,
    ...compared,
    related,
    at,
    data,
  };
}

const SUCTION_WAYS = new WeakMap<Circuit, readonly SeaWay[]>();

/** Ways from the sea to the pumps of the set that draw: none that another pump feeds. They follow from the circuit alone. */
function suctionWays(facts: Facts): readonly SeaWay[] {
  const circuit = facts.circuit();
  const known = SUCTION_WAYS.get(circuit);
  if (known) return known;
  const pumps = Object.keys(circuit.things)
    .sort()
    .filter((id) => SET_PUMPS.has(circuit.things[id]?.kind ?? ''));
  const ways = pumps.flatMap((id) => {
    const way = seaWay(circuit, id);
    return way && !way.things.slice(0, -1).some((thing) => isPump(circuit.things[thing]?.kind ?? '')) ? [way] : [];
  });
  SUCTION_WAYS.set(circuit, ways);
  return ways;
}

const thingsOnSuction = (facts: Facts): string[] =>
  [...new Set(suctionWays(facts).flatMap(({ things }) => things.slice(1, -1)))].sort();
