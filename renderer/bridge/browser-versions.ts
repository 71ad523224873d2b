import { answerOf, databaseOver, finished } from './database';
import type { Version } from './storage';

const DATABASE = 'underberth-versions';
const VERSIONS = 'versions';
const BY_NAME = 'byName';
/** As many as the desktop keeps beside a file. */
const KEPT = 3;

interface Kept extends Version {
  readonly name: string;
  readonly handle: FileSystemFileHandle | null;
}

export interface BrowserVersions {
  /** Keeps what a save replaces, or, where saves are downloads, what was saved. The oldest beyond three goes. */
  keep(name: string, handle: FileSystemFileHandle | null, version: Version): Promise<void>;
  /** Newest first. */
  list(name: string, handle: FileSystemFileHandle | null): Promise<readonly Version[]>;
}

/** Earlier versions of boat files in IndexedDB, by name, and by file where the browser knows files: a page can't write beside them. */
export function browserVersions(factory: IDBFactory | undefined): BrowserVersions {
  if (!factory) return { keep: async () => {}, list: async () => [] };
  const database = databaseOver(factory, DATABASE, (made) => {
    made.createObjectStore(VERSIONS, { autoIncrement: true }).createIndex(BY_NAME, 'name');
  });
  const found = async (
    name: string,
    handle: FileSystemFileHandle | null,
  ): Promise<readonly { readonly key: IDBValidKey; readonly version: Kept }[]> => {
    const index = (await database()).transaction(VERSIONS, 'readonly').objectStore(VERSIONS).index(BY_NAME);
    const [keys, values] = await Promise.all([answerOf(index.getAllKeys(name)), answerOf<Kept[]>(index.getAll(name))]);
    const own: { key: IDBValidKey; version: Kept }[] = [];
    for (const [at, version] of values.entries()) {
      const key = keys[at];
      const isSame = handle && version.handle ? await handle.isSameEntry(version.handle) : handle === version.handle;
      if (key !== undefined && isSame) own.push({ key, version });
    }
    return own;
  };
  return {
    async keep(name, handle, { savedAtMs, text }) {
      const before = await found(name, handle);
      if (before.at(-1)?.version.text === text) return;
      const transaction = (await database()).transaction(VERSIONS, 'readwrite', { durability: 'strict' });
      const store = transaction.objectStore(VERSIONS);
      store.add({ name, handle, savedAtMs, text } satisfies Kept);
      for (const { key } of before.slice(0, Math.max(0, before.length + 1 - KEPT))) store.delete(key);
      await finished(transaction);
    },
    list: async (name, handle) =>
      (await found(name, handle)).map(({ version: { savedAtMs, text } }) => ({ savedAtMs, text })).reverse(),
  };
}
