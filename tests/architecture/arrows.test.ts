import { describe, expect, it } from 'vitest';
import { filesUnder, type Import, importsOf, textOf } from './sources';

const FLOORS = ['base', 'boat', 'shape', 'runs', 'assess', 'rules', 'output', 'engine', 'analyze'];
const sources = (folder: string) => filesUnder(folder).filter((file) => /\.(ts|tsx|mts)$/.test(file));
const allImports = (folder: string): readonly Import[] =>
  sources(folder).flatMap((file) => importsOf(file, textOf(file)));
const floorOf = (place: string): number => FLOORS.indexOf(place.split('/')[1]?.replace(/\.ts$/, '') ?? '');

/** What an answer of the engine looks like: output writes it down, and imports nothing of it but types. */
const REPORTS = /^core\/engine\/(report|[a-z-]+\/[a-z-]+-report)$/;

/** Arrows that point up, by the place a file lies in and the place that its import really leads to. */
const upward = (imports: readonly Import[]): readonly string[] =>
  imports
    .filter(({ from, to }) => to !== null && floorOf(to) > floorOf(from))
    .filter(({ to, typeOnly }) => !(typeOnly && to !== null && REPORTS.test(to)))
    .map(({ from, asked }) => `${from} imports ${asked}`);

describe('the import arrows, followed to the files that they reach', () => {
  it('point down only: each floor of the core imports what stands before it', () => {
    expect(upward(allImports('core'))).toEqual([]);
    expect(upward(importsOf('core/base/a.ts', "import { x } from '../shape/hull/y';"))).toHaveLength(1);
    expect(upward(importsOf('core/output/a.ts', "import { x } from '../engine/report';"))).toHaveLength(1);
    expect(upward(importsOf('core/output/a.ts', "import type { x } from '../engine/report';"))).toEqual([]);
    expect(upward(importsOf('core/output/a.ts', "import type { x } from '../engine/session';"))).toHaveLength(1);
  });

  it('know every folder of the core: a new one has to be given its floor', () => {
    const folders = new Set(filesUnder('core').map((file) => file.split('/')[1]?.replace(/\.ts$/, '') ?? ''));
    expect(
      [...folders].filter((folder) => !FLOORS.includes(folder) && folder !== 'tsconfig.json' && folder !== 'README.md'),
    ).toEqual([]);
  });

  it('never leave the core: it runs in a worker, a window and a terminal alike', () => {
    const allowed =
      /^(zod|immer|clipper2-ts|tinyqueue|papaparse|pdfkit|write-excel-file|d3-scale|d3-shape|ml-matrix|@stdlib\/math-base-special-[a-z0-9]+)(\/|$)/;
    const leaving = allImports('core').filter(({ asked, to }) =>
      to === null ? !allowed.test(asked) : !to.startsWith('core/'),
    );
    expect(leaving).toEqual([]);
  });

  it('reach the contract of the desktop by its types alone, from renderer/bridge and the preload', () => {
    const crossing = [...allImports('renderer'), ...allImports('electron/preload')].filter(
      ({ from, to }) => to?.startsWith('electron/') && to !== 'electron/ipc/channels' && from !== to,
    );
    expect(
      crossing.filter(({ from, to, typeOnly }) => {
        const allowed = from.startsWith('renderer/bridge/') || from.startsWith('electron/preload/');
        return !(allowed && typeOnly && to === 'electron/ipc/contract');
      }),
    ).toEqual([]);
  });

  it('keep the desktop ignorant of boats, except for the command line', () => {
    const knowing = allImports('electron').filter(
      ({ from, to }) => !from.startsWith('electron/cli/') && to !== null && /^(core|renderer)\//.test(to),
    );
    expect(knowing).toEqual([]);
  });
});
