import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { answersToTwins, armTable, type JudgedArm, judgeArm } from './judged-arm';
import { type JudgedRoom, judgeRoom, roomTable } from './judged-room';

/**
 * Reach, sight, withdrawal and tools in two hundred hard scenes (tests/support/service/arm-scene.ts), judged by brute force at ten
 * millimetres and by re-tracing each way at half a millimetre.
 *
 * SERVICE_SEED: first seed (1). SERVICE_SCENES: how many (200). SERVICE_LOG: file to which each scene is written as a line of JSON; scenes
 * that it holds already are not judged again.
 */
const FIRST = Number(process.env.SERVICE_SEED ?? 1);
const COUNT = Number(process.env.SERVICE_SCENES ?? 200);
const LOG = process.env.SERVICE_LOG;

interface Row {
  readonly arm: JudgedArm;
  readonly room: JudgedRoom;
  readonly twins: ReturnType<typeof answersToTwins>;
}
const known = new Map<number, Row>();
if (LOG && existsSync(LOG))
  for (const line of readFileSync(LOG, 'utf8').split('\n').filter(Boolean)) {
    const row = JSON.parse(line) as Row;
    known.set(row.arm.seed, row);
  }
const rows: Row[] = [];

describe('service in hard scenes', () => {
  it.each(Array.from({ length: COUNT }, (_, k) => FIRST + k))('scene %i', (seed) => {
    const before = known.get(seed);
    const row = before ?? { arm: judgeArm(seed), room: judgeRoom(seed), twins: answersToTwins(seed) };
    rows.push(row);
    if (!before && LOG) appendFileSync(LOG, `${JSON.stringify(row)}\n`);
    expect(row.arm.faults).toEqual([]);
    // In the mirror, elsewhere, and in another order of what is in the way.
    expect(new Set(row.twins).size).toBe(1);
  });

  it('promises nothing false, disproves nothing true, and seldom finds nothing', () => {
    const table = armTable(rows.map(({ arm }) => arm));
    expect(table.faulty).toEqual([]);
    expect(table.notFound / table.scenes).toBeLessThanOrEqual(0.35);
    // The scenes are no easier one way than the other: counted outside the band of one cell.
    const counted = table.withPose + table.withoutPose;
    expect(table.withPose / counted).toBeGreaterThanOrEqual(0.4);
    expect(table.withoutPose / counted).toBeGreaterThanOrEqual(0.4);
  });

  it('sees, withdraws and swings as brute force does', () => {
    const table = roomTable(rows.map(({ room }) => room));
    expect(table.missed.length).toBeLessThanOrEqual(0.09 * table.seen);
    expect(table.worstShare).toBeLessThan(0.05);
    expect(table.worstWithdrawalM).toBeLessThan(2e-4);
    expect(table.swingsTooWide).toEqual([]);
    expect(table.swingsMissed).toBeLessThanOrEqual(0.08 * table.swings);
  });
});

afterAll(() => {
  console.log(
    JSON.stringify(
      { arm: armTable(rows.map(({ arm }) => arm)), room: roomTable(rows.map(({ room }) => room)) },
      null,
      1,
    ),
  );
});
