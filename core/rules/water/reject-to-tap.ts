import {
  canSeparate,
  divertingOf,
  joinsAll,
  meantFor,
  type ProductWay,
  positionsIn,
  productEnds,
  productWays,
  rejectStates,
} from '../../assess/water/product';
import { inOrder } from '../../base/order';
import type { Boat } from '../../boat/schema/boat';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { changedRound } from '../mend-recipes';
import { nameOf } from '../name-of';

/** What the lamp shows as bad must run into a cup, not into the tank: one bad quarter of an hour spoils a week of water. */
export const rejectToTap = defineRule({
  id: 'water/reject-to-tap',
  question: 'Does water that is not good yet run to the tap and never into the tank, and good water into the tank?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: [
    'Whether the diverting valve is really piped as drawn.',
    'Whether the probe and the lamp tell the truth.',
  ],
  hazards: ['drinkingWater'],
  subjects: (facts) => productWays(facts.circuit()).map(subjectOf),
  check(subject, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const way = productWays(circuit).find((one) => subjectOf(one) === subject);
    if (!way) return [{ outcome: 'notApplicable', reason: 'notDrawn' }];
    if (way.tanks.length === 0) return [{ outcome: 'notApplicable', reason: 'noTank' }];
    return [way.diverter === null ? byHand(way, facts) : diverted(way, way.diverter, facts), ...inStates(way, facts)];
  },
  mends: ({ subject, reason }, { boat }) =>
    reason === 'rejectToTank' || reason === 'stateToTank'
      ? pairsAt(subject, boat).map(([line, other]) => ({
          id: `swap ${line} ${other}`,
          change: 'swap',
          what: { line, other, thing: subject },
          recipe: changedRound(subject, line, other),
        }))
      : [],
});

/** Lines at a diverter that lead on from it, by pairs. */
function pairsAt(diverter: string, boat: Boat): readonly (readonly [string, string])[] {
  const lines = Object.keys(boat.lines)
    .sort()
    .filter((id) => boat.lines[id]?.medium === 'product' && boat.lines[id]?.from.thing === diverter);
  return lines.flatMap((a, i) => lines.slice(i + 1).map((b): readonly [string, string] => [a, b]));
}

const subjectOf = ({ diverter, membranes }: ProductWay): string => diverter ?? membranes[0] ?? '';

const relatedOf = ({ diverter, membranes, tanks, others }: ProductWay): readonly string[] =>
  [...membranes, ...(diverter === null ? [] : [diverter]), ...tanks, ...others].filter(
    (id) => id !== (diverter ?? membranes[0]),
  );

/** No valve is meant to divert: hand valves must be able to, or there must be none to keep bad water from the tank. */
function byHand(way: ProductWay, facts: Facts): Verdict {
  const related = relatedOf(way);
  if (canSeparate(facts.circuit(), way)) return { outcome: 'pass', ...countedFaults(0), related };
  if (way.others.length === 0)
    return { outcome: 'fail', severity: 'fault', reason: 'noTap', ...countedFaults(1), related };
  return { outcome: 'fail', severity: 'fault', reason: 'tankAlways', ...countedFaults(1), related };
}

function diverted(way: ProductWay, diverter: string, facts: Facts): Verdict {
  const circuit = facts.circuit();
  const reject = rejectStates(circuit, diverter);
  const related = relatedOf(way);
  const unentered = joinsAll(circuit, diverter);
  if (reject === null) {
    if (canSeparate(circuit, way)) return { outcome: 'pass', ...countedFaults(0), related };
    return {
      outcome: 'fail',
      severity: 'fault',
      reason: 'tankAlways',
      ...countedFaults(1),
      related,
      data: { joinsAll: unentered },
    };
  }
  const { wrong, nowhere, neverAccepts } = divertingOf(circuit, way, diverter, reject);
  const at = facts.pose(diverter)?.at ?? null;
  if (wrong)
    return {
      outcome: 'fail',
      severity: 'fault',
      reason: 'rejectToTank',
      ...countedFaults(1),
      related: [wrong.tank, ...related.filter((id) => id !== wrong.tank)],
      at,
      data: { state: wrong.state, tank: nameOf(wrong.tank, facts), joinsAll: unentered },
    };
  if (nowhere !== null)
    return {
      outcome: 'fail',
      severity: 'fault',
      reason: 'rejectNowhere',
      ...countedFaults(1),
      related,
      at,
      data: { state: nowhere },
    };
  if (neverAccepts)
    return { outcome: 'fail', severity: 'fault', reason: 'neverAccepts', ...countedFaults(1), related, at };
  return { outcome: 'pass', ...countedFaults(0), related, at, data: { state: reject.join(', ') } };
}

/** Operating states that say what becomes of made water are taken at their word. */
function inStates(way: ProductWay, facts: Facts): Verdict[] {
  const circuit = facts.circuit();
  return inOrder(facts.operatingStates()).flatMap(([id, state]): Verdict[] => {
    const meant = meantFor(id, state);
    if (meant === null) return [];
    const ends = productEnds(circuit, way.starts, positionsIn(circuit, facts.thingIds(), state.valves));
    const tank = ends.find((end) => way.tanks.includes(end));
    const said = {
      instance: id,
      related: relatedOf(way),
      data: { operating: state.name, tank: tankName(tank, facts) },
    };
    if (meant === 'reject' && tank !== undefined)
      return [{ outcome: 'fail', severity: 'fault', reason: 'stateToTank', ...countedFaults(1), ...said }];
    if (meant === 'tank' && tank === undefined)
      return [{ outcome: 'fail', severity: 'fault', reason: 'stateMissesTank', ...countedFaults(1), ...said }];
    return [{ outcome: 'pass', ...countedFaults(0), ...said }];
  });
}

const tankName = (id: string | undefined, facts: Facts): string => (id === undefined ? '' : nameOf(id, facts));
