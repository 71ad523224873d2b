import { describe, expect, it } from 'vitest';
import { answersToTwins, armTable, type JudgedArm, judgeArm } from './judged-arm';
import { type JudgedRoom, judgeRoom, roomTable } from './judged-room';

/**
 * Some of the hard scenes of service.deep.ts, judged by brute force that knows arm, limits and solids by their definition alone.
 * SERVICE_SEED: first seed (1). SERVICE_SCENES: how many scenes of the arm (6); of sight, withdrawal and swing four times as many.
 */
const FIRST = Number(process.env.SERVICE_SEED ?? 1);
const COUNT = Number(process.env.SERVICE_SCENES ?? 6);

describe('arms in hard scenes', () => {
  const judged: JudgedArm[] = [];
  it.each(Array.from({ length: COUNT }, (_, k) => FIRST + 3 * k))('scene %i', (seed) => {
    const one = judgeArm(seed);
    judged.push(one);
    expect(one.faults).toEqual([]);
  });
  it('are answered alike in the mirror, elsewhere and in any order of what is in the way', () => {
    for (let seed = FIRST; seed < FIRST + 2 * COUNT; seed += 1)
      expect(new Set(answersToTwins(seed)).size, `scene ${seed}`).toBe(1);
  });
  it('are of both kinds', () => {
    const { withPose, withoutPose, inBand } = armTable(judged);
    expect(withPose + withoutPose + inBand).toBe(COUNT);
    if (COUNT >= 6) expect(Math.min(withPose, withoutPose)).toBeGreaterThan(0);
  });
});

describe('sight, withdrawal and swing in hard scenes', () => {
  const judged: JudgedRoom[] = Array.from({ length: 4 * COUNT }, (_, k) => judgeRoom(FIRST + k));
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
