import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inProject } from '../../electron/launch/project.mjs';
import { filesUnder, textOf } from './sources';

const TEXT = /\.(ts|tsx|mts|cts|mjs|cjs|json|md|yml|css|html|grit)$|^LICENSE$|^\.ci\//;
const OWN = 'tests/architecture/files.test.ts';
const texts = filesUnder().filter((file) => TEXT.test(file) && file !== 'package-lock.json' && file !== OWN);

describe('the files', () => {
  it('lie in the folders of the map, and nothing else stands at the top', () => {
    const folders = ['.ci', 'core', 'electron', 'renderer', 'sample-boats', 'tests'];
    const top = [
      ...[
        '.gitignore',
        'DEVELOPERS.md',
        'LICENSE',
        'README.md',
        'biome.json',
        'electron-builder.yml',
        'package-lock.json',
      ],
      ...['package.json', 'tsconfig.base.json', 'tsconfig.json', 'vitest.config.ts'],
    ];
    const found = new Set(filesUnder().map((file) => file.split('/')[0] ?? ''));
    expect([...found].filter((name) => !folders.includes(name) && !top.includes(name))).toEqual([]);
    expect([...folders, ...top].filter((name) => !existsSync(inProject(name)))).toEqual([]);
  });

  it('name no place on the machine of whoever wrote them', () => {
    const place = /(^|[\s"'`(=])\/(home|work|Users|root|tmp|var|mnt)\/[a-z]|\b[A-Z]:\\\\?Users/;
    const naming = texts.filter((file) => place.test(textOf(file).replaceAll('/home/skipper/', '')));
    expect(naming).toEqual([]);
  });

  it('switch no check off and leave nothing for later', () => {
    const excuse =
      /@ts-(ignore|nocheck|expect-error)|biome-ignore|\b(it|test|describe)\.(only|skip|todo)\(|\bTODO\b|\bFIXME\b|not implemented/;
    expect(texts.filter((file) => excuse.test(textOf(file)))).toEqual([]);
  });

  it('are pinned exactly, with a lock', () => {
    const { dependencies, devDependencies } = JSON.parse(textOf('package.json'));
    const versions: readonly [string, string][] = Object.entries({ ...dependencies, ...devDependencies });
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
    expect(existsSync(inProject('package-lock.json'))).toBe(true);
  });
});
