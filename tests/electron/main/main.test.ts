import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { createElectronStub, type StubWindow } from '../../support/electron-stub.cjs';
import { temporaryFolder } from '../../support/temporary-folder';
import { startedShell } from '../started-shell';

// How the window is locked down stands in tests/electron/security.test.ts.
const root = temporaryFolder();
const stub = createElectronStub({ root, userData: path.join(root, 'user') });
vi.mock('electron', () => stub.electron);
const OWN = { senderFrame: { url: 'app://underberth/index.html', parent: null } };

let window: StubWindow;
beforeAll(async () => {
  window = await startedShell(root, stub);
});

describe('the desktop shell', () => {
  it('takes the single-instance lock, then the sandbox and the scheme, before any window', () => {
    expect(stub.noted.order).toEqual(['lock', 'sandbox', 'scheme', 'window']);
  });

  it('answers its scheme with the page and the boats that come with it', async () => {
    const answer = stub.noted.schemeAnswers.get('app');
    if (!answer) throw new Error('the scheme is not answered');
    const get = (url: string) => answer({ url, method: 'GET' });
    const page = await get('app://underberth/');
    expect([page.status, page.headers.get('x-content-type-options')]).toEqual([200, 'nosniff']);
    const boat = await get('app://underberth/sample-boats/minimal/skiff/boat.json');
    expect(await boat.json()).toEqual({ name: 'Skiff' });
    const list = await get('app://underberth/sample-boats/index.json');
    expect(await list.json()).toEqual([{ folder: 'minimal/skiff', boat: 'sample-boats/minimal/skiff/boat.json' }]);
  });

  it('opens by its dialog and saves by token, end to end through its own channels', async () => {
    const ask = (channel: string, payload: unknown, event: unknown = OWN) =>
      stub.noted.ipc.get(channel)?.(event, payload);
    const boat = path.join(root, 'my.boat.json');
    writeFileSync(boat, '{"mine":1}');
    stub.noted.dialogs.open = { canceled: false, filePaths: [boat] };
    const opened = await ask('boat:open', null);
    expect(opened).toMatchObject({ outcome: 'opened', name: 'my.boat.json', text: '{"mine":1}' });
    await expect(ask('boat:open', null, { senderFrame: { url: 'https://example.org', parent: null } })).rejects.toThrow(
      'Refused',
    );
  });

  it('asks the page before a window with unsaved edits closes, and lets it go when told or asked twice', () => {
    const ask = (channel: string, payload: unknown) => stub.noted.ipc.get(channel)?.(OWN, payload);
    return (async () => {
      await ask('window:unsaved', { unsaved: true });
      let closed = 0;
      window.on('closed', () => {
        closed += 1;
      });
      window.close();
      expect([closed, window.webContents.sent]).toEqual([0, [['window:closeRequested']]]);
      await ask('window:closeConfirmed', null);
      expect(closed).toBe(1);
    })();
  });

  it('brings its window forward when started a second time', () => {
    stub.electron.app.emit('activate');
    const latest = stub.noted.windows.at(-1);
    stub.electron.app.emit('second-instance');
    expect(latest?.focused).toBe(true);
  });
});
