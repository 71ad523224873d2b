// @vitest-environment happy-dom
import { browserStorage } from '@renderer/bridge/browser';
import type { Storage } from '@renderer/bridge/storage';
import { describe, expect, it } from 'vitest';

// The names of the exceptions are those of the File System standard (fs.spec.whatwg.org) and of File System Access (WICG).
type Fault = { readonly on: 'getFile' | 'createWritable' | 'write' | 'close'; readonly name: string };

/** A file of the browser that can be changed from outside and can fail. */
class FakeFile {
  readonly kind = 'file';
  fault: Fault | null = null;
  permission: PermissionState = 'granted';
  answer: PermissionState = 'granted';
  asked = 0;
  aborted = 0;
  constructor(
    readonly name: string,
    public text: string,
  ) {}
  #fail(on: Fault['on']): void {
    if (this.fault?.on === on) throw new DOMException('as the test wants it', this.fault.name);
  }
  async getFile(): Promise<File> {
    this.#fail('getFile');
    return new File([this.text], this.name, { lastModified: 1_780_000_000_000 });
  }
  async createWritable() {
    this.#fail('createWritable');
    let written = '';
    return {
      write: async (text: string) => {
        this.#fail('write');
        written += text;
      },
      close: async () => {
        this.#fail('close');
        this.text = written;
      },
      abort: async () => {
        this.aborted += 1;
      },
    };
  }
  async queryPermission(): Promise<PermissionState> {
    return this.permission;
  }
  async requestPermission(): Promise<PermissionState> {
    this.asked += 1;
    this.permission = this.answer;
    return this.permission;
  }
  async isSameEntry(other: unknown): Promise<boolean> {
    return other === this;
  }
}

/** A window with pickers that choose these files, without databases and locks. */
function withFiles(file: FakeFile, elsewhere = new FakeFile('elsewhere.boat.json', '')) {
  const fake = Object.assign(Object.create(window), {
    showOpenFilePicker: async () => [file],
    showSaveFilePicker: async () => elsewhere,
    indexedDB: undefined,
    navigator: {},
    document,
    addEventListener: () => {},
    removeEventListener: () => {},
  }) as Parameters<typeof browserStorage>[0];
  return { storage: browserStorage(fake), elsewhere };
}
async function openedIn(storage: Storage): Promise<string> {
  const opened = await storage.open();
  if (opened.outcome !== 'opened' || opened.token === null) throw new Error(`expected a file, got ${opened.outcome}`);
  return opened.token;
}
const request = (token: string | null, text: string, replaces: string | null = null) => ({
  token,
  suggestedName: 'x.boat.json',
  text,
  replaces,
});

