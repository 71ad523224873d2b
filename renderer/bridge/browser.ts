import { type BrowserPlace, browserJournal } from './browser-journal';
import { browserPictures } from './browser-pictures';
import { tabsOver } from './browser-tabs';
import { browserVersions } from './browser-versions';
import { whyRefused } from './browser-words';
import {
  type Cancelled,
  type Changed,
  MOST_BYTES,
  type Opened,
  type Refused,
  type Saved,
  type SaveRequest,
  type Storage,
} from './storage';

/** What Chromium offers beyond the standard library's types: pickers that keep a file's place, and asking for it again. */
interface FilePickers {
  showOpenFilePicker?(options: PickerOptions): Promise<FileSystemFileHandle[]>;
  showSaveFilePicker?(options: PickerOptions & { suggestedName: string }): Promise<FileSystemFileHandle>;
}
interface PickerOptions {
  readonly id?: string;
  readonly types: readonly {
    readonly description: string;
    readonly accept: Readonly<Record<string, readonly string[]>>;
  }[];
}
interface Askable {
  queryPermission?(wish: { mode: 'read' | 'readwrite' }): Promise<PermissionState>;
  requestPermission?(wish: { mode: 'readwrite' }): Promise<PermissionState>;
}

const BOAT_FILES = [{ description: 'Boat', accept: { 'application/json': ['.json'] } }];
const SAVE_LOCK = 'underberth-save-';

