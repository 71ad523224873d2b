import { randomBytes } from 'node:crypto';
import path from 'node:path';

/** Which path each token stands for. A path enters only from a dialog or from our own journal, never from the page. */
export class GrantedPaths {
  readonly #pathOf = new Map<string, string>();
  readonly #tokenOf = new Map<string, string>();

  grant(file: string): string {
    const absolute = path.resolve(file);
    const known = this.#tokenOf.get(absolute);
    if (known) return known;
    const token = randomBytes(16).toString('hex');
    this.#pathOf.set(token, absolute);
    this.#tokenOf.set(absolute, token);
    return token;
  }

  /** The path behind a token, or null when no such token was ever given. */
  pathOf(token: string): string | null {
    return this.#pathOf.get(token) ?? null;
  }
}
