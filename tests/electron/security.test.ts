import { readFileSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { BoatFiles } from '@electron/files/boat-files';
import { CONTENT_POLICY } from '@electron/files/content-policy';
import { GrantedPaths } from '@electron/files/granted-paths';
import { FuseV1Options, FuseVersion, flipFuses, getCurrentFuseWire } from '@electron/fuses';
import { CHANNELS } from '@electron/ipc/channels';
import { BOAT_BYTES_LIMIT, contract, EXPORT_BYTES_LIMIT, PICTURE_BYTES_LIMIT } from '@electron/ipc/contract';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { inProject } from '../../electron/launch/project.mjs';
import { filesUnder, textOf } from '../architecture/sources';
import { createElectronStub, type StubWindow } from '../support/electron-stub.cjs';
import { temporaryFolder } from '../support/temporary-folder';
import { startedShell, WINDOW_PATIENCE } from './started-shell';

/**
 * Electron's security checklist, its 20 items in their order and by its own numbers (published: electronjs.org, docs,
 * tutorial/security), each with what is asserted of this program. Then what the list does not have and we do.
 */
const root = temporaryFolder();
const stub = createElectronStub({ root, userData: path.join(root, 'user') });
vi.mock('electron', () => stub.electron);

let window: StubWindow;
beforeAll(async () => {
  window = await startedShell(root, stub);
});

const OWN = { senderFrame: { url: 'app://underberth/index.html', parent: null } };
const switches = () => window.options.webPreferences;
const sources = (...folders: string[]) =>
  folders.flatMap(filesUnder).filter((file) => /\.(ts|tsx|mts|html)$/.test(file));
const holding = (pattern: RegExp, ...folders: string[]): readonly string[] =>
  sources(...folders).filter((file) => pattern.test(textOf(file)));
const ask = (channel: string, payload: unknown, event: unknown = OWN): Promise<unknown> => {
  const listener = stub.noted.ipc.get(channel);
  if (!listener) throw new Error(`no listener for ${channel}`);
  return listener(event, payload);
};
const scheme = (url: string, method = 'GET'): Promise<Response> => {
  const answer = stub.noted.schemeAnswers.get('app');
  if (!answer) throw new Error('the scheme is not answered');
  return answer({ url, method });
};
const isStopped = (event: string, url: string): boolean => {
  let prevented = false;
  window.webContents.emit(event, { url, preventDefault: () => (prevented = true) });
  return prevented;
};
/** Addresses that must never be gone to: other hosts, files, look-alikes, code. */
const ELSEWHERE = [
  'https://example.org/',
  'http://127.0.0.1/',
  'file:///etc/passwd',
  'app://elsewhere/index.html',
  'app://underberth.example.org/',
  'app://underberth@example.org/',
  'data:text/html,hello',
  'javascript:alert(1)',
  'blob:https://example.org/1',
  'nonsense',
];
/** What the policy allows, by directive. */
const policy = (): ReadonlyMap<string, string> =>
  new Map(CONTENT_POLICY.split('; ').map((part) => [part.split(' ', 1)[0] ?? '', part.slice(part.indexOf(' ') + 1)]));

interface Item {
  readonly number: number;
  readonly title: string;
  readonly asserted: string;
  check(): void | Promise<void>;
}

const ITEMS: readonly Item[] = [
  {
    number: 1,
    title: 'Only load secure content',
    asserted: 'the one page is app://, the policy allows no other host, no source fetches from one',
    check() {
      expect(window.loaded).toEqual(['app://underberth/index.html']);
      expect(policy().get('connect-src')).toBe("'self'");
      expect(CONTENT_POLICY).not.toMatch(/https?:|\*|ws:/);
      expect(
        holding(/(fetch|import|WebSocket|EventSource)\(\s*['"`](https?:|\/\/)/, 'renderer', 'electron', 'core'),
      ).toEqual([]);
    },
  },
  {
    number: 2,
    title: 'Do not enable Node.js integration for remote content',
    asserted: 'nodeIntegration is off, in workers and frames too',
    check: () =>
      expect(switches()).toMatchObject({
        nodeIntegration: false,
        nodeIntegrationInWorker: false,
        nodeIntegrationInSubFrames: false,
      }),
  },
  {
    number: 3,
    title: 'Enable context isolation',
    asserted: 'contextIsolation is on, and the preload gives by contextBridge alone',
    check() {
      expect(switches().contextIsolation).toBe(true);
      expect(textOf('electron/preload/preload.ts')).not.toMatch(/\bwindow\.|globalThis/);
    },
  },
  {
    number: 4,
    title: 'Enable process sandboxing',
    asserted: 'for the program as a whole before any window, and for the window',
    check() {
      expect(stub.noted.order.indexOf('sandbox')).toBeLessThan(stub.noted.order.indexOf('window'));
      expect(stub.noted.order).toContain('sandbox');
      expect(switches().sandbox).toBe(true);
    },
  },
  {
    number: 5,
    title: 'Handle session permission requests',
    asserted: 'every permission is refused, asked or checked, listed or not; devices and downloads too',
    async check() {
      const { REFUSED } = await import('../../electron/main/permissions');
      for (const permission of [...Object.keys(REFUSED), 'something-new']) {
        const answers: boolean[] = [];
        stub.session.requestHandler?.(null, permission, (granted) => answers.push(granted));
        expect([permission, answers]).toEqual([permission, [false]]);
        expect(stub.session.checkHandler?.(null, permission)).toBe(false);
      }
      expect(stub.session.deviceHandler?.({ deviceType: 'usb' })).toBe(false);
      let prevented = false;
      stub.session.emit('will-download', { preventDefault: () => (prevented = true) });
      expect(prevented).toBe(true);
    },
  },
  {
    number: 6,
    title: 'Do not disable webSecurity',
    asserted: 'it is on, and said to be',
    check: () => expect(switches().webSecurity).toBe(true),
  },
  {
    number: 7,
    title: 'Define a Content-Security-Policy',
    asserted: 'one policy, as a header of every answer, no tag; scripts from the program alone',
    async check() {
      const page = await scheme('app://underberth/');
      expect(page.headers.get('content-security-policy')).toBe(CONTENT_POLICY);
      expect((await scheme('app://underberth/sample-boats/index.json')).headers.get('content-security-policy')).toBe(
        CONTENT_POLICY,
      );
      for (const [directive, allowed] of Object.entries({
        'default-src': "'self'",
        'script-src': "'self'",
        'worker-src': "'self'",
        'object-src': "'none'",
        'base-uri': "'none'",
        'form-action': "'none'",
        'frame-ancestors': "'none'",
      })) {
        expect([directive, policy().get(directive)]).toEqual([directive, allowed]);
      }
      expect(policy().get('script-src')).not.toMatch(/unsafe|data:|blob:/);
      expect(readFileSync(inProject('renderer', 'index.html'), 'utf8')).not.toMatch(/http-equiv/i);
    },
  },
  ...(
    [
      [8, 'Do not enable allowRunningInsecureContent', /allowRunningInsecureContent/],
      [9, 'Do not enable experimental features', /experimentalFeatures/],
      [10, 'Do not use enableBlinkFeatures', /enableBlinkFeatures|appendSwitch/],
    ] as const
  ).map(
    ([number, title, pattern]): Item => ({
      number,
      title,
      asserted: 'no source names it, and the window has no switch but those listed',
      check() {
        expect(holding(pattern, 'electron')).toEqual([]);
        // The whole literal: a switch added later has to be looked at here.
        expect(Object.keys(switches()).sort()).toEqual([
          'contextIsolation',
          'devTools',
          'navigateOnDragDrop',
          'nodeIntegration',
          'nodeIntegrationInSubFrames',
          'nodeIntegrationInWorker',
          'preload',
          'sandbox',
          'spellcheck',
          'webSecurity',
          'webviewTag',
        ]);
      },
    }),
  ),
  {
    number: 11,
    title: 'Do not use allowpopups for webviews',
    asserted: 'there is no webview: the tag is off and no source has it',
    check() {
      expect(switches().webviewTag).toBe(false);
      expect(holding(/<webview|allowpopups/i, 'renderer', 'electron')).toEqual([]);
    },
  },
  {
    number: 12,
    title: 'Verify webview options before creation',
    asserted: 'attaching one is prevented',
    check() {
      let prevented = false;
      window.webContents.emit('will-attach-webview', { preventDefault: () => (prevented = true) });
      expect(prevented).toBe(true);
    },
  },
  {
    number: 13,
    title: 'Disable or limit navigation',
    asserted:
      'will-navigate, will-frame-navigate and will-redirect go nowhere but to the own page; a dropped file neither',
    check() {
      for (const event of ['will-navigate', 'will-frame-navigate', 'will-redirect']) {
        for (const url of ELSEWHERE) expect([event, url, isStopped(event, url)]).toEqual([event, url, true]);
        expect(isStopped(event, 'app://underberth/index.html?e2e')).toBe(false);
      }
      expect(switches().navigateOnDragDrop).toBe(false);
    },
  },
  {
    number: 14,
    title: 'Disable or limit creation of new windows',
    asserted: 'every wish for a window is denied, the own page’s too',
    check() {
      for (const url of [...ELSEWHERE, 'app://underberth/index.html']) {
        expect(window.webContents.windowOpenHandler?.({ url })).toEqual({ action: 'deny' });
      }
    },
  },
  {
    number: 15,
    title: 'Do not use shell.openExternal with untrusted content',
    asserted: 'https and a list of hosts, without user or port; the list is empty, nothing was opened',
    async check() {
      const { mayOpenOutside, OUTSIDE_HOSTS } = await import('../../electron/main/navigation');
      const hosts = new Set(['example.org']);
      expect(mayOpenOutside('https://example.org/page', hosts)).toBe(true);
      for (const url of [
        'http://example.org/',
        'https://example.org:8443/',
        'https://user@example.org/',
        'https://example.org.evil.test/',
        'file://example.org/',
        'javascript://example.org/%0aalert(1)',
        'nonsense',
      ]) {
        expect([url, mayOpenOutside(url, hosts)]).toEqual([url, false]);
      }
      expect([...OUTSIDE_HOSTS]).toEqual([]);
      expect(stub.noted.openedOutside).toEqual([]);
      expect(holding(/openExternal/, 'electron')).toEqual([
        'electron/main/navigation.ts',
        'electron/main/permissions.ts',
      ]);
    },
  },
  {
    number: 16,
    title: 'Use a current version of Electron',
    asserted: 'pinned exactly, in the lock file as in the manifest',
    check() {
      const manifest = JSON.parse(readFileSync(inProject('package.json'), 'utf8'));
      const lock = JSON.parse(readFileSync(inProject('package-lock.json'), 'utf8'));
      expect(manifest.devDependencies.electron).toMatch(/^\d+\.\d+\.\d+$/);
      expect(lock.packages['node_modules/electron'].version).toBe(manifest.devDependencies.electron);
    },
  },
  {
    number: 17,
    title: 'Validate the sender of all IPC messages',
    asserted: 'on every channel: the main frame of the own page, or nothing is done',
    async check() {
      expect([...stub.noted.ipc.keys()].sort()).toEqual([...CHANNELS].sort());
      const strangers = [
        { senderFrame: null },
        { senderFrame: { url: 'app://underberth/index.html', parent: {} } },
        ...ELSEWHERE.map((url) => ({ senderFrame: { url, parent: null } })),
      ];
      for (const channel of CHANNELS) {
        for (const stranger of strangers) await expect(ask(channel, null, stranger)).rejects.toThrow('Refused');
      }
    },
  },
  {
    number: 18,
    title: 'Avoid usage of the file:// protocol',
    asserted: 'an own scheme, of which no spelling leaves its two folders',
    async check() {
      expect(stub.noted.schemes).toEqual([
        { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
      ]);
      expect(holding(/loadFile\(|['"`]file:/, 'electron/main', 'electron/preload')).toEqual([]);
      for (const way of [
        '/sample-boats/..%2f..%2fsecret.json',
        '/sample-boats/%2e%2e%2f%2e%2e%2fsecret.json',
        '/..%5c..%5csecret.json',
        '/sample-boats/minimal/%252e%252e/secret.json',
        '/%00',
        '/C:/secret.json',
        '/secret.json',
      ]) {
        const refused = await scheme(`app://underberth${way}`);
        expect([way, refused.status >= 400, (await refused.text()).includes('secret')]).toEqual([way, true, false]);
      }
      expect((await scheme('app://elsewhere/index.html')).status).toBe(404);
      expect((await scheme('app://underberth/', 'POST')).status).toBe(405);
    },
  },
  {
    number: 19,
    title: 'Check which fuses you can change',
    asserted:
      'as the packager is told, put into a stand-in binary and read back; package.test.ts does it with the packager itself',
    async check() {
      const told = readFileSync(inProject('electron-builder.yml'), 'utf8');
      const isOn = (name: string): boolean => {
        const found = new RegExp(`^  ${name}: (true|false)$`, 'm').exec(told)?.[1];
        if (found === undefined) throw new Error(`electron-builder.yml: expected the fuse ${name}`);
        return found === 'true';
      };
      const binary = path.join(root, 'electron');
      // The mark of the fuses in a binary, published in the package @electron/fuses; version 1, nine fuses, all on.
      writeFileSync(
        binary,
        Buffer.concat([Buffer.from('dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX'), Buffer.from([1, 9]), Buffer.alloc(9, '1')]),
      );
      await flipFuses(binary, {
        version: FuseVersion.V1,
        [FuseV1Options.RunAsNode]: isOn('runAsNode'),
        [FuseV1Options.EnableCookieEncryption]: isOn('enableCookieEncryption'),
        [FuseV1Options.EnableNodeOptionsEnvironmentVariable]: isOn('enableNodeOptionsEnvironmentVariable'),
        [FuseV1Options.EnableNodeCliInspectArguments]: isOn('enableNodeCliInspectArguments'),
        [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]: isOn('enableEmbeddedAsarIntegrityValidation'),
        [FuseV1Options.OnlyLoadAppFromAsar]: isOn('onlyLoadAppFromAsar'),
        [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: isOn('loadBrowserProcessSpecificV8Snapshot'),
        [FuseV1Options.GrantFileProtocolExtraPrivileges]: isOn('grantFileProtocolExtraPrivileges'),
      });
      const wire = await getCurrentFuseWire(binary);
      const read = (fuse: FuseV1Options): string => String.fromCharCode(wire[fuse] ?? 0);
      expect(read(FuseV1Options.RunAsNode)).toBe('0');
      expect(read(FuseV1Options.EnableNodeOptionsEnvironmentVariable)).toBe('0');
      expect(read(FuseV1Options.EnableNodeCliInspectArguments)).toBe('0');
      expect(read(FuseV1Options.GrantFileProtocolExtraPrivileges)).toBe('0');
      expect(read(FuseV1Options.EnableCookieEncryption)).toBe('1');
      expect(read(FuseV1Options.EnableEmbeddedAsarIntegrityValidation)).toBe('1');
      expect(read(FuseV1Options.OnlyLoadAppFromAsar)).toBe('1');
    },
  },
  {
    number: 20,
    title: 'Do not expose Electron APIs to untrusted web content',
    asserted: 'the preload gives named functions, one a channel, and neither ipcRenderer nor an event',
    check() {
      const preload = textOf('electron/preload/preload.ts');
      expect([...preload.matchAll(/exposeInMainWorld\(/g)].length).toBe(1);
      expect(preload).not.toMatch(/exposeInMainWorld\([^)]*ipcRenderer/);
      expect(holding(/from 'electron'/, 'renderer', 'core')).toEqual([]);
      for (const channel of CHANNELS) expect(preload).toContain(`'${channel}'`);
    },
  },
];

describe('Electron’s security checklist', () => {
  it('is here with each of its 20 items, in their order', () => {
    expect(ITEMS.map(({ number }) => number)).toEqual(Array.from({ length: 20 }, (_, index) => index + 1));
  });
  it.each(ITEMS)('$number. $title: $asserted', ({ check }) => check());
});

describe('beyond the checklist', () => {
  it('there is one copy of the program: the lock is taken first, and a second copy does nothing but quit', async () => {
    expect(stub.noted.order[0]).toBe('lock');
    vi.resetModules();
    const second = createElectronStub({ root, userData: path.join(root, 'user'), firstInstance: false });
    vi.doMock('electron', () => second.electron);
    await import('../../electron/main/main');
    expect([second.electron.app.quitted, second.noted.order, second.noted.windows]).toEqual([true, ['lock'], []]);
    vi.doMock('electron', () => stub.electron);
  });

  it('developer tools are off in the packaged program, in its window and in its menu', async () => {
    vi.resetModules();
    const packaged = createElectronStub({ root, userData: path.join(root, 'user'), packaged: true });
    vi.doMock('electron', () => packaged.electron);
    await import('../../electron/main/main');
    await vi.waitFor(() => expect(packaged.noted.windows.length).toBe(1), WINDOW_PATIENCE);
    expect(packaged.noted.windows[0]?.options.webPreferences.devTools).toBe(false);
    expect(JSON.stringify(packaged.noted.menus)).not.toContain('toggleDevTools');
    expect(JSON.stringify(stub.noted.menus)).toContain('toggleDevTools');
    vi.doMock('electron', () => stub.electron);
  });

  it('paths come from dialogs and from the own journal: no channel takes one, and no token is guessed', async () => {
    const secret = path.join(root, 'secret.json');
    for (const payload of [secret, { path: secret }, { token: secret }, { file: secret }]) {
      for (const channel of CHANNELS) {
        if (channel === 'boat:open' && payload === null) continue;
        await expect(ask(channel, payload)).rejects.toThrow();
      }
    }
    const token = 'a'.repeat(32);
    for (const [channel, payload] of [
      ['boat:save', { token, suggestedName: 'a.json', text: '{}', replaces: null }],
      ['boat:look', { token }],
      ['boat:versions', { token }],
      ['picture:read', { token, name: 'a.png' }],
    ] as const) {
      expect(await ask(channel, payload)).toMatchObject({ outcome: 'problem', code: 'noSuchToken' });
    }
    expect(readFileSync(secret, 'utf8')).toBe('"secret"');
    // A token says nothing of the path that it stands for.
    const granted = new GrantedPaths();
    expect(granted.grant(secret)).toMatch(/^[0-9a-f]{32}$/);
    expect(new GrantedPaths().pathOf(granted.grant(secret))).toBeNull();
  });

  it('sizes are limited before memory is spent: of what is opened, saved, exported, journalled, pictured', async () => {
    const large = path.join(root, 'large.json');
    writeFileSync(large, '');
    truncateSync(large, BOAT_BYTES_LIMIT + 1);
    stub.noted.dialogs.open = { canceled: false, filePaths: [large] };
    expect(await ask('boat:open', null)).toMatchObject({ outcome: 'problem', code: 'tooLarge' });
    const files = new BoatFiles(new GrantedPaths(), {
      boatToOpen: async () => null,
      boatToSave: async () => path.join(root, 'x.json'),
      exportTo: async () => null,
    });
    // Fewer characters than the limit may be more bytes.
    const text = 'ü'.repeat(BOAT_BYTES_LIMIT / 2 + 1);
    expect(await files.save({ token: null, suggestedName: 'x.json', text, replaces: null })).toMatchObject({
      code: 'tooLarge',
    });
    const refuses = (channel: keyof typeof contract, payload: unknown): boolean =>
      !contract[channel].in.safeParse(payload).success;
    const token = 'a'.repeat(32);
    const documentId = 'document-1';
    expect(
      refuses('boat:save', { token, suggestedName: 'a.json', replaces: null, text: 'x'.repeat(BOAT_BYTES_LIMIT + 1) }),
    ).toBe(true);
    expect(refuses('export:save', { suggestedName: 'a.pdf', content: new Uint8Array(EXPORT_BYTES_LIMIT + 1) })).toBe(
      true,
    );
    expect(refuses('picture:keep', { token, name: 'a.png', content: new Uint8Array(PICTURE_BYTES_LIMIT + 1) })).toBe(
      true,
    );
    expect(refuses('journal:append', { documentId, entry: 'x'.repeat(4 * 1024 * 1024 + 1) })).toBe(true);
  });

  it('a page whose process has gone is loaded anew, three times and no more', () => {
    for (let time = 0; time < 5; time++) window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(window.webContents.reloads).toBe(3);
  });
});
