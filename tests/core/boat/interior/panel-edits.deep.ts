import { describe, expect, it } from 'vitest';
import { heldThroughEdits } from './panel-edits';

/** EDITS_SEED is the first of the sequences, EDITS_SEQUENCES how many. */
const FIRST = Number(process.env.EDITS_SEED ?? 1);
const SEQUENCES = Number(process.env.EDITS_SEQUENCES ?? 500);

describe('the data of panels', () => {
  it(`are bound or listed after any of ${SEQUENCES} sequences of edits`, () => {
    const { edits, orphans } = heldThroughEdits(FIRST, SEQUENCES);
    expect(edits).toBeGreaterThan(6 * SEQUENCES);
    expect(orphans).toBeGreaterThan(0.6 * SEQUENCES);
  });
});
