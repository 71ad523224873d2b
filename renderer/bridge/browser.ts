import { browserJournal } from './browser-journal';
import { browserPictures } from './browser-pictures';
import { type Cancelled, MOST_BYTES, type Opened, type Refused, type Storage } from './storage';

/** What Chromium offers beyond the standard library's types: pickers that keep a file's place. */
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

const BOAT_FILES = [{ description: 'Boat', accept: { 'application/json': ['.json'] } }];

/** Files in a plain browser: File System Access where present, else upload and download. */
export function browserStorage(window: Window & FilePickers): Storage {
  const handles = new Map<string, FileSystemFileHandle>();
  let nextToken = 1;
  const remember = (handle: FileSystemFileHandle): string => {
    const token = String(nextToken++);
    handles.set(token, handle);
    return token;
  };
  let unsaved = false;
  window.addEventListener('beforeunload', (event) => {
    if (unsaved) event.preventDefault();
  });

  return {
    kind: 'browser',
    keepsPlace: window.showSaveFilePicker !== undefined,
    async open() {
      if (!window.showOpenFilePicker) return upload(window.document);
      const picked = await unlessCancelled(window.showOpenFilePicker({ id: 'boat', types: BOAT_FILES }));
      if (picked.outcome !== 'done') return picked;
      const handle = picked.value[0];
      if (!handle) return { outcome: 'cancelled' };
      const read = await readBoatFile(await handle.getFile());
      return read.outcome === 'opened' ? { ...read, token: remember(handle) } : read;
    },
    async save({ token, suggestedName, text }) {
      const known = token === null ? undefined : handles.get(token);
      if (known && token !== null) {
        const written = await unlessCancelled(write(known, text));
        return written.outcome === 'done' ? { outcome: 'saved', name: known.name, token } : written;
      }
      if (!window.showSaveFilePicker) {
        download(window.document, suggestedName, text, 'application/json');
        return { outcome: 'saved', name: suggestedName, token: null };
      }
      const picked = await unlessCancelled(window.showSaveFilePicker({ id: 'boat', types: BOAT_FILES, suggestedName }));
      if (picked.outcome !== 'done') return picked;
      const written = await unlessCancelled(write(picked.value, text));
      if (written.outcome !== 'done') return written;
      return { outcome: 'saved', name: picked.value.name, token: remember(picked.value) };
    },
    async exportFile({ suggestedName, content, type }) {
      download(window.document, suggestedName, content, type);
      return { outcome: 'saved', name: suggestedName };
    },
    journal: browserJournal(window.indexedDB, window.navigator.locks),
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
    return { outcome: 'problem', message: `${file.name} cannot be read: ${wordsOf(error)}` };
  }
}

async function write(handle: FileSystemFileHandle, text: string): Promise<void> {
  // The browser writes to a file beside it and swaps at close: a crash leaves the old one whole.
  const stream = await handle.createWritable();
  await stream.write(text);
  await stream.close();
}

async function unlessCancelled<T>(
  wish: Promise<T>,
): Promise<{ readonly outcome: 'done'; readonly value: T } | Cancelled | Refused> {
  try {
    return { outcome: 'done', value: await wish };
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return { outcome: 'cancelled' };
    return { outcome: 'problem', message: wordsOf(error) };
  }
}

function upload(document: Document): Promise<Opened | Cancelled | Refused> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.json,application/json';
    input.hidden = true;
    const done = (answer: Opened | Cancelled | Refused | Promise<Opened | Refused>): void => {
      input.remove();
      resolve(answer);
    };
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

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
