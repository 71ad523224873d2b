import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { hasUnsaved, useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { placeOf } from '@renderer/store/select';
import { beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

interface Sent {
  readonly what: string;
  readonly count: number;
  readonly patches: number;
}

const sentToEngine: Sent[] = [];
const journalled: number[] = [];

function boatOf(): Boat {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error(read.problems.map((problem) => problem.message).join('\n'));
  return read.boat;
}

beforeEach(() => {
  sentToEngine.length = 0;
  journalled.length = 0;
  connectEngine({
    open: (count) => sentToEngine.push({ what: 'open', count, patches: 0 }),
    edit: (count, patches) => sentToEngine.push({ what: 'edit', count, patches: patches.length }),
    whatIf: (count) => sentToEngine.push({ what: 'whatIf', count, patches: 0 }),
    endWhatIf: () => sentToEngine.push({ what: 'endWhatIf', count: 0, patches: 0 }),
  });
  connectJournal({ append: (patches) => journalled.push(patches.length) });
  useApp.getState().open(boatOf(), { fileName: 'three.boat.json', token: null, saved: true });
});

const state = () => useApp.getState();
const at = (id: string) => {
  const { boat, arrangementId } = state();
  if (!boat) throw new Error('expected a boat');
  return placeOf(boat, arrangementId, id)?.at;
};

describe('edits', () => {
  it('sends one set of patches to the worker and to the journal', () => {
    state().nudge('intake', [0.01, 0, 0]);
    expect(sentToEngine.map(({ what }) => what)).toEqual(['open', 'edit']);
    expect(sentToEngine[1]?.patches).toBeGreaterThan(0);
    expect(journalled).toHaveLength(1);
    expect(at('intake')).toEqual([0.31, 0, -0.325]);
  });

  it('keeps lengths to the micrometre, so that the saved file holds what memory holds', () => {
    state().placeThing('intake', { at: [0.1 + 0.2, 1 / 3 - 0.3, -0.325], yawDeg: 0, pitchDeg: 0, rollDeg: 0 });
    // derived: 0.1 + 0.2 is 0.30000000000000004 in floating point; 1/3 - 0.3 is 0.0333... m
    expect(at('intake')).toEqual([0.3, 0.033333, -0.325]);
    const { boat } = state();
    if (!boat) throw new Error('expected a boat');
    const again = readBoat(writeBoat(boat));
    expect(again.ok && again.boat.fixtures).toEqual(boat.fixtures);
  });

  it('undo and redo bring back the very state, and unsaved is known from the state, not from a count', () => {
    const before = state().boat;
    expect(hasUnsaved(state())).toBe(false);
    state().nudge('intake', [0.01, 0, 0]);
    const moved = state().boat;
    expect(hasUnsaved(state())).toBe(true);
    state().undo();
    expect(state().boat).toEqual(before);
    expect(hasUnsaved(state())).toBe(false);
    state().redo();
    expect(state().boat).toEqual(moved);
    expect(hasUnsaved(state())).toBe(true);
    expect(sentToEngine.map(({ what }) => what)).toEqual(['open', 'edit', 'edit', 'edit']);
  });

  it('nudges in a row are one undo step; selecting something ends the row', () => {
    for (let step = 0; step < 5; step++) state().nudge('intake', [0.01, 0, 0]);
    expect(at('intake')?.[0]).toBeCloseTo(0.35, 9);
    state().select({ kind: 'thing', id: 'battery' });
    state().nudge('intake', [0.01, 0, 0]);
    state().undo();
    expect(at('intake')?.[0]).toBeCloseTo(0.35, 9);
    state().undo();
    expect(at('intake')?.[0]).toBeCloseTo(0.3, 9);
    expect(state().canUndo).toBeNull();
  });

  it('refuses an edit after which the file could not be read, says why and leaves the boat alone', () => {
    const before = state().boat;
    const done = state().edit('Spoil', (boat) => {
      const intake = boat.fixtures.intake;
      if (intake?.shape.type === 'box') intake.shape.sizeM[0] = -1;
    });
    expect(done).toBe(false);
    expect(state().boat).toBe(before);
    expect(state().problem?.lines.join(' ')).toContain('fixtures.intake.shape.sizeM[0]');
    expect(sentToEngine.map(({ what }) => what)).toEqual(['open']);
  });

  it('keeps what was typed beside the coordinate, until that coordinate moves', () => {
    const place = { at: [0.300038, 0, -0.325] as [number, number, number], yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    state().placeThing('intake', place, undefined, { axis: 0, text: '11 13/16 in' });
    expect(state().boat?.typed).toEqual({ 'fixtures.intake.pose.at[0]': '11 13/16 in' });
    state().nudge('intake', [0, 0.01, 0]);
    expect(state().boat?.typed).toEqual({ 'fixtures.intake.pose.at[0]': '11 13/16 in' });
    state().nudge('intake', [0.01, 0, 0]);
    expect(state().boat?.typed).toEqual({});
  });
});

describe('view', () => {
  it('keeps the section within the boat', () => {
    state().setSectionX(99);
    // derived: no hull bounds it: a metre of room beyond the lockers, which reach from x = 0 to 3.03
    expect(state().sectionX).toBeCloseTo(4.03, 9);
    state().setSectionX(-5);
    expect(state().sectionX).toBe(-1);
  });

  it('going to a place selects, moves the section and glides; the same wish twice is two wishes', () => {
    state().goTo({ kind: 'thing', id: 'intake' }, [0.3, 0, -0.325]);
    const first = state().glide?.count ?? 0;
    expect(state().selection).toEqual({ kind: 'thing', id: 'intake' });
    expect(state().sectionX).toBe(0.3);
    state().goTo({ kind: 'thing', id: 'intake' }, [0.3, 0, -0.325]);
    expect(state().glide?.count).toBe(first + 1);
  });
});
