import { feeds } from '../../assess/water/fresh';
import { SET_PUMPS } from '../../boat/kinds';
import { withoutValve } from '../../runs/circuit/valves';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { nameOf } from '../name-of';

/** A pump that is started with its intake shut runs dry: its impeller is gone in a minute. */
export const runsDry = defineRule({
  id: 'water/runs-dry',
  question: 'In each operating state, does every pump of the set that runs get water?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: ['Whether the valves really stand so.', 'An intake that is clogged.'],
  hazards: [],
  subjects: (facts) => {
    const running = new Set(Object.values(facts.operatingStates()).flatMap((state) => state.running));
    return facts.thingIds().filter((id) => running.has(id) && SET_PUMPS.has(facts.thing(id)?.kind ?? ''));
  },
  check(pumpId, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    if (!feeds(circuit, pumpId, {})) return [{ outcome: 'notApplicable', reason: 'notDrawn' }];
    return Object.entries(facts.operatingStates())
      .filter(([, { running }]) => running.includes(pumpId))
      .map(([id, { name, valves }]): Verdict => {
        const said = { instance: id, data: { state: name } };
        if (feeds(circuit, pumpId, valves)) return { outcome: 'pass', ...countedFaults(0), ...said };
        const shut = Object.keys(valves)
          .sort()
          .filter((valve) => feeds(circuit, pumpId, withoutValve(valves, valve)));
        const related = shut.length > 0 ? shut : Object.keys(valves).sort();
        const names = related.map((valve) => `${nameOf(valve, facts)} (${valves[valve] ?? ''})`).join(', ');
        return {
          outcome: 'fail',
          severity: 'fault',
          reason: 'dry',
          ...countedFaults(1),
          ...said,
          related,
          data: { state: name, valves: names },
        };
      });
  },
});
