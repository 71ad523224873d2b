import {
  EMPTY_HISTORY,
  jumpTo,
  MOST_STEPS,
  redone,
  type Step,
  sealed,
  stepsOf,
  undone,
  withStep,
} from '@renderer/store/history';
import { describe, expect, it } from 'vitest';

const step = (revision: number, merge: string | null = null): Step => ({
  label: `step ${revision}`,
  revision,
  patches: [{ op: 'replace', path: ['name'], value: `after ${revision}` }],
  inverse: [{ op: 'replace', path: ['name'], value: `before ${revision}` }],
  merge,
});

describe('history', () => {
  it('joins steps of one word, patches forward, inverses backward', () => {
    const joined = withStep(withStep(EMPTY_HISTORY, step(1, 'nudge')), step(2, 'nudge'));
    expect(joined.done).toHaveLength(1);
    expect(joined.done[0]?.patches.map((patch) => patch.value)).toEqual(['after 1', 'after 2']);
    expect(joined.done[0]?.inverse.map((patch) => patch.value)).toEqual(['before 2', 'before 1']);
    expect(joined.done[0]?.revision).toBe(2);
  });

  it('does not join across a seal, a word, or an undo', () => {
    expect(withStep(sealed(withStep(EMPTY_HISTORY, step(1, 'nudge'))), step(2, 'nudge')).done).toHaveLength(2);
    expect(withStep(withStep(EMPTY_HISTORY, step(1, 'nudge a')), step(2, 'nudge b')).done).toHaveLength(2);
    const taken = undone(withStep(withStep(EMPTY_HISTORY, step(1, 'n')), step(2, 'other')));
    expect(taken && withStep(taken.history, step(3, 'n')).done).toHaveLength(2);
  });

  it('forgets what was undone once something new is done', () => {
    const taken = undone(withStep(EMPTY_HISTORY, step(1)));
    if (!taken) throw new Error('expected a step');
    expect(redone(withStep(taken.history, step(2)))).toBeNull();
    expect(redone(taken.history)?.step.revision).toBe(1);
  });

  it('has nothing to give when empty', () => {
    expect(undone(EMPTY_HISTORY)).toBeNull();
    expect(redone(EMPTY_HISTORY)).toBeNull();
  });

  it('forgets the oldest steps beyond its bound, and then no longer takes the first that it knows for what was opened', () => {
    let history = EMPTY_HISTORY;
    for (let revision = 1; revision <= MOST_STEPS + 2; revision++) history = withStep(history, step(revision));
    expect(history.done).toHaveLength(MOST_STEPS);
    // by hand: steps 1 and 2 are forgotten, and the state before all others is the one after step 2
    expect(jumpTo(history, -1).revision).toBe(2);
    expect(jumpTo(history, -1).patches).toHaveLength(MOST_STEPS);
  });

  it('jumps back by inverses, newest first, and on by patches, oldest first', () => {
    const four = [1, 2, 3, 4].reduce((history, revision) => withStep(history, step(revision)), EMPTY_HISTORY);
    const back = jumpTo(four, 0);
    expect(back.patches.map((patch) => patch.value)).toEqual(['before 4', 'before 3', 'before 2']);
    expect([back.revision, back.history.done.length, back.history.undone.length]).toEqual([1, 1, 3]);
    const on = jumpTo(back.history, 2);
    expect(on.patches.map((patch) => patch.value)).toEqual(['after 2', 'after 3']);
    expect(redone(on.history)?.step.revision).toBe(4);
    expect(jumpTo(four, 99).patches).toEqual([]);
    expect(stepsOf(on.history).steps.map(({ revision }) => revision)).toEqual([1, 2, 3, 4]);
  });
});
