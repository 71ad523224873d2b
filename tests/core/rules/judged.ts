import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { findingsOf } from '@core/engine/finding-stages';
import { sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import type { Finding } from '@core/rules/finding';
import { boatOf } from '../boat/boat-of';

const FAULTY = new URL('../../../sample-boats/faulty/', import.meta.url);

/** JSON of a boat, to be bent by a test before it is read. */
export type BoatJson = Readonly<Record<string, unknown>>;

/** The faulty boat of a rule, as a fresh JSON document. */
export function faultyBoat(rule: string): BoatJson {
  return JSON.parse(readFileSync(fileURLToPath(new URL(`${rule.replace('/', '-')}/boat.json`, FAULTY)), 'utf8'));
}

/** All findings of one rule on a boat document. Throws when the document is no boat. */
export function verdicts(json: unknown, rule: string): readonly Finding[] {
  // What one rule says hangs on nothing that other rules say.
  return new Store(sourceOf(boatOf(json))).read(findingsOf, rule);
}

/** The one finding with a key; throws when it is missing, naming what is there. */
export function verdict(json: unknown, key: string): Finding {
  const found = verdicts(json, key.split('|')[0] ?? key);
  const one = found.find((finding) => finding.key === key);
  if (!one) throw new Error(`no finding ${key}, only ${found.map((finding) => finding.key).join(', ')}`);
  return one;
}

/** Sets a value in a document by its path, making what is missing on the way. */
export function put(json: unknown, path: string, value: unknown): void {
  const keys = path.split('.');
  const last = keys.pop() as string;
  let at = json as Record<string, unknown>;
  for (const key of keys) {
    if (typeof at[key] !== 'object' || at[key] === null) at[key] = {};
    at = at[key] as Record<string, unknown>;
  }
  if (value === undefined) delete at[last];
  else at[last] = value;
}

/** A fresh faulty boat with some values set. */
export function bent(rule: string, changes: Readonly<Record<string, unknown>>): BoatJson {
  const json = faultyBoat(rule);
  for (const [path, value] of Object.entries(changes)) put(json, path, value);
  return json;
}
