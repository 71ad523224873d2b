import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { analyze } from '@core/analyze';
import { applied } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { mends, startMends } from '@core/engine/remedies/mending';
import { worseFindings } from '@core/engine/remedies/worse';
import { remedyText } from '@core/output/text/remedy-text';
import { MENDED_RULES, type Remedy } from '@core/rules/remedy';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { faultyBoat } from '../../rules/judged';

const boatFor = (rule: string): Boat => boatOf(faultyBoat(rule));

/** What a remedy does to a boat that is analysed afresh: the failures of the key that are left, and what is worse. */
function afresh(boat: Boat, key: string, remedy: Remedy): readonly string[] {
  const edited = checkBoat(applied(boat, remedy.patches));
  if (!edited.ok) return [`${remedy.id}: ${edited.problems[0]?.message}`];
  const after = analyze(edited.boat).findings;
  const left = after.filter(
    (finding) => finding.key === key && (finding.outcome === 'fail' || finding.outcome === 'cannotTell'),
  );
  const worse = worseFindings(analyze(boat).findings, after);
  const told = remedy.brings.map((finding) => finding.key);
  const untold = worse.filter(
    (finding) => !(finding.outcome === 'fail' && finding.severity === 'advice' && told.includes(finding.key)),
  );
  return [...left, ...untold].map((finding) => `${remedy.id}: ${finding.key}`);
}

const FAULTY = readdirSync(fileURLToPath(new URL('../../../../sample-boats/faulty/', import.meta.url))).map((name) =>
  name.replace('-', '/'),
);

describe('what would mend a finding', () => {
  it('is the least move of the part: 100 mm clears the battery to the centimetre (derived from the two boxes)', () => {
    const boat = boatFor('access/overlap');
    const [remedy] = mends(boat, 'access/overlap|station|battery');
    expect(remedy).toMatchObject({ change: 'move', what: { thing: 'station' }, lengthM: null, prims: [] });
    expect(afresh(boat, 'access/overlap|station|battery', remedy as Remedy)).toEqual([]);
    const byM = Number(remedy?.what.byM);
    expect(remedyText(remedy as Remedy, boat).title).toContain(`${Math.round(byM * 1000)} mm`);
    expect(remedyText(remedy as Remedy, boat).why).toContain('Nothing else becomes worse');
  });

  it.each(FAULTY)('%s: each offer keeps its word when the boat is analysed afresh', (rule) => {
    const boat = boatFor(rule);
    for (const finding of analyze(boat).findings) {
      if (finding.outcome !== 'fail' || finding.rule !== rule || MENDED_RULES.includes(rule)) continue;
      for (const remedy of mends(boat, finding.key)) {
        expect(afresh(boat, finding.key, remedy)).toEqual([]);
        expect(remedy.hazards).toEqual(expect.arrayContaining([...finding.hazards]));
        expect(remedyText(remedy, boat).title).not.toMatch(/undefined|\[object|NaN/);
      }
    }
  });

  it('of a line that has no run holds what remedies of the line hold', () => {
    const changes = mends(boatFor('runs/blocked'), 'runs/blocked|hose|').map(({ change }) => change);
    expect(changes).toContain('newHole');
  });

  it('is nothing where nothing fails, and where the key is of no finding', () => {
    expect(mends(boatFor('access/overlap'), 'access/overlap|gone|')).toEqual([]);
  });

  it('comes in slices, with progress that never goes back', () => {
    const work = startMends(boatFor('access/service-space'), 'access/service-space|filter|bowl');
    let far = 0;
    for (;;) {
      const step = work.step();
      if ('answer' in step) break;
      const now = step.progress.done / step.progress.of;
      expect(now).toBeGreaterThanOrEqual(far);
      far = now;
    }
    expect(far).toBeGreaterThan(0.5);
  });
});
