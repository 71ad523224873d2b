/** Copper conductors of direct current: resistance, least size for a loss. */

/** Resistivities that the practices reckon with, ohm mm2 per metre. They differ by 9 %, so a verdict names the one that it used. */
export const RESISTIVITY = {
  /** ISO 10133 form, E = 0.0164 I L / S with L out and back. Below copper's own at 20 C: optimistic. */
  isoSmallCraft: { ohmMm2PerM: 0.0164, source: 'iso-10133' },
  /** CM = 10.75 I L / E in circular mils and feet: 10.75 ohm cmil/ft is 0.017871 ohm mm2/m, copper at about 29 C. */
  usVoluntary: { ohmMm2PerM: 0.017871, source: 'abyc-e11' },
} as const;

/**
 * Resistance of a conductor in ohms: R = rho L / S.
 * L lengthM: metres of copper, out and back both counted; S areaMm2: cross-section of one conductor, mm2; rho ohmMm2PerM: ohm mm2 per metre.
 * Holds at the temperature of its rho: copper gains 4 % each 10 K. Leaves out joints and terminals. Definition of resistivity (derived).
 */
export function conductorResistance(input: { lengthM: number; areaMm2: number; ohmMm2PerM: number }): number {
  return (input.ohmMm2PerM * input.lengthM) / input.areaMm2;
}

/** Ohm circular mils per foot, ABYC E-11 as quoted. */
const K_OHM_CMIL_PER_FT = 10.75;
const FOOT_M = 0.3048;

/**
 * Least cross-section in circular mils: CM = K I L / E.
 * K 10.75 ohm cmil/ft; I currentA: amperes; L lengthOutAndBackM: metres of copper, out and back; E dropV: volts that may be lost.
 * Source: ABYC E-11 as quoted. Says nothing of heat: see ampacity.ts.
 */
export function circularMilsNeeded(input: { currentA: number; lengthOutAndBackM: number; dropV: number }): number {
  return (K_OHM_CMIL_PER_FT * input.currentA * (input.lengthOutAndBackM / FOOT_M)) / input.dropV;
}

/** One circular mil, the area of a circle of a thousandth of an inch, in mm2: pi / 4 x 0.0254 squared (derived). */
export const CIRCULAR_MIL_MM2 = 5.067075e-4;
