import type { Vec3 } from '@core/base/vec';
import { thingDeleted } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { FRAMES } from '@core/output/views/drawing';
import { useApp } from '@renderer/store/app';
import {
  chosenThings,
  groupChosen,
  lineUp,
  moveChosen,
  pickTogether,
  spaceOut,
  togetherWith,
  turnChosen,
  ungroupChosen,
} from '@renderer/store/chosen';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { useDrag } from '@renderer/store/drag';
import { deleteSelected } from '@renderer/store/interior';
import { chosenOf, placeOf } from '@renderer/store/select';
import type { Selection } from '@renderer/store/types';
import { beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

let edits = 0;
const tried: Readonly<Record<string, { readonly at: Vec3 }>>[] = [];

beforeEach(() => {
  edits = 0;
  tried.length = 0;
  connectEngine({
    open() {},
    edit: () => edits++,
    whatIf: (_, places) => tried.push(places),
    endWhatIf() {},
  });
  connectJournal(null);
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  useApp.getState().open(read.boat, { fileName: '', token: null, saved: true });
});

const state = () => useApp.getState();
const boatNow = (): Boat => {
  const { boat } = state();
  if (!boat) throw new Error('expected a boat');
  return boat;
};
const at = (id: string): Vec3 => {
  const place = placeOf(boatNow(), state().arrangementId, id);
  if (!place) throw new Error(`expected a place of ${id}`);
  return place.at;
};
const thing = (id: string): Selection => ({ kind: 'thing', id });
const pick = (...ids: readonly string[]): void => state().select(thing(ids.at(-1) ?? ''), ids.map(thing));

describe('what is picked', () => {
  it('is one thing, or several with the last in front; picking one lets go of the others', () => {
    pick('intake', 'battery', 'tank');
    expect(chosenThings()).toEqual(['intake', 'battery', 'tank']);
    expect(state().selection).toEqual(thing('tank'));
    pick('intake', 'intake', 'tank', 'tank');
    expect(chosenThings()).toEqual(['intake', 'tank']);
    state().select(thing('battery'));
    expect(chosenThings()).toEqual(['battery']);
  });

  it('gains and loses things one by one', () => {
    state().toggleSelected([thing('intake')]);
    state().toggleSelected([thing('battery')]);
    expect(chosenThings()).toEqual(['intake', 'battery']);
    state().toggleSelected([thing('battery')]);
    expect(chosenThings()).toEqual(['intake']);
    expect(state().selection).toEqual(thing('intake'));
    state().toggleSelected([thing('intake')]);
    expect(chosenOf(state())).toEqual([]);
  });

  it('forgets what an edit took out of the boat', () => {
    pick('intake', 'battery');
    expect(state().edit('Take it out', thingDeleted('battery'))).toBe(true);
    expect(chosenThings()).toEqual(['intake']);
  });
});

describe('several things', () => {
  it('move by the same step, in one undo step however often a key is pressed', () => {
    const before = ['intake', 'battery'].map(at);
    const text = writeBoat(boatNow());
    pick('intake', 'battery');
    for (let i = 0; i < 5; i++) moveChosen([0.01, 0, -0.001]);
    for (const [i, id] of ['intake', 'battery'].entries()) {
      expect(at(id)[0]).toBeCloseTo((before[i]?.[0] ?? 0) + 0.05, 6);
      expect(at(id)[2]).toBeCloseTo((before[i]?.[2] ?? 0) - 0.005, 6);
    }
    state().undo();
    expect(writeBoat(boatNow())).toBe(text);
  });

  it('move with compartments among them', () => {
    state().select(thing('battery'), [{ kind: 'compartment', id: 'aft' }]);
    moveChosen([0, 0, 0.1]);
    expect(at('battery')[2]).toBeCloseTo(-0.18, 6);
    expect(
      boatNow()
        .compartments.aft?.outline.map(([, z]) => z)
        .sort(),
    ).toEqual([-0.3, -0.3, 0.5, 0.5]);
    expect(edits).toBe(1);
  });

  it('are dragged as one: a what-if tells the place of each, and the release is one edit', () => {
    const [a, b] = [at('intake'), at('battery')];
    pick('battery', 'intake');
    useDrag.getState().startDrag('intake', chosenThings());
    const start = useDrag.getState().start;
    if (!start) throw new Error('expected a start');
    useDrag.getState().updateDrag({ ...start, at: [a[0] + 0.1, a[1] + 0.02, a[2]] });
    expect(tried).toHaveLength(1);
    expect(Object.keys(tried[0] ?? {}).sort()).toEqual(['battery', 'intake']);
    expect(tried[0]?.battery?.at[0]).toBeCloseTo(b[0] + 0.1, 9);
    expect(edits).toBe(0);
    useDrag.getState().endDrag('commit');
    expect(edits).toBe(1);
    expect(at('battery')[1]).toBeCloseTo(b[1] + 0.02, 6);
    expect([...chosenThings()].sort()).toEqual(['battery', 'intake']);
    state().undo();
    expect([at('intake'), at('battery')]).toEqual([a, b]);
  });

  it('given up while held stay where they were', () => {
    const before = writeBoat(boatNow());
    useDrag.getState().startDrag('intake', ['battery']);
    useDrag.getState().updateDrag({ at: [1, 0, 0], yawDeg: 0, pitchDeg: 0, rollDeg: 0 });
    useDrag.getState().endDrag('cancel');
    expect(writeBoat(boatNow())).toBe(before);
    expect(useDrag.getState().along).toEqual({});
  });

  it('turn about the middle of them all, and four quarters are none', () => {
    // Bounds in plan: intake 100 x 100 about (0.3, 0), battery 330 x 175 about (0.5, 0.4); by hand their middle is (0.4575, 0.21875).
    pick('intake', 'battery');
    turnChosen('z', 90);
    const [mx, my] = [(0.25 + 0.665) / 2, (-0.05 + 0.4875) / 2];
    expect(at('intake')[0]).toBeCloseTo(mx - (0 - my), 6);
    expect(at('intake')[1]).toBeCloseTo(my + (0.3 - mx), 6);
    expect(placeOf(boatNow(), null, 'battery')?.yawDeg).toBe(90);
    state().undo();
    for (let i = 0; i < 4; i++) turnChosen('z', 90);
    for (const k of [0, 1, 2]) expect(at('battery')[k]).toBeCloseTo([0.5, 0.4, -0.28][k] ?? 0, 5);
  });

  it('line up with the one picked last, which stays', () => {
    pick('intake', 'battery');
    lineUp(FRAMES.plan, 0, 'before');
    // Its after side is at 0.5 - 0.165; the intake is 100 mm long.
    expect(at('intake')[0]).toBeCloseTo(0.335 + 0.05, 6);
    expect(at('battery')).toEqual([0.5, 0.4, -0.28]);
  });

  it('space out with equal gaps; of two nothing is made and the reason said', () => {
    pick('intake', 'battery', 'tank');
    spaceOut(FRAMES.plan, 0);
    // From 0.25 to 2.9 less 0.1, 0.33 and 0.4 leaves 1.82: two gaps of 0.91.
    expect(at('battery')[0]).toBeCloseTo(0.35 + 0.91 + 0.165, 6);
    const before = edits;
    pick('intake', 'battery');
    spaceOut(FRAMES.plan, 0);
    expect(edits).toBe(before);
    expect(state().notice).toContain('three');
  });

  it('are deleted in one step with the lines on them', () => {
    const before = writeBoat(boatNow());
    pick('strainer', 'intake', 'tank');
    expect(deleteSelected()).toBe(true);
    expect(edits).toBe(1);
    expect(Object.keys(boatNow().fixtures)).toEqual(['battery']);
    for (const { from, to } of Object.values(boatNow().lines))
      for (const end of [from, to]) expect(['strainer', 'intake', 'tank']).not.toContain(end.thing);
    expect(chosenOf(state())).toEqual([]);
    state().undo();
    expect(writeBoat(boatNow())).toBe(before);
  });
});

describe('what is kept together', () => {
  it('is picked as one by a click and one of it alone by name, until it goes apart again', () => {
    pick('intake', 'battery');
    groupChosen();
    expect([...togetherWith(boatNow(), 'battery')].sort()).toEqual(['battery', 'intake']);
    pickTogether(thing('battery'));
    expect([...chosenThings()].sort()).toEqual(['battery', 'intake']);
    expect(state().selection).toEqual(thing('battery'));
    state().select(thing('battery'));
    expect(chosenThings()).toEqual(['battery']);
    pickTogether(thing('tank'));
    pickTogether(thing('intake'), true);
    expect([...chosenThings()].sort()).toEqual(['battery', 'intake', 'tank']);
    ungroupChosen();
    expect(togetherWith(boatNow(), 'battery')).toEqual(['battery']);
    expect(boatNow().fixtures.battery).not.toHaveProperty('group');
  });

  it('lines up as one block with something else', () => {
    pick('intake', 'battery');
    groupChosen();
    const apart = at('battery')[0] - at('intake')[0];
    pick('intake', 'battery', 'tank');
    lineUp(FRAMES.plan, 0, 'before');
    expect(at('battery')[0] - at('intake')[0]).toBeCloseTo(apart, 6);
    expect(at('intake')[0] - 0.05).toBeCloseTo(2.5, 6);
  });

  it('gets a word that no other group bears', () => {
    pick('intake', 'battery');
    groupChosen();
    pick('tank', 'strainer');
    groupChosen();
    expect(togetherWith(boatNow(), 'tank')).not.toContain('intake');
    expect(togetherWith(boatNow(), 'tank')).toHaveLength(2);
  });
});
