import { edit, type Patch } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { journallingOver } from '@renderer/app/journalling';
import { offerOf } from '@renderer/app/recovery';
import type { Journal, LeftJournal } from '@renderer/bridge/storage';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';
import { type Dice, dice } from '../../support/dice';

// Derived: whatever the disk does, what is brought back is the boat after the last edit that was kept.
interface Kept {
  readonly base: Parameters<Journal['start']>[0];
  readonly entries: string[];
}

/** Journals in memory that can be refused, and say what each act left. */
function shelf() {
  const kept = new Map<string, Kept>();
  const told: (string | null)[] = [];
  let refuses = (): boolean => false;
  const act = (work: () => void): Promise<void> => {
    if (refuses()) return Promise.reject(new Error('the disk is full'));
    work();
    return Promise.resolve();
  };
  const journal: Journal = {
    start: (base) => act(() => void kept.set(base.documentId, { base, entries: [] })),
    append: (id, entry) =>
      act(() => {
        const own = kept.get(id);
        if (!own) throw new Error(`no journal ${id}`);
        own.entries.push(entry);
      }),
    left: async () => ({ journals: [], unreadable: [] }),
    clear: (id) => act(() => void kept.delete(id)),
  };
  return {
    kept,
    told,
    journal,
    refuse: (when: () => boolean) => {
      refuses = when;
    },
    /** The boats that a start after a crash would offer. */
    offered: (): readonly (Boat | null)[] =>
      [...kept.values()].map(({ base, entries }) => {
        const left: LeftJournal = {
          documentId: base.documentId,
          name: base.name,
          token: base.token,
          baseText: base.text,
          isSaved: base.isSaved,
          fileText: null,
          entries,
          torn: false,
          editedAtMs: null,
        };
        const offer = offerOf(left);
        if (typeof offer === 'string') throw new Error(offer);
        return offer === null ? null : offer.boat;
      }),
  };
}

const opened = (): Boat => {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  return read.boat;
};
const named = (boat: Boat, name: string): { readonly boat: Boat; readonly patches: readonly Patch[] } => {
  const result = edit(boat, (draft) => {
    draft.name = name;
  });
  if (!result.ok) throw new Error('expected an edit');
  return result;
};
const namesOf = (boats: readonly (Boat | null)[]) => boats.map((boat) => boat?.name ?? null);

describe('the journal of the open boat', () => {
  it('keeps edits that are made while a save is under way, after the save has begun it anew', async () => {
    const disk = shelf();
    const work = journallingOver(disk.journal, (failure) => disk.told.push(failure));
    const base = { name: 'a.boat.json', token: 't', isSaved: true };
    let boat = opened();
    const make = (name: string): void => {
      const next = named(boat, name);
      boat = next.boat;
      work.append(next.patches, boat);
    };
    work.begin({ ...base, boat });
    make('before the save');
    const saved = boat;
    work.mark();
    make('while it is written');
    make('while it is written still');
    work.saved({ ...base, boat: saved });
    make('after it');
    await work.settled();
    expect(disk.kept.size).toBe(1);
    expect([...disk.kept.values()][0]?.entries.length).toBe(3);
    expect(namesOf(disk.offered())).toEqual(['after it']);
  });

  it('begins anew with the whole boat after it could not be kept, and says when it fails and when it is kept again', async () => {
    const disk = shelf();
    const work = journallingOver(disk.journal, (failure) => disk.told.push(failure));
    let boat = opened();
    const make = (name: string): void => {
      const next = named(boat, name);
      boat = next.boat;
      work.append(next.patches, boat);
    };
    work.begin({ boat, name: 'a', token: null, isSaved: true });
    make('kept');
    await work.settled();
    disk.refuse(() => true);
    make('refused');
    make('refused too');
    await work.settled();
    // What was kept before stands.
    expect(namesOf(disk.offered())).toEqual(['kept']);
    disk.refuse(() => false);
    // Two at once: the first begins anew with both in it, the second must not be added to that again.
    make('again');
    make('and again');
    await work.settled();
    expect(namesOf(disk.offered())).toEqual(['and again']);
    expect(disk.told).toEqual(['the disk is full', 'the disk is full', null]);
  });

  it('offers the last edit that was kept, whatever is refused and whenever', async () => {
    for (let seed = 1; seed <= 60; seed++) await random(dice(seed), seed);
  });
});

/** Opens, edits, saves at random over a disk that refuses at random; then the disk works, one more edit, and all must be there. */
async function random(luck: Dice, seed: number): Promise<void> {
  const disk = shelf();
  const work = journallingOver(disk.journal, () => undefined);
  let boat = opened();
  let refusing = false;
  disk.refuse(() => refusing && luck.whole(2) === 0);
  const base = { name: 'a', token: null, isSaved: true };
  work.begin({ ...base, boat });
  let marked: Boat | null = null;
  for (let act = 0; act < 25; act++) {
    switch (luck.whole(6)) {
      case 0:
        refusing = !refusing;
        break;
      case 1:
        work.mark();
        marked = boat;
        break;
      case 2:
        if (marked) work.saved({ ...base, boat: marked });
        marked = null;
        break;
      case 3:
        await work.settled();
        break;
      default: {
        const next = named(boat, `edit ${act}`);
        boat = next.boat;
        work.append(next.patches, boat);
      }
    }
  }
  await work.settled();
  refusing = false;
  const last = named(boat, 'the last');
  work.append(last.patches, last.boat);
  await work.settled();
  expect([seed, namesOf(disk.offered()).includes('the last')]).toEqual([seed, true]);
  for (const offered of disk.offered())
    expect(offered === null || /^(edit \d+|the last|Three lockers)$/.test(offered.name)).toBe(true);
}
