// @vitest-environment happy-dom
import { COMMANDS } from '@renderer/app/commands';
import { Start } from '@renderer/app/Start';
import { useDoor } from '@renderer/doors/door';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';

afterEach(cleanup);

describe('the start', () => {
  it('offers each way to a boat once, with what comes of it', () => {
    render(<Start />);
    for (const name of ['Ten minutes', 'Empty boat', 'Open', 'New from sample']) {
      const button = screen.getByRole('button', { name });
      const about = document.getElementById(button.getAttribute('aria-describedby') ?? '');
      expect([name, (about?.textContent ?? '').length > 10]).toEqual([name, true]);
    }
  });

  it('opens the ten-minute door, which every list of commands has too', () => {
    render(<Start />);
    fireEvent.click(screen.getByRole('button', { name: 'Ten minutes' }));
    expect(useDoor.getState().door).toBe('tenMinutes');
    expect(COMMANDS.map(({ id }) => id)).toContain('door-ten-minutes');
  });
});
