/**
 * How finely the curved hull is cut into facets: more where it bends more, so that chords stray from their curve by no more than
 * 0.15 mm on ten metres of hull, as far as `most` allows, and nowhere coarser than a least density.
 */
export interface Facets {
  /** Facets along the whole length, and in the whole girth, where the hull is straight. */
  readonly leastAlong: number;
  readonly leastInGirth: number;
  readonly greatestSagM: number;
  /** In one gap between points or stations, if twice the least number is not more. */
  readonly most: number;
}

const LEAST_ALONG = 60;
const LEAST_IN_GIRTH = 16;
const SAG_SHARE = 1.5e-5;
const MOST = 8;

/** `fineness` multiplies the number of facets each way. */
export const facetsOf = (lengthM: number, fineness: number): Facets => ({
  leastAlong: LEAST_ALONG * fineness,
  leastInGirth: LEAST_IN_GIRTH * fineness,
  greatestSagM: (SAG_SHARE * lengthM) / fineness ** 2,
  most: MOST * fineness,
});

/** A curve with less than this share of the greatest sag is straight. */
const STRAIGHT_SHARE = 0.05;

/**
 * Facets for a gap that is so many least facets long and whose one chord would stray by `sagM` at its middle. A gap that bends at
 * all gets three at least: only nodes within it can be drawn out to hold what the curve holds.
 */
export function partsFor(leastFacets: number, sagM: number, { greatestSagM, most }: Facets): number {
  const bySag = sagM < STRAIGHT_SHARE * greatestSagM ? 1 : Math.max(3, Math.ceil(Math.sqrt(sagM / greatestSagM)));
  return Math.max(1, Math.ceil(leastFacets - 1e-9), Math.min(Math.max(most, Math.ceil(2 * leastFacets)), bySag));
}
