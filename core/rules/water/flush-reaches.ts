import { blockedFlushes, flushWays, isWayGuessed } from '../../assess/water/fresh';
import { seaWay } from '../../assess/water/sea-way';
import { forward, pressureOutlets } from '../../assess/water/shut-off';
import { ofKind, walk } from '../../assess/water/walk';
import type { Circuit } from '../../runs/circuit/circuit';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { nameOf } from '../name-of';

/** Salt that a flush leaves behind eats the pump; what lives in a bowl that it never reaches rots while the set is laid up. */
export const flushReaches = defineRule({
  id: 'water/flush-reaches',
  question: 'Does the fresh water of a flush pass the filters, the pump and the membrane?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: ['Dead ends inside a part.', 'Whether the flush runs long enough.'],
  hazards: [],
  subjects: (facts) =>
    flushWays(facts.circuit()).length + blockedFlushes(facts.circuit()).length > 0
      ? facts.thingIds().filter((id) => facts.thing(id)?.kind === 'pumpModule')
      : [],
  check(pumpId, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const raw = rawWay(circuit, pumpId);
    if (raw.length < 2) return [{ outcome: 'notApplicable', reason: 'noWayFromSea' }];
    const entries = flushWays(circuit).flatMap(({ way }) => {
      const joint = way.find((id) => raw.includes(id));
      return joint === undefined ? [] : [{ joint, at: raw.indexOf(joint) }];
    });
    const [blocked] = blockedFlushes(circuit);
    if (entries.length === 0 && blocked) {
      const data = { source: nameOf(blocked.source, facts), joint: '', missed: '' };
      const related = blocked.way.filter((id) => id !== pumpId);
      const unsure = related.filter((id) => isWayGuessed(circuit, id));
      if (unsure.length > 0)
        return [
          {
            outcome: 'cannotTell',
            reason: 'wayGuessed',
            enterNext: `Enter which port of ${unsure.map((id) => nameOf(id, facts)).join(' and of ')} lets in and which out`,
            related: unsure,
            data,
          },
        ];
      return [{ outcome: 'fail', severity: 'fault', reason: 'blocked', ...countedFaults(1), related, data }];
    }
    const [first] = entries.sort((a, b) => a.at - b.at);
    if (!first) return [{ outcome: 'notApplicable', reason: 'elsewhere' }];
    const missed = raw.slice(0, first.at);
    const bowls = missed.filter((id) => facts.thing(id)?.kind === 'filter');
    const machines = missed.filter((id) => MACHINES.has(facts.thing(id)?.kind ?? ''));
    const said = {
      data: {
        joint: nameOf(first.joint, facts),
        missed: [...machines, ...bowls].map((id) => nameOf(id, facts)).join(', '),
      },
    };
    if (machines.length > 0)
      return [
        {
          outcome: 'fail',
          severity: 'fault',
          reason: 'machineMissed',
          ...countedFaults(machines.length),
          related: [...machines, first.joint].filter((id) => id !== pumpId),
          ...said,
        },
      ];
    if (bowls.length > 0)
      return [
        {
          outcome: 'fail',
          severity: 'advice',
          reason: 'bowlMissed',
          ...countedFaults(bowls.length),
          related: [...bowls, first.joint],
          ...said,
        },
      ];
    return [{ outcome: 'pass', ...countedFaults(0), related: [first.joint], ...said }];
  },
});

const MACHINES: ReadonlySet<string> = new Set(['pumpModule', 'feedPump', 'membrane']);

/** Things that the sea water passes from the intake by the pump to the last membrane, in order. */
function rawWay(circuit: Circuit, pump: string): readonly string[] {
  const way = seaWay(circuit, pump)?.things ?? [];
  const pressed = walk(circuit, pressureOutlets(circuit, pump), { valves: null, mayTake: forward(circuit) });
  const membranes = ofKind(circuit, ['membrane']).filter((id) => pressed.things.includes(id));
  const last = membranes.sort((a, b) => pressed.wayTo(b).length - pressed.wayTo(a).length)[0];
  const behind = last === undefined ? [] : pressed.wayTo(last).filter((id) => id !== pump);
  return way.length === 0 ? [] : [...way, ...behind];
}
