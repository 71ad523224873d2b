import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { analyze } from '@core/analyze';
import { describe, expect, it } from 'vitest';
import { boatOf, judge } from './judged';

/** Derived: the oracle's own arithmetic on each sample boat's file and the primitives in its report. */
const SAMPLES = join(import.meta.dirname, '../../sample-boats');
const files = ['complete', 'minimal', 'faulty'].flatMap((kind) =>
  readdirSync(join(SAMPLES, kind), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => join(kind, entry.name)),
);

describe('the runs of the sample boats', () => {
  it.each(files)('%s: break no limit, and none is shorter than its bound', (folder) => {
    const boat = boatOf(JSON.parse(readFileSync(join(SAMPLES, folder, 'boat.json'), 'utf8')));
    const report = analyze(boat);
    // A run that is pinned as built may break limits, and is then found at fault by the rule for it.
    const amiss = new Set(
      report.findings.flatMap((one) => (one.rule === 'runs/pinned' && one.outcome === 'fail' ? [one.subject] : [])),
    );
    const pinned = new Set(report.runs.flatMap(({ lineId, pinned }) => (pinned && amiss.has(lineId) ? [lineId] : [])));
    const broken = judge(boat, report);
    expect(broken.filter(({ line }) => !pinned.has(line))).toEqual([]);
    for (const line of pinned) expect(broken.map((one) => one.line)).toContain(line);
  });

  it('faulty/runs-pinned: ends 30 mm beside its port and breaks nothing else', () => {
    const boat = boatOf(JSON.parse(readFileSync(join(SAMPLES, 'faulty/runs-pinned/boat.json'), 'utf8')));
    const broken = judge(boat, analyze(boat));
    expect(broken.map(({ line, kind }) => [line, kind])).toEqual([['hose', 'port']]);
    expect(broken[0]?.amount).toBeCloseTo(0.03, 9);
  });
});
