// @vitest-environment happy-dom
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { PlaceReport } from '@core/engine/placement/place-report';
import { Placing } from '@renderer/panels/placing/Placing';
import { PlacingBar } from '@renderer/panels/placing/PlacingBar';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal, connectStudies, type Told } from '@renderer/store/connections';
import { askWhere, usePlacing } from '@renderer/store/placing';
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';
import { placeReportOf } from '../place-report';

let told: ((told: Told<'places'>) => void) | null = null;
let going: ((done: number, partial?: PlaceReport) => void) | null = null;
let takenBack = 0;

const inFore = { at: [2.3, 0.2, -0.28] as [number, number, number], yawDeg: 0, pitchDeg: 0, rollDeg: 0 };

const now = (): Boat => {
  const { boat } = useApp.getState();
  if (!boat) throw new Error('expected a boat');
  return boat;
};

const settled = (): PlaceReport =>
  placeReportOf(
    now(),
    ['strainer'],
    [
      { compartment: 'fore', verdict: 'goes', poses: { strainer: inFore }, moreHoseM: 1.2 },
      { compartment: 'aft', verdict: 'goesClose', outcomes: { serves: 'close' }, isNow: true },
      { compartment: 'middle', verdict: 'no', outcomes: { cool: 'fail', reaches: 'notJudged', dry: 'cannotTell' } },
    ],
  );

beforeEach(() => {
  takenBack = 0;
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  connectStudies({
    study(kind, _, tell, go) {
      if (kind !== 'places') return () => {};
      told = tell as typeof told;
      going = (done, partial) => go?.({ done, of: 4 }, partial as never);
      return () => {
        takenBack += 1;
      };
    },
  });
  const read = readBoat(
    JSON.stringify({
      ...threeLockers(),
      standingPlaces: { well: { name: 'Cockpit', at: [0, 0, 1] }, sole: { name: 'Sole', at: [1, 0, 0] } },
      demands: { keel: { kind: 'noHaulOut' }, other: { kind: 'noDismantling', subject: 'pump' } },
    }),
  );
  if (!read.ok) throw new Error(read.problems[0]?.message);
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
  useApp.getState().setStage('equipment');
  useApp.getState().select({ kind: 'thing', id: 'strainer' });
  askWhere();
});
afterEach(() => {
  cleanup();
  usePlacing.getState().close();
  connectStudies(null);
});

const list = () => screen.getByRole('listbox', { name: /^Compartments/ });
const rows = () => within(list()).getAllByRole('option');
const chosen = () => rows().find((row) => row.getAttribute('aria-selected') === 'true');
const answer = (report = settled()) => act(() => told?.({ ok: true, gives: report }));

describe('the panel of where it can go', () => {
  it('names the part, its sizes and its lines', () => {
    render(<Placing />);
    expect(screen.getByRole('heading', { name: 'Where can it go?' })).toBe(document.activeElement);
    expect(screen.getByText(/Strainer, 130 × 120 × 200/).parentElement?.textContent).toMatch(/with raw-1, raw-2/);
  });

  it('tells how far the work is, once at each milestone, and can be stopped', () => {
    render(<Placing />);
    const status = () => document.querySelector('output')?.textContent;
    expect(status()).toBe('Compartments are being judged');
    act(() => going?.(1, placeReportOf(now(), ['strainer'], [{ compartment: 'fore', verdict: 'notYet' }], 'first')));
    expect(status()).toBe('First bounds stand: each is being judged');
    expect(screen.getByRole('progressbar').getAttribute('value')).toBe('1');
    act(() => going?.(2));
    expect(status()).toBe('First bounds stand: each is being judged');
    fireEvent.click(screen.getByRole('button', { name: 'Stop' }));
    expect(takenBack).toBe(1);
    expect(status()).toBe('Stopped');
    fireEvent.click(screen.getByRole('button', { name: 'Judge again' }));
    answer();
    expect(status()).toBe('2 of 3 compartments pass, 1 within the tape');
    expect(screen.queryByRole('progressbar')).toBeNull();
  });

  it('ranks compartments and keeps apart where it cannot go; every row says in words what its bars show', () => {
    render(<Placing />);
    answer();
    const words = rows().map((row) => row.textContent ?? '');
    expect(words[0]).toMatch(/^1Fore locker: passes every test\. 1.20 m more hose and cable/);
    expect(words[1]).toMatch(/^2Aft locker: passes within the tape.*Service: within the tape.*now here/);
    expect(words[2]).toMatch(/^Middle locker: no\..*Dry: cannot tell\. Cool: no/);
    expect(within(screen.getByRole('group', { name: /Not here/ })).getAllByRole('option')).toHaveLength(1);
    // Nine bars each, and no two outcomes of the same shape.
    const bars = rows().map((row) => [...row.querySelectorAll('.test-bars svg')].map((bar) => bar.innerHTML));
    expect(bars.map((of) => of.length)).toEqual([9, 9, 9]);
    const [pass, close] = [bars[0]?.[0], bars[1]?.[3]];
    const [fail, cannotTell, notJudged] = [bars[2]?.[5], bars[2]?.[4], bars[2]?.[6]];
    expect(new Set([pass, close, fail, cannotTell, notJudged]).size).toBe(5);
    expect(screen.getByRole('list', { name: 'Signs of the tests' }).textContent).toMatch(
      /passes.*within the tape.*cannot tell.*no.*not judged/,
    );
  });

  it('is walked through by the arrow keys, answers the pointer, and moves the part with Enter', () => {
    render(<Placing />);
    answer();
    expect(document.activeElement).toBe(list());
    expect(chosen()?.id).toBe('place-fore');
    expect(list().getAttribute('aria-activedescendant')).toBe('place-fore');
    fireEvent.keyDown(list(), { key: 'End' });
    expect(chosen()?.id).toBe('place-middle');
    fireEvent.keyDown(list(), { key: 'ArrowUp' });
    expect(chosen()?.id).toBe('place-aft');
    expect((screen.getByRole('button', { name: 'It is here now' }) as HTMLButtonElement).disabled).toBe(true);
    const [first] = rows();
    if (!first) throw new Error('expected rows');
    fireEvent.pointerOver(first);
    expect(useApp.getState().hover).toEqual({ kind: 'compartment', id: 'fore' });
    fireEvent.click(first);
    expect(chosen()?.id).toBe('place-fore');
    fireEvent.keyDown(list(), { key: 'Enter' });
    expect(useApp.getState().canUndo).toBe('Move strainer to the fore locker');
    // Its answer speaks of the boat before: the rows say so until it is judged again.
    expect(rows().every((row) => row.className.includes('old'))).toBe(true);
    expect(document.querySelector('output')?.textContent).toBe('Judged again after the change');
  });

  it('moves the part with one click of the button at its foot', () => {
    render(<Placing />);
    answer();
    fireEvent.click(screen.getByRole('button', { name: 'Move strainer to the fore locker' }));
    expect(Object.values(now().arrangements)[0]?.places.strainer?.at).toEqual(inFore.at);
  });

  it('closes with Escape, wherever the focus is in it', () => {
    render(<Placing />);
    answer();
    fireEvent.keyDown(screen.getByRole('checkbox', { name: /Not where somebody sleeps/ }), { key: 'Escape' });
    expect(usePlacing.getState().parts).toEqual([]);
  });

  it('says plainly that there is nowhere to go', () => {
    render(<Placing />);
    answer(placeReportOf(now(), ['strainer'], []));
    expect(screen.getByText(/^No compartments are drawn/)).toBeTruthy();
    expect(screen.queryByRole('listbox')).toBeNull();
  });

  it('says when the work failed', () => {
    render(<Placing />);
    act(() => told?.({ ok: false, message: 'expected a hull' }));
    expect(screen.getByRole('alert').textContent).toMatch(/a fault of the program\. expected a hull/);
  });
});

