import { type Migration, migrated } from '@core/boat/migrations';
import { SCHEMA_VERSION } from '@core/boat/schema/boat';
import { describe, expect, it } from 'vitest';

/** Two made-up steps of a later time: version 1 kept lengths in millimetres, version 2 called a boat `title`. */
const STEPS: Readonly<Record<number, Migration>> = {
  1: ({ lengthMm, ...rest }) => ({ ...rest, lengthM: Number(lengthMm) / 1000 }),
  2: ({ title, ...rest }) => ({ ...rest, name: title }),
};

describe('bringing a file to the present version', () => {
  it('takes one step after the other', () => {
    const old = { schemaVersion: 1, title: 'Tern', lengthMm: 11000 };
    expect(migrated(old, STEPS, 3)).toEqual({
      outcome: 'current',
      from: 1,
      data: { schemaVersion: 3, name: 'Tern', lengthM: 11 },
    });
    expect(old).toEqual({ schemaVersion: 1, title: 'Tern', lengthMm: 11000 });
  });

  it('leaves the present version as it is', () => {
    const data = { schemaVersion: SCHEMA_VERSION, name: 'Tern' };
    expect(migrated(data)).toEqual({ outcome: 'current', from: SCHEMA_VERSION, data });
  });

  it('refuses a newer version, a missing one and a gap in the steps', () => {
    expect(migrated({ schemaVersion: 4 }, STEPS, 3)).toEqual({ outcome: 'newer', version: 4 });
    for (const version of [undefined, 0, 1.5, '1', null]) {
      expect(migrated({ schemaVersion: version }, STEPS, 3).outcome).toBe('unknown');
    }
    expect(migrated({ schemaVersion: 1 }, { 2: STEPS[2] as Migration }, 3).outcome).toBe('unknown');
  });
});
