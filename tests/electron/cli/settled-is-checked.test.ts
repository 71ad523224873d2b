import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../../electron/launch/build.mjs';
import { inProject } from '../../../electron/launch/project.mjs';
import { atRest, completeBoats, expectMovesToSettle } from '../../core/engine/moved-boats';
import { temporaryFolder } from '../../support/temporary-folder';

const folder = temporaryFolder();

/** What the command line prints of a saved boat. */
function checked(boat: Boat): unknown {
  const file = path.join(folder, 'moved.boat.json');
  writeFileSync(file, writeBoat(boat));
  const run = spawnSync(
    process.execPath,
    [inProject('electron', 'launch', 'underberth.mjs'), 'check', file, '--json'],
    {
      encoding: 'utf8',
      maxBuffer: 256 * 1024 * 1024,
    },
  );
  return JSON.parse(run.stdout);
}

beforeAll(() => ensureBuilt(['cli']));

describe('a part moved on the board', () => {
  it.each(completeBoats())(
    'settles as the command line checks the saved file of %s, twice over',
    (name) => {
      expectMovesToSettle(name, 2, 7, (settled, boat, what, session) =>
        expect(checked(boat), what).toEqual(JSON.parse(JSON.stringify(atRest(session, settled)))),
      );
    },
    240_000,
  );
});
