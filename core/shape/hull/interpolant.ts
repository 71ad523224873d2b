/**
 * Piecewise cubic (Hermite) interpolation of one value over rising knots.
 *
 * Slopes are a weighted mean of the slopes of the parabolas through three neighbouring knots that hold the knot in question.
 * On data from a quadratic all of them agree, so a quadratic is reproduced on any knots; next to a break (the end of a
 * parallel middle body, say) the parabola that bends least wins, so that the break does not make the curve swing.
 * Two knots give a straight line, three a parabola.
 */

/** Weight of a parabola falls with the fourth power of its second difference; this share of the greatest one is as good as none. */
const SMOOTH_SHARE = 1e-3;
/** Second differences below this are rounding. */
const LEAST_BEND = 1e-30;
const REACH = 4;

/** Slope at every knot. `knots` strictly rising, same length as `values`. */
export function fairSlopes(knots: ArrayLike<number>, values: ArrayLike<number>): Float64Array {
  // Elements are read without `at`: of all of fairing this runs most often, and a function that meets every kind of list is slow.
  const n = knots.length;
  const slopes = new Float64Array(n);
  if (n < 2) return slopes;
  const chords = new Float64Array(n - 1);
  for (let i = 0; i < n - 1; i += 1)
    chords[i] = ((values[i + 1] as number) - (values[i] as number)) / ((knots[i + 1] as number) - (knots[i] as number));
  if (n === 2) return slopes.fill(chords[0] as number);
  const bends = new Float64Array(n - 2);
  const weights = new Float64Array(n - 2);
  let greatest = 0;
  for (let i = 0; i < n - 2; i += 1) {
    const bend =
      ((chords[i + 1] as number) - (chords[i] as number)) / ((knots[i + 2] as number) - (knots[i] as number));
    bends[i] = bend;
    greatest = Math.max(greatest, Math.abs(bend));
  }
  const isStraight = !(greatest > LEAST_BEND);
  for (let i = 0; i < n - 2; i += 1) {
    const share = (bends[i] as number) / greatest;
    const square = share * share + SMOOTH_SHARE * SMOOTH_SHARE;
    weights[i] = isStraight ? 1 : 1 / (square * square);
  }
  for (let i = 0; i < n; i += 1) {
    let all = 0;
    let sum = 0;
    const last = Math.min(i, n - 3);
    for (let first = Math.max(0, i - 2); first <= last; first += 1) {
      // Newton form of the parabola through first, first + 1, first + 2, differentiated at knot i.
      const lever = 2 * (knots[i] as number) - (knots[first] as number) - (knots[first + 1] as number);
      const weight = weights[first] as number;
      all += weight;
      sum += weight * ((chords[first] as number) + (bends[first] as number) * lever);
    }
    slopes[i] = sum / all;
  }
  return slopes;
}

/** Makes a curve through rising or falling data keep that sense: |slope| <= 3 of the flatter neighbouring chord (de Boor and Swartz). */
export function limitToSense(knots: ArrayLike<number>, values: ArrayLike<number>, slopes: Float64Array): void {
  const n = knots.length;
  for (let i = 0; i < n; i += 1) {
    const before = i > 0 ? (at(values, i) - at(values, i - 1)) / (at(knots, i) - at(knots, i - 1)) : null;
    const after = i < n - 1 ? (at(values, i + 1) - at(values, i)) / (at(knots, i + 1) - at(knots, i)) : null;
    const left = before ?? after ?? 0;
    const right = after ?? before ?? 0;
    if (left * right < 0) continue;
    const sense = Math.sign(left + right);
    const bound = 3 * Math.min(Math.abs(left), Math.abs(right));
    slopes[i] = sense * Math.min(bound, Math.max(0, sense * at(slopes, i)));
  }
}

/** Keeps a curve through values >= 0 from dipping below 0: slope within +-3 value / gap on either side. */
export function limitToPositive(knots: ArrayLike<number>, values: ArrayLike<number>, slopes: Float64Array): void {
  const n = knots.length;
  for (let i = 0; i < n; i += 1) {
    let slope = at(slopes, i);
    if (i < n - 1) slope = Math.max(slope, (-3 * at(values, i)) / (at(knots, i + 1) - at(knots, i)));
    if (i > 0) slope = Math.min(slope, (3 * at(values, i)) / (at(knots, i) - at(knots, i - 1)));
    slopes[i] = slope;
  }
}

/**
 * Keeps a short gap beside a long one from throwing the curve out: over no gap may the slope reach farther than four times the
 * range of all values. A parabola keeps within that on knots as uneven as 0, 0.25, 1.
 */
export function limitReach(knots: ArrayLike<number>, values: ArrayLike<number>, slopes: Float64Array): void {
  const n = knots.length;
  let low = at(values, 0);
  let high = low;
  for (let i = 1; i < n; i += 1) {
    low = Math.min(low, at(values, i));
    high = Math.max(high, at(values, i));
  }
  for (let i = 0; i < n; i += 1) {
    const before = i > 0 ? at(knots, i) - at(knots, i - 1) : 0;
    const after = i < n - 1 ? at(knots, i + 1) - at(knots, i) : 0;
    const bound = (REACH * (high - low)) / Math.max(before, after);
    slopes[i] = Math.min(bound, Math.max(-bound, at(slopes, i)));
  }
}

/** Value between knots `i` and `i + 1` at fraction `t` of the gap. */
export function hermite(
  knots: ArrayLike<number>,
  values: ArrayLike<number>,
  slopes: ArrayLike<number>,
  i: number,
  t: number,
): number {
  const from = values[i] as number;
  if (t === 0) return from;
  const to = values[i + 1] as number;
  if (t === 1) return to;
  const gap = (knots[i + 1] as number) - (knots[i] as number);
  const s = 1 - t;
  // The chord plus what the slopes at both ends add to it: a straight line stays exactly straight.
  const departFrom = (slopes[i] as number) * gap - (to - from);
  const departTo = (slopes[i + 1] as number) * gap - (to - from);
  return from + (to - from) * t + s * t * (s * departFrom - t * departTo);
}

/** Second derivative of the same curve, by the knots' own unit squared. */
export function hermiteBend(
  knots: ArrayLike<number>,
  values: ArrayLike<number>,
  slopes: ArrayLike<number>,
  i: number,
  t: number,
): number {
  const gap = at(knots, i + 1) - at(knots, i);
  const rise = at(values, i + 1) - at(values, i);
  const departFrom = at(slopes, i) * gap - rise;
  const departTo = at(slopes, i + 1) * gap - rise;
  return ((6 * t - 4) * departFrom - (2 - 6 * t) * departTo) / (gap * gap);
}

/** Index of the gap that holds `value`: greatest i <= n - 2 with knots[i] <= value, 0 before the first knot. */
export function gapOf(knots: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = knots.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (at(knots, middle) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Element that the loop's bounds guarantee. */
export const at = (values: ArrayLike<number>, i: number): number => values[i] as number;
