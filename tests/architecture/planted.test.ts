import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inProject } from '../../electron/launch/project.mjs';
import { temporaryFolder } from '../support/temporary-folder';

/** A copy of the settings, with nothing in it but what a test plants: the tools must turn red there as here. */
const copy = temporaryFolder();
const at = (...parts: string[]): string => path.join(copy, ...parts);

const settings = [
  'biome.json',
  '.gitignore',
  'tsconfig.base.json',
  'tests/architecture/no-chance.grit',
  'tests/architecture/no-own-rounding.grit',
];
for (const file of [...settings, 'core/tsconfig.json']) cpSync(inProject(file), at(file), { recursive: true });
symlinkSync(inProject('node_modules'), at('node_modules'), 'junction');

function plant(files: Readonly<Record<string, string>>): () => void {
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(path.dirname(at(file)), { recursive: true });
    writeFileSync(at(file), text);
  }
  return () => {
    for (const file of Object.keys(files)) rmSync(at(file));
  };
}
interface Verdict {
  readonly code: number | null;
  readonly words: string;
}
function run(words: readonly string[], files: Readonly<Record<string, string>>): Verdict {
  const uproot = plant(files);
  const tool = spawnSync(process.execPath, [...words], { cwd: copy, encoding: 'utf8' });
  uproot();
  return { code: tool.status, words: tool.stdout + tool.stderr };
}
const BIOME = inProject('node_modules', '@biomejs', 'biome', 'bin', 'biome');
const TSC = inProject('node_modules', 'typescript', 'bin', 'tsc');
const lint = (files: Readonly<Record<string, string>>) =>
  run([BIOME, 'lint', '--error-on-warnings', ...Object.keys(files)], files);
const format = (files: Readonly<Record<string, string>>) =>
  run([BIOME, 'check', '--linter-enabled=false', ...Object.keys(files)], files);
/** What one run of the linter has against each of many files, by the file: its rules and messages. */
function lintEach(files: Readonly<Record<string, string>>): ReadonlyMap<string, readonly string[]> {
  const { words } = run(
    [BIOME, 'lint', '--error-on-warnings', '--reporter=json', '--max-diagnostics=none', ...Object.keys(files)],
    files,
  );
  const said = new Map<string, string[]>(Object.keys(files).map((file) => [file, []]));
  for (const found of REPORT.parse(JSON.parse(words.slice(words.indexOf('{'), words.lastIndexOf('}') + 1)))
    .diagnostics) {
    const against = said.get(found.location.path);
    if (!against) throw new Error(`the linter speaks of ${found.location.path}`);
    against.push(`${found.severity} ${found.category} ${found.message}`);
  }
  return said;
}
const REPORT = z.object({
  diagnostics: z.array(
    z.object({
      category: z.string(),
      severity: z.enum(['error', 'warning']),
      message: z.string(),
      location: z.object({ path: z.string() }),
    }),
  ),
});
const types = (files: Readonly<Record<string, string>>) => run([TSC, '-b', 'core'], files);

const CLEAN = 'export const draughtM = 1.6;\n';

describe('a clean file', () => {
  it('passes every tool: what follows turns red by what is planted alone', () => {
    const files = { 'core/base/clean.ts': CLEAN };
    expect([types(files).code, lint(files).code, format(files).code]).toEqual([0, 0, 0]);
  });
});

describe('types', () => {
  it.each([
    ['a wrong type', "export const draughtM: number = 'deep';\n", 'TS2322'],
    ['an unlooked-for undefined', 'export const first = (all: number[]): number => all[0];\n', 'TS2322'],
    ['the DOM in the core', 'export const title = document.title;\n', 'TS2584'],
    ['Node in the core', 'export const folder = process.cwd();\n', 'TS2591'],
  ])('refuse %s', (_what, text, code) => {
    const verdict = types({ 'core/base/planted.ts': text });
    expect(verdict.words).toContain(code);
    expect(verdict.code).not.toBe(0);
  });

  it('refuse a relative way out of the core', () => {
    const verdict = types({
      'core/base/planted.ts': "export { a } from '../../renderer/outside';\n",
      'renderer/outside.ts': 'export const a = 1;\n',
    });
    expect(verdict.words).toMatch(/TS6059|TS6307/);
    expect(verdict.code).not.toBe(0);
  });
});

describe('lint', () => {
  it.each([
    ['an import that nobody uses', "import { b } from './other';\nexport const a = 1;\n", 'noUnusedImports'],
    ['any', 'export const a = (b: any): unknown => b;\n', 'noExplicitAny'],
    ['a loose comparison', 'export const same = (a: number, b: number): boolean => a == b;\n', 'noDoubleEquals'],
  ])('refuses %s', (_what, text, rule) => {
    const verdict = lint({ 'core/base/planted.ts': text });
    expect(verdict.words).toContain(rule);
    expect(verdict.code).not.toBe(0);
  });

  it('refuses a circle of imports', () => {
    const verdict = lint({
      'core/base/one.ts': "import { two } from './two';\nexport const one = (): number => two() + 1;\n",
      'core/base/two.ts': "import { one } from './one';\nexport const two = (): number => one() + 1;\n",
    });
    expect(verdict.words).toContain('noImportCycles');
    expect(verdict.code).not.toBe(0);
  });
});

