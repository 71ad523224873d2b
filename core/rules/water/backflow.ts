import { backflows } from '../../assess/water/fresh';
import { handStates, shutStates } from '../../runs/circuit/valves';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { thingChanged } from '../mend-recipes';
import { nameOf } from '../name-of';

/** The flush joins the drinking water to the sea: a valve that is left half over, or leaks, lets salt into the tank. */
export const backflow = defineRule({
  id: 'water/backflow',
  question: 'Does something that lets through one way only keep sea water out of the fresh water?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'vsp-2018', clause: '5.7.1.1.2', standing: 'quoted' },
  ],
  gravest: 'danger',
  cannotSee: [
    'Whether the check valve holds: weed and scale keep it open.',
    'Hoses that are joined by hand for a flush.',
  ],
  hazards: ['drinkingWater'],
  subjects: (facts) => [...new Set(backflows(facts.circuit()).map(({ source }) => source))],
  check(source, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const own = backflows(circuit).filter((one) => one.source === source);
    const sure = own.filter(({ unsure }) => unsure.length === 0);
    const worst =
      sure.find(({ kind }) => kind === 'reaches') ??
      sure.find(({ kind }) => kind === 'valveOnly') ??
      own.find(({ unsure }) => unsure.length > 0) ??
      own[0];
    if (!worst) return [{ outcome: 'notApplicable', reason: 'apart' }];
    const related = worst.way.filter((id) => id !== source);
    const valves = worst.way.filter((id) => handStates(circuit.things[id]).length > 1 && id !== worst.intake);
    const data = { intake: nameOf(worst.intake, facts), valves: valves.map((id) => nameOf(id, facts)).join(', ') };
    if (worst.unsure.length > 0)
      return [
        {
          outcome: 'cannotTell',
          reason: 'wayGuessed',
          enterNext: `Enter which port of ${worst.unsure.map((id) => nameOf(id, facts)).join(' and of ')} lets in and which out`,
          related: worst.unsure,
          data,
        },
      ];
    if (worst.kind === 'held') return [{ outcome: 'pass', ...countedFaults(0), related, data }];
    if (worst.kind === 'reaches')
      return [{ outcome: 'fail', severity: 'danger', reason: 'reaches', ...countedFaults(1), related, data }];
    return [{ outcome: 'fail', severity: 'fault', reason: 'valveOnly', ...countedFaults(1), related, data }];
  },
  mends({ subject, related }, { facts }) {
    const found = backflows(facts.circuit()).find((one) => one.source === subject && related.includes(one.intake));
    if (!found) return [];
    // From the fresh water on: what has one way in and one way out can hold a check valve.
    return [...found.way]
      .reverse()
      .flatMap((id) => {
        const thing = facts.thing(id);
        const inlet = portOf('in', facts.thing(id)?.ports ?? {});
        const outlet = portOf('out', facts.thing(id)?.ports ?? {});
        const holds = thing?.kind === 'flushValve' || thing?.kind === 'carbonFilter';
        if (!thing || !holds || inlet === null || outlet === null || thing.passages) return [];
        const shut = shutStates(thing);
        const open = thing.valve?.states.filter((state) => !shut.includes(state));
        return [
          {
            id: `check ${id}`,
            change: 'add' as const,
            what: { item: 'checkValve', to: id },
            recipe: thingChanged(id, (changed) => {
              changed.passages = {
                through: { ports: [inlet, outlet], oneWay: true, ...(open ? { when: [...open] } : {}) },
              };
            }),
          },
        ];
      })
      .slice(0, 2);
  },
});

function portOf(
  role: 'in' | 'out',
  ports: Readonly<Record<string, { readonly role: string; readonly medium?: string | undefined }>>,
): string | null {
  const found = Object.keys(ports).filter((port) => ports[port]?.role === role && ports[port]?.medium !== 'signal');
  return found.length === 1 ? (found[0] ?? null) : null;
}
