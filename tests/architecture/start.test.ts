import { describe, expect, it } from 'vitest';
import { filesUnder, importsOf, textOf } from './sources';

/** Packages that make files to take away, and read files that others made: none of them is needed before somebody asks for one. */
const FOR_EXPORTS = /^(pdfkit|write-excel-file|papaparse|@expo-google-fonts)(\/|$)/;

const SOURCES = new Set(['core', 'renderer'].flatMap((folder) => filesUnder(folder)));
const fileOf = (place: string): string | undefined =>
  ['', '.ts', '.tsx', '/index.ts'].map((ending) => `${place}${ending}`).find((file) => SOURCES.has(file));

/** Everything that is read together with a file, and by what way each was reached. */
function readWith(entry: string): ReadonlyMap<string, string> {
  const reached = new Map([[entry, entry]]);
  for (const [file, way] of reached) {
    if (!SOURCES.has(file) || !/\.tsx?$/.test(file)) continue;
    for (const { asked, to, typeOnly, late } of importsOf(file, textOf(file))) {
      const next = to === null ? asked : fileOf(to);
      if (!typeOnly && !late && next !== undefined && !reached.has(next)) reached.set(next, `${way} > ${next}`);
    }
  }
  return reached;
}

const exportsIn = (entry: string): readonly string[] =>
  [...readWith(entry)].filter(([place]) => FOR_EXPORTS.test(place)).map(([, way]) => way);

describe('what is read at start', () => {
  it.each(['renderer/boot.ts', 'renderer/main.tsx', 'renderer/worker/worker.ts'])(
    'from %s on holds nothing that only exports and imports of files need',
    (entry) => {
      expect(readWith(entry).size).toBeGreaterThan(1);
      expect(exportsIn(entry)).toEqual([]);
    },
  );

  it('would be found out: a page that makes files reaches what makes them', () => {
    expect(exportsIn('renderer/app/sheets/print.ts').length).toBeGreaterThan(0);
    expect(exportsIn('core/boat/offsets/write.ts').length).toBeGreaterThan(0);
  });
});
