import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll } from 'vitest';

/** A folder of this test file's own, gone when its tests are over. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'underberth-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