describe('demands', () => {
  const box = (name: RegExp) => screen.getByRole('checkbox', { name }) as HTMLInputElement;

  it('are kept in the boat file for the part, and undone like any edit', () => {
    render(<Placing />);
    expect(box(/Serviceable without/).checked).toBe(false);
    fireEvent.click(box(/Serviceable without/));
    expect(now().demands).toMatchObject({ noDismantling: { kind: 'noDismantling', subject: 'strainer' } });
    // That of another part stays.
    expect(now().demands?.other).toBeDefined();
    expect(box(/Serviceable without/).checked).toBe(true);
    expect(useApp.getState().canUndo).toBe('Demand: serviceable without dismantling');
    act(() => useApp.getState().undo());
    expect(box(/Serviceable without/).checked).toBe(false);
  });

  it('for all parts hold here, too, and say so', () => {
    render(<Placing />);
    expect(box(/Without hauling out/).checked).toBe(true);
    expect(screen.getByText('for all parts')).toBeTruthy();
    fireEvent.click(box(/Without hauling out/));
    expect(now().demands?.keel).toBeUndefined();
  });

  it('name the place that it is to be seen from', () => {
    render(<Placing />);
    fireEvent.click(box(/^Seen from$/));
    const seen = () => Object.values(now().demands ?? {}).filter(({ kind }) => kind === 'seenFrom');
    expect(seen()).toEqual([{ kind: 'seenFrom', subject: 'strainer', place: 'well' }]);
    fireEvent.change(screen.getByRole('combobox', { name: 'Place that it is seen from' }), {
      target: { value: 'sole' },
    });
    expect(seen()).toEqual([{ kind: 'seenFrom', subject: 'strainer', place: 'sole' }]);
    fireEvent.click(box(/^Seen from$/));
    expect(seen()).toEqual([]);
  });

  it('name the distance that it is to be kept within', () => {
    render(<Placing />);
    fireEvent.click(box(/^Within$/));
    const field = screen.getByRole('textbox', { name: 'Distance at most' });
    fireEvent.change(field, { target: { value: '900' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(Object.values(now().demands ?? {}).filter(({ kind }) => kind === 'keepWithin')).toEqual([
      { kind: 'keepWithin', subject: 'strainer', place: 'well', distanceM: 0.9 },
    ]);
  });
});

describe('the strip at the foot of the drawing', () => {
  it('explains the tints that are on the drawing', () => {
    answer();
    render(<PlacingBar />);
    const items = within(screen.getByRole('region', { name: 'Tints of the compartments' })).getAllByRole('listitem');
    expect(items.map((item) => item.textContent)).toEqual([
      'passes every test',
      'passes within the tape',
      'no, with its reason',
    ]);
    expect(new Set(items.map((item) => item.querySelector('svg')?.innerHTML)).size).toBe(3);
  });
});
