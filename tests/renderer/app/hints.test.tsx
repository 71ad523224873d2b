// @vitest-environment happy-dom

import { useDialogs } from '@renderer/app/dialogs';
import { Hints } from '@renderer/app/hints/Hints';
import { HINT_WORDS } from '@renderer/app/hints/words';
import { useApp } from '@renderer/store/app';
import { HINTS, useHints } from '@renderer/store/hints';
import { readPreferences, writePreferences } from '@renderer/store/preferences';
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const document = useApp.getState().document;
beforeEach(() => {
  localStorage.clear();
  useHints.getState().again();
  useApp.setState({ document: { ...document, isSample: true } });
});
afterEach(cleanup);

const notes = (): (string | null)[] =>
  screen.queryAllByRole('heading', { hidden: true }).map(({ textContent }) => textContent);
const numbers = (): (string | null)[] =>
  [...window.document.querySelectorAll('.hint-number')].map((one) => one.textContent);
const shown = () => render(<Hints onSheet={() => [10, 10]} />);

describe('the hints on a sample', () => {
  it('stand as numbers with one note open, and go one by one', () => {
    shown();
    expect(numbers()).toEqual(['1', '2', '3', '4', '5']);
    for (const [index, hint] of HINTS.entries()) {
      expect(notes()).toEqual([HINT_WORDS[hint].title]);
      const words = index === HINTS.length - 1 ? 'Done' : 'Next';
      fireEvent.click(screen.getByText(words));
    }
    expect(numbers()).toEqual([]);
    expect(readPreferences().hintsAway).toEqual(HINTS);
  });

  it('go all at once, and by Esc', () => {
    shown();
    fireEvent.keyDown(screen.getByLabelText(/^Hint 1/), { key: 'Escape' });
    expect(numbers()).toEqual(['2', '3', '4', '5']);
    fireEvent.click(screen.getByText('Put all away'));
    expect(numbers()).toEqual([]);
  });

  it('fold to their numbers once work begins', () => {
    shown();
    expect(notes()).toHaveLength(1);
    act(() => useApp.getState().setTool('pan'));
    expect(notes()).toEqual([]);
    expect(numbers()).toHaveLength(5);
    act(() => useApp.getState().setTool('select'));
  });

  it("stand on no boat of one's own, and under no dialog", () => {
    shown();
    act(() => useDialogs.setState({ help: true }));
    expect(numbers()).toEqual([]);
    act(() => useDialogs.setState({ help: false }));
    expect(numbers()).toHaveLength(5);
    act(() => useApp.setState({ document: { ...document, isSample: false } }));
    expect(numbers()).toEqual([]);
  });

  it('are remembered beside the other preferences, each of which is kept when another changes', () => {
    act(() => useHints.getState().putAway('run'));
    writePreferences({ units: 'inch' });
    expect(readPreferences()).toMatchObject({ hintsAway: ['run'], units: 'inch', textSize: 100 });
  });
});
