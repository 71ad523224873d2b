import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import { writeBoat } from '@core/boat/write';
import type { Report } from '@core/engine/report';
import { cautionTexts } from '@core/output/text/caution-text';
import { findingText } from '@core/output/text/finding-text';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../core/boat/boat-of';
import { uncautioned } from './cautions';

const ROOT = fileURLToPath(new URL('../../sample-boats/', import.meta.url));
const FOLDERS = readdirSync(ROOT).flatMap((shelf) => readdirSync(`${ROOT}${shelf}`).map((name) => `${shelf}/${name}`));

interface Expected {
  readonly key: string;
  readonly outcome: 'fail' | 'cannotTell';
  readonly severity?: string;
  /** Rounded; compared to 1 mm, 1 mV and the like. */
  readonly measured?: number;
}

describe.each(FOLDERS)('sample boat %s', (folder) => {
  const text = readFileSync(`${ROOT}${folder}/boat.json`, 'utf8');
  const read = readBoat(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { boat } = read;
  const { findings, deeper = false } = JSON.parse(readFileSync(`${ROOT}${folder}/expected.json`, 'utf8')) as {
    readonly findings: Expected[];
    /** Late rules speak in the deeper report alone. */
    readonly deeper?: boolean;
  };
  let report: Report | null = null;
  const reported = (): Report => {
    report ??= analyze(boat, { deeper });
    return report;
  };

  it('says where its numbers come from', () => {
    expect(readFileSync(`${ROOT}${folder}/README.md`, 'utf8').length).toBeGreaterThan(80);
  });

  it('has no unknown keys and survives being written', () => {
    expect(read.notes).toEqual([]);
    const again = readBoat(writeBoat(boat));
    expect(again.ok && { ...again.boat, engineVersion: undefined }).toEqual({ ...boat, engineVersion: undefined });
  });

  it('is judged as expected, and nothing else is found', () => {
    const found = reported().findings.flatMap((finding) =>
      finding.outcome === 'fail' || finding.outcome === 'cannotTell'
        ? [
            {
              key: finding.key,
              outcome: finding.outcome,
              severity: finding.outcome === 'fail' ? finding.severity : undefined,
              measured: finding.outcome === 'fail' ? finding.measured.value : undefined,
            },
          ]
        : [],
    );
    expect(found.map((finding) => finding.key).sort()).toEqual(findings.map((finding) => finding.key).sort());
    for (const wanted of findings) {
      const one = found.find((finding) => finding.key === wanted.key);
      expect(one).toMatchObject({ outcome: wanted.outcome, ...(wanted.severity ? { severity: wanted.severity } : {}) });
      if (wanted.measured !== undefined)
        expect(Math.abs((one?.measured ?? Number.NaN) - wanted.measured)).toBeLessThanOrEqual(0.001);
    }
  });

  it('cautions whoever acts on what is found: the matter, and who has the last word', () => {
    for (const finding of reported().findings) {
      if (finding.outcome !== 'fail' && finding.outcome !== 'cannotTell') continue;
      const { title, why, enterNext, cautions } = findingText(finding, boat);
      const words = `${title} ${why} ${enterNext}`;
      expect([finding.key, uncautioned({ boat, finding, words })]).toEqual([finding.key, []]);
      expect(cautions).toEqual(cautionTexts(finding.hazards));
    }
  });
});

it('a finding without its caution would be noticed', () => {
  const boat = boatOf(JSON.parse(readFileSync(`${ROOT}faulty/water-dead-head/boat.json`, 'utf8')));
  const finding = analyze(boat).findings.find(({ rule, outcome }) => rule === 'water/dead-head' && outcome === 'fail');
  if (!finding) throw new Error('expected the dead end of the faulty boat');
  const words = findingText(finding, boat).title;
  expect(uncautioned({ boat, finding, words })).toEqual([]);
  expect(uncautioned({ boat, finding: { ...finding, hazards: [] }, words })).toContain('highPressure');
});
