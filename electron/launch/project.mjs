/** Where things lie, and how fresh they are. Plain Node: runs before anything is installed. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
export const inProject = (...parts) => path.join(ROOT, ...parts);

const CONFIG = ['package.json', 'package-lock.json', 'tsconfig.base.json'];
/** What each output is made from. */
export const SOURCES = {
  renderer: ['core', 'renderer', ...CONFIG],
  desktop: [
    ...['main', 'preload', 'ipc', 'files', 'serve', 'launch/build.mjs'].map((part) => `electron/${part}`),
    ...CONFIG,
  ],
  cli: ['core', 'electron/cli', 'electron/launch/build.mjs', ...CONFIG],
};

/** Time of the newest file at or under the given places, in ms since 1970; 0 when there is none. */
export function newestOf(places) {
  let newest = 0;
  for (const place of places) {
    const at = inProject(place);
    if (!existsSync(at)) continue;
    const stat = statSync(at);
    if (!stat.isDirectory()) newest = Math.max(newest, stat.mtimeMs);
    else {
      for (const entry of readdirSync(at, { withFileTypes: true, recursive: true })) {
        if (!entry.isFile()) continue;
        const file = statSync(path.join(entry.parentPath ?? entry.path, entry.name), { throwIfNoEntry: false });
        if (file) newest = Math.max(newest, file.mtimeMs);
      }
    }
  }
  return newest;
}
