import { degrees } from '../vec';

/**
 * How far a current turns a compass, degrees, at worst.
 *
 * B = mu0 I / (2 pi d) of one long straight conductor; of a pair the fields of both conductors take each other off but for their distance s:
 * B = mu0 I s / (2 pi d^2). A field square to the resulting one turns the needle farthest: sin(angle) = B / H.
 *
 * I amperes; d metres from the cable; s metres between the two conductors, 0 for one conductor that returns another way; H the horizontal
 * field of the earth. Source: Biot-Savart law; H of the middle latitudes. Leaves out iron nearby and the bends of the cable; beyond B = H: 90.
 */
export function compassDeviationDeg({ amperes, awayM, apartM }: Conductors): number {
  const single = (MU0_PER_2PI * Math.abs(amperes)) / awayM;
  const teslas = apartM > 0 ? single * Math.min(1, apartM / awayM) : single;
  return degrees(Math.asin(Math.min(1, teslas / HORIZONTAL_T)));
}

export interface Conductors {
  readonly amperes: number;
  readonly awayM: number;
  readonly apartM: number;
}

const MU0_PER_2PI = 2e-7;
/** Horizontal field of the earth in the middle latitudes, tesla. */
const HORIZONTAL_T = 20e-6;
