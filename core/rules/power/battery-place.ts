import type { Thing } from '../../boat/schema/boat';
import { gapBetween } from '../../shape/space/overlap';
import { solidBounds } from '../../shape/space/things';
import { directionTo } from '../along-run';
import { countedFaults } from '../counted';
import { defineRule, type Limits, type Verdict } from '../define';
import { centreOf, envelopeOf } from '../envelope';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { judge } from '../judge';
import type { Mend } from '../mend';
import { valueMend } from '../power-mends';

/** Give under twice its weight, and distance of bare metal of the fuel: ISO 10133 5.1 to 5.7; 33 CFR 183.420 (1 in, 12 in). */
const LIMITS: Limits<'movesM' | 'fuelMetalM'> = {
  isoSmallCraft: { movesM: 0.01, fuelMetalM: 0.3 },
  usVoluntary: { movesM: 0.0254, fuelMetalM: 0.3048 },
};

const SOURCE: Readonly<Record<'isoSmallCraft' | 'usVoluntary', SourceRef>> = {
  isoSmallCraft: { key: 'iso-10133', clause: '5.1-5.7', standing: 'quoted' },
  usVoluntary: { key: 'cfr-33-183', clause: '183.420', standing: 'published' },
};

/** A battery that breaks loose, stands in bilge water or meets fuel sets a boat on fire. */
export const batteryPlace = defineRule({
  id: 'power/battery-place',
  question: 'Is every battery held down, dry, aired and clear of fuel?',
  sources: [SOURCE.isoSmallCraft, SOURCE.usVoluntary],
  limits: LIMITS,
  gravest: 'danger',
  cannotSee: [
    'Straps that nobody described.',
    'Covers on its posts.',
    'Fuel pipes that are not drawn.',
    'Acid that runs out when the boat lies over.',
  ],
  hazards: ['dcFault', 'ignition'],
  subjects: (facts) => facts.thingIds().filter((id) => facts.thing(id)?.kind === 'battery'),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    const home = facts.compartmentOf(id);
    if (!thing || !pose || home === null) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const found = [
      ...held(thing, facts),
      ...dry(id, home, facts),
      ...aired(thing, home, facts),
      ...fuelAboutIt(id, home, facts),
    ];
    if (found.length === 0) return [{ outcome: 'notApplicable', reason: 'nothingEntered' }];
    const sources = [SOURCE[facts.profile()]];
    return found.map((verdict) => ({ at: pose.at, sources, ...verdict }));
  },
  mends: ({ subject, reason, data }, { boat }) => {
    if (reason === 'noVent' && typeof data.home === 'string')
      return [valueMend(boat, data.home, 'ventAreaM2', VENT_M2)];
    return reason === 'gives' || reason === 'loose' ? [strapped(subject)] : [];
  },
});

/** A row of holes high up. */
const VENT_M2 = 0.002;

/** Held by straps that do not give. */
const strapped = (id: string): Mend => ({
  id: `straps ${id}`,
  change: 'add',
  what: { item: 'straps', to: id },
  recipe: (boat) => {
    const battery = boat.fixtures[id] ?? boat.parts[id];
    if (!battery) return;
    battery.heldDown = true;
    battery.movesM = 0;
  },
});

function held({ movesM, heldDown }: Thing, facts: Facts): readonly Verdict[] {
  const instance = 'held';
  if (movesM !== undefined) {
    const limit = LIMITS[facts.profile()].movesM;
    const { met, ...compared } = judge({ value: movesM, limit, bound: 'atMost', unit: 'm', grade: [] });
    return [
      met
        ? { instance, outcome: 'pass', ...compared }
        : { instance, outcome: 'fail', severity: 'danger', reason: 'gives', ...compared },
    ];
  }
  if (heldDown === undefined) return [];
  return [
    heldDown
      ? { instance, outcome: 'pass', ...countedFaults(0) }
      : { instance, outcome: 'fail', severity: 'danger', reason: 'loose', ...countedFaults(1) },
  ];
}

