import { spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../../electron/launch/build.mjs';
import { inProject } from '../../../electron/launch/project.mjs';
import { temporaryFolder } from '../../support/temporary-folder';

const folder = temporaryFolder();
const ADDRESS = /http:\/\/127\.0\.0\.1:\d+\//;

/** Starts the app until it says where it is, or ends by itself; then ends it. */
function start(flags: readonly string[], env: Readonly<Record<string, string>>) {
  const { DISPLAY: _display, WAYLAND_DISPLAY: _wayland, ...rest } = process.env;
  const child = spawn(process.execPath, [inProject('electron', 'launch', 'start.mjs'), ...flags], {
    env: { ...rest, PORT: '0', ...env },
  });
  return new Promise<{ out: string; page: string | null; code: number | null }>((resolve) => {
    let out = '';
    let page: string | null = null;
    child.stdout.setEncoding('utf8').on('data', async (text: string) => {
      out += text;
      const [address] = ADDRESS.exec(out) ?? [];
      if (!address || page !== null) return;
      page = await (await fetch(address)).text();
      child.kill();
    });
    child.on('close', (code) => resolve({ out, page, code }));
  });
}

/** A program that stands where the Electron binary would, notes what it was given, and ends with a code. */
function standInBinary(name: string, code: number): { readonly folder: string; readonly noted: string } {
  const place = path.join(folder, name);
  const noted = path.join(place, 'noted.json');
  mkdirSync(place, { recursive: true });
  const script = `#!${process.execPath}
require('node:fs').writeFileSync(${JSON.stringify(noted)}, JSON.stringify(process.argv.slice(2)));
process.exit(${code});
`;
  writeFileSync(path.join(place, 'electron'), script);
  chmodSync(path.join(place, 'electron'), 0o755);
  return { folder: place, noted };
}

describe('npm start', () => {
  beforeAll(() => ensureBuilt(['renderer', 'desktop']));

  it('prints the address of the page and serves it', async () => {
    const { out, page } = await start(['--no-open'], {});
    expect(out).toMatch(ADDRESS);
    expect(page).toContain('<title>Underberth</title>');
  });

  it('refuses a flag that it does not know', async () => {
    const { code, out } = await start(['--kiosk'], {});
    expect([code, out]).toEqual([2, '']);
  });

  // Only Linux tells by a variable whether there is a screen, and starts a script as a program.
  describe.runIf(process.platform === 'linux')('with a screen', () => {
    it('opens the desktop window when the binary is there, and ends with it', async () => {
      const binary = standInBinary('good', 0);
      const { out, code } = await start([], { DISPLAY: ':7', ELECTRON_OVERRIDE_DIST_PATH: binary.folder });
      expect(JSON.parse(readFileSync(binary.noted, 'utf8'))).toEqual([inProject()]);
      expect([code, ADDRESS.test(out)]).toEqual([0, false]);
    });

    it('serves the page when the window dies at once, and never tries one with --browser', async () => {
      const binary = standInBinary('bad', 1);
      const browser = { DISPLAY: ':7', ELECTRON_OVERRIDE_DIST_PATH: binary.folder, PATH: folder };
      expect((await start([], browser)).out).toMatch(ADDRESS);
      const unused = standInBinary('unused', 0);
      const asked = await start(['--browser'], { ...browser, ELECTRON_OVERRIDE_DIST_PATH: unused.folder });
      expect(asked.out).toMatch(ADDRESS);
      expect(existsSync(unused.noted)).toBe(false);
    });

    it('serves the page when the release host has nothing, or takes the call and never answers', async () => {
      const nothing = createServer((_request, response) => response.writeHead(404).end());
      const silent = createServer(() => undefined);
      for (const host of [nothing, silent]) {
        await new Promise<void>((resolve) => host.listen(0, '127.0.0.1', resolve));
        const { port } = host.address() as AddressInfo;
        const { out } = await start([], {
          DISPLAY: ':7',
          ELECTRON_OVERRIDE_DIST_PATH: path.join(folder, 'empty'),
          ELECTRON_MIRROR: `http://127.0.0.1:${port}/`,
          PATH: folder,
        });
        expect(out).toMatch(ADDRESS);
        host.closeAllConnections();
        host.close();
      }
    });
  });
});