/** Files in a plain browser: File System Access where present, else upload and download. */
export function browserStorage(window: Window & FilePickers): Storage {
  const places = new Map<string, BrowserPlace>();
  let nextToken = 1;
  /** The token that was last opened or saved: what is open here. */
  let current: string | null = null;
  const remember = (place: BrowserPlace): string => {
    const token = String(nextToken++);
    places.set(token, place);
    return token;
  };
  const makeCurrent = (token: string | null): void => {
    current = token;
    const handle = token === null ? undefined : places.get(token)?.handle;
    if (handle) tabs.opened(handle);
  };

  let unsaved = false;
  window.addEventListener('beforeunload', (event) => {
    if (unsaved) event.preventDefault();
  });

  const alsoOpen = new Set<(name: string) => void>();
  const maybeChanged = new Set<() => void>();
  const tabs = tabsOver(
    typeof BroadcastChannel === 'undefined' ? null : (name) => new BroadcastChannel(name),
    () => (current === null ? null : (places.get(current)?.handle ?? null)),
    {
      alsoOpen: (name) => {
        for (const listener of alsoOpen) listener(name);
      },
      savedElsewhere: () => {
        for (const listener of maybeChanged) listener();
      },
    },
  );
  const versions = browserVersions(window.indexedDB);
  const uploads = uploadsOver(window.document);
  let isPicking = false;
  /** A picker that is up is not joined by a second one. */
  const pick = async <T>(choose: () => Promise<T>): Promise<Done<T> | Cancelled | Refused> => {
    if (isPicking) return { outcome: 'cancelled' };
    isPicking = true;
    try {
      return await unlessCancelled(choose);
    } finally {
      isPicking = false;
    }
  };

  /** Looks and writes in one turn, so that two tabs that save at the same moment do not pass each other. */
  const saveOver = (token: string, { handle, seen }: BrowserPlace, request: SaveRequest) =>
    inTurn(
      window.navigator.locks,
      SAVE_LOCK + handle.name,
      async (): Promise<Saved | Changed | Cancelled | Refused> => {
        if (!(await mayWrite(handle))) {
          return { outcome: 'problem', message: `${handle.name} was not written: this browser was not allowed to.` };
        }
        const stamp = await stampOf(request.text);
        const standing = await standingIn(handle);
        if (standing && ![seen, stamp, request.replaces].includes(standing.stamp)) {
          return { outcome: 'changed', name: handle.name, ...standing };
        }
        await write(handle, request.text);
        places.set(token, { handle, seen: stamp });
        if (standing) await versions.keep(handle.name, handle, standing).catch(ignoreFullShelf);
        tabs.saved(handle);
        return { outcome: 'saved', name: handle.name, token };
      },
    );

  return {
    kind: 'browser',
    keepsPlace: window.showSaveFilePicker !== undefined,
    async open() {
      const picker = window.showOpenFilePicker?.bind(window);
      if (!picker) return uploads();
      const picked = await pick(() => picker({ id: 'boat', types: BOAT_FILES }));
      if (picked.outcome !== 'done') return picked;
      const handle = picked.value[0];
      if (!handle) return { outcome: 'cancelled' };
      const read = await unlessCancelled(async () => readBoatFile(await handle.getFile()));
      if (read.outcome !== 'done') return read;
      if (read.value.outcome !== 'opened') return read.value;
      const token = remember({ handle, seen: await stampOf(read.value.text) });
      makeCurrent(token);
      return { ...read.value, token };
    },
    async save(request) {
      const { token, suggestedName, text } = request;
      const known = token === null ? undefined : places.get(token);
      if (known && token !== null) {
        const saved = await unlessCancelled(() => saveOver(token, known, request), known.handle.name);
        return saved.outcome === 'done' ? saved.value : saved;
      }
      const picker = window.showSaveFilePicker?.bind(window);
      if (!picker) {
        download(window.document, suggestedName, text, 'application/json');
        await versions.keep(suggestedName, null, { savedAtMs: Date.now(), text }).catch(ignoreFullShelf);
        return { outcome: 'saved', name: suggestedName, token: null };
      }
      const picked = await pick(() => picker({ id: 'boat', types: BOAT_FILES, suggestedName }));
      if (picked.outcome !== 'done') return picked;
      const handle = picked.value;
      const stamp = await stampOf(text);
      const written = await unlessCancelled(async () => {
        const standing = await standingIn(handle);
        await write(handle, text);
        if (standing && standing.text !== '') {
          await versions.keep(handle.name, handle, standing).catch(ignoreFullShelf);
        }
      }, handle.name);
      if (written.outcome !== 'done') return written;
      const newToken = remember({ handle, seen: stamp });
      makeCurrent(newToken);
      tabs.saved(handle);
      return { outcome: 'saved', name: handle.name, token: newToken };
    },
    async look(token) {
      const place = places.get(token);
      if (!place) return { outcome: 'problem', message: 'This file was not opened here.' };
      const { handle, seen } = place;
      const looked = await unlessCancelled(() => standingIn(handle), handle.name);
      if (looked.outcome !== 'done') return looked.outcome === 'cancelled' ? { outcome: 'same' } : looked;
      if (!looked.value) return { outcome: 'gone', name: handle.name };
      return looked.value.stamp === seen
        ? { outcome: 'same' }
        : { outcome: 'changed', name: handle.name, ...looked.value };
    },
    versions: ({ token, name }) =>
      versions.list(name, token === null ? null : (places.get(token)?.handle ?? null)).catch(() => []),
    onMaybeChanged(listener) {
      maybeChanged.add(listener);
      window.addEventListener('focus', listener);
      return () => {
        maybeChanged.delete(listener);
        window.removeEventListener('focus', listener);
      };
    },
    onAlsoOpen(listener) {
      alsoOpen.add(listener);
      return () => alsoOpen.delete(listener);
    },
    async exportFile({ suggestedName, content, type }) {
      download(window.document, suggestedName, content, type);
      return { outcome: 'saved', name: suggestedName };
    },
    journal: browserJournal(window.indexedDB, window.navigator.locks, {
      placeOf: (token) => places.get(token) ?? null,
      tokenOf: (place) => {
        const token = remember(place);
        current ??= token;
        return token;
      },
      async changedText({ handle, seen }) {
        if (!(await mayRead(handle))) return null;
        const standing = await standingIn(handle).catch(() => null);
        return standing && standing.stamp !== seen ? standing.text : null;
      },
    }),
    pictures: { besideTheBoat: false, ...browserPictures(window.indexedDB) },
    setUnsaved(value) {
      unsaved = value;
    },
    // A browser asks by itself, through beforeunload.
    onCloseRequest: () => () => {},
    confirmClose() {},
  };
}

