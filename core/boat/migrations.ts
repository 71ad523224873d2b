import { SCHEMA_VERSION } from './schema/boat';

/** Turns the plain data of one schema version into that of the next. */
export type Migration = (older: Readonly<Record<string, unknown>>) => Record<string, unknown>;

/** By the version that a step starts from. Version 1 is the first, so there is no step yet. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {};

export type Migrated =
  | { readonly outcome: 'current'; readonly data: Readonly<Record<string, unknown>>; readonly from: number }
  | { readonly outcome: 'newer'; readonly version: number }
  | { readonly outcome: 'unknown'; readonly version: unknown };

/** Brings plain data to the current version step by step. The steps and the target can be given for tests. */
export function migrated(
  data: Readonly<Record<string, unknown>>,
  steps: Readonly<Record<number, Migration>> = MIGRATIONS,
  target: number = SCHEMA_VERSION,
): Migrated {
  const version = data.schemaVersion;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) return { outcome: 'unknown', version };
  if (version > target) return { outcome: 'newer', version };
  let current = data;
  for (let step = version; step < target; step++) {
    const migrate = Object.hasOwn(steps, step) ? steps[step] : undefined;
    if (!migrate) return { outcome: 'unknown', version };
    current = { ...migrate(current), schemaVersion: step + 1 };
  }
  return { outcome: 'current', data: current, from: version };
}