describe('format', () => {
  it.each([
    ['another layout', "export const a = {b:1,\n   c: 'x'}\n"],
    ['imports out of order', "import { b } from './b';\nimport { a } from './a';\n\nexport const c = a + b;\n"],
  ])('refuses %s', (_what, text) => {
    expect(format({ 'core/base/planted.ts': text }).code).not.toBe(0);
  });
});

const importing = (what: string): string => `import { a } from '${what}';\n\nexport const b = a;\n`;
const FORBIDDEN = [
  ['core/base', '../boat/schema/boat'],
  ['core/boat', '../shape/hull/types'],
  ['core/shape/space', '../../runs/routing/types'],
  ['core/runs/routing', '../../assess/water/need'],
  ['core/assess/water', '../../rules/finding'],
  ['core/assess/water', '../power/need'],
  ['core/rules/access', '../../output/text/words'],
  ['core/rules/access', './other-rule'],
  ['core/rules/access', '../hoses/other-rule'],
  ['core/output/views', '../../engine/session'],
  ['core/engine', '../analyze'],
  ['core/base', '@core/base/vec'],
  ['core/base', '@renderer/store/app'],
  ['core/base', '../../electron/files/journal'],
  ['core/base', 'electron'],
  ['core/base', 'react'],
  ['core/base', 'konva'],
  ['core/base', 'zustand'],
  ['core/base', 'node:fs'],
  ['renderer/board', '@electron/ipc/contract'],
  ['renderer/bridge', '@electron/main/window'],
  ['renderer/store', 'electron'],
  ['electron/main', '@core/base/vec'],
  ['electron/files', '@core/boat/read'],
  ['electron/ipc', '@renderer/store/app'],
  ['electron/preload', 'node:fs'],
  ['electron/cli', '../main/window'],
  ['tests/support', '@core/runs/routing/search'],
  ['tests/support', '@core/shape/hull/surface'],
];
const ALLOWED = [
  ['core/boat', '../base/vec'],
  ['core/rules/access', '../finding'],
  ['core/rules/access', '../../shape/hull/types'],
  ['core/assess/water', '../../base/formulas/power/loss'],
  ['core/output/takeoff', '../../engine/report'],
  ['core/output/text', '../../engine/service/service-report'],
  ['core/engine', '../output/takeoff/csv'],
  ['renderer/bridge', '@electron/ipc/contract'],
  ['renderer/board', '@core/base/vec'],
  ['electron/cli', '@core/boat/read'],
  ['tests/support', '@core/runs/routing/types'],
];

// One run over them all, each in a file of its own: starting the linter takes longer than what it does.
describe('import arrows', () => {
  const planted = (k: number, place: string | undefined): string => `${place}/planted-${k}.ts`;
  const every = [...FORBIDDEN, ...ALLOWED];
  const said = lintEach(Object.fromEntries(every.map(([place, what = ''], k) => [planted(k, place), importing(what)])));

  it.each(FORBIDDEN)('refuse that %s imports %s', (place, what) => {
    const k = FORBIDDEN.findIndex(([other, asked]) => other === place && asked === what);
    expect(said.get(planted(k, place))?.join()).toContain('noRestrictedImports');
  });

  it.each(ALLOWED)('allow that %s imports %s', (place, what) => {
    const k = ALLOWED.findIndex(([other, asked]) => other === place && asked === what);
    expect(said.get(planted(FORBIDDEN.length + k, place))).toEqual([]);
  });
});

const CHANCE = [
  ['document.title', 'noRestrictedGlobals'],
  ['window.innerWidth', 'noRestrictedGlobals'],
  ['process.argv', 'noRestrictedGlobals'],
  ['Buffer.alloc(1)', 'noRestrictedGlobals'],
  ['Date.now()', 'noRestrictedGlobals'],
  ['new Date()', 'noRestrictedGlobals'],
  ['performance.now()', 'noRestrictedGlobals'],
  ['setTimeout(() => 1, 1)', 'noRestrictedGlobals'],
  ['console.log(1)', 'noRestrictedGlobals'],
  ['crypto.randomUUID()', 'noRestrictedGlobals'],
  ['Math.random()', 'the same answer'],
  ['Math.sin(1)', 'base/portable'],
  ['Math.atan2(1, 2)', 'base/portable'],
  ['[1].map(Math.log)', 'base/portable'],
  ['Math.hypot(1, 2)', 'base/portable'],
];

describe('no DOM, Node, clock, chance or own rounding in the core', () => {
  const planted = (words: string): string => `core/runs/planted-${CHANCE.findIndex(([other]) => other === words)}.ts`;
  const said = lintEach(
    Object.fromEntries(CHANCE.map(([words = '']) => [planted(words), `export const a = ${words};\n`])),
  );

  it.each(CHANCE)('%s is refused', (words, why) => {
    expect(said.get(planted(words))?.join()).toContain(why);
  });
});
