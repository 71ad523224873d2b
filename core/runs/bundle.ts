/**
 * Round things laid side by side in a round hole, by their diameters.
 * Of one, two and three the least hole is exact (of three by Descartes' theorem on circles that touch); of more it is a bound
 * below which they can't pass: no arrangement of circles fills more than this share of a round hole.
 */
const MOST_FILLED = 7 / 9;

/** Diameter of the least round hole that lets all of them pass, or a bound below it for more than three. Metres. */
export function leastHole(diametersM: readonly number[]): number {
  const largest = [...diametersM].sort((a, b) => b - a);
  const [a = 0, b = 0, c = 0] = largest;
  const filled = Math.sqrt(diametersM.reduce((sum, d) => sum + d * d, 0) / MOST_FILLED);
  return largest.length < 4 ? aroundThree(a, b, c) : Math.max(aroundThree(a, b, c), filled);
}

/** Circle about three that touch one another; about the two larger ones where the third lies beside them. */
function aroundThree(a: number, b: number, c: number): number {
  const pair = a + b;
  if (c <= 0 || c <= (a * b * (a + b)) / (a * a + a * b + b * b)) return pair;
  const [k, l, m] = [2 / a, 2 / b, 2 / c];
  const outer = k + l + m - 2 * Math.sqrt(k * l + l * m + m * k);
  return outer < 0 ? -2 / outer : pair;
}
