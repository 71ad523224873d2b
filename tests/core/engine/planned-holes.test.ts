import { analyze } from '@core/analyze';
import { boatSchema } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { describe, expect, it } from 'vitest';
import { checkRuns } from '../../support/check-run';
import { boatOf, locker, type Setting, thing } from '../runs/routing/small-boats';

const AT: [number, number, number] = [1.006, 0, 0.4];

/** Two lockers in a row and two hoses abreast; one hole in the bulkhead is planned, for the second of them. */
function reported(diameterM: number, made: readonly string[] = ['l1']) {
  const fixtures: Setting['fixtures'] = {};
  const lines: NonNullable<Setting['lines']> = {};
  for (const k of [0, 1]) {
    fixtures[`a${k}`] = thing([0.2, 0.15 * k - 0.075, 0.4], [0.1, 0.06, 0.1], [1, 0, 0]);
    fixtures[`b${k}`] = thing([1.8, 0.15 * k - 0.075, 0.4], [0.1, 0.06, 0.1], [-1, 0, 0]);
    const [from, to] = [
      { thing: `a${k}`, port: 'p' },
      { thing: `b${k}`, port: 'p' },
    ];
    lines[`l${k}`] = { name: `hose ${k}`, kind: 'hose', medium: 'seaWater', from, to };
  }
  const boat = boatSchema.parse(
    boatOf({
      compartments: { aft: locker([0, -0.6, 0], [1, 0.6, 0.8]), fore: locker([1.012, -0.6, 0], [2, 0.6, 0.8]) },
      panels: { bulkhead: { between: ['aft', 'fore'], near: AT, newHoleCostM: 0.4 } },
      fixtures,
      lines,
      arrangement: {
        name: 'one',
        newHoles: { cut: { between: ['aft', 'fore'], at: AT, diameterM, for: [...made] } },
      },
    }),
  );
  const report = analyze(boat);
  expect(checkRuns(boat, report)).toEqual([]);
  return report;
}
const holeOf = (runs: readonly RunReport[], id: string) => runs.find(({ lineId }) => lineId === id)?.holes;

describe('a hole that the arrangement has decided on', () => {
  // Derived: hoses of 20 mm ask for 22 mm each.
  it('is drilled once for all who share it', () => {
    const { runs, summary, takeoff } = reported(0.044);
    for (const id of ['l0', 'l1'])
      expect(holeOf(runs, id)).toMatchObject([{ newHoleId: 'cut', existing: false, at: AT, diameterM: 0.044 }]);
    expect(summary.newHoles).toBe(1);
    const drilled = takeoff.filter(({ group }) => group === 'hole');
    expect(drilled).toHaveLength(1);
    expect(drilled[0]).toMatchObject({ from: ['l0', 'l1'], quantity: 1 });
    expect(takeoff.filter(({ group }) => group === 'grommet')).toMatchObject([{ quantity: 1 }]);
  });

  it('keeps room for the line that it is made for, though another comes first', () => {
    const { runs, summary } = reported(0.043);
    expect(holeOf(runs, 'l0')).toMatchObject([{ existing: false }]);
    expect(holeOf(runs, 'l0')?.[0]).not.toHaveProperty('newHoleId');
    expect(holeOf(runs, 'l1')).toMatchObject([{ newHoleId: 'cut' }]);
    expect(summary.newHoles).toBe(2);
  });
});
