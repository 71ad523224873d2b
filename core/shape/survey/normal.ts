import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/** Normal equations of an adjustment: symmetric, n by n, row after row. */
export interface Square {
  readonly n: number;
  readonly at: Float64Array;
}
/** Slopes of a reading over its standard deviation, of the unknowns that it touches. */
export type Row = readonly (readonly [unknown: number, slope: number])[];

/** A direction known no better than this is not fixed: a reading taken to 5 mm would have to act at one part in four hundred. */
const LOOSEST_M = 1;

export function normalOf(design: readonly Row[], n: number): Square {
  const at = new Float64Array(n * n);
  for (const row of design)
    for (const [i, a] of row) for (const [j, b] of row) at[i * n + j] = (at[i * n + j] ?? 0) + a * b;
  return { n, at };
}

/** a' C b of two rows. */
export function shared(a: Row, b: Row, { n, at }: Square): number {
  let sum = 0;
  for (const [i, x] of a) for (const [j, y] of b) sum += x * y * (at[i * n + j] ?? 0);
  return sum;
}

/** Cholesky's lower factor of N + damping I; pivots are kept above `least`, so that a loose direction gives a short step. */
function factorOf({ n, at }: Square, damping: number, least: number): Float64Array {
  const factor = new Float64Array(n * n);
  // Left of the first reading that couples a row nothing ever fills in.
  const first = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    let begin = 0;
    while (begin < i && at[i * n + begin] === 0) begin++;
    first[i] = begin;
    for (let j = begin; j <= i; j++) {
      let sum = (at[i * n + j] as number) + (i === j ? damping : 0);
      for (let k = Math.max(begin, first[j] as number); k < j; k++)
        sum -= (factor[i * n + k] as number) * (factor[j * n + k] as number);
      factor[i * n + j] = i === j ? Math.sqrt(Math.max(sum, least)) : sum / (factor[j * n + j] as number);
    }
  }
  return factor;
}

function substituted(factor: Float64Array, n: number, right: Float64Array): Float64Array {
  const x = Float64Array.from(right);
  let begin = 0;
  while (begin < n && x[begin] === 0) begin++;
  for (let i = begin; i < n; i++) {
    let sum = x[i] as number;
    for (let k = begin; k < i; k++) sum -= (factor[i * n + k] as number) * (x[k] as number);
    x[i] = sum / (factor[i * n + i] as number);
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = x[i] as number;
    for (let k = i + 1; k < n; k++) sum -= (factor[k * n + i] as number) * (x[k] as number);
    x[i] = sum / (factor[i * n + i] as number);
  }
  return x;
}

/** Solves (N + damping I) x = g; the damping makes it definite. */
export const dampedStep = (normal: Square, gradient: Float64Array, damping: number): Float64Array =>
  substituted(factorOf(normal, damping, damping * 1e-3), normal.n, gradient);

export interface Inverse {
  /** Over what the readings fix. */
  readonly covariance: Square;
  /** Directions that they leave loose: unit vectors, square to one another. */
  readonly loose: readonly (readonly number[])[];
}

/** Inverse of the normal equations, by Cholesky's factors where everything is fixed, else over their eigenvectors. */
export function inverseOf(normal: Square): Inverse {
  return wholeInverse(normal) ?? inverseOfFixed(normal);
}

/** Null unless every direction is fixed: no eigenvalue of the covariance can exceed its trace. */
function wholeInverse(normal: Square): Inverse | null {
  const { n } = normal;
  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, normal.at[i * n + i] as number);
  const least = 1e-10 * largest;
  const factor = factorOf(normal, 0, least);
  for (let i = 0; i < n; i++) if ((factor[i * n + i] as number) ** 2 <= 2 * least) return null;
  const at = new Float64Array(n * n);
  let trace = 0;
  for (let column = 0; column < n; column++) {
    const right = new Float64Array(n);
    right[column] = 1;
    const x = substituted(factor, n, right);
    for (let i = 0; i < n; i++) at[i * n + column] = x[i] as number;
    trace += x[column] as number;
  }
  return trace < LOOSEST_M * LOOSEST_M ? { covariance: { n, at }, loose: [] } : null;
}

function inverseOfFixed({ n, at }: Square): Inverse {
  const covariance = new Float64Array(n * n);
  const decomposition = new EigenvalueDecomposition(
    new Matrix(Array.from({ length: n }, (_, i) => [...at.subarray(i * n, (i + 1) * n)])),
    {
      assumeSymmetric: true,
    },
  );
  const vectors = decomposition.eigenvectorMatrix;
  const loose: number[][] = [];
  decomposition.realEigenvalues.forEach((value, k) => {
    const vector = vectors.getColumn(k);
    if (!(value > 1 / (LOOSEST_M * LOOSEST_M))) {
      loose.push(vector);
      return;
    }
    for (let i = 0; i < n; i++) {
      const part = (vector[i] as number) / value;
      for (let j = 0; j < n; j++)
        covariance[i * n + j] = (covariance[i * n + j] as number) + part * (vector[j] as number);
    }
  });
  return { covariance: { n, at: covariance }, loose };
}
