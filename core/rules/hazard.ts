import type { Line, LineKind, Thing } from '../boat/schema/boat';

/**
 * What a verdict, a remedy or a sheet may lead somebody to do that can hurt: holes below the waterline and what leads water into the
 * boat, high pressure, faults of direct current, ignition, drinking water, lifting. Their cautions stand in
 * core/output/text/caution-text.ts.
 */
export const HAZARDS = ['hullHole', 'highPressure', 'dcFault', 'ignition', 'drinkingWater', 'lifting'] as const;
export type Hazard = (typeof HAZARDS)[number];

/** Hoses of the pressure side stand far above this, all others below, bar. */
const HIGH_PRESSURE_BAR = 20;

/** What can hurt whoever lays or opens a line. */
export function hazardsOfLine({ medium }: Line, { pressureBar = 0 }: Pick<LineKind, 'pressureBar'>): readonly Hazard[] {
  if (medium === 'dcPower') return ['dcFault'];
  if (medium === 'product' || medium === 'freshWater') return ['drinkingWater'];
  return pressureBar >= HIGH_PRESSURE_BAR && medium !== 'gauge' ? ['highPressure'] : [];
}

/** From this mass on a part is no load for one person in a cramped place: project judgement. */
export const HEAVY_KG = 15;

/** Kinds whose own work is with what can hurt. */
const OF_KIND: Readonly<Partial<Record<Thing['kind'], Hazard>>> = {
  seacock: 'hullHole',
  skinFitting: 'hullHole',
  logFitting: 'hullHole',
  pumpModule: 'highPressure',
  membrane: 'highPressure',
  battery: 'dcFault',
  fuse: 'dcFault',
  breaker: 'dcFault',
  busbar: 'dcFault',
  dcPanel: 'dcFault',
  inverterCharger: 'dcFault',
  gasLocker: 'ignition',
  waterTank: 'drinkingWater',
  tap: 'drinkingWater',
  diverter: 'drinkingWater',
};

/** What can hurt whoever fits, moves or opens a thing. */
export function hazardsOfThing({ kind, opensToSea, fuel, massKg }: Thing): readonly Hazard[] {
  const own = OF_KIND[kind];
  return HAZARDS.filter(
    (hazard) =>
      hazard === own ||
      (hazard === 'hullHole' && opensToSea !== undefined) ||
      (hazard === 'ignition' && fuel === 'petrol') ||
      (hazard === 'lifting' && massKg >= HEAVY_KG),
  );
}

/**
 * Of what can hurt about a thing or a line, what acting on a verdict of a subject matter meets: whoever looks after its fuse does not
 * lift it. Holes in the hull, gas and petrol are met whatever is done there.
 */
const MET: Readonly<Record<Hazard, readonly string[] | 'all'>> = {
  hullHole: 'all',
  ignition: 'all',
  highPressure: ['access', 'runs', 'water'],
  dcFault: ['access', 'flooding', 'power', 'runs'],
  drinkingWater: ['runs', 'water'],
  lifting: ['access', 'hull'],
};

export const isMet = (hazard: Hazard, rule: string): boolean => {
  const subjects = MET[hazard];
  return subjects === 'all' || subjects.includes(rule.slice(0, rule.indexOf('/')));
};
