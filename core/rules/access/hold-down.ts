import type { Thing } from '../../boat/schema/boat';
import { countedFaults } from '../counted';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend } from '../mend';

/** Twice its weight in any direction: the yardstick of batteries in a knockdown, taken for all that is heavy. */
const LIMITS = inBoth({ timesWeight: 2, heavyKg: 10 });

/** What tears loose in a knockdown is a missile, and opens every hose on it. */
export const holdDown = defineRule({
  id: 'access/hold-down',
  question: 'Does every surface hold what stands on it in a knockdown?',
  sources: [
    { key: 'iso-10133', clause: '5', standing: 'quoted' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: ['Screws, bolts and their washers.', 'Straps beside the surface.', 'How sure the entered capacity is.'],
  hazards: ['lifting'],
  subjects: (facts) => [
    ...Object.keys(facts.mountingSurfaces()),
    ...facts.thingIds().filter((id) => facts.isPart(id) && facts.thing(id)?.kind !== 'battery' && isSaid(id, facts)),
  ],
  check(id, facts): readonly Verdict[] {
    const part = facts.thing(id);
    if (part) return [looseOr(part, id, facts)];
    const surface = facts.mountingSurfaces()[id];
    const carried = partsOn(id, facts);
    if (!surface || carried.length === 0) return [{ outcome: 'notApplicable', reason: 'nothingOnIt' }];
    if (surface.capacityKg === undefined) return [{ outcome: 'notApplicable', reason: 'judgedByThickness' }];
    const massKg = carried.reduce((sum, part) => sum + (facts.thing(part)?.massKg ?? 0), 0);
    const { timesWeight } = LIMITS[facts.profile()];
    const { met, ...compared } = judge({
      value: timesWeight * massKg,
      limit: surface.capacityKg,
      bound: 'atMost',
      unit: 'kg',
      grade: [],
    });
    const said = { ...compared, related: carried, at: surface.at, data: { massKg, times: timesWeight } };
    return met ? [{ outcome: 'pass', ...said }] : [{ outcome: 'fail', severity: 'fault', reason: 'tooMuch', ...said }];
  },
  mends: strapped,
});

const isSaid = (id: string, facts: Facts): boolean => facts.thing(id)?.heldDown !== undefined;

/** A part of which it is said whether anything holds it; batteries have a check of their own. */
function looseOr({ massKg, heldDown }: Thing, id: string, facts: Facts): Verdict {
  const at = facts.pose(id)?.at;
  const { heavyKg } = LIMITS[facts.profile()];
  if (!at) return { outcome: 'notApplicable', reason: 'notPlaced' };
  if (massKg < heavyKg) return { outcome: 'notApplicable', reason: 'light' };
  if (heldDown) return { outcome: 'pass', ...countedFaults(0), at, data: { massKg, times: 0 } };
  return {
    outcome: 'fail',
    severity: 'fault',
    reason: 'loose',
    measured: { value: massKg, unit: 'kg' },
    limit: { value: heavyKg, unit: 'kg', bound: 'atMost' },
    at,
    data: { massKg },
  };
}

/** Straps or bolts on what is loose. */
function strapped({ subject, reason }: FailedFinding): readonly Mend[] {
  if (reason !== 'loose') return [];
  return [
    {
      id: `strap ${subject}`,
      change: 'add',
      what: { item: 'straps', to: subject },
      recipe: (boat) => {
        const part = boat.parts[subject];
        if (part) part.heldDown = true;
      },
    },
  ];
}

const partsOn = (surface: string, facts: Facts): readonly string[] =>
  facts
    .thingIds()
    .filter((id) => facts.isPart(id) && (facts.thing(id)?.massKg ?? 0) > 0 && facts.surfaceOf(id) === surface);
