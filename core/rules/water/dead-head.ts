import { forward, isLetOut, pressureOutlets, type ShutOff, shutOffOf } from '../../assess/water/shut-off';
import { inOrder } from '../../base/order';
import { openState, withoutValve } from '../../runs/circuit/valves';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { Mend } from '../mend';
import { takeOut, thingChanged } from '../mend-recipes';
import { nameOf } from '../name-of';

/** A plunger pump against a shut valve passes every pressure that its hoses bear within a second. */
export const deadHead = defineRule({
  id: 'water/dead-head',
  question: 'Does water always find a way out behind the pressure pump, whatever a hand does to the valves?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  gravest: 'danger',
  cannotSee: [
    'A hose that is kinked, or a membrane that is blocked.',
    'Whether a relief valve is set right, and was tried.',
    'A blank or plug that is left in place after laying up.',
  ],
  hazards: ['highPressure'],
  subjects: (facts) => facts.thingIds().filter((id) => facts.thing(id)?.kind === 'pumpModule'),
  check(pumpId, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const starts = pressureOutlets(circuit, pumpId);
    const mayTake = forward(circuit);
    const found = shutOffOf(circuit, starts, mayTake, true);
    if (found.kind === 'notDrawn') return [{ outcome: 'notApplicable', reason: 'notDrawn' }];
    if (found.kind === 'noEnd') {
      const last = nameOf(found.at.at(-1) ?? pumpId, facts);
      return [
        {
          outcome: 'cannotTell',
          reason: 'noWayOut',
          enterNext: `Draw where the brine goes from ${last}`,
          related: found.at.filter((id) => id !== pumpId),
        },
      ];
    }
    const state = inOrder(facts.operatingStates()).find(
      ([, { running, valves }]) =>
        running.includes(pumpId) &&
        'ends' in found &&
        !isLetOut(circuit, starts, mayTake, { ...openStates(facts), ...valves }),
    );
    if (state) {
      const shut = Object.entries(state[1].valves).filter(([id]) =>
        isLetOut(circuit, starts, mayTake, { ...openStates(facts), ...withoutValve(state[1].valves, id) }),
      );
      return [
        {
          outcome: 'fail',
          severity: 'danger',
          reason: 'shutInState',
          ...countedFaults(1),
          related: shut.map(([id]) => id),
          at: facts.pose(shut[0]?.[0] ?? pumpId)?.at ?? null,
          data: {
            state: state[1].name,
            valves: said(
              shut.map(([thing, to]) => ({ thing, state: to })),
              facts,
            ),
          },
        },
      ];
    }
    return [verdictOf(found, pumpId, facts)];
  },
  mends({ subject, reason, related }, { boat }): readonly Mend[] {
    if (reason !== 'midLine' && reason !== 'hullShut') return [];
    const fitRelief: Mend = {
      id: 'relief',
      change: 'add',
      what: { item: 'reliefValve', to: subject },
      recipe: thingChanged(subject, (pump) => {
        pump.relief = {};
      }),
    };
    const out = reason === 'midLine' ? related.flatMap((id) => takeOut(id, 'valve', boat)) : [];
    const label: readonly Mend[] =
      reason === 'hullShut'
        ? related.map((id) => ({
            id: `label ${id}`,
            change: 'add',
            what: { item: 'label', to: id },
            recipe: thingChanged(id, (thing) => {
              thing.valve = { states: ['open', 'shut'], kind: 'ball', ...thing.valve, labelled: true };
            }),
          }))
        : [];
    return [...label, ...out, fitRelief];
  },
});

function verdictOf(
  found: Exclude<ShutOff, { readonly kind: 'notDrawn' | 'noEnd' }>,
  pumpId: string,
  facts: Facts,
): Verdict {
  if (found.kind === 'backwards')
    return {
      outcome: 'fail',
      severity: 'danger',
      reason: 'backwards',
      ...countedFaults(1),
      related: found.at.filter((id) => id !== pumpId),
      data: { last: nameOf(found.at.at(-1) ?? pumpId, facts) },
    };
  if (found.kind !== 'shuts') {
    if (found.isBounded && found.reliefs.length === 0)
      return {
        outcome: 'cannotTell',
        reason: 'tooMany',
        enterNext: 'Fit a relief valve at the pump, or draw fewer valves behind it',
        data: { tried: found.tried },
      };
    return {
      outcome: 'pass',
      ...countedFaults(0),
      related: [...new Set([...found.valves, ...found.reliefs, ...found.ends])].filter((id) => id !== pumpId),
      data: { tried: found.tried, reliefs: found.reliefs.map((id) => nameOf(id, facts)).join(', ') },
    };
  }
  const related = found.by.map(({ thing }) => thing);
  const at = facts.pose(related[0] ?? pumpId)?.at ?? null;
  const data = { valves: said(found.by, facts), tried: found.tried, asItStands: found.asItStands };
  if (found.atHull)
    return { outcome: 'fail', severity: 'fault', reason: 'hullShut', ...countedFaults(1), related, at, data };
  return { outcome: 'fail', severity: 'danger', reason: 'midLine', ...countedFaults(1), related, at, data };
}

const said = (by: readonly { readonly thing: string; readonly state: string }[], facts: Facts): string =>
  by.map(({ thing, state }) => `${nameOf(thing, facts)} (${state})`).join(', ');

/** Of an operating state only what it names is asked: the checklist opens the rest. */
const openStates = (facts: Facts): Record<string, string> =>
  Object.fromEntries(facts.thingIds().map((id) => [id, openState(facts.thing(id) ?? undefined)]));
