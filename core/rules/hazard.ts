import type { Line, LineKind } from '../boat/schema/boat';

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
export function hazardsOfLine({ medium }: Line, { pressureBar = 0 }: LineKind): readonly Hazard[] {
  if (medium === 'dcPower') return ['dcFault'];
  if (medium === 'product' || medium === 'freshWater') return ['drinkingWater'];
  return pressureBar >= HIGH_PRESSURE_BAR && medium !== 'gauge' ? ['highPressure'] : [];
}
