import { readBoat } from '@core/boat/read';
import { writeBoat } from '@core/boat/write';
import { useApp } from '@renderer/store/app';
import { chosenThings } from '@renderer/store/chosen';
import { copyChosen, cutChosen, duplicateChosen, pasteText } from '@renderer/store/clipboard';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { deleteSelected } from '@renderer/store/interior';
import { placeOf } from '@renderer/store/select';
import { beforeEach, describe, expect, it } from 'vitest';
import { emptyBoat, threeLockers } from '../../support/boats';

const open = (draft: object): void => {
  const read = readBoat(JSON.stringify(draft));
  if (!read.ok) throw new Error('expected a boat');
  useApp.getState().open(read.boat, { fileName: '', token: null, saved: true });
};

beforeEach(() => {
  connectEngine(null);
  connectJournal(null);
  open(threeLockers());
});

const state = () => useApp.getState();
const pick = (...ids: readonly string[]): void =>
  state().select(
    { kind: 'thing', id: ids.at(-1) ?? '' },
    ids.map((id) => ({ kind: 'thing', id })),
  );
const boatNow = () => {
  const { boat } = state();
  if (!boat) throw new Error('expected a boat');
  return boat;
};
const copied = (...ids: readonly string[]): string => {
  pick(...ids);
  const text = copyChosen();
  if (text === null) throw new Error('expected a text');
  return text;
};

describe('copy and paste', () => {
  it('puts a second one beside the first, joined as it was, picked, and takes it back in one step', () => {
    const before = writeBoat(boatNow());
    expect(pasteText(copied('intake', 'strainer'))).toBe(true);
    const fresh = chosenThings();
    expect(fresh).toHaveLength(2);
    const lines = Object.values(boatNow().lines).filter(
      ({ from, to }) => fresh.includes(from.thing) && fresh.includes(to.thing),
    );
    const between = Object.values(boatNow().lines).filter(
      ({ from, to }) => ['intake', 'strainer'].includes(from.thing) && ['intake', 'strainer'].includes(to.thing),
    );
    expect(between.length).toBeGreaterThan(0);
    expect(lines).toHaveLength(between.length);
    const shift = (id: string, old: string): number =>
      (placeOf(boatNow(), state().arrangementId, id)?.at[0] ?? 0) -
      (placeOf(boatNow(), state().arrangementId, old)?.at[0] ?? 0);
    expect(shift('intake-2', 'intake')).toBeCloseTo(0.1, 6);
    state().undo();
    expect(writeBoat(boatNow())).toBe(before);
  });

  it('steps on where a copy stands already', () => {
    const text = copied('intake');
    pasteText(text);
    pasteText(text);
    const places = Object.entries(boatNow().fixtures).flatMap(([id, { pose }]) =>
      id.startsWith('intake') ? [pose.at[0]] : [],
    );
    expect(new Set(places).size).toBe(3);
  });

  it('goes across boats', () => {
    const text = copied('intake', 'battery');
    open({ ...emptyBoat(), arrangements: { only: { name: 'Only' } } });
    expect(pasteText(text)).toBe(true);
    expect(Object.keys(boatNow().fixtures).sort()).toEqual(['battery', 'intake']);
    expect(boatNow().fixtures.intake?.pose.at).toEqual([0.3, 0, -0.325]);
  });

  it('cuts: the text is there and the thing is not; undo brings it back', () => {
    pick('battery');
    const text = cutChosen(deleteSelected);
    expect(text).toContain('House bank');
    expect(boatNow().fixtures.battery).toBeUndefined();
    state().undo();
    expect(boatNow().fixtures.battery).toBeDefined();
  });

  it('duplicates without a clipboard', () => {
    pick('battery');
    expect(duplicateChosen()).toBe(true);
    expect(Object.keys(boatNow().fixtures)).toContain('battery-2');
    expect(chosenThings()).toEqual(['battery-2']);
  });

  it('refuses foreign text with its reasons, and leaves the boat as it was', () => {
    const before = writeBoat(boatNow());
    for (const text of [
      'hello',
      '{"format":"underberth-boat","schemaVersion":1,"name":"x","parts":{"a":{"massKg":1e99}}}',
    ]) {
      expect(pasteText(text)).toBe(false);
      expect(state().problem?.title).toBe('Not pasted');
      expect(state().problem?.lines.join(' ').length).toBeGreaterThan(10);
    }
    expect(writeBoat(boatNow())).toBe(before);
    expect(state().canUndo).toBeNull();
  });

  it('says what to pick where there is nothing to copy', () => {
    state().select({ kind: 'compartment', id: 'aft' });
    expect(copyChosen()).toBeNull();
    expect(state().notice).toContain('Select');
  });
});
