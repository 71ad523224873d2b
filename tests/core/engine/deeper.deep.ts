import { describe, expect, it } from 'vitest';
import { afterActs } from './deeper-acts';

/** Sequences by their seeds: DEEPER_SEED is the first, DEEPER_SEQUENCES how many. */
const FIRST = Number(process.env.DEEPER_SEED ?? 100);
const SEQUENCES = Number(process.env.DEEPER_SEQUENCES ?? 60);

describe('a session with pins, drags and deeper tries', () => {
  it('gives at rest what a cold start gives, deeper or not, after any sequence of acts', () => {
    for (let seed = FIRST; seed < FIRST + SEQUENCES; seed++)
      for (const [told, cold] of afterActs(seed, 8)) expect(told, `sequence ${seed}`).toEqual(cold);
  });
});
