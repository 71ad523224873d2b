import type * as FileSystem from 'node:fs/promises';

type Calls = typeof FileSystem;
type Handle = FileSystem.FileHandle;

/** What goes wrong, at which call, counted from 0. */
export interface Trouble {
  readonly at: number;
  /** The call is refused with this code and all others work; or the process is gone: this call and all later ones do nothing. */
  readonly what: { readonly code: string } | 'dies';
  /** A write that dies has put so many bytes on the disk. */
  readonly bytes?: number;
}

const FUNCTIONS = ['open', 'rename', 'rm', 'stat', 'readdir', 'readFile', 'mkdir', 'realpath'] as const;
const METHODS = [
  'writeFile',
  'appendFile',
  'sync',
  'datasync',
  'readFile',
  'stat',
  'chmod',
  'utimes',
  'close',
] as const;
const WRITES: ReadonlySet<string> = new Set(['writeFile', 'appendFile']);

/** The system's file calls, each of which can be made to fail, or to be the last one that a process gets to. */
export class FailingDisk {
  readonly calls: Calls;
  /** Names of the calls since `arm`. */
  made: string[] = [];
  #trouble: Trouble | null = null;
  #isDead = false;

  constructor(real: Calls) {
    const wrapped = Object.fromEntries(
      FUNCTIONS.map((name) => [
        name,
        async (...words: unknown[]) => {
          await this.#pass(name, async () => {});
          const answer: unknown = await Reflect.apply(real[name], real, words);
          return name === 'open' ? this.#watched(answer as Handle) : answer;
        },
      ]),
    );
    this.calls = { ...real, ...wrapped };
  }

  arm(trouble: Trouble | null): void {
    this.#trouble = trouble;
    this.#isDead = false;
    this.made = [];
  }

  /** Counts a call and lets it through, or not. `torn` leaves what a write cut short has left. */
  async #pass(name: string, torn: (bytes: number) => Promise<void>): Promise<void> {
    const nth = this.made.length;
    this.made.push(name);
    if (this.#isDead) throw new Error('the process is gone');
    if (this.#trouble?.at !== nth) return;
    const { what, bytes } = this.#trouble;
    if (what !== 'dies') throw Object.assign(new Error(`${what.code}: ${name}`), { code: what.code });
    if (bytes !== undefined) await torn(bytes);
    this.#isDead = true;
    throw new Error('the process is gone');
  }

  #watched(handle: Handle): Handle {
    return new Proxy(handle, {
      get: (target, key) => {
        const value: unknown = Reflect.get(target, key);
        if (typeof value !== 'function') return value;
        const method = METHODS.find((name) => name === key);
        if (!method) return value.bind(target);
        return async (...words: unknown[]) => {
          // A process that is gone has let go of its files.
          if (method === 'close') {
            if (!this.#isDead) this.made.push(method);
            return target.close();
          }
          await this.#pass(method, async (bytes) => {
            if (WRITES.has(method))
              await target.appendFile(Buffer.from(words[0] as string | Uint8Array).subarray(0, bytes));
          });
          return Reflect.apply(value, target, words);
        };
      },
    });
  }
}
