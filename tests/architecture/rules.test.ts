import { BIBLIOGRAPHY, type Reference } from '@core/base/bibliography';
import { RULE_TEXT } from '@core/output/text/rule-text';
import { describe, expect, it } from 'vitest';
import { filesUnder, textOf } from './sources';

/** core/rules/SUBJECT/NAME.ts: the path is the id. */
const ruleIds = filesUnder('core/rules').flatMap((file) => {
  const found = /^core\/rules\/([a-z-]+\/[a-z-]+)\.ts$/.exec(file);
  return found?.[1] ? [found[1]] : [];
});
const files = new Set(filesUnder());

/** What a rule lacks of what every rule brings along. */
function lacking(id: string, present: ReadonlySet<string>, read: (file: string) => string): readonly string[] {
  const folder = `sample-boats/faulty/${id.replace('/', '-')}`;
  const needed = [`tests/core/rules/${id}.test.ts`, `${folder}/boat.json`, `${folder}/expected.json`];
  const missing = needed.filter((file) => !present.has(file)).map((file) => `${id} has no ${file}`);
  const registry = 'core/rules/registry.ts';
  const rule = read(`core/rules/${id}.ts`);
  if (!rule.includes(`'${id}'`)) missing.push(`${id} does not carry its path as its id`);
  if (!/cannotSee:\s*\[\s*['"`\w]/.test(rule)) missing.push(`${id} does not say what it cannot see`);
  if (!present.has(registry) || !read(registry).includes(`'./${id}'`)) missing.push(`${id} is not in the registry`);
  return missing;
}

describe('each rule', () => {
  it('comes with a test, a faulty boat and what is expected of it, a registry line, and what it cannot see', () => {
    expect(ruleIds.flatMap((id) => lacking(id, files, textOf))).toEqual([]);
  });

  it('would be missed here if any of that were missing', () => {
    const texts: Record<string, string> = {
      'core/rules/access/a.ts': "defineRule({ id: 'access/b', cannotSee: [] })",
      'core/rules/registry.ts': '',
    };
    expect(lacking('access/a', new Set(), (file) => texts[file] ?? '')).toHaveLength(6);
  });

  it('has words for every reason that it can give', () => {
    const wordless = ruleIds.flatMap((id) => {
      const given = [
        ...textOf(`core/rules/${id}.ts`).matchAll(
          /outcome: '(fail|cannotTell)',(?:\s*severity: '\w+',)?\s*reason: '(\w+)'/g,
        ),
      ];
      return given.flatMap(([, outcome, reason]) => {
        const words = RULE_TEXT[id]?.[outcome as 'fail' | 'cannotTell'] ?? {};
        return Object.hasOwn(words, reason ?? '') ? [] : [`${id}: ${outcome} ${reason}`];
      });
    });
    expect(wordless).toEqual([]);
    expect(ruleIds.filter((id) => !RULE_TEXT[id]?.pass?.pass)).toEqual([]);
  });

  it('rests on entries of the bibliography, and none stands there for nothing', () => {
    const texts = filesUnder('core').map(textOf);
    const keys = (pattern: RegExp) =>
      new Set(texts.flatMap((text) => [...text.matchAll(pattern)].map(([, key = '']) => key)));
    const named = keys(/key: '([\w-]+)',(?: clause: '[^']*',)? standing:/g);
    const used = new Set([...named, ...keys(/source: '([\w-]+)'/g), ...keys(/BIBLIOGRAPHY\['([\w-]+)'\]/g)]);
    expect(named.size).toBeGreaterThan(0);
    expect([...named].filter((key) => !Object.hasOwn(BIBLIOGRAPHY, key))).toEqual([]);
    expect(Object.keys(BIBLIOGRAPHY).filter((key) => !used.has(key))).toEqual([]);
  });

  it('is described in the table of the rules, and no row stands for a rule that is gone', () => {
    const rows = [...textOf('core/rules/README.md').matchAll(/^\| `([a-z-]+\/[a-z-]+)` \|/gm)].map(([, id]) => id);
    expect(rows.toSorted()).toEqual(ruleIds.toSorted());
    expect(textOf('README.md')).toContain(`${ruleIds.length} checks`);
  });

  it('claims of a source no more than the bibliography knows of it', () => {
    const may: Readonly<Record<Reference['known'], readonly string[]>> = {
      read: ['published', 'quoted', 'derived'],
      quoted: ['quoted', 'derived', 'fromMemory'],
      memory: ['fromMemory'],
      practice: ['commonPractice', 'fromMemory'],
      derived: ['derived'],
      owner: ['boatFile'],
    };
    const claims = filesUnder('core').flatMap((file) =>
      [...textOf(file).matchAll(/key: '([\w-]+)',(?: clause: '[^']*',)? standing: '(\w+)'/g)].map(
        ([, key = '', standing = '']) => ({ file, key, standing }),
      ),
    );
    expect(claims.length).toBeGreaterThan(50);
    const known: Readonly<Record<string, Reference | undefined>> = BIBLIOGRAPHY;
    expect(claims.filter(({ key, standing }) => !may[known[key]?.known ?? 'memory'].includes(standing))).toEqual([]);
  });

  it('has a faulty boat, and no faulty boat stands for a rule that is gone', () => {
    const folders = new Set(
      filesUnder('sample-boats')
        .map((file) => /^sample-boats\/faulty\/([^/]+)\//.exec(file)?.[1])
        .filter((folder) => folder !== undefined),
    );
    const known = new Set(ruleIds.map((id) => id.replace('/', '-')));
    expect([...folders].filter((folder) => !known.has(folder))).toEqual([]);
  });
});
