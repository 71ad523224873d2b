import type { PictureShelf } from './storage';

const DATABASE = 'underberth-pictures';
const PICTURES = 'pictures';

/**
 * Pictures in IndexedDB, by name alone: the name carries a hash of the content, so any boat that names it finds the same
 * picture, also after undo, recovery or a save under another name. Without a database they live as long as the window.
 */
export function browserPictures(factory: IDBFactory | undefined): Pick<PictureShelf, 'keep' | 'read'> {
  const inWindow = new Map<string, Uint8Array<ArrayBuffer>>();
  let opened: Promise<IDBDatabase> | null = null;
  const database = (databases: IDBFactory): Promise<IDBDatabase> => {
    opened ??= new Promise((resolve, reject) => {
      const request = databases.open(DATABASE, 1);
      request.onupgradeneeded = () => void request.result.createObjectStore(PICTURES);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    return opened;
  };
  return {
    async keep(_token, name, content) {
      if (!factory) {
        inWindow.set(name, content);
        return { outcome: 'kept' };
      }
      try {
        const transaction = (await database(factory)).transaction(PICTURES, 'readwrite');
        await new Promise<void>((resolve, reject) => {
          transaction.oncomplete = () => resolve();
          transaction.onabort = () => reject(transaction.error);
          transaction.objectStore(PICTURES).put(content, name);
        });
        return { outcome: 'kept' };
      } catch (error) {
        const why = error instanceof Error ? error.message : String(error);
        return { outcome: 'problem', message: `${name} was not kept: this browser has no room for it (${why}).` };
      }
    },
    async read(_token, name) {
      const missing = {
        outcome: 'problem',
        message: `${name} is not in this browser. Add the picture again.`,
      } as const;
      if (!factory) {
        const content = inWindow.get(name);
        return content ? { outcome: 'read', content } : missing;
      }
      const store = (await database(factory)).transaction(PICTURES, 'readonly').objectStore(PICTURES);
      const found = await new Promise<unknown>((resolve, reject) => {
        const request = store.get(name);
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
      return found instanceof Uint8Array ? { outcome: 'read', content: new Uint8Array(found) } : missing;
    },
  };
}
