import { productOutlets, shutOffOf } from '../../assess/water/shut-off';
import { crossesMembrane } from '../../assess/water/walk';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { takeOut, thingChanged } from '../mend-recipes';
import { nameOf } from '../name-of';

/** Made water that cannot leave presses back into the membrane from its weak side and parts its leaves. */
export const productOpen = defineRule({
  id: 'water/product-open',
  question: 'Does made water always find a way out, whatever a hand does to the valves?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  gravest: 'danger',
  cannotSee: ['A tube that is kinked, or an outlet that is plugged.', 'How much back pressure the membrane bears.'],
  hazards: ['highPressure', 'drinkingWater'],
  subjects: (facts) => facts.thingIds().filter((id) => facts.thing(id)?.kind === 'membrane'),
  check(membraneId, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const found = shutOffOf(
      circuit,
      productOutlets(circuit, membraneId),
      (edge) => !crossesMembrane(circuit, edge),
      false,
    );
    if (found.kind === 'notDrawn') return [{ outcome: 'notApplicable', reason: 'notDrawn' }];
    if (found.kind === 'noEnd') {
      return [
        {
          outcome: 'cannotTell',
          reason: 'noWayOut',
          enterNext: `Draw where made water goes from ${nameOf(found.at.at(-1) ?? membraneId, facts)}`,
          related: found.at.filter((id) => id !== membraneId),
        },
      ];
    }
    if (found.kind === 'backwards')
      return [
        {
          outcome: 'fail',
          severity: 'danger',
          reason: 'backwards',
          ...countedFaults(1),
          related: found.at.filter((id) => id !== membraneId),
          data: { last: nameOf(found.at.at(-1) ?? membraneId, facts) },
        },
      ];
    if (found.kind === 'shuts') {
      const related = found.by.map(({ thing }) => thing);
      return [
        {
          outcome: 'fail',
          severity: 'danger',
          reason: 'canBeShut',
          ...countedFaults(1),
          related,
          at: facts.pose(related[0] ?? membraneId)?.at ?? null,
          data: {
            valves: found.by.map(({ thing, state }) => `${nameOf(thing, facts)} (${state})`).join(', '),
            tried: found.tried,
          },
        },
      ];
    }
    if (found.isBounded && found.reliefs.length === 0)
      return [
        {
          outcome: 'cannotTell',
          reason: 'tooMany',
          enterNext: 'Draw fewer valves behind the membrane, or fit a relief',
          data: { tried: found.tried },
        },
      ];
    return [
      {
        outcome: 'pass',
        ...countedFaults(0),
        related: [...new Set([...found.valves, ...found.reliefs, ...found.ends])],
        data: { tried: found.tried, reliefs: found.reliefs.map((id) => nameOf(id, facts)).join(', ') },
      },
    ];
  },
  mends({ related, reason }, { boat }) {
    const [valve] = related;
    if (reason !== 'canBeShut' || valve === undefined) return [];
    return [
      ...takeOut(valve, 'valve', boat),
      {
        id: `relief ${valve}`,
        change: 'add',
        what: { item: 'reliefValve', to: valve },
        recipe: thingChanged(valve, (thing) => {
          thing.relief = {};
        }),
      },
    ];
  },
});
