import * as portable from '@core/base/portable';
import { describe, expect, it } from 'vitest';

const ULP = 2 ** -52;
const angles = Array.from({ length: 2001 }, (_, k) => (k - 1000) / 37);
const shares = Array.from({ length: 401 }, (_, k) => (k - 200) / 200);
const sizes = Array.from({ length: 400 }, (_, k) => (k + 1) / 13);

// Reference: the functions of the language, which ECMA-262 wants as near as an engine can; fdlibm is within one unit in the last place.
describe('elementary functions', () => {
  it.each([
    ['sin', portable.sin, Math.sin, angles],
    ['cos', portable.cos, Math.cos, angles],
    ['tan', portable.tan, Math.tan, angles],
    ['atan', portable.atan, Math.atan, angles],
    ['asin', portable.asin, Math.asin, shares],
    ['acos', portable.acos, Math.acos, shares],
    ['exp', portable.exp, Math.exp, shares],
    ['log', portable.log, Math.log, sizes],
    ['log10', portable.log10, Math.log10, sizes],
    ['cbrt', portable.cbrt, Math.cbrt, angles],
  ])('%s is that of the language but for the last digit', (_name, ours, theirs, at) => {
    for (const x of at) expect(Math.abs(ours(x) - theirs(x))).toBeLessThanOrEqual(2 * ULP * Math.abs(theirs(x)));
  });

  it('atan2 knows all quadrants, and the signs of zero', () => {
    for (const y of [-2, -1, -0, 0, 1, 3])
      for (const x of [-3, -1, -0, 0, 1, 2])
        expect(Math.abs(portable.atan2(y, x) - Math.atan2(y, x))).toBeLessThanOrEqual(4 * ULP);
    expect(Object.is(portable.atan2(-0, 1), -0)).toBe(true);
  });

  // derived: Pythagorean triples and quadruples
  it.each([
    [[3, 4], 5],
    [[-5, 12], 13],
    [[2, 3, 6], 7],
    [[1, 4, -8], 9],
    [[], 0],
    [[-2], 2],
  ])('hypot of %j is %d', (components, length) => {
    expect(portable.hypot(...components)).toBe(length);
  });
});
