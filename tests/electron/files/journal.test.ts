import { appendFileSync, existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { GrantedPaths, stampOf } from '@electron/files/granted-paths';
import { Journals } from '@electron/files/journal';
import { afterAll, describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder';

const documentId = 'document-0001';

describe('the journal of edits', () => {
  const folder = temporaryFolder();
  const begun: Journals[] = [];
  afterAll(() => Promise.all(begun.map((journals) => journals.closeAll())));
  let nth = 0;
  const fresh = () => {
    nth += 1;
    const place = path.join(folder, String(nth));
    const granted = new GrantedPaths();
    const journals = new Journals(place, granted);
    begun.push(journals);
    return { place, granted, journals, file: path.join(place, `${documentId}.journal`) };
  };
  /** Another session over the same folder, as after a crash. */
  const later = (place: string, granted = new GrantedPaths()) => new Journals(place, granted);

  it('gives a later session the base and every edit, in the order in which they were sent', async () => {
    const { place, journals, file } = fresh();
    await journals.start({ documentId, name: 'Sandwort', token: null, baseText: '{"a":1}', isSaved: true });
    const sent = Array.from({ length: 50 }, (_, n) => `edit ${n}\nwith "two" lines`);
    const answers = await Promise.all(sent.map((entry) => journals.append({ documentId, entry })));
    expect(answers.map((answer) => answer.outcome === 'appended' && answer.entries)).toEqual(sent.map((_, n) => n + 1));
    expect(await later(place).list()).toEqual({
      journals: [
        {
          documentId,
          name: 'Sandwort',
          token: null,
          isSaved: true,
          fileText: null,
          baseText: '{"a":1}',
          entries: sent,
          torn: false,
          editedAtMs: statSync(file).mtimeMs,
        },
      ],
      unreadable: [],
    });
  });

  it('is offered to the next page of the same session, and goes on only when it is begun again', async () => {
    const { journals } = fresh();
    await journals.start({ documentId, name: 'n', token: null, baseText: '', isSaved: true });
    await journals.append({ documentId, entry: 'x' });
    expect((await journals.list()).journals.map(({ entries }) => entries)).toEqual([['x']]);
    expect((await journals.append({ documentId, entry: 'y' })).outcome).toBe('problem');
  });

  it('cut at any byte gives the whole edits before the cut, and says that it is torn', async () => {
    const { place, journals, file } = fresh();
    await journals.start({ documentId, name: 'n', token: null, baseText: '{}', isSaved: true });
    for (const entry of ['first', 'zweites Stück', '3']) await journals.append({ documentId, entry });
    const whole = readFileSync(file);
    const lineEnds = [...whole.entries()].filter(([, byte]) => byte === 10).map(([at]) => at + 1);
    for (let cut = 0; cut <= whole.length; cut += 1) {
      writeFileSync(file, whole.subarray(0, cut));
      const lines = lineEnds.filter((end) => end <= cut).length;
      const { journals: left, unreadable } = await later(place).list();
      const [found] = left;
      if (lines === 0) expect([found, unreadable.length]).toEqual([undefined, 1]);
      else {
        expect(found?.entries).toEqual(['first', 'zweites Stück', '3'].slice(0, lines - 1));
        expect(found?.torn).toBe(!lineEnds.includes(cut));
      }
    }
  });

  it('stops at a damaged line, and believes nothing after it', async () => {
    const { place, journals, file } = fresh();
    await journals.start({ documentId, name: 'n', token: null, baseText: '{}', isSaved: true });
    for (const entry of ['one', 'two', 'three']) await journals.append({ documentId, entry });
    writeFileSync(file, readFileSync(file, 'utf8').replace('"two"', '"twn"'));
    expect((await later(place).list()).journals[0]).toMatchObject({ entries: ['one'], torn: true });
  });

  it('knows whether the saved file still is what the journal began with, and lets it be saved to again', async () => {
    const { place, granted, journals } = fresh();
    const boat = path.join(folder, 'saved.json');
    writeFileSync(boat, '{"saved":true}');
    const token = granted.grant(boat, stampOf('{"saved":true}'));
    await journals.start({ documentId, name: 'saved.json', token, baseText: '{"saved":true}', isSaved: true });
    const nextGrants = new GrantedPaths();
    const [same] = (await later(place, nextGrants).list()).journals;
    expect(same?.fileText).toBeNull();
    expect(nextGrants.pathOf(same?.token ?? '')).toBe(boat);
    // A save after recovery looks for anything but this.
    expect(nextGrants.seenAt(same?.token ?? '')).toBe(stampOf('{"saved":true}'));
    appendFileSync(boat, ' ');
    expect((await later(place).list()).journals[0]?.fileText).toBe('{"saved":true} ');
  });

  it('begins anew after a save, goes when cleared, and takes no edit without a beginning', async () => {
    const { place, journals, file } = fresh();
    expect((await journals.append({ documentId, entry: 'x' })).outcome).toBe('problem');
    await journals.start({ documentId, name: 'n', token: null, baseText: 'old', isSaved: true });
    await journals.append({ documentId, entry: 'x' });
    await journals.start({ documentId, name: 'n', token: null, baseText: 'new', isSaved: true });
    expect((await later(place).list()).journals[0]).toMatchObject({ baseText: 'new', entries: [] });
    await journals.clear({ documentId });
    expect(existsSync(file)).toBe(false);
  });
});
