import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { createElectronStub, type StubWindow } from '../../support/electron-stub.cjs';
import { temporaryFolder } from '../../support/temporary-folder';

// Source of the duties: Electron's security checklist, 20 items; the number stands beside each check.
const root = temporaryFolder();
const stub = createElectronStub({ root, userData: path.join(root, 'user') });
vi.mock('electron', () => stub.electron);
const OWN = { senderFrame: { url: 'app://underberth/index.html', parent: null } };

let window: StubWindow;
beforeAll(async () => {
  mkdirSync(path.join(root, 'dist', 'renderer'), { recursive: true });
  mkdirSync(path.join(root, 'sample-boats', 'minimal', 'skiff'), { recursive: true });
  writeFileSync(path.join(root, 'dist', 'renderer', 'index.html'), '<!doctype html>');
  writeFileSync(path.join(root, 'sample-boats', 'minimal', 'skiff', 'boat.json'), '{"name":"Skiff"}');
  writeFileSync(path.join(root, 'secret.json'), '"secret"');
  await import('../../../electron/main/main');
  await vi.waitFor(() => expect(stub.noted.windows.length).toBe(1));
  const [first] = stub.noted.windows;
  if (!first) throw new Error('no window');
  window = first;
});

describe('the desktop shell', () => {
  it('takes the single-instance lock, then the sandbox and the scheme, before any window', () => {
    expect(stub.noted.order).toEqual(['lock', 'sandbox', 'scheme', 'window']);
  });

  it('isolates its window (items 2, 3, 4, 6, 11) and sets nothing that loosens it (8, 9, 10)', () => {
    const { preload, ...switches } = window.options.webPreferences;
    expect(preload).toBe(path.join(root, 'dist', 'electron', 'preload.cjs'));
    // The whole literal: a switch added later has to be looked at here.
    expect(switches).toEqual({
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      navigateOnDragDrop: false,
      devTools: true,
      spellcheck: false,
    });
  });

  it('loads its own page by its own scheme and nothing remote (items 1, 18)', () => {
    expect(window.loaded).toEqual(['app://underberth/index.html']);
    expect(stub.noted.schemes).toEqual([
      { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
    ]);
  });

  it('refuses every permission, asked or checked, listed or not (item 5)', async () => {
    const { REFUSED } = await import('../../../electron/main/permissions');
    for (const permission of [...Object.keys(REFUSED), 'something-new']) {
      const answers: boolean[] = [];
      stub.session.requestHandler?.(null, permission, (granted) => answers.push(granted));
      expect(answers).toEqual([false]);
      expect(stub.session.checkHandler?.(null, permission)).toBe(false);
    }
    expect(stub.session.deviceHandler?.({ deviceType: 'usb' })).toBe(false);
  });

  it.each(['will-navigate', 'will-frame-navigate', 'will-redirect'])('stops %s to anywhere else (item 13)', (event) => {
    const stopped = (url: string): boolean => {
      let prevented = false;
      window.webContents.emit(event, { url, preventDefault: () => (prevented = true) });
      return prevented;
    };
    for (const url of [
      'https://example.org/',
      'file:///etc/passwd',
      'app://elsewhere/index.html',
      'app://underberth.example.org/',
      'data:text/html,hello',
      'javascript:alert(1)',
      'nonsense',
    ]) {
      expect([url, stopped(url)]).toEqual([url, true]);
    }
    expect(stopped('app://underberth/index.html?e2e')).toBe(false);
  });

  it('opens no second window and nothing outside (items 12, 14, 15)', async () => {
    for (const url of ['https://example.org/', 'file:///etc/passwd', 'app://underberth/index.html']) {
      expect(window.webContents.windowOpenHandler?.({ url })).toEqual({ action: 'deny' });
    }
    let prevented = false;
    window.webContents.emit('will-attach-webview', { preventDefault: () => (prevented = true) });
    expect(prevented).toBe(true);
    expect(stub.noted.openedOutside).toEqual([]);
  });

  it('would open only https pages of listed hosts outside (item 15)', async () => {
    const { mayOpenOutside } = await import('../../../electron/main/navigation');
    const hosts = new Set(['example.org']);
    expect(mayOpenOutside('https://example.org/page', hosts)).toBe(true);
    for (const url of [
      'http://example.org/',
      'https://example.org:8443/',
      'https://user@example.org/',
      'https://example.org.evil.test/',
      'file://example.org/',
    ]) {
      expect([url, mayOpenOutside(url, hosts)]).toEqual([url, false]);
    }
  });

  it('answers its scheme with the one content policy, and never from outside its two folders (items 7, 18)', async () => {
    const answer = stub.noted.schemeAnswers.get('app');
    if (!answer) throw new Error('the scheme is not answered');
    const get = (url: string) => answer({ url, method: 'GET' });
    const page = await get('app://underberth/');
    expect(page.status).toBe(200);
    const policy = page.headers.get('content-security-policy') ?? '';
    for (const part of ["default-src 'self'", "script-src 'self'", "object-src 'none'", "frame-ancestors 'none'"]) {
      expect(policy.split('; ')).toContain(part);
    }
    expect(policy).not.toMatch(/unsafe-eval|https?:|\*/);
    expect(page.headers.get('x-content-type-options')).toBe('nosniff');
    const boat = await get('app://underberth/sample-boats/minimal/skiff/boat.json');
    expect(await boat.json()).toEqual({ name: 'Skiff' });
    const list = await get('app://underberth/sample-boats/index.json');
    expect(await list.json()).toEqual([{ folder: 'minimal/skiff', boat: 'sample-boats/minimal/skiff/boat.json' }]);
    for (const way of [
      '/sample-boats/..%2f..%2fsecret.json',
      '/sample-boats/%2e%2e%2f%2e%2e%2fsecret.json',
      '/..%5c..%5csecret.json',
      '/sample-boats/minimal/%252e%252e/secret.json',
      '/%00',
      '/C:/secret.json',
      '/secret.json',
    ]) {
      const refused = await get(`app://underberth${way}`);
      expect([way, refused.status >= 400, (await refused.text()).includes('secret')]).toEqual([way, true, false]);
    }
    expect((await get('app://elsewhere/index.html')).status).toBe(404);
    expect((await answer({ url: 'app://underberth/', method: 'POST' })).status).toBe(405);
  });

  it('opens by its dialog and saves by token, end to end through its own channels (items 17, 20)', async () => {
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

describe('a second copy', () => {
  it('quits at once and opens nothing', async () => {
    vi.resetModules();
    const second = createElectronStub({ root, userData: path.join(root, 'user'), firstInstance: false });
    vi.doMock('electron', () => second.electron);
    await import('../../../electron/main/main');
    expect([second.electron.app.quitted, second.noted.order, second.noted.windows.length]).toEqual([true, ['lock'], 0]);
  });
});
