import { feeds, seaFeeds } from '../../assess/water/fresh';
import { drawnSeaWay } from '../../assess/water/sea-way';
import { bothWaysIn, valvesAmong } from '../../assess/water/walk';
import { SET_PUMPS } from '../../boat/kinds';
import { type Circuit, portsOf } from '../../runs/circuit/circuit';
import { combinationsOf, withoutValve } from '../../runs/circuit/valves';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { nameOf } from '../name-of';

/** A pump that is started with its intake shut runs dry: its impeller is gone in a minute. */
export const runsDry = defineRule({
  id: 'water/runs-dry',
  question:
    'In each operating state, does every pump of the set that runs get water? Without any, can the valves be set so?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: [
    'Whether the valves really stand so.',
    'Whether a seacock that an operating state does not name was opened: open it first.',
    'An intake that is clogged.',
  ],
  hazards: [],
  subjects: (facts) => {
    const running = new Set(Object.values(facts.operatingStates()).flatMap((state) => state.running));
    const isAsked = (id: string): boolean => running.has(id) || running.size === 0;
    return facts.thingIds().filter((id) => isAsked(id) && SET_PUMPS.has(facts.thing(id)?.kind ?? ''));
  },
  check(pumpId, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const states = Object.entries(facts.operatingStates());
    const isRun = states.some(([, { running }]) => running.includes(pumpId));
    if (!isRun || !feeds(circuit, pumpId, {})) return [inSomeSetting(pumpId, facts)];
    return states
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

/** Where no operating state is entered, or nothing comes in any: whether some setting of the valves brings the pump water from the sea. */
function inSomeSetting(pumpId: string, facts: Facts): Verdict {
  const circuit = facts.circuit();
  const way = drawnSeaWay(circuit, pumpId)?.things;
  if (!way) return { outcome: 'notApplicable', reason: 'notDrawn' };
  const valves = valvesAmong(circuit, way);
  const { all } = combinationsOf(circuit.things, valves);
  if (all.some((setting) => seaFeeds(circuit, pumpId, setting)))
    return { outcome: 'pass', ...countedFaults(0), data: { state: '', valves: '' } };
  const turnable = bothWaysIn(circuit, (id) => id !== pumpId);
  const isBackwards = all.some((setting) => seaFeeds(turnable, pumpId, setting));
  const related = isBackwards ? way.filter((id) => id !== pumpId && isOneWay(circuit, id)) : valves;
  return {
    outcome: 'fail',
    severity: 'fault',
    reason: isBackwards ? 'backwards' : 'noSetting',
    ...countedFaults(1),
    related,
    data: { state: '', valves: related.map((id) => nameOf(id, facts)).join(', ') },
  };
}

const isOneWay = (circuit: Circuit, id: string): boolean =>
  portsOf(circuit, id).some((node) => circuit.edgesAt(node).some((edge) => edge.kind === 'passage' && edge.oneWay));
