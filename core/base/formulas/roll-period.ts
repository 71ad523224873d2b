/** Stability from the time of a roll. */

/**
 * Radius of gyration about the roll axis, as a share of the beam. Common practice for small craft with ballast, no source; yachts
 * are found between the two ends.
 */
export const ROLL_RADIUS_SHARE = { usual: 0.4, least: 0.35, greatest: 0.45, source: 'practice' } as const;

const GRAVITY = 9.80665;

/**
 * Metacentric height in metres: GM = (2 pi k / T)^2 / g with k = c B, from T = 2 pi k / sqrt(g GM).
 * B beamM: beam at the waterline, metres; T periodS: seconds for one whole roll, over and back; c radiusShare: radius of gyration
 * by the beam. Undamped small rolls in still water (derived, equation of a pendulum); the water that rolls with the hull is in c.
 */
export function gmFromRollPeriod(input: { beamM: number; periodS: number; radiusShare: number }): number {
  const k = input.radiusShare * input.beamM;
  return ((2 * Math.PI * k) / input.periodS) ** 2 / GRAVITY;
}
