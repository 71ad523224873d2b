// @vitest-environment happy-dom

import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import type { Report } from '@core/engine/report';
import { COMMANDS } from '@renderer/app/commands';
import { FindField } from '@renderer/app/FindField';
import { find } from '@renderer/app/find';
import { KeyboardMap } from '@renderer/app/KeyboardMap';
import { Rail } from '@renderer/app/Rail';
import { TopBar } from '@renderer/app/TopBar';
import { PickedBar } from '@renderer/board/PickedBar';
import { Drawer } from '@renderer/panels/Drawer';
import { Side } from '@renderer/panels/Side';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const read = readBoat(JSON.stringify(threeLockers()));
if (!read.ok) throw new Error('expected a boat');
const BOAT = read.boat;
const REPORT: Report = analyze(BOAT);

beforeEach(() => {
  connectEngine(null);
  connectJournal(null);
  useApp.getState().open(BOAT, { fileName: '', token: null, saved: true });
  useApp.getState().answered(useApp.getState().sent, REPORT);
});
afterEach(cleanup);

const found = (text: string) => find(text, useApp.getState().boat, useApp.getState().arrangementId);

describe('the command finder', () => {
  it('comes to every command by its own words', () => {
    for (const command of COMMANDS) {
      const own = find(command.words, BOAT, null).map(({ id }) => id);
      expect([command.id, own.slice(0, 3)]).toEqual([command.id, expect.arrayContaining([`command ${command.id}`])]);
    }
  });

  it('comes to a command by what others call it', () => {
    const first = (text: string): string | undefined => found(text)[0]?.id;
    expect(found('align').map(({ id }) => id)).toContain('command line-up-left');
    expect(found('group').map(({ id }) => id)).toContain('command keep-together');
    expect(first('undo')).toBe('command undo');
    expect(found('mesure distance')[0]?.id).toBe('command tool-measure');
    expect(found('connect')[0]?.id).toBe('command tool-join');
  });

  it('shows the key, and why a command cannot be given now', () => {
    const copy = found('copy what is picked')[0];
    expect(copy).toMatchObject({ id: 'command copy', keys: 'Ctrl C' });
    expect(copy?.why).toContain('Select');
    useApp.getState().select({ kind: 'thing', id: 'battery' });
    expect(found('copy what is picked')[0]?.why).toBeNull();
  });

  it('comes to things, lines, compartments, panels, openings and findings of the boat', () => {
    const kinds = (text: string): readonly string[] => found(text).map(({ id }) => id.split(' ')[0] ?? '');
    expect(kinds('house bank')).toContain('thing');
    expect(kinds('fore locker')).toContain('compartment');
    expect(kinds('fore lid')).toContain('opening');
    const line = Object.values(BOAT.lines)[0];
    if (line) expect(kinds(line.name)).toContain('line');
    const open = REPORT.findings.filter(({ outcome }) => outcome === 'fail' || outcome === 'cannotTell');
    expect(open.length).toBeGreaterThan(0);
    expect(kinds('finding 1')).toContain('finding');
    found('house bank')
      .find(({ id }) => id === 'thing battery')
      ?.run();
    expect(useApp.getState().selection).toEqual({ kind: 'thing', id: 'battery' });
  });

  it.each(['hull', 'compartments', 'equipment', 'runs', 'checks', 'sheets'] as const)(
    'comes to every button that stands on the screen at stage %s, by its words',
    (stage) => {
      useApp.getState().setStage(stage);
      useApp.getState().select({ kind: 'thing', id: 'battery' }, [{ kind: 'thing', id: 'tank' }]);
      render(
        <>
          <TopBar />
          <Rail />
          <Side />
          <Drawer />
          <PickedBar />
        </>,
      );
      const commands = new Set(COMMANDS.map(({ id }) => id));
      const buttons = [...document.querySelectorAll<HTMLButtonElement>('button:not(.row-name)')];
      expect(buttons.length).toBeGreaterThan(40);
      for (const button of buttons) {
        const words = (button.getAttribute('aria-label') ?? button.textContent ?? '').replace(/\s+/g, ' ').trim();
        expect([button.outerHTML, words.length > 0]).toEqual([button.outerHTML, true]);
        const { command } = button.dataset;
        if (command !== undefined) {
          expect(commands).toContain(command);
          continue;
        }
        const answers = found(words).map((one) => one.words.toLowerCase());
        expect([words, answers.includes(words.toLowerCase())]).toEqual([words, true]);
      }
    },
  );

  it('is walked by keys: the answer is marked, Enter gives it, what cannot be given says why', () => {
    render(<FindField />);
    const field = screen.getByRole('combobox');
    fireEvent.focus(field);
    fireEvent.change(field, { target: { value: 'measure a distance' } });
    const options = within(screen.getByRole('listbox')).getAllByRole('option');
    expect(options[0]?.getAttribute('aria-selected')).toBe('true');
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(useApp.getState().tool).toBe('measure');
    fireEvent.change(field, { target: { value: 'line up left' } });
    expect(within(screen.getByRole('listbox')).getAllByRole('option')[0]?.getAttribute('aria-disabled')).toBe('true');
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(useApp.getState().notice).toContain('two things');
  });
});

describe('the sheet of keys', () => {
  it('narrows down as one types, and says where to look when there is no such key', () => {
    // happy-dom knows dialogs, not that they come to the front.
    HTMLDialogElement.prototype.showModal ??= () => {};
    render(<KeyboardMap close={() => {}} />);
    const rows = (): number => screen.queryAllByRole('row', { hidden: true }).length;
    const all = rows();
    const field = screen.getByRole('searchbox', { hidden: true });
    fireEvent.change(field, { target: { value: 'section' } });
    expect(rows()).toBeGreaterThan(0);
    expect(rows()).toBeLessThan(all);
    fireEvent.change(field, { target: { value: 'xyzzy' } });
    expect(rows()).toBe(0);
    expect(screen.getByText(/Ctrl K finds every command/)).toBeTruthy();
  });
});
