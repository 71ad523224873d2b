import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { CHANNELS } from '@electron/ipc/channels';
import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../../electron/launch/build.mjs';
import { inProject } from '../../../electron/launch/project.mjs';
import { temporaryFolder } from '../../support/temporary-folder';

describe('the built shell', () => {
  const folder = temporaryFolder();
  beforeAll(() => ensureBuilt(['desktop']));

  it('boots in plain Node with a stand-in for electron: one window, every channel', () => {
    // Node loads this before main.cjs, and main.cjs then finds the stand-in under the name electron.
    writeFileSync(
      path.join(folder, 'stand-in.cjs'),
      `const Module = require('node:module');
       const { createElectronStub } = require(${JSON.stringify(inProject('tests', 'support', 'electron-stub.cjs'))});
       const stub = createElectronStub({ root: ${JSON.stringify(inProject())}, userData: ${JSON.stringify(folder)} });
       const load = Module._load;
       Module._load = (name, ...rest) => (name === 'electron' ? stub.electron : load(name, ...rest));
       process.on('exit', () => process.stdout.write(JSON.stringify({
         order: stub.noted.order, channels: [...stub.noted.ipc.keys()], loaded: stub.noted.windows.map((w) => w.loaded),
       })));`,
    );
    const run = spawnSync(
      process.execPath,
      ['--require', path.join(folder, 'stand-in.cjs'), inProject('dist', 'electron', 'main.cjs')],
      { encoding: 'utf8' },
    );
    expect(run.stderr).toBe('');
    const { order, channels, loaded } = JSON.parse(run.stdout);
    expect(order).toEqual(['lock', 'sandbox', 'scheme', 'window']);
    expect(channels).toContain('boat:save');
    expect(channels.length).toBe(CHANNELS.length);
    expect(loaded).toEqual([['app://underberth/index.html']]);
  });

  it('has a preload that asks for electron and nothing else, as the sandbox demands', () => {
    const code = readFileSync(inProject('dist', 'electron', 'preload.cjs'), 'utf8');
    const required = [...code.matchAll(/require\(["']([^"']+)["']\)/g)].map(([, name]) => name);
    expect(required).toEqual(['electron']);
    expect(code).not.toMatch(/exposeInMainWorld\([^)]*ipcRenderer\b/);
  });
});
