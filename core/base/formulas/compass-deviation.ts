import * as portable from '../portable';
import { degrees, radians } from '../vec';

/**
 * How far a field turns a compass, degrees: square to the horizontal field of the earth, tan(angle) = B / H; at worst, square to what the
 * two make together, sin(angle) = B / H; beyond B = H 90.
 *
 * B tesla; H the horizontal field of the earth. Source: addition of fields; H of the middle latitudes. Leaves out iron nearby.
 */
export const deviationDeg = (teslas: number): { readonly squareDeg: number; readonly worstDeg: number } => ({
  squareDeg: degrees(portable.atan(teslas / HORIZONTAL_T)),
  worstDeg: degrees(portable.asin(Math.min(1, teslas / HORIZONTAL_T))),
});

/** The greatest field, tesla, that turns a compass by no more than so many degrees, at worst. */
export const fieldTurning = (turnDeg: number): number => HORIZONTAL_T * portable.sin(radians(turnDeg));

/**
 * Field beside a long straight cable, tesla: B = mu0 I / (2 pi d) of one conductor; of a pair the fields of both take each other off but for
 * their distance s: B = mu0 I s / (2 pi d^2).
 *
 * I amperes; d metres from the cable; s metres between the two conductors, 0 for one conductor that returns another way.
 * Source: Biot-Savart law.
 */
export function fieldOfLongWire({ amperes, awayM, apartM }: Conductors): number {
  const single = (MU0_PER_2PI * Math.abs(amperes)) / awayM;
  return apartM > 0 ? single * Math.min(1, apartM / awayM) : single;
}

export interface Conductors {
  readonly amperes: number;
  readonly awayM: number;
  readonly apartM: number;
}

const MU0_PER_2PI = 2e-7;
/** Horizontal field of the earth in the middle latitudes, tesla. */
const HORIZONTAL_T = 20e-6;
