import { existsSync, mkdirSync, readFileSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { GrantedPaths } from '@electron/files/granted-paths';
import { PictureFiles } from '@electron/files/picture-files';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder';

// derived: first bytes of the kinds, W3C PNG 5.2, ITU-T T.81 B.1.1.3, RFC 9649 2.4 (from memory of those texts).
const PNG = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3, 4]);
const JPEG = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16]);
const WEBP = new TextEncoder().encode('RIFF....WEBPVP8 ');
const PROGRAM = new Uint8Array([0x4d, 0x5a, 0x90, 0x00, 0x03, 0x00, 0x00, 0x00]);

describe('pictures beside the boat', () => {
  const folder = temporaryFolder();
  const at = (...parts: string[]): string => path.join(folder, ...parts);
  mkdirSync(at('boat'));
  writeFileSync(at('secret.png'), PNG);
  const granted = new GrantedPaths();
  const token = granted.grant(at('boat', 'boat.json'));
  const files = new PictureFiles(granted);

  it.each([
    ['bilge.png', PNG],
    ['bilge.jpg', JPEG],
    ['bilge.webp', WEBP],
  ])('are written into its folder and read back as they are: %s', async (name, content) => {
    expect(await files.keep({ token, name, content })).toEqual({ outcome: 'kept' });
    expect([...readFileSync(at('boat', name))]).toEqual([...content]);
    expect(await files.read({ token, name })).toEqual({ outcome: 'read', content });
    expect(await files.keep({ token, name, content })).toEqual({ outcome: 'kept' });
  });

  it('never take the place of another file of that name', async () => {
    writeFileSync(at('boat', 'own.png'), 'notes of the owner');
    const refused = await files.keep({ token, name: 'own.png', content: PNG });
    expect(refused).toMatchObject({ outcome: 'problem', code: 'notWritten' });
    expect(readFileSync(at('boat', 'own.png'), 'utf8')).toBe('notes of the owner');
  });

  it('are pictures by content: a renamed program is neither written nor read', async () => {
    expect(await files.keep({ token, name: 'holiday.jpg', content: PROGRAM })).toMatchObject({
      code: 'wrongKind',
      message: expect.stringContaining('holiday.jpg'),
    });
    expect(existsSync(at('boat', 'holiday.jpg'))).toBe(false);
    writeFileSync(at('boat', 'planted.jpg'), PROGRAM);
    expect(await files.read({ token, name: 'planted.jpg' })).toMatchObject({ code: 'wrongKind' });
  });

  it('name file and limit when they are too large, without reading them', async () => {
    writeFileSync(at('boat', 'poster.png'), PNG);
    truncateSync(at('boat', 'poster.png'), 30 * 1024 * 1024 + 1);
    const refused = await files.read({ token, name: 'poster.png' });
    expect(refused).toMatchObject({ outcome: 'problem', code: 'tooLarge' });
    expect(refused.outcome === 'problem' && refused.message).toMatch(/poster\.png.*30 MB/);
  });

  it('tell a file that is missing, a folder and a boat that was not opened here apart', async () => {
    mkdirSync(at('boat', 'folder.png'));
    const codes = async (name: string, of = token) => {
      const read = await files.read({ token: of, name });
      return read.outcome === 'problem' ? [read.code, read.message] : [];
    };
    expect(await codes('none.png')).toEqual(['unreadable', 'none.png is not beside the boat file.']);
    expect((await codes('folder.png'))[0]).toBe('unreadable');
    expect((await codes('bilge.png', 'f'.repeat(32)))[0]).toBe('noSuchToken');
    expect(await files.keep({ token: 'f'.repeat(32), name: 'a.png', content: PNG })).toMatchObject({
      code: 'noSuchToken',
    });
  });

  it.skipIf(process.platform === 'win32')('do not follow a link out of the folder', async () => {
    symlinkSync(at('secret.png'), at('boat', 'linked.png'));
    expect(await files.read({ token, name: 'linked.png' })).toMatchObject({ outcome: 'problem', code: 'unreadable' });
  });
});
