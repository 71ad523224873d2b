import type { Patch } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import type { Journal } from '../bridge/storage';

/** What a journal begins with. */
export interface JournalBase {
  readonly boat: Boat;
  readonly name: string;
  readonly token: string | null;
  /** Whether the boat is what the file holds: only then is there nothing to bring back before the first edit. */
  readonly isSaved: boolean;
}

/** Keeps the journal of the open boat in step with its edits. Work is queued; nobody waits for it but `settled`. */
export interface Journalling {
  /** A boat comes on the board. `entries` lead from its base to it. `done` is called once all of it is kept. */
  begin(base: JournalBase, entries?: readonly string[], done?: () => Promise<void>): void;
  /** One edit; `now` is the boat after it. */
  append(patches: readonly Patch[], now: Boat): void;
  /** Before a save: edits from here on are not in what is written. */
  mark(): void;
  /** After the save: the journal begins with what was saved and goes on with the edits since the mark. */
  saved(base: JournalBase): void;
  /** Nothing is open any more, or what was is not wanted: its journal goes. */
  drop(): Promise<void>;
  settled(): Promise<void>;
}

const newId = (): string => crypto.randomUUID();

/** `tell` hears each time that the journal fails, with the reason, and null once it is kept again. */
export function journallingOver(journal: Journal, tell: (failure: string | null) => void): Journalling {
  let documentId = newId();
  let place: Omit<JournalBase, 'boat'> = { name: '', token: null, isSaved: true };
  let work: Promise<void> = Promise.resolve();
  let isFailing = false;
  /** Edits are counted, so that one which a fresh base holds already is not added to it. */
  let lastEdit = 0;
  let inBase = 0;
  let latest: Boat | null = null;
  let sinceMark: string[] = [];

  const queue = (act: () => Promise<void>): void => {
    work = work.then(act).catch((error: unknown) => {
      isFailing = true;
      tell(error instanceof Error ? error.message : String(error));
    });
  };
  const works = (): void => {
    if (isFailing) tell(null);
    isFailing = false;
  };
  const start = (id: string, { boat, name, token, isSaved }: JournalBase): Promise<void> =>
    journal.start({ documentId: id, name, token, text: writeBoat(boat), isSaved });

  /** After a failure the journal lacks an edit: it begins anew with the boat as it is now. */
  const startAnew = async (id: string): Promise<void> => {
    if (!latest) return;
    const covers = lastEdit;
    await start(id, { boat: latest, ...place, isSaved: false });
    inBase = covers;
    works();
  };

  const beginWith = (base: JournalBase, entries: readonly string[], done: () => Promise<void>): void => {
    const old = documentId;
    documentId = newId();
    const id = documentId;
    place = { name: base.name, token: base.token, isSaved: base.isSaved };
    const covered = lastEdit;
    queue(async () => {
      // The new journal stands before the old one goes: a crash between the two leaves both.
      await start(id, base);
      for (const entry of entries) await journal.append(id, entry);
      inBase = Math.max(inBase, covered);
      works();
      // What stays of the old one says nothing that the file or the new one does not hold, and is seen as such.
      await journal.clear(old).catch(() => undefined);
      await done();
    });
  };

  return {
    begin(base, entries = [], done = async () => {}) {
      latest = base.boat;
      sinceMark = [];
      beginWith(base, entries, done);
    },
    append(patches, now) {
      const id = documentId;
      const entry = JSON.stringify(patches);
      lastEdit += 1;
      const edit = lastEdit;
      latest = now;
      sinceMark.push(entry);
      queue(async () => {
        if (edit <= inBase) return;
        if (isFailing) {
          await startAnew(id);
          return;
        }
        try {
          await journal.append(id, entry);
        } catch (error) {
          // A single edit may be too large for an entry, or the journal may have been swept away; a base is another way to keep it.
          await startAnew(id).catch(() => {
            throw error;
          });
        }
      });
    },
    mark() {
      sinceMark = [];
    },
    saved(base) {
      const entries = sinceMark;
      sinceMark = [];
      beginWith(base, entries, async () => {});
    },
    async drop() {
      const id = documentId;
      latest = null;
      queue(() => journal.clear(id));
      await work;
    },
    settled: () => work,
  };
}
