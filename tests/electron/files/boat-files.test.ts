import { existsSync, mkdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { BoatFiles, type FileDialogs } from '@electron/files/boat-files';
import { GrantedPaths } from '@electron/files/granted-paths';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder';

describe('opening, saving and exporting', () => {
  const folder = temporaryFolder();
  const at = (...parts: string[]): string => path.join(folder, ...parts);
  const files = (answers: { open?: string; save?: string; export?: string }) => {
    const dialogs: FileDialogs = {
      boatToOpen: async () => answers.open ?? null,
      boatToSave: async () => answers.save ?? null,
      exportTo: async () => answers.export ?? null,
    };
    return new BoatFiles(new GrantedPaths(), dialogs);
  };

  it('opens what the dialog chose, and saves back to it by its token, the version before kept', async () => {
    mkdirSync(at('sandwort'));
    writeFileSync(at('sandwort', 'boat.json'), '{"v":1}');
    const work = files({ open: at('sandwort', 'boat.json') });
    const opened = await work.open();
    expect(opened).toMatchObject({ outcome: 'opened', name: 'sandwort/boat.json', text: '{"v":1}' });
    if (opened.outcome !== 'opened') return;
    expect(JSON.stringify(opened)).not.toContain(folder);
    const saved = await work.save({ token: opened.token, suggestedName: 'x.json', text: '{"v":2}', replaces: null });
    expect(saved).toEqual({ outcome: 'saved', token: opened.token, name: 'sandwort/boat.json' });
    expect(readFileSync(at('sandwort', 'boat.json'), 'utf8')).toBe('{"v":2}');
    expect(readFileSync(at('sandwort', 'boat.json.bak1'), 'utf8')).toBe('{"v":1}');
  });

  it('refuses a token that it never gave', async () => {
    const refused = await files({}).save({
      token: 'f'.repeat(32),
      suggestedName: 'x.json',
      text: '{}',
      replaces: null,
    });
    expect(refused).toMatchObject({ outcome: 'problem', code: 'noSuchToken' });
  });

  it('asks where to save a new boat, and gives the name its ending', async () => {
    const saved = await files({ save: at('new') }).save({
      token: null,
      suggestedName: 'new.json',
      text: '{}',
      replaces: null,
    });
    expect(saved).toMatchObject({ outcome: 'saved', name: 'new.json' });
    expect(existsSync(at('new.json'))).toBe(true);
  });

  it('does nothing when the user thinks better of it', async () => {
    const work = files({});
    expect(await work.open()).toEqual({ outcome: 'cancelled' });
    expect(await work.save({ token: null, suggestedName: 'a.json', text: '', replaces: null })).toEqual({
      outcome: 'cancelled',
    });
    expect(await work.exportFile({ suggestedName: 'a.csv', content: '' })).toEqual({ outcome: 'cancelled' });
  });

  it('names file and limit when a file is too large, without reading it', async () => {
    writeFileSync(at('large.json'), '');
    truncateSync(at('large.json'), 20 * 1024 * 1024 + 1);
    const refused = await files({ open: at('large.json') }).open();
    expect(refused).toMatchObject({ outcome: 'problem', code: 'tooLarge' });
    expect(refused.outcome === 'problem' && refused.message).toMatch(/large\.json.*20 MB/);
  });

  it('tells a file that is missing, a folder, and bytes that are no text apart', async () => {
    writeFileSync(at('bytes.json'), new Uint8Array([0xff, 0xfe, 0x00]));
    const codeOf = async (name: string) => {
      const answer = await files({ open: at(name) }).open();
      return answer.outcome === 'problem' && answer.code;
    };
    expect(await codeOf('nowhere.json')).toBe('unreadable');
    expect(await codeOf('.')).toBe('unreadable');
    expect(await codeOf('bytes.json')).toBe('notText');
  });

  it('says so when a save fails, and the boat on the disk stands', async () => {
    writeFileSync(at('file'), 'not a folder');
    const work = files({ save: at('file', 'boat.json') });
    const failed = await work.save({ token: null, suggestedName: 'boat.json', text: '{}', replaces: null });
    expect(failed).toMatchObject({ outcome: 'problem', code: 'notWritten' });
    expect(readFileSync(at('file'), 'utf8')).toBe('not a folder');
  });

  it('exports text and bytes, and only kinds that it knows', async () => {
    const work = files({ export: at('list') });
    const text = await work.exportFile({ suggestedName: 'list.csv', content: 'a,b\r\n' });
    expect(text).toEqual({ outcome: 'saved', name: 'list.csv' });
    expect(readFileSync(at('list.csv'), 'utf8')).toBe('a,b\r\n');
    await work.exportFile({ suggestedName: 'list.pdf', content: new Uint8Array([37, 80]) });
    expect([...readFileSync(at('list.pdf'))]).toEqual([37, 80]);
    const refused = await work.exportFile({ suggestedName: 'list.sh', content: 'rm' });
    expect(refused).toMatchObject({ outcome: 'problem', code: 'wrongKind' });
    expect(existsSync(at('list.sh'))).toBe(false);
  });
});