function dry(id: string, home: string, facts: Facts): readonly Verdict[] {
  const solid = envelopeOf(id, facts);
  const { bilgeWaterM, kind } = facts.compartment(home) ?? {};
  if (!solid) return [];
  const instance = 'dry';
  const said = { instance, related: [home], data: { home } };
  if (bilgeWaterM !== undefined) {
    const { met, ...compared } = judge({
      value: solidBounds(solid).low[2] - bilgeWaterM,
      limit: 0,
      bound: 'atLeast',
      unit: 'm',
      grade: [...facts.gradesAlong(id, [0, 0, 1]), facts.gradeOfWater()],
    });
    return [
      met
        ? { outcome: 'pass', ...compared, ...said }
        : { outcome: 'fail', severity: 'danger', reason: 'inWater', ...compared, ...said },
    ];
  }
  if (kind !== 'bilge') return [];
  return [
    {
      outcome: 'cannotTell',
      reason: 'bilgeWaterUnknown',
      enterNext: `Enter how high bilge water is expected to stand in ${facts.compartmentName(home)}`,
      ...said,
    },
  ];
}

/** Flooded cells give off hydrogen while they are charged. */
function aired({ electric }: Thing, home: string, facts: Facts): readonly Verdict[] {
  if (electric?.chemistry !== 'floodedLead') return [];
  const ventAreaM2 = facts.compartment(home)?.ventAreaM2;
  const said = { instance: 'aired', related: [home], data: { home }, hazards: ['ignition'] } as const;
  if (ventAreaM2 === undefined)
    return [
      {
        outcome: 'cannotTell',
        reason: 'ventUnknown',
        enterNext: `Enter the free area of the vents of ${facts.compartmentName(home)}, 0 where there is none`,
        ...said,
      },
    ];
  return [
    ventAreaM2 > 0
      ? { outcome: 'pass', ...countedFaults(0), ...said }
      : { outcome: 'fail', severity: 'fault', reason: 'noVent', ...countedFaults(1), ...said },
  ];
}

const isFuel = ({ kind, ports }: Thing): boolean =>
  kind === 'fuelTank' || (kind !== 'engine' && Object.values(ports).some(({ medium }) => medium === 'fuel'));

/** Nothing that fuel could drip from above it, nothing that its gas could reach below, and no bare metal by its posts. */
function fuelAboutIt(id: string, home: string, facts: Facts): readonly Verdict[] {
  const own = envelopeOf(id, facts);
  if (!own) return [];
  const { low, high } = solidBounds(own);
  const limit = LIMITS[facts.profile()].fuelMetalM;
  return facts.thingIds().flatMap((other): readonly Verdict[] => {
    const thing = facts.thing(other);
    const solid = thing && isFuel(thing) && facts.compartmentOf(other) === home ? envelopeOf(other, facts) : null;
    if (!thing || !solid) return [];
    const bounds = solidBounds(solid);
    // How far the two stand over one another, seen from above.
    const shared = Math.min(
      ...[0, 1].map(
        (k) =>
          Math.min(high[k] as number, bounds.high[k] as number) - Math.max(low[k] as number, bounds.low[k] as number),
      ),
    );
    const way = directionTo(centreOf(own), centreOf(solid));
    const grade = [...facts.gradesAlong(id, way), ...facts.gradesAlong(other, way)];
    const over = judge({ value: shared, limit: 0, bound: 'atMost', unit: 'm', grade });
    const { met, ...compared } = over;
    const said = { related: [other], data: { fuel: other, isAbove: bounds.low[2] > low[2] } };
    const verdicts: Verdict[] = [
      met
        ? { instance: `over ${other}`, outcome: 'pass', ...compared, ...said }
        : { instance: `over ${other}`, outcome: 'fail', severity: 'danger', reason: 'overFuel', ...compared, ...said },
    ];
    if (thing.bareMetal !== true || bounds.high[2] <= high[2]) return verdicts;
    const gap = judge({ value: Math.max(0, gapBetween(own, solid).gapM), limit, bound: 'atLeast', unit: 'm', grade });
    const { met: isFar, ...apart } = gap;
    return [
      ...verdicts,
      isFar
        ? { instance: `metal ${other}`, outcome: 'pass', ...apart, ...said }
        : { instance: `metal ${other}`, outcome: 'fail', severity: 'fault', reason: 'fuelMetal', ...apart, ...said },
    ];
  });
}
