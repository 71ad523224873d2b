/** Steady warmth of a closed space in which something runs. */

/**
 * Heat that a square metre of thin plywood lets through for each kelvin, W/m2K: 12 mm (0.13 W/mK) with still air on both sides (8 W/m2K each)
 * is 1 / (1/8 + 0.012/0.13 + 1/8) = 2.9 (derived).
 */
export const PLYWOOD_W_M2K = 3;

const AIR_KG_M3 = 1.2;
const AIR_J_KGK = 1005;
const DISCHARGE = 0.6;
const G_M_S2 = 9.81;
const ZERO_C_K = 273.15;
const BISECTIONS = 60;

export interface WarmSpace {
  readonly heatW: number;
  readonly wallWK: number;
  /** Free area of all vents, half of it low and half of it high, m2. */
  readonly ventAreaM2: number;
  /** Height between the two halves, metres. */
  readonly ventHeightM: number;
  readonly outsideC: number;
}

/**
 * How much warmer than outside the air of a space gets, kelvin: heatW = wallWK dT + rho c Cd (A / 2) / sqrt 2 x sqrt(2 g h dT / T) x dT.
 *
 * heatW watts given off inside; wallWK watts per kelvin through the sides; A ventAreaM2, half low and half high, so that two equal openings
 * in a row let through 1 / sqrt 2 of one; h ventHeightM; T outside in kelvin; rho 1.2 kg/m3; c 1005 J/kgK; Cd 0.6. Steady state: natural draught
 * (stack effect) balanced against heat, derived from Bernoulli's law. Leaves out wind, fans, sun on the deck, and what the set's own sea
 * water carries away. Infinite where neither sides nor vents let anything through.
 */
export function riseInSpace({ heatW, wallWK, ventAreaM2, ventHeightM, outsideC }: WarmSpace): number {
  if (!(heatW > 0)) return 0;
  const draught =
    ((AIR_KG_M3 * AIR_J_KGK * DISCHARGE * (ventAreaM2 / 2)) / Math.SQRT2) *
    Math.sqrt((2 * G_M_S2 * ventHeightM) / (outsideC + ZERO_C_K));
  let high = Math.min(
    wallWK > 0 ? heatW / wallWK : Number.POSITIVE_INFINITY,
    draught > 0 ? (heatW / draught) ** (2 / 3) : Number.POSITIVE_INFINITY,
  );
  if (draught === 0 || !Number.isFinite(high)) return high;
  let low = 0;
  for (let step = 0; step < BISECTIONS; step++) {
    const middle = (low + high) / 2;
    if (wallWK * middle + draught * middle ** 1.5 < heatW) low = middle;
    else high = middle;
  }
  return high;
}
