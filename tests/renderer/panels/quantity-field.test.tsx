// @vitest-environment happy-dom
import { LengthField } from '@renderer/panels/fields/LengthField';
import { useApp } from '@renderer/store/app';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

let committed: [number, string][] = [];
const field = (value: number) => (
  <LengthField label="Width" value={value} commit={(now, typed) => committed.push([now, typed])} />
);
const input = (): HTMLInputElement => screen.getByRole('textbox', { name: 'Width' });
const type = (text: string, key = 'Enter'): void => {
  fireEvent.change(input(), { target: { value: text } });
  fireEvent.keyDown(input(), { key });
};

beforeEach(() => {
  committed = [];
  useApp.setState({ displayUnits: 'mm' });
});
afterEach(cleanup);

describe('a field for a length', () => {
  it('commits on Enter what any unit means, with what was typed', () => {
    render(field(0.4));
    type('17 3/4 in');
    // derived: 17.75 x 25.4 mm
    expect(committed).toEqual([[0.45085, '17 3/4 in']]);
  });

  it('keeps an unreadable entry, says what is expected, and gives way to Escape', () => {
    render(field(0.4));
    type('4 or 5');
    expect(screen.getByRole('alert').textContent).toMatch(/^Expected/);
    expect(input().getAttribute('aria-invalid')).toBe('true');
    fireEvent.keyDown(input(), { key: 'Escape' });
    expect(input().value).toBe('400');
    expect(screen.queryByRole('alert')).toBeNull();
    expect(committed).toEqual([]);
  });

  it('lets an unfinished entry go when the value changes from elsewhere', () => {
    const { rerender } = render(field(0.4));
    fireEvent.change(input(), { target: { value: '77' } });
    rerender(field(0.5));
    expect(input().value).toBe('500');
    fireEvent.blur(input());
    expect(committed).toEqual([]);
  });

  it('steps by 10 mm, with shift by 1 mm', () => {
    render(field(0.4));
    fireEvent.keyDown(input(), { key: 'ArrowUp' });
    fireEvent.keyDown(input(), { key: 'ArrowDown', shiftKey: true });
    expect(committed.map(([value]) => Math.round(value * 1000))).toEqual([410, 399]);
  });

  it('shows inches when asked, and then reads a bare number as inches', () => {
    useApp.setState({ displayUnits: 'inch' });
    render(field(0.45085));
    expect(input().value).toBe('17 3/4');
    type('2');
    expect(committed[0]?.[0]).toBeCloseTo(0.0508, 9);
  });
});
