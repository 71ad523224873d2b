import type { Journal, LeftJournal } from './storage';

const DATABASE = 'underberth';
const BASES = 'bases';
const ENTRIES = 'entries';

interface Base {
  readonly documentId: string;
  readonly name: string;
  readonly baseText: string;
}
interface Entry {
  readonly documentId: string;
  readonly entry: string;
}

const LOCK = 'underberth-journal-';

/**
 * Journal in IndexedDB: a base text for each document and the edits since, in the order of their keys. A window that lives
 * holds a lock on its document, so that another window does not take its journal for one left behind.
 */
export function browserJournal(factory: IDBFactory | undefined, locks: LockManager | undefined): Journal {
  const releases = new Map<string, () => void>();
  const hold = (documentId: string): void => {
    if (!locks || releases.has(documentId)) return;
    const released = new Promise<void>((resolve) => releases.set(documentId, resolve));
    void locks.request(LOCK + documentId, () => released);
  };
  const letGo = (documentId: string): void => {
    releases.get(documentId)?.();
    releases.delete(documentId);
  };
  const alive = async (): Promise<ReadonlySet<string>> =>
    new Set((await locks?.query())?.held?.flatMap(({ name }) => (name === undefined ? [] : [name])) ?? []);

  if (!factory) return { start: async () => {}, append: async () => {}, left: async () => [], clear: async () => {} };
  let opened: Promise<IDBDatabase> | null = null;
  const database = (): Promise<IDBDatabase> => {
    opened ??= new Promise((resolve, reject) => {
      const request = factory.open(DATABASE, 1);
      request.onupgradeneeded = () => {
        request.result.createObjectStore(BASES, { keyPath: 'documentId' });
        request.result.createObjectStore(ENTRIES, { autoIncrement: true }).createIndex('byDocument', 'documentId');
      };
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    return opened;
  };
  const change = async (work: (bases: IDBObjectStore, entries: IDBObjectStore) => void): Promise<void> => {
    const transaction = (await database()).transaction([BASES, ENTRIES], 'readwrite');
    const done = finished(transaction);
    work(transaction.objectStore(BASES), transaction.objectStore(ENTRIES));
    await done;
  };

  return {
    start({ documentId, name, text }) {
      hold(documentId);
      return change((bases, entries) => {
        forget(entries, documentId);
        bases.put({ documentId, name, baseText: text } satisfies Base);
      });
    },
    append: (documentId, entry) => change((_, entries) => entries.add({ documentId, entry } satisfies Entry)),
    clear(documentId) {
      letGo(documentId);
      return change((bases, entries) => {
        bases.delete(documentId);
        forget(entries, documentId);
      });
    },
    async left() {
      const transaction = (await database()).transaction([BASES, ENTRIES], 'readonly');
      const [bases, entries] = await Promise.all([
        all<Base>(transaction.objectStore(BASES)),
        all<Entry>(transaction.objectStore(ENTRIES)),
      ]);
      const held = await alive();
      const left = bases.filter(({ documentId }) => !held.has(LOCK + documentId));
      return left.map(
        ({ documentId, name, baseText }): LeftJournal => ({
          documentId,
          name,
          token: null,
          baseText,
          entries: entries.filter((entry) => entry.documentId === documentId).map((entry) => entry.entry),
        }),
      );
    },
  };
}

function forget(entries: IDBObjectStore, documentId: string): void {
  const request = entries.index('byDocument').openKeyCursor(IDBKeyRange.only(documentId));
  request.onsuccess = () => {
    const cursor = request.result;
    if (!cursor) return;
    entries.delete(cursor.primaryKey);
    cursor.continue();
  };
}

function all<T>(store: IDBObjectStore): Promise<T[]> {
  return new Promise((resolve, reject) => {
    const request: IDBRequest<T[]> = store.getAll();
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function finished(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}
