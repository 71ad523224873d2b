// @vitest-environment happy-dom
import { analyze } from '@core/analyze';
import { boatSchema } from '@core/boat/schema/boat';
import { FindingFilter } from '@renderer/panels/findings/FindingFilter';
import { aboutWhat, NO_FILTER, passesFilter, useFindingFilter } from '@renderer/store/finding-filter';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const boat = boatSchema.parse(threeLockers());
const { findings } = analyze(boat);
const LINE = Object.keys(boat.lines)[0] ?? '';
const shownBy = () => findings.filter((finding) => passesFilter(finding, useFindingFilter.getState()));

afterEach(() => {
  cleanup();
  useFindingFilter.setState(NO_FILTER);
});

describe('the findings', () => {
  it('narrow down by subject, weight and what they are about, and come back', () => {
    render(<FindingFilter boat={boat} findings={findings} shown={1} />);
    fireEvent.click(screen.getByRole('button', { name: 'Narrow down' }));
    fireEvent.change(screen.getByLabelText('Subject'), { target: { value: 'water' } });
    expect(shownBy().every(({ rule }) => rule.startsWith('water/'))).toBe(true);
    expect(shownBy()).toHaveLength(findings.filter(({ rule }) => rule.startsWith('water/')).length);
    fireEvent.change(screen.getByLabelText('Weight'), { target: { value: 'pass' } });
    expect(shownBy().every(({ outcome }) => outcome === 'pass')).toBe(true);
    fireEvent.change(screen.getByLabelText('About'), { target: { value: LINE } });
    expect(shownBy().every(({ subject, related }) => subject === LINE || related.includes(LINE))).toBe(true);
    expect(screen.getByRole('button', { expanded: true }).textContent).toContain('Only: Water, Passed');
    fireEvent.click(screen.getByRole('button', { name: 'Show all' }));
    expect(shownBy()).toHaveLength(findings.length);
  });

  it('are about records of the boat alone, each once', () => {
    const about = aboutWhat(findings, boat);
    expect(new Set(about).size).toBe(about.length);
    expect(about).toContain(LINE);
  });

  it('are told apart by their cause', () => {
    const planned = findings.filter((finding) => passesFilter(finding, { ...NO_FILTER, cause: 'arrangement' }));
    const old = findings.filter((finding) => passesFilter(finding, { ...NO_FILTER, cause: 'existing' }));
    expect(planned.length + old.length).toBe(findings.length);
  });
});
