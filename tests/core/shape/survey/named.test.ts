import { describe, expect, it } from 'vitest';
import { tally } from './named';

/**
 * Targets of the product: a slip of 50 mm on any reading is named in at least 95 of 100 surveys of twelve points, and a clean
 * survey names a false suspect in at most 5. Seeds 20001 on were never used while the limits were chosen (those were 1 to 9300).
 * 5 mm is taken as one standard deviation of the noise, the hardest reading of it; graded as measured that is twice the grade.
 */
const HOW = { noiseM: 0.005, grade: 'measured', neighbours: 8 } as const;

describe('a slip of 50 mm among readings of 5 mm noise', () => {
  it('is named in at least 95 % of 100 surveys, whichever reading it is on', () => {
    const found = tally(20_001, 100, 'boxy', HOW, true);
    expect(found.leastRedundancy).toBeGreaterThan(0.02);
    expect(found.named).toBeGreaterThanOrEqual(95);
  });

  it('is not seen where there is none: at most 5 % of 100 clean surveys name a suspect', () => {
    const found = tally(30_001, 100, 'boxy', HOW, false);
    expect(found.accused).toBeLessThanOrEqual(5);
    // derived: redundant readings of 5 mm fix every point within a few of them
    expect(found.worstM).toBeLessThan(0.04);
  });
});
