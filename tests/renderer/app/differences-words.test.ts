import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { differenceWords } from '@renderer/app/differences-words';
import { describe, expect, it } from 'vitest';
import { type BoatDraft, threeLockers } from '../../support/boats';

// Derived: counted by hand in the drafts below.
const boatOf = (change: (draft: BoatDraft) => void): Boat => {
  const draft: BoatDraft = JSON.parse(JSON.stringify(threeLockers()));
  change(draft);
  const read = checkBoat(draft);
  if (!read.ok) throw new Error(read.problems[0]?.message);
  return read.boat;
};
const before = boatOf(() => {});

describe('what differs between two boats, in words', () => {
  it('is nothing for the same boat, whoever saved it', () => {
    expect(differenceWords(before, { ...before, engineVersion: 'another' })).toBe('no difference');
  });

  it('is parts that moved, where nothing else of an arrangement differs', () => {
    const moved = boatOf(({ arrangements }) => {
      const pump = arrangements?.first?.places?.pump;
      if (pump) pump.at = [2.4, 0.1, 0];
    });
    expect(differenceWords(before, moved)).toBe('1 part moved');
    const renamed = { ...moved, arrangements: { first: { ...moved.arrangements.first, name: 'Another' } } } as Boat;
    expect(differenceWords(before, renamed)).toBe('1 arrangement changed');
  });

  it('counts what was changed, added and removed, by kind', () => {
    const other = boatOf((draft) => {
      draft.name = 'Other';
      if (draft.compartments?.aft) draft.compartments.aft.name = 'Aftermost';
      if (draft.compartments?.fore) draft.compartments.fore.name = 'Foremost';
      delete draft.openings?.lid;
      draft.runStates = { anchor: { name: 'At anchor', use: 'anchored' } };
    });
    expect(differenceWords(before, other)).toBe(
      '2 compartments changed, the name changed, 1 opening removed, 1 run-state added',
    );
  });
});
