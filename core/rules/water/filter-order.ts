import { seaWay } from '../../assess/water/sea-way';
import type { Circuit } from '../../runs/circuit/circuit';
import { defineRule, type Verdict } from '../define';
import { linesAt } from '../lines-at';
import { pathOf } from '../name-of';

/** Waters of lines that tell that somebody has begun to draw the circuit. */
const SEA_WATERS: ReadonlySet<string> = new Set(['seaWater', 'brine', 'product', 'freshWater']);

/** What stands on the way of the sea water, in order. */
interface Stage {
  readonly thing: string;
  readonly role: 'strainer' | 'filter' | 'pump';
  readonly micron: number | null;
}

/** The coarse thing first: a strainer before every pump and filter, a coarse filter before a fine one, both before the high pressure. */
export const filterOrder = defineRule({
  id: 'water/filter-order',
  question: 'Does the sea water pass the strainer first, then coarse, then fine?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: ['Which cartridge is really in which bowl.', 'A strainer built into a fitting that is not drawn as one.'],
  hazards: [],
  subjects: (facts) => facts.thingIds().filter((id) => facts.thing(id)?.kind === 'pumpModule'),
  check(pumpId, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const way = seaWay(circuit, pumpId)?.things;
    // A pump to which nobody has drawn a hose yet is asked for by what is planned next, not here.
    const isDrawn = linesAt(pumpId, facts).some((id) => SEA_WATERS.has(facts.line(id)?.medium ?? ''));
    if (!way && !isDrawn) return [{ outcome: 'notApplicable', reason: 'notDrawn' }];
    if (!way)
      return [
        { outcome: 'cannotTell', reason: 'noWayFromSea', enterNext: 'Draw the lines from an intake to the pump' },
      ];
    const stages = stagesOf(circuit, way);
    const unknown = stages.filter((stage) => stage.role === 'filter' && stage.micron === null);
    if (unknown[0] && stages.filter((stage) => stage.role === 'filter').length > 1) {
      const name = circuit.things[unknown[0].thing]?.name ?? unknown[0].thing;
      return [
        {
          outcome: 'cannotTell',
          reason: 'noMicron',
          enterNext: `Enter how fine ${name} is, in micron`,
          related: unknown.map((stage) => stage.thing),
          missing: {
            path: pathOf(unknown[0].thing, 'micron', facts),
            unit: 'micron',
          },
        },
      ];
    }
    const wrong = wrongPairs(stages);
    const related = way;
    const limit = { value: 0, unit: 'count', bound: 'atMost' } as const;
    const measured = { value: wrong.length, unit: 'count' } as const;
    const data = { order: stages.map((stage) => circuit.things[stage.thing]?.name ?? stage.thing).join(', ') };
    const first = wrong[0];
    if (!first) return [{ outcome: 'pass', measured, limit, related, data }];
    return [
      {
        outcome: 'fail',
        severity: 'fault',
        reason: first.reason,
        measured,
        limit,
        related,
        at: facts.pose(first.thing)?.at ?? null,
        data: { ...data, thing: circuit.things[first.thing]?.name ?? first.thing },
      },
    ];
  },
});

function stagesOf(circuit: Circuit, way: readonly string[]): Stage[] {
  return way.flatMap((thing): Stage[] => {
    const it = circuit.things[thing];
    if (it?.kind === 'strainer') return [{ thing, role: 'strainer', micron: null }];
    if (it?.kind === 'filter') return [{ thing, role: 'filter', micron: it.micron ?? null }];
    if (it?.kind === 'feedPump' || it?.kind === 'pumpModule') return [{ thing, role: 'pump', micron: null }];
    return [];
  });
}

/** Pairs that stand the wrong way round, and what is missing. */
function wrongPairs(stages: readonly Stage[]): { thing: string; reason: string }[] {
  const wrong: { thing: string; reason: string }[] = [];
  const strainerAt = stages.findIndex((stage) => stage.role === 'strainer');
  if (strainerAt < 0) wrong.push({ thing: stages.at(-1)?.thing ?? '', reason: 'noStrainer' });
  stages.forEach((stage, i) => {
    if (strainerAt > i) wrong.push({ thing: stage.thing, reason: 'beforeStrainer' });
    const next = stages.slice(i + 1).find((later) => later.role === 'filter' && later.micron !== null);
    if (stage.role === 'filter' && stage.micron !== null && next?.micron != null && next.micron > stage.micron)
      wrong.push({ thing: stage.thing, reason: 'fineBeforeCoarse' });
  });
  return wrong;
}
