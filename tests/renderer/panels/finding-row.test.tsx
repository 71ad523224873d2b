// @vitest-environment happy-dom
import { boatSchema } from '@core/boat/schema/boat';
import type { CloseCall, Finding } from '@core/rules/finding';
import { FindingRow } from '@renderer/panels/findings/FindingRow';
import { useApp } from '@renderer/store/app';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

/** Wordings are ours: no source. */
const boat = boatSchema.parse(threeLockers());
afterEach(cleanup);

const ofEnds: CloseCall = { gradeM: 0.007, hangsOn: 'run', passProbability: [0.5, 0.5] };
const passed = (
  rule: string,
  data: Finding['data'],
  limit: number,
  bound: 'atLeast' | 'atMost',
): Extract<Finding, { outcome: 'pass' }> => ({
  key: `${rule}|raw-1|`,
  rule,
  subject: 'raw-1',
  related: [],
  at: null,
  cause: 'arrangement',
  profile: 'isoSmallCraft',
  sources: [],
  cannotSee: [],
  hazards: [],
  data,
  outcome: 'pass',
  measured: { value: 0, unit: 'm' },
  limit: { value: limit, unit: 'm', bound },
  closeCall: ofEnds,
});

const row = (finding: Finding): HTMLElement =>
  render(
    <ol>
      <FindingRow boat={boat} finding={finding} number={1} />
    </ol>,
  ).container;

it('a run whose ends may be off says by how much, without a bar up to nothing', () => {
  const shown = row(passed('runs/blocked', { lengthM: 0.4, bends: 1, slackM: 0 }, 0, 'atLeast'));
  expect(shown.querySelector('.bar-row')?.textContent).toBe('Its ends may be 7\u2009mm off, it takes up none of it');
  expect(shown.querySelector('.limit-bar')).toBeNull();
});

it('what hangs on the run alone keeps its bar, and no band stands at a limit that is not in doubt', () => {
  const shown = row(passed('water/suction-crest', {}, 0.02, 'atMost'));
  expect(shown.querySelector('.bar-row')?.textContent).toBe('0, at most 20, its ends known to \u00b17\u2009mm');
  expect(shown.querySelector('.limit-bar')).not.toBeNull();
  expect(shown.querySelector('.limit-bar > rect[height="10"]')).toBeNull();
});

it('asks for the reason at once: letters outside a field are commands', () => {
  const failed: Finding = {
    ...passed('access/service-space', {}, 0.1, 'atLeast'),
    outcome: 'fail',
    severity: 'fault',
    reason: 'tooLittle',
  };
  useApp.getState().select({ kind: 'finding', id: failed.key });
  row(failed);
  fireEvent.click(screen.getByRole('button', { name: 'Accept with a reason' }));
  expect(document.activeElement).toBe(screen.getByRole('textbox', { name: 'Reason' }));
  fireEvent.click(screen.getByRole('button', { name: 'Cancel' }));
  expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Accept with a reason' }));
});

it('figures carry the decimals that their unit deserves', () => {
  const steep: Finding = {
    ...passed('flooding/green-water', {}, 0, 'atLeast'),
    measured: { value: 22.25, unit: 'deg' },
    limit: { value: 45, unit: 'deg', bound: 'atLeast' },
  };
  expect(row(steep).querySelector('.bar-row')?.textContent).toContain('22.3, at least 45°');
});
