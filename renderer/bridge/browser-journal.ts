import { whyRefused } from './browser-words';
import { answerOf, databaseOver, finished } from './database';
import type { Journal, LeftJournal } from './storage';

const DATABASE = 'underberth';
const BASES = 'bases';
const ENTRIES = 'entries';
const BY_DOCUMENT = 'byDocument';

interface Base {
  readonly documentId: string;
  readonly name: string;
  readonly baseText: string;
  /** Absent in journals of the first days, which began with what the file held. */
  readonly isSaved?: boolean;
  /** The file that it was saved to, with the stamp of what it held; a browser can keep both from one session to the next. */
  readonly place?: BrowserPlace | null;
}
interface Entry {
  readonly documentId: string;
  readonly entry: string;
  readonly atMs?: number;
}

/** A file of this browser, and what it held when it was last read or written here. */
export interface BrowserPlace {
  readonly handle: FileSystemFileHandle;
  readonly seen: string;
}
export interface BrowserPlaces {
  placeOf(token: string): BrowserPlace | null;
  tokenOf(place: BrowserPlace): string;
  /** What the file holds now where that is not what was seen; null: it is, or the user has not allowed it to be read again. */
  changedText(place: BrowserPlace): Promise<string | null>;
}

const LOCK = 'underberth-journal-';
/** A page that was closed just now may hold its lock for a moment longer; a window that lives holds it after that too. */
const PAUSES_MS = [0, 250];

/**
 * Journal in IndexedDB: a base text for each document and the edits since, in the order of their keys. A window that lives
 * holds a lock on its document, so that another window does not take its journal for one left behind.
 */
export function browserJournal(
  factory: IDBFactory | undefined,
  locks: LockManager | undefined,
  places: BrowserPlaces,
): Journal {
  const releases = new Map<string, () => void>();
  /** True when this window holds the document, from now on or since before. */
  const hold = async (documentId: string): Promise<boolean> => {
    if (!locks || releases.has(documentId)) return true;
    return new Promise((resolve) => {
      void locks.request(LOCK + documentId, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock === null
          ? undefined
          : new Promise<void>((release) => {
              releases.set(documentId, release);
            });
      });
    });
  };
  const letGo = (documentId: string): void => {
    releases.get(documentId)?.();
    releases.delete(documentId);
  };

  if (!factory) {
    const nowhere = async (): Promise<void> => {};
    return { start: nowhere, append: nowhere, left: async () => ({ journals: [], unreadable: [] }), clear: nowhere };
  }
  const database = databaseOver(factory, DATABASE, (made) => {
    made.createObjectStore(BASES, { keyPath: 'documentId' });
    made.createObjectStore(ENTRIES, { autoIncrement: true }).createIndex(BY_DOCUMENT, 'documentId');
  });
  const change = async (work: (bases: IDBObjectStore, entries: IDBObjectStore) => void): Promise<void> => {
    try {
      // An edit counts as kept when it is on the disk, not when it is on its way there.
      const transaction = (await database()).transaction([BASES, ENTRIES], 'readwrite', { durability: 'strict' });
      const done = finished(transaction);
      work(transaction.objectStore(BASES), transaction.objectStore(ENTRIES));
      await done;
    } catch (error) {
      throw new Error(`The recovery journal was not written: ${whyRefused(error)}.`);
    }
  };
  const read = async (documentId: string): Promise<LeftJournal | null> => {
    const transaction = (await database()).transaction([BASES, ENTRIES], 'readonly');
    const [base, entries] = await Promise.all([
      answerOf<Base | undefined>(transaction.objectStore(BASES).get(documentId)),
      answerOf<Entry[]>(transaction.objectStore(ENTRIES).index(BY_DOCUMENT).getAll(documentId)),
    ]);
    if (!base) return null;
    return {
      documentId,
      name: base.name,
      token: base.place ? places.tokenOf(base.place) : null,
      baseText: base.baseText,
      isSaved: base.isSaved ?? true,
      fileText: base.place ? await places.changedText(base.place) : null,
      entries: entries.map(({ entry }) => entry),
      torn: false,
      editedAtMs: entries.at(-1)?.atMs ?? null,
    };
  };

  return {
    async start({ documentId, name, token, text, isSaved }) {
      await hold(documentId);
      const place = token === null ? null : places.placeOf(token);
      await change((bases, entries) => {
        forget(entries, documentId);
        bases.put({ documentId, name, baseText: text, isSaved, place } satisfies Base);
      });
    },
    append: (documentId, entry) =>
      change((_, entries) => entries.add({ documentId, entry, atMs: Date.now() } satisfies Entry)),
    async clear(documentId) {
      await change((bases, entries) => {
        bases.delete(documentId);
        forget(entries, documentId);
      });
      letGo(documentId);
    },
    async left() {
      const transaction = (await database()).transaction(BASES, 'readonly');
      const keys = await answerOf(transaction.objectStore(BASES).getAllKeys());
      const journals: LeftJournal[] = [];
      // What this window holds already is not left behind.
      let others = keys.map(String).filter((documentId) => !releases.has(documentId));
      for (const pause of PAUSES_MS) {
        if (others.length === 0) break;
        await new Promise((resolve) => setTimeout(resolve, pause));
        const held: string[] = [];
        for (const documentId of others) {
          if (!(await hold(documentId))) {
            held.push(documentId);
            continue;
          }
          const journal = await read(documentId);
          if (journal) journals.push(journal);
          else letGo(documentId);
        }
        others = held;
      }
      return { journals, unreadable: [] };
    },
  };
}

function forget(entries: IDBObjectStore, documentId: string): void {
  const request = entries.index(BY_DOCUMENT).openKeyCursor(IDBKeyRange.only(documentId));
  request.onsuccess = () => {
    const cursor = request.result;
    if (!cursor) return;
    entries.delete(cursor.primaryKey);
    cursor.continue();
  };
}
