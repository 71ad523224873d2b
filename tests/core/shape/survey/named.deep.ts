import { describe, expect, it } from 'vitest';
import { tally } from './named';

/** The same targets where the points lie in a box, near one plane and along the boat, and where the grade is right, half and twice the noise. */
describe.each(['boxy', 'planar', 'chain'] as const)('points that lie %s', (lie) => {
  it.each([
    ['as graded', 0.0025, 'measured'],
    ['twice as graded', 0.005, 'measured'],
    ['half as graded', 0.005, 'taped'],
    ['a tenth of the grade', 0.005, 'guessed'],
  ] as const)('readings that scatter %s', (_how, noiseM, grade) => {
    const how = { noiseM, grade, neighbours: 8 };
    const planted = tally(40_001, 200, lie, how, true);
    const clean = tally(50_001, 200, lie, how, false);
    process.stdout.write(`${JSON.stringify({ lie, noiseM, grade, planted, clean })}\n`);
    expect(planted.named).toBeGreaterThanOrEqual(190);
    expect(clean.accused).toBeLessThanOrEqual(10);
  });
});
