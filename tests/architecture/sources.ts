import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { inProject } from '../../electron/launch/project.mjs';

const SKIPPED = new Set(['node_modules', 'dist', '.git', '.tscache', 'coverage', 'release']);

/** Every file of the project under `folder`, by its path from the root with forward slashes. */
export function filesUnder(folder = ''): readonly string[] {
  return readdirSync(inProject(folder), { withFileTypes: true }).flatMap((entry) => {
    if (SKIPPED.has(entry.name)) return [];
    const place = folder === '' ? entry.name : `${folder}/${entry.name}`;
    return entry.isDirectory() ? filesUnder(place) : [place];
  });
}

export const textOf = (file: string): string => readFileSync(inProject(file), 'utf8');

export interface Import {
  readonly from: string;
  /** The words between the quotes. */
  readonly asked: string;
  /** Path from the root without ending, when it is a file of ours; else null. */
  readonly to: string | null;
  readonly typeOnly: boolean;
  /** Called for when it is needed, not read with the file. */
  readonly late: boolean;
}

const IMPORT =
  /\b(?:import|export)\s+(type\s+)?(?:[^'"();]*?\s+from\s+)?['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/g;
const ALIAS = /^@(core|renderer|electron)\//;

/** What a source file imports, by any spelling. */
export function importsOf(file: string, text: string): readonly Import[] {
  return [...text.matchAll(IMPORT)].map(([, type, fromStatement, fromCall]) => {
    const asked = fromStatement ?? fromCall ?? '';
    const to = ALIAS.test(asked)
      ? asked.slice(1)
      : asked.startsWith('.')
        ? path.posix.join(path.posix.dirname(file), asked)
        : null;
    return { from: file, asked, to, typeOnly: type !== undefined, late: fromCall !== undefined };
  });
}
