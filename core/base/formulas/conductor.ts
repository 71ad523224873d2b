/**
 * Direct-current conductors.
 * - conductorResistance: ohms of a length of copper
 * - RESISTIVITY: constants that the practices use; they differ by 9 %, so a verdict names the one it used
 * - ampacity: greatest current of a conductor, 33 CFR 183.425 Table 5
 */

/** Ohm mm2 per metre. */
export const RESISTIVITY = {
  /** ISO 10133 form, E = 0.0164 I L / S with L out and back. Below copper's own at 20 C: optimistic. */
  isoSmallCraft: { ohmMm2PerM: 0.0164, source: 'iso-10133' },
  /** CM = 10.75 I L / E in circular mils and feet: 10.75 ohm cmil/ft is 0.017871 ohm mm2/m, copper at about 29 C. */
  usVoluntary: { ohmMm2PerM: 0.017871, source: 'abyc-e11' },
} as const;

/**
 * R = rho L / S.
 * lengthM: metres of copper, out and back counted both; areaMm2: of one conductor; rho: ohm mm2 per metre. Leaves out joints and terminals.
 */
export function conductorResistance(input: { lengthM: number; areaMm2: number; ohmMm2PerM: number }): number {
  return (input.ohmMm2PerM * input.lengthM) / input.areaMm2;
}

/** Circular mils needed: CM = K I L / E, K = 10.75, L in feet out and back, E the volts that may be lost. ABYC E-11 as quoted. */
export function circularMilsNeeded(input: { currentA: number; lengthOutAndBackM: number; dropV: number }): number {
  return (10.75 * input.currentA * (input.lengthOutAndBackM / 0.3048)) / input.dropV;
}

/** One circular mil in square millimetres. */
export const CIRCULAR_MIL_MM2 = 5.067075e-4;

/** 33 CFR 183.425 Table 5: amperes at 30 C outside engine spaces, by gauge and by temperature rating of the insulation. */
export const AMPACITY_TABLE_5 = {
  gauges: ['18', '16', '14', '12', '10', '8', '6', '4', '3', '2', '1', '0', '00', '000', '0000'],
  amperes: {
    60: [10, 15, 20, 25, 40, 55, 80, 105, 120, 140, 165, 195, 225, 260, 300],
    75: [10, 15, 20, 25, 40, 65, 95, 125, 145, 170, 195, 230, 265, 310, 360],
    90: [20, 25, 30, 40, 55, 70, 100, 135, 155, 180, 210, 245, 285, 330, 385],
    105: [20, 25, 35, 45, 60, 80, 120, 160, 180, 210, 245, 285, 330, 385, 445],
  },
  /** Only the factor of the 105 C column has been seen in a source. */
  engineSpaceFactor105: 0.85,
  source: 'cfr-33-183',
} as const;

export type AmpacityRating = keyof typeof AMPACITY_TABLE_5.amperes;

/**
 * Greatest current in amperes of a single conductor; null for a gauge that the table does not have, and in
 * engine spaces for ratings whose factor is not known here.
 */
export function ampacity(input: { gauge: string; ratingC: AmpacityRating; engineSpace: boolean }): number | null {
  const column = (AMPACITY_TABLE_5.gauges as readonly string[]).indexOf(input.gauge);
  const outside = AMPACITY_TABLE_5.amperes[input.ratingC][column];
  if (outside === undefined) return null;
  if (!input.engineSpace) return outside;
  return input.ratingC === 105 ? outside * AMPACITY_TABLE_5.engineSpaceFactor105 : null;
}
