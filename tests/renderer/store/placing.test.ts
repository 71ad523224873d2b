import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { PlaceReport } from '@core/engine/placement/place-report';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal, connectStudies, type StudyPort, type Told } from '@renderer/store/connections';
import { askWhere, lookAtPlace, noPlaceQuestion, PAUSE_MS, placeThere, usePlacing } from '@renderer/store/placing';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { threeLockers } from '../../support/boats';
import { placeReportOf } from '../place-report';

interface Question {
  readonly from: { readonly boat: Boat; readonly parts: readonly string[] };
  readonly told: (told: Told<'places'>) => void;
  readonly going: (done: number, partial?: PlaceReport) => void;
  takenBack: boolean;
}
let questions: Question[] = [];
const last = (): Question => {
  const question = questions.at(-1);
  if (!question) throw new Error('expected a question');
  return question;
};

const standing = { yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
const inFore = { at: [2.3, 0.2, -0.28] as [number, number, number], ...standing };
const inMiddle = { at: [1.5, 0.3, -0.28] as [number, number, number], ...standing };

const now = (): Boat => {
  const { boat } = useApp.getState();
  if (!boat) throw new Error('expected a boat');
  return boat;
};
const placeOfStrainer = () => Object.values(now().arrangements)[0]?.places.strainer;

const settled = (boat = now()): PlaceReport =>
  placeReportOf(
    boat,
    ['strainer'],
    [
      { compartment: 'fore', verdict: 'goes', poses: { strainer: inFore }, moreHoseM: 1.2 },
      { compartment: 'middle', verdict: 'goesClose', outcomes: { serves: 'close' }, poses: { strainer: inMiddle } },
      { compartment: 'aft', verdict: 'no', outcomes: { cool: 'fail' } },
    ],
  );

function open(): void {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
}

beforeEach(() => {
  vi.useFakeTimers();
  questions = [];
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  const port: StudyPort = {
    study(kind, from, told, going) {
      // Other questions may be asked meanwhile.
      if (kind !== 'places') return () => {};
      const question: Question = {
        from: from as Question['from'],
        told: told as Question['told'],
        going: (done, partial) => going?.({ done, of: 3 }, partial as never),
        takenBack: false,
      };
      questions.push(question);
      return () => {
        question.takenBack = true;
      };
    },
  };
  connectStudies(port);
  open();
  useApp.getState().setStage('equipment');
  useApp.getState().select({ kind: 'thing', id: 'strainer' });
});
afterEach(() => {
  usePlacing.getState().close();
  connectStudies(null);
  vi.useRealTimers();
});

describe('the question where a part can go', () => {
  it('is asked of the parts that are picked, not of what is aboard', () => {
    useApp.getState().select({ kind: 'thing', id: 'battery' });
    expect(noPlaceQuestion()).toBe('That is aboard already: select a part of the set');
    useApp.getState().select({ kind: 'thing', id: 'strainer' }, [{ kind: 'thing', id: 'battery' }]);
    expect(noPlaceQuestion()).toBeNull();
    askWhere();
    expect(last().from).toEqual({ boat: now(), parts: ['strainer'] });
    useApp.getState().select(null);
    expect(noPlaceQuestion()).toBe('Select a part first');
  });

  it('brings a stage up on which the boat is drawn', () => {
    useApp.getState().setStage('sheets');
    askWhere();
    expect(useApp.getState().stage).toBe('equipment');
    expect(usePlacing.getState().parts).toEqual(['strainer']);
  });

  it('shows the first bounds before the answer, and then looks at the best place', () => {
    askWhere();
    const first = placeReportOf(now(), ['strainer'], [{ compartment: 'fore', verdict: 'notYet' }], 'first');
    last().going(0, first);
    expect(usePlacing.getState()).toMatchObject({ report: first, chosen: null, progress: { done: 0, of: 3 } });
    last().told({ ok: true, gives: settled() });
    expect(usePlacing.getState()).toMatchObject({ chosen: 'fore', progress: null });
    // The section stands where the part would.
    expect(useApp.getState().sectionX).toBe(inFore.at[0]);
  });

  it('is taken back when it is closed, and a late answer is not shown', () => {
    askWhere();
    const question = last();
    usePlacing.getState().close();
    expect(question.takenBack).toBe(true);
    question.told({ ok: true, gives: settled() });
    expect(usePlacing.getState()).toMatchObject({ parts: [], report: null });
  });

  it('is asked anew after an edit, once for several in a row; until then the answer is old', () => {
    askWhere();
    last().told({ ok: true, gives: settled() });
    useApp.getState().nudge('strainer', [0.01, 0, 0]);
    useApp.getState().nudge('strainer', [0.01, 0, 0]);
    expect(usePlacing.getState().of).not.toBe(now());
    expect(placeThere('fore')).toBe(false);
    expect(useApp.getState().notice).toMatch(/being judged again/);
    expect(questions).toHaveLength(1);
    vi.advanceTimersByTime(PAUSE_MS);
    expect(questions).toHaveLength(2);
    expect(last().from.boat).toBe(now());
  });

  it('rests when it is stopped, until it is wanted again', () => {
    askWhere();
    const question = last();
    usePlacing.getState().stop();
    expect(question.takenBack).toBe(true);
    useApp.getState().nudge('strainer', [0.01, 0, 0]);
    vi.advanceTimersByTime(10 * PAUSE_MS);
    expect(questions).toHaveLength(1);
    usePlacing.getState().again();
    expect(questions).toHaveLength(2);
  });

  it('says when the work on it failed', () => {
    askWhere();
    last().told({ ok: false, message: 'expected a hull' });
    expect(usePlacing.getState()).toMatchObject({ fault: 'expected a hull', progress: null });
  });

  it('ends with another selection, another boat and without its part', () => {
    const isOpen = () => usePlacing.getState().parts.length > 0;
    askWhere();
    useApp.getState().select({ kind: 'thing', id: 'tank' });
    expect(isOpen()).toBe(false);

    useApp.getState().select({ kind: 'thing', id: 'strainer' });
    askWhere();
    useApp.getState().edit('Delete the strainer', (draft) => {
      delete draft.parts.strainer;
      draft.lines = {};
      for (const { places } of Object.values(draft.arrangements)) delete places.strainer;
    });
    expect(isOpen()).toBe(false);

    open();
    useApp.getState().select({ kind: 'thing', id: 'strainer' });
    askWhere();
    open();
    expect(isOpen()).toBe(false);
  });

  it('looks at a compartment that is picked elsewhere', () => {
    askWhere();
    last().told({ ok: true, gives: settled() });
    useApp.getState().select({ kind: 'compartment', id: 'aft' });
    expect(usePlacing.getState()).toMatchObject({ parts: ['strainer'], chosen: 'aft' });
    lookAtPlace(-1);
    expect(usePlacing.getState().chosen).toBe('middle');
    expect(useApp.getState().notice).toBe('Middle locker');
    lookAtPlace(1);
    lookAtPlace(1);
    expect(usePlacing.getState().chosen).toBe('aft');
  });
});

describe('moving it there', () => {
  it('is one step to undo, and forgets what was typed for the old place', () => {
    const before = placeOfStrainer();
    useApp
      .getState()
      .placeThing('strainer', { ...inMiddle, at: [0.8, 0, -0.2] }, undefined, { axis: 0, text: '31 1/2 in' });
    const path = Object.keys(now().typed ?? {}).find((key) => key.endsWith('places.strainer.at[0]'));
    expect(path).toBeDefined();
    askWhere();
    last().told({ ok: true, gives: settled() });
    expect(placeThere()).toBe(true);
    expect(placeOfStrainer()?.at).toEqual(inFore.at);
    expect(now().typed?.[path ?? '']).toBeUndefined();
    expect(useApp.getState()).toMatchObject({
      canUndo: 'Move strainer to the fore locker',
      notice: 'Moved strainer to the fore locker. Undo: Ctrl Z',
    });
    useApp.getState().undo();
    expect(placeOfStrainer()?.at).toEqual([0.8, 0, -0.2]);
    expect(before).toBeDefined();
  });

  it('is not done where no place was found, where it stands, or before it is judged', () => {
    askWhere();
    const here = placeOfStrainer();
    if (!here) throw new Error('expected a place');
    last().told({
      ok: true,
      gives: placeReportOf(
        now(),
        ['strainer'],
        [
          { compartment: 'fore', verdict: 'notYet', poses: { strainer: inFore } },
          { compartment: 'middle', verdict: 'no', outcomes: { fits: 'fail' } },
          { compartment: 'aft', verdict: 'goes', isNow: true, poses: { strainer: here } },
        ],
      ),
    });
    const told = ['fore', 'middle', 'aft', 'nowhere'].map((id) => [placeThere(id), useApp.getState().notice]);
    expect(told).toEqual([
      [false, 'Still being judged'],
      [false, 'No place was found there'],
      [false, 'It is there now'],
      [false, 'It is there now'],
    ]);
    expect(placeOfStrainer()).toEqual(here);
    // Where it is, a better place may be found.
    const better = {
      compartment: 'aft',
      verdict: 'goes',
      isNow: true,
      poses: { strainer: { ...here, yawDeg: 90 } },
    } as const;
    usePlacing.setState({ report: placeReportOf(now(), ['strainer'], [better]) });
    expect(placeThere('aft')).toBe(true);
    expect(useApp.getState().canUndo).toBe('Move strainer within the aft locker');
  });
});