/** A file that was picked, uploaded or dropped. */
export async function readBoatFile(file: File): Promise<Opened | Refused> {
  if (file.size > MOST_BYTES) {
    return { outcome: 'problem', message: `${file.name} has ${file.size} bytes, at most ${MOST_BYTES} are read.` };
  }
  try {
    return { outcome: 'opened', name: file.name, text: await file.text(), token: null };
  } catch (error) {
    return { outcome: 'problem', message: `${file.name} cannot be read: ${whyRefused(error)}.` };
  }
}

/** A permission lasts for a session; asking again needs the key or click that the save came from. */
async function mayWrite(handle: FileSystemFileHandle & Askable): Promise<boolean> {
  const wish = { mode: 'readwrite' } as const;
  const now = await handle.queryPermission?.(wish);
  if (now === undefined || now === 'granted') return true;
  return (await handle.requestPermission?.(wish)) === 'granted';
}

/** Without asking: nobody has pressed anything yet. */
const mayRead = async (handle: FileSystemFileHandle & Askable): Promise<boolean> =>
  (await handle.queryPermission?.({ mode: 'read' })) === 'granted';

/** What the file holds now; null: it is gone. */
async function standingIn(
  handle: FileSystemFileHandle,
): Promise<{ readonly text: string; readonly stamp: string; readonly savedAtMs: number } | null> {
  try {
    const file = await handle.getFile();
    if (file.size > MOST_BYTES) throw new Error(`it has ${file.size} bytes, at most ${MOST_BYTES} are read`);
    const text = await file.text();
    return { text, stamp: await stampOf(text), savedAtMs: file.lastModified };
  } catch (error) {
    if (error instanceof DOMException && error.name === 'NotFoundError') return null;
    throw error;
  }
}

async function write(handle: FileSystemFileHandle, text: string): Promise<void> {
  // The browser writes to a file beside it and swaps at close: a crash leaves the old one whole.
  const stream = await handle.createWritable();
  try {
    await stream.write(text);
    await stream.close();
  } catch (error) {
    await stream.abort().catch(() => undefined);
    throw error;
  }
}

interface Done<T> {
  readonly outcome: 'done';
  readonly value: T;
}

async function unlessCancelled<T>(wish: () => Promise<T>, name?: string): Promise<Done<T> | Cancelled | Refused> {
  try {
    return { outcome: 'done', value: await wish() };
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return { outcome: 'cancelled' };
    const why = whyRefused(error);
    return {
      outcome: 'problem',
      message: name === undefined ? `${why}.` : `${name}: ${why}. What was there still is.`,
    };
  }
}

function inTurn<T>(locks: LockManager | undefined, name: string, work: () => Promise<T>): Promise<T> {
  return locks ? locks.request(name, work) : work();
}

/** Tells one content of a file from any other: SHA-256, hexadecimal. */
async function stampOf(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The save itself is done by then: a shelf of versions that is full must not make it look failed. */
const ignoreFullShelf = (): void => {};

/**
 * Choosing a file where the browser has no pickers. Some browsers never say that their dialog was cancelled, so a new wish takes the
 * place of one that still waits.
 */
function uploadsOver(document: Document): () => Promise<Opened | Cancelled | Refused> {
  let giveUp: (() => void) | null = null;
  return () =>
    new Promise((resolve) => {
      giveUp?.();
      const input = document.createElement('input');
      input.type = 'file';
      input.accept = '.json,application/json';
      input.hidden = true;
      const done = (answer: Opened | Cancelled | Refused | Promise<Opened | Refused>): void => {
        giveUp = null;
        input.remove();
        resolve(answer);
      };
      giveUp = () => done({ outcome: 'cancelled' });
      input.addEventListener('cancel', () => done({ outcome: 'cancelled' }));
      input.addEventListener('change', () => {
        const file = input.files?.[0];
        done(file ? readBoatFile(file) : { outcome: 'cancelled' });
      });
      // In the page, so that it lives until it is answered.
      document.body.append(input);
      input.click();
    });
}

function download(document: Document, name: string, content: BlobPart, type: string): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The click has handed the address over; revoking at once would cancel slow downloads.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
