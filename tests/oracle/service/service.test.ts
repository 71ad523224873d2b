import { describe, expect, it } from 'vitest';
import { answersToTwins, judgeArm } from './judged-arm';
import { type JudgedRoom, judgeRoom, roomTable } from './judged-room';

/**
 * Some of the hard scenes of service.deep.ts, judged by brute force that knows arm, limits and solids by their definition alone.
 * SERVICE_SEED: first seed (1). SERVICE_SCENES: how many scenes of the arm (10); of sight, withdrawal and swing three times as many.
 */
const FIRST = Number(process.env.SERVICE_SEED ?? 1);
const COUNT = Number(process.env.SERVICE_SCENES ?? 10);

describe('arms in hard scenes', () => {
  // Every seventh: all postures come up.
  it.each(Array.from({ length: COUNT }, (_, k) => FIRST + 7 * k))('promises nothing false in scene %i', (seed) => {
    expect(judgeArm(seed, false).faults).toEqual([]);
  });
  it('are answered alike in the mirror, elsewhere and in any order of what is in the way', () => {
    for (let seed = FIRST; seed < FIRST + COUNT; seed += 1)
      expect(new Set(answersToTwins(seed)).size, `scene ${seed}`).toBe(1);
  });
});

describe('sight, withdrawal and swing in hard scenes', () => {
  const judged: JudgedRoom[] = Array.from({ length: 3 * COUNT }, (_, k) => judgeRoom(FIRST + k));
  const table = roomTable(judged);
  it('sees what brute force sees, from a place that does see it', () => {
    expect(table.missed.length).toBeLessThanOrEqual(Math.ceil(0.1 * table.seen));
    expect(table.worstShare).toBeLessThan(0.05);
  });
  it('withdraws as far as brute force does', () => {
    expect(table.worstWithdrawalM).toBeLessThan(2e-4);
  });
  it('swings no farther than thin spokes do', () => {
    expect(table.swingsTooWide).toEqual([]);
    expect(table.swingsMissed).toBeLessThanOrEqual(Math.ceil(0.08 * table.swings));
  });
});
