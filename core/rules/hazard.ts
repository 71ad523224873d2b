/**
 * What a verdict, a remedy or a sheet may lead somebody to do that can hurt: holes below the waterline and what leads water into the
 * boat, high pressure, faults of direct current, ignition, drinking water, lifting. Their cautions stand in
 * core/output/text/caution-text.ts.
 */
export const HAZARDS = ['hullHole', 'highPressure', 'dcFault', 'ignition', 'drinkingWater', 'lifting'] as const;
export type Hazard = (typeof HAZARDS)[number];
