import * as portable from '../portable';

/** Shares and limits of the distributions that readings are tested by. All from memory of Abramowitz and Stegun, Handbook of Mathematical Functions, chapters 6 and 26. */

/** Standard deviations that a normal error exceeds, to either side, once in a thousand: Phi(3.29) = 0.9995. */
export const ONCE_IN_A_THOUSAND = 3.29;

/**
 * Chance that a sum of `degrees` squared standard normals exceeds x: Q(x | v) = Gamma(v/2, x/2) / Gamma(v/2).
 * A&S 26.4.19 by the series 6.5.29 below v/2 + 1 and the continued fraction 6.5.31 above. Relative error below 1e-10.
 */
export function chiSquareExcess(x: number, degrees: number): number {
  if (!(x > 0)) return 1;
  const a = degrees / 2;
  const half = x / 2;
  const front = portable.exp(a * portable.log(half) - half - logGamma(a));
  if (half < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < 1000 && term > sum * 1e-15; n++) {
      term *= half / (a + n);
      sum += term;
    }
    return 1 - front * sum;
  }
  return (
    front *
    continued(
      (n) => (n === 0 ? 1 : n * (a - n)),
      (n) => half + 2 * n + 1 - a,
    )
  );
}

/**
 * Chance that a Student's t of `degrees` degrees of freedom exceeds t in size: I_x(v/2, 1/2) at x = v / (v + t^2).
 * A&S 26.7.1, 26.5.8 (continued fraction of the incomplete beta function). Relative error below 1e-10.
 */
export function studentExcess(t: number, degrees: number): number {
  return incompleteBeta(degrees / (degrees + t * t), degrees / 2, 0.5);
}

/** The size that a Student's t of `degrees` degrees of freedom exceeds with the chance `chance`, either way. */
export function studentLimit(chance: number, degrees: number): number {
  let low = 0;
  let high = 1;
  while (studentExcess(high, degrees) > chance) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (studentExcess(middle, degrees) > chance) low = middle;
    else high = middle;
  }
  return high;
}

function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front =
    portable.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * portable.log(x) + b * portable.log(1 - x)) / a;
  return (
    front *
    continued(
      (n) => {
        if (n === 0) return 1;
        const m = Math.floor(n / 2);
        return n % 2 === 0
          ? (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
          : (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
      },
      () => 1,
    )
  );
}

/** a0 / (b0 + a1 / (b1 + a2 / (b2 + ...))) by the modified method of Lentz. */
function continued(a: (n: number) => number, b: (n: number) => number): number {
  const tiny = 1e-300;
  let value = tiny;
  let c = value;
  let d = 0;
  for (let n = 0; n < 2000; n++) {
    d = b(n) + a(n) * d;
    c = b(n) + a(n) / c;
    if (Math.abs(d) < tiny) d = tiny;
    if (Math.abs(c) < tiny) c = tiny;
    d = 1 / d;
    const change = c * d;
    value *= change;
    if (n > 0 && Math.abs(change - 1) < 1e-14) break;
  }
  return value;
}

/** ln Gamma(z) for z > 0: Stirling's series, A&S 6.1.41, after recurrence to z >= 10. */
function logGamma(z: number): number {
  let shift = 0;
  let at = z;
  while (at < 10) {
    shift -= portable.log(at);
    at += 1;
  }
  const inverse = 1 / (at * at);
  const series = (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse / 1680))) / at;
  return shift + (at - 0.5) * portable.log(at) - at + 0.5 * portable.log(2 * Math.PI) + series;
}

/**
 * Standard deviations below which a share of a normal distribution lies, 0 < share < 1: A&S 26.2.23, error below 4.5e-4. Odd about one half.
 */
export function normalDeviate(share: number): number {
  if (share < 0.5) return -normalDeviate(1 - share);
  const t = Math.sqrt(-2 * portable.log(1 - share));
  const over = 2.515517 + t * (0.802853 + t * 0.010328);
  const under = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  return Math.max(0, t - over / under);
}
