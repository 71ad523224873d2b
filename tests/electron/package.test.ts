import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { createPackage, listPackage } from '@electron/asar';
import { FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../electron/launch/build.mjs';
import { inProject } from '../../electron/launch/project.mjs';
import { temporaryFolder } from '../support/temporary-folder';

/** Marks the fuses in an Electron binary; published in the package @electron/fuses. */
const SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';
const FUSES = 9;
const ON = '1'.charCodeAt(0);

const folder = temporaryFolder();
const at = (...parts: string[]): string => path.join(folder, ...parts);
const builder = (...words: string[]) =>
  spawnSync(process.execPath, [inProject('node_modules', 'electron-builder', 'cli.js'), ...words], {
    cwd: at('project'),
    encoding: 'utf8',
  });

/** A folder that the packager takes for an unpacked Electron: a binary that is its fuses alone. */
async function standInElectron(): Promise<string> {
  for (const name of ['locales', 'resources', 'nothing']) mkdirSync(at('electron', name), { recursive: true });
  const fuses = [1, FUSES, ...Array.from({ length: FUSES }, () => ON)];
  writeFileSync(at('electron', 'electron'), Buffer.concat([Buffer.from(`stand-in${SENTINEL}`), Buffer.from(fuses)]));
  const { version } = JSON.parse(readFileSync(inProject('node_modules', 'electron', 'package.json'), 'utf8'));
  writeFileSync(at('electron', 'version'), version);
  writeFileSync(at('electron', 'LICENSE'), '');
  for (const language of ['en-US', 'de']) writeFileSync(at('electron', 'locales', `${language}.pak`), '');
  writeFileSync(at('electron', 'nothing', 'package.json'), '{}');
  await createPackage(at('electron', 'nothing'), at('electron', 'resources', 'default_app.asar'));
  return at('electron');
}

beforeAll(async () => {
  ensureBuilt(['renderer', 'desktop']);
  // Packed from a copy, so that nothing is written beside the sources.
  for (const place of [
    'package.json',
    'package-lock.json',
    'electron-builder.yml',
    'LICENSE',
    'dist',
    'sample-boats',
  ]) {
    cpSync(inProject(place), at('project', place), { recursive: true });
  }
  // The packager walks the packages to find what must come along: nothing, as all are bundled.
  symlinkSync(inProject('node_modules'), at('project', 'node_modules'), 'junction');
  for (const name of ['core/analyze.ts', '.env', 'tests/a.test.ts']) {
    mkdirSync(path.dirname(at('project', name)), { recursive: true });
    writeFileSync(at('project', name), '');
  }
});

describe('the package', () => {
  const out = at('out');
  const unpacked = path.join(out, 'linux-unpacked');

  it('is built by the packager from its configuration', async () => {
    const electron = await standInElectron();
    const run = builder('--linux', 'dir', '-c.electronDist', electron, '-c.directories.output', out);
    expect(run.status, run.stdout + run.stderr).toBe(0);
  });

  it('holds the built page, the two built files of the shell, the sample boats, and nothing else', () => {
    const files = listPackage(path.join(unpacked, 'resources', 'app.asar'), { isPack: false }).map((file) =>
      file.replaceAll('\\', '/'),
    );
    expect(files).toContain('/dist/renderer/index.html');
    // Terms of the bundled packages, and of the letters (OFL 1.1, condition 2: its text goes with the font).
    expect(files).toContain('/dist/renderer/licences.md');
    expect(files).toContain('/dist/renderer/barlow-OFL.txt');
    expect(files.filter((file) => file.startsWith('/dist/electron/')).sort()).toEqual([
      '/dist/electron/main.cjs',
      '/dist/electron/preload.cjs',
    ]);
    expect(files.filter((file) => file.endsWith('boat.json')).length).toBeGreaterThan(0);
    const allowed = /^\/(dist|dist\/(renderer(\/.*)?|electron(\/.*)?)|sample-boats(\/.*)?|package\.json|LICENSE)$/;
    expect(files.filter((file) => !allowed.test(file))).toEqual([]);
    expect(files.filter((file) => /\.(ts|map|test\..*)$/.test(file))).toEqual([]);
  });

  it('has its fuses set: no Node, no inspector, only the archive, its integrity checked (Electron checklist, 19)', async () => {
    const wire = await getCurrentFuseWire(path.join(unpacked, 'underberth'));
    const isOn = (fuse: FuseV1Options): boolean => wire[fuse] === ON;
    expect({
      runAsNode: isOn(FuseV1Options.RunAsNode),
      nodeOptions: isOn(FuseV1Options.EnableNodeOptionsEnvironmentVariable),
      inspect: isOn(FuseV1Options.EnableNodeCliInspectArguments),
      cookies: isOn(FuseV1Options.EnableCookieEncryption),
      integrity: isOn(FuseV1Options.EnableEmbeddedAsarIntegrityValidation),
      onlyArchive: isOn(FuseV1Options.OnlyLoadAppFromAsar),
      filePrivileges: isOn(FuseV1Options.GrantFileProtocolExtraPrivileges),
    }).toEqual({
      runAsNode: false,
      nodeOptions: false,
      inspect: false,
      cookies: true,
      integrity: true,
      onlyArchive: true,
      filePrivileges: false,
    });
  });

  it.each([
    ['a setting that does not exist', 'asarr: true'],
    ['a fuse that does not exist', 'electronFuses:\n  runAsNodes: false'],
  ])('is not built from %s', (_what, line) => {
    const config = `appId: org.underberth.app\n${line}\n`;
    writeFileSync(at('project', 'wrong.yml'), config);
    const run = builder(
      '--linux',
      'dir',
      '--config',
      'wrong.yml',
      '-c.electronDist',
      at('electron'),
      '-c.directories.output',
      at('wrong'),
    );
    expect(run.status).not.toBe(0);
    expect(run.stdout + run.stderr).toContain('Invalid configuration object');
  });
});
