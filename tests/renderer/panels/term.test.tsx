// @vitest-environment happy-dom
import { TERMS } from '@core/output/text/terms';
import { Term, TermText } from '@renderer/panels/Term';
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';

/** Wordings are ours: no source. */
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const shown = (): HTMLElement => {
  render(<Term of={TERMS.suction}>suction</Term>);
  return screen.getByRole('button', { name: 'suction' });
};

describe('a trade word', () => {
  it('is described by what it means while that is open, and by nothing before', () => {
    const word = shown();
    expect(word.getAttribute('aria-describedby')).toBeNull();
    fireEvent.click(word);
    const bubble = screen.getByRole('tooltip', { hidden: true });
    expect(word.getAttribute('aria-describedby')).toBe(bubble.id);
    for (const words of [TERMS.suction.name, TERMS.suction.what, TERMS.suction.why, TERMS.suction.typical])
      expect(bubble.textContent).toContain(words);
  });

  it('closes by Esc, which then does nothing else, and when the focus leaves', () => {
    const word = shown();
    const elsewhere = vi.fn();
    window.addEventListener('keydown', elsewhere);
    fireEvent.click(word);
    fireEvent.keyDown(word, { key: 'Escape' });
    expect(screen.queryByRole('tooltip', { hidden: true })).toBeNull();
    expect(elsewhere).not.toHaveBeenCalled();
    fireEvent.keyDown(word, { key: 'Escape' });
    expect(elsewhere).toHaveBeenCalledTimes(1);
    window.removeEventListener('keydown', elsewhere);
    fireEvent.click(word);
    fireEvent.blur(word);
    expect(screen.queryByRole('tooltip', { hidden: true })).toBeNull();
  });

  it('opens when the pointer rests on it, not when it passes', () => {
    vi.useFakeTimers();
    const word = shown();
    const anchor = word.parentElement as HTMLElement;
    fireEvent.mouseEnter(anchor);
    fireEvent.mouseLeave(anchor);
    act(() => void vi.advanceTimersByTime(2000));
    expect(screen.queryByRole('tooltip', { hidden: true })).toBeNull();
    fireEvent.mouseEnter(anchor);
    act(() => void vi.advanceTimersByTime(2000));
    expect(screen.getByRole('tooltip', { hidden: true }).textContent).toContain(TERMS.suction.what);
  });
});

it('running text keeps its words, and explains each trade word once', () => {
  const text = 'Water stands at the high point of the suction; a suction that rises has no high point.';
  const { container } = render(<TermText>{text}</TermText>);
  expect(container.textContent).toBe(text);
  expect(screen.getAllByRole('button').map(({ textContent }) => textContent)).toEqual(['high point', 'suction']);
});
