/** A database of this browser, opened when first needed, and again after a failure or after the browser has closed it. */
export function databaseOver(
  factory: IDBFactory,
  name: string,
  make: (database: IDBDatabase) => void,
): () => Promise<IDBDatabase> {
  let opened: Promise<IDBDatabase> | null = null;
  const forget = (): void => {
    opened = null;
  };
  return () => {
    opened ??= new Promise<IDBDatabase>((resolve, reject) => {
      const request = factory.open(name, 1);
      request.onupgradeneeded = () => make(request.result);
      request.onsuccess = () => {
        request.result.onclose = forget;
        resolve(request.result);
      };
      request.onerror = () => {
        forget();
        reject(request.error);
      };
    });
    return opened;
  };
}

export function answerOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Resolves once a change is kept; with durability `strict` that means on the disk. */
export function finished(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    // Storage that is full shows here and nowhere else.
    transaction.onabort = () => reject(transaction.error ?? new Error('it was broken off'));
  });
}