describe('files of a browser', () => {
  it('are saved to where they came from, and looked at first', async () => {
    const file = new FakeFile('a.boat.json', 'one');
    const { storage } = withFiles(file);
    const token = await openedIn(storage);
    expect(await storage.look(token)).toEqual({ outcome: 'same' });
    expect(await storage.save(request(token, 'two'))).toEqual({ outcome: 'saved', name: 'a.boat.json', token });
    file.text = 'theirs';
    const changed = await storage.save(request(token, 'three'));
    expect([changed, file.text]).toEqual([expect.objectContaining({ outcome: 'changed', text: 'theirs' }), 'theirs']);
    if (changed.outcome !== 'changed') return;
    // It has changed once more since: what was agreed to is not what stands there.
    file.text = 'theirs again';
    expect(await storage.save(request(token, 'three', changed.stamp))).toMatchObject({
      outcome: 'changed',
      text: 'theirs again',
    });
    file.text = 'theirs';
    expect(await storage.save(request(token, 'three', changed.stamp))).toMatchObject({ outcome: 'saved' });
    expect(file.text).toBe('three');
  });

  it.each<[Fault, RegExp]>([
    [
      { on: 'createWritable', name: 'NotFoundError' },
      /a\.boat\.json: it is no longer there\. What was there still is\./,
    ],
    [{ on: 'createWritable', name: 'NotAllowedError' }, /not allowed to/],
    [{ on: 'createWritable', name: 'NoModificationAllowedError' }, /another program or window holds it/],
    [{ on: 'write', name: 'QuotaExceededError' }, /no room left/],
    [{ on: 'close', name: 'QuotaExceededError' }, /no room left/],
    [{ on: 'close', name: 'UnknownError' }, /the disk reports a fault/],
    [{ on: 'getFile', name: 'NotReadableError' }, /can’t be read now/],
  ])('that can’t be written say why, stay as they were, and can be saved elsewhere: %o', async (fault, words) => {
    const file = new FakeFile('a.boat.json', 'one');
    const { storage, elsewhere } = withFiles(file);
    const token = await openedIn(storage);
    file.fault = fault;
    const failed = await storage.save(request(token, 'two'));
    expect(failed).toEqual({ outcome: 'problem', message: expect.stringMatching(words) });
    expect([file.text, file.aborted]).toEqual(['one', fault.on === 'write' || fault.on === 'close' ? 1 : 0]);
    expect(await storage.save(request(null, 'two'))).toMatchObject({ outcome: 'saved', name: 'elsewhere.boat.json' });
    expect(elsewhere.text).toBe('two');
    // Trying again once the fault is gone goes to the file itself.
    file.fault = null;
    expect(await storage.save(request(token, 'two'))).toMatchObject({ outcome: 'saved', name: 'a.boat.json' });
    expect(file.text).toBe('two');
  });

  it('of which the permission was lost are asked for again, and left alone when it is refused', async () => {
    const file = new FakeFile('a.boat.json', 'one');
    const { storage } = withFiles(file);
    const token = await openedIn(storage);
    file.permission = 'prompt';
    file.answer = 'denied';
    expect(await storage.save(request(token, 'two'))).toEqual({
      outcome: 'problem',
      message: 'a.boat.json was not written: this browser was not allowed to.',
    });
    expect([file.asked, file.text]).toEqual([1, 'one']);
    file.permission = 'prompt';
    file.answer = 'granted';
    expect(await storage.save(request(token, 'two'))).toMatchObject({ outcome: 'saved' });
    expect([file.asked, file.text]).toEqual([2, 'two']);
  });

  it('that are gone are said to be, and a save puts them back', async () => {
    const file = new FakeFile('a.boat.json', 'one');
    const { storage } = withFiles(file);
    const token = await openedIn(storage);
    file.fault = { on: 'getFile', name: 'NotFoundError' };
    expect(await storage.look(token)).toEqual({ outcome: 'gone', name: 'a.boat.json' });
    expect(await storage.save(request(token, 'two'))).toMatchObject({ outcome: 'saved' });
    expect(file.text).toBe('two');
  });

  it('are chosen in one dialog at a time', async () => {
    const file = new FakeFile('a.boat.json', 'one');
    const { storage } = withFiles(file);
    const [first, second] = await Promise.all([storage.open(), storage.open()]);
    expect([first.outcome, second.outcome]).toEqual(['opened', 'cancelled']);
  });
});

describe('files of a browser without pickers', () => {
  it('are chosen anew when the choice before was never answered: some browsers never say that it was cancelled', async () => {
    const fake = Object.assign(Object.create(window), {
      indexedDB: undefined,
      navigator: {},
      document,
      addEventListener: () => {},
    }) as Parameters<typeof browserStorage>[0];
    const storage = browserStorage(fake);
    const first = storage.open();
    const second = storage.open();
    expect(await first).toEqual({ outcome: 'cancelled' });
    const inputs = document.querySelectorAll<HTMLInputElement>('input[type=file]');
    expect(inputs.length).toBe(1);
    const [input] = inputs;
    Object.defineProperty(input, 'files', { value: [new File(['{}'], 'b.boat.json')] });
    input?.dispatchEvent(new Event('change'));
    expect(await second).toMatchObject({ outcome: 'opened', name: 'b.boat.json', text: '{}' });
    expect(document.querySelectorAll('input[type=file]').length).toBe(0);
  });
});
