/**
 * Elementary functions that give the same bits on every machine. Those of `Math` may be rounded in each engine's own way, and a last
 * digit is enough to choose the other of two runs that cost the same; here only +, -, *, / and the square root are asked of the
 * engine, which IEEE 754 rounds alike everywhere. The algorithms are those of fdlibm.
 */
export { default as acos } from '@stdlib/math-base-special-acos';
export { default as asin } from '@stdlib/math-base-special-asin';
export { default as atan } from '@stdlib/math-base-special-atan';
export { default as atan2 } from '@stdlib/math-base-special-atan2';
export { default as cbrt } from '@stdlib/math-base-special-cbrt';
export { default as cos } from '@stdlib/math-base-special-cos';
export { default as exp } from '@stdlib/math-base-special-exp';
export { default as log } from '@stdlib/math-base-special-ln';
export { default as log10 } from '@stdlib/math-base-special-log10';
export { default as sin } from '@stdlib/math-base-special-sin';
export { default as tan } from '@stdlib/math-base-special-tan';

/** Length of a vector of any dimension. Lengths of boats are far from where squares overflow. */
export function hypot(...components: readonly number[]): number {
  let sum = 0;
  for (const component of components) sum += component * component;
  return Math.sqrt(sum);
}
