import { analyze } from '@core/analyze';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../oracle/judged';
import { scene } from '../../support/scenes';

/** Derived: a bound may not pass the length of a run that is there, and only rises with the work put into it. */
describe('the bound of a run, plain at first and close once asked for', () => {
  const drawn = scene(213, { planted: true });
  const boat: Boat = boatOf(drawn.boat);
  const plain = analyze(boat, { wishes: 'none' });
  const close = analyze(boat, { wishes: 'none', deeper: true });
  const runOf = (report: Report, lineId: string) => report.runs.find((one) => one.lineId === lineId);

  it('rises, and stays below what was found and what is known to be there', () => {
    expect(close.runs.length).toBeGreaterThan(10);
    for (const run of close.runs) {
      const before = runOf(plain, run.lineId);
      expect(run.lowerBoundM).toBeGreaterThanOrEqual(before?.lowerBoundM ?? 0);
      if (run.lengthM !== null) expect(run.lowerBoundM).toBeLessThanOrEqual(run.lengthM);
      const known = drawn.planted[run.lineId];
      if (known) expect(run.lowerBoundM).toBeLessThanOrEqual(known.lengthM);
      if (run.costM !== undefined) expect(run.costBoundM).toBeLessThanOrEqual(run.costM);
    }
  });

  it('is on the whole far closer to the runs', () => {
    const gapOf = (report: Report): number => {
      const gaps = report.runs.flatMap(({ costM, costBoundM }) =>
        costM === undefined || costBoundM === undefined ? [] : [costM / costBoundM - 1],
      );
      return gaps.sort((a, b) => a - b)[gaps.length >> 1] as number;
    };
    expect(gapOf(close)).toBeLessThan(gapOf(plain) / 2);
  });

  it('comes in slices to a session, to the same answer', () => {
    const session = new Session(boat);
    session.settled();
    let told: Report | null = null;
    for (let slices = 0; slices < 5000; slices++) {
      const { done, report } = session.deepen(400);
      told = report ?? told;
      if (done) break;
    }
    expect(told).toEqual(analyze(boat, { deeper: true }));
  });
});
