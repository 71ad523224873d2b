import { createHash, randomBytes } from 'node:crypto';
import path from 'node:path';

/** Tells one content of a file from any other: SHA-256, hexadecimal. */
export const stampOf = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');

/**
 * Which path each token stands for, and what its file held when it was last read or written here. A path enters only from a dialog
 * or from our own journal, never from the page.
 */
export class GrantedPaths {
  readonly #pathOf = new Map<string, string>();
  readonly #tokenOf = new Map<string, string>();
  readonly #seen = new Map<string, string>();

  /** `seen`: stamp of what the file holds, as far as it is known here. */
  grant(file: string, seen: string | null = null): string {
    const absolute = path.resolve(file);
    const token = this.#tokenOf.get(absolute) ?? randomBytes(16).toString('hex');
    this.#pathOf.set(token, absolute);
    this.#tokenOf.set(absolute, token);
    if (seen !== null) this.#seen.set(token, seen);
    return token;
  }

  /** The path behind a token, or null when no such token was ever given. */
  pathOf(token: string): string | null {
    return this.#pathOf.get(token) ?? null;
  }

  /** Stamp of the content that was last read or written here; null: neither was. */
  seenAt(token: string): string | null {
    return this.#seen.get(token) ?? null;
  }
}
