// @vitest-environment happy-dom
import { Guard } from '@renderer/app/Guard';
import { useApp } from '@renderer/store/app';
import { cleanup, render, screen } from '@testing-library/react';
import { act } from 'react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

let broken = true;
function Panel() {
  if (broken) throw new Error('no such station: s99');
  return <p>All is well</p>;
}

beforeEach(() => {
  broken = true;
  // React tells of the error too; here it is expected.
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

describe('a panel that fails', () => {
  it('says so in its place, and its neighbours stay', () => {
    render(
      <>
        <Guard name="The tables">
          <Panel />
        </Guard>
        <p>The drawing</p>
      </>,
    );
    const alert = screen.getByRole('alert');
    expect(alert.textContent).toContain('The tables stopped');
    expect(alert.textContent).toContain('no such station: s99');
    for (const name of ['Save as', 'Undo', 'Try again']) expect(screen.getByRole('button', { name })).toBeDefined();
    expect(screen.getByText('The drawing')).toBeDefined();
  });

  it('is shown again by itself once something else is picked', () => {
    render(
      <Guard name="The tables">
        <Panel />
      </Guard>,
    );
    broken = false;
    act(() => useApp.getState().select({ kind: 'station', id: 's1' }));
    expect(screen.getByText('All is well')).toBeDefined();
    expect(screen.queryByRole('alert')).toBeNull();
  });
});
