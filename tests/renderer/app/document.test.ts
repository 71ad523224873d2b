import { readBoat } from '@core/boat/read';
import { writeBoat } from '@core/boat/write';
import { useDialogs } from '@renderer/app/dialogs';
import { documentsOver } from '@renderer/app/document';
import { offerNotes, offerWords, useOffers } from '@renderer/app/recovery';
import type {
  Cancelled,
  Changed,
  Gone,
  LeftJournal,
  Opened,
  Refused,
  Same,
  SaveRequest,
  Storage,
  Version,
} from '@renderer/bridge/storage';
import { hasUnsaved, useApp } from '@renderer/store/app';
import { connectEngine } from '@renderer/store/connections';
import { beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

/** Files in memory that answer like a disk and a user. */
function memory(left: readonly LeftJournal[] = []) {
  const saves: SaveRequest[] = [];
  const exports: (string | Uint8Array)[] = [];
  const journal: string[] = [];
  const told: boolean[] = [];
  const shelf: string[] = [];
  const cleared: string[] = [];
  const log: string[] = [];
  const others: { look: Same | Gone | Changed; save: Refused | Changed | null; versions: Version[] } = {
    look: { outcome: 'same' },
    save: null,
    versions: [],
  };
  let lookNow: () => void = () => {};
  let toOpen: Opened | Cancelled = { outcome: 'cancelled' };
  let close: () => void = () => {};
  let closed = false;
  const storage: Storage = {
    kind: 'desktop',
    keepsPlace: true,
    open: async () => toOpen,
    async save(request) {
      saves.push(request);
      const instead = others.save;
      others.save = null;
      if (instead && (instead.outcome === 'problem' || instead.stamp !== request.replaces)) return instead;
      return { outcome: 'saved', name: request.suggestedName, token: request.token ?? 'token-1' };
    },
    look: async () => others.look,
    versions: async () => others.versions,
    onMaybeChanged(listener) {
      lookNow = listener;
      return () => {};
    },
    onAlsoOpen: () => () => {},
    async exportFile({ suggestedName, content }) {
      exports.push(content);
      return { outcome: 'saved', name: suggestedName };
    },
    journal: {
      start: async ({ name }) => void journal.push(`start ${name}`),
      append: async (_, entry) => {
        journal.push(entry);
        log.push('append');
      },
      left: async () => ({ journals: left, unreadable: [] }),
      clear: async (documentId) => {
        if (left.some((one) => one.documentId === documentId)) cleared.push(documentId);
        log.push(`clear ${documentId}`);
      },
    },
    pictures: {
      besideTheBoat: true,
      async keep(token, name) {
        shelf.push(`keep ${name} at ${token}`);
        return name === 'lost.jpg' ? { outcome: 'problem', message: `${name} was not written` } : { outcome: 'kept' };
      },
      async read(token, name) {
        shelf.push(`read ${name} at ${token}`);
        return { outcome: 'read', content: new Uint8Array(4) };
      },
    },
    setUnsaved: (unsaved) => told.push(unsaved),
    onCloseRequest(listener) {
      close = listener;
      return () => {};
    },
    confirmClose() {
      closed = true;
    },
  };
  return {
    storage,
    saves,
    exports,
    journal,
    told,
    shelf,
    cleared,
    log,
    others,
    focus: () => lookNow(),
    pick: (file: Opened) => {
      toOpen = file;
    },
    requestClose: () => close(),
    closed: () => closed,
  };
}

const file = (name: string, text: string): Opened => ({ outcome: 'opened', name, text, token: 'token-of-file' });
const good = file('three.boat.json', JSON.stringify(threeLockers()));
const state = () => useApp.getState();
const answer = async (key: string): Promise<void> => {
  while (!useDialogs.getState().question) await new Promise((resolve) => setTimeout(resolve, 1));
  useDialogs.getState().answer?.(key);
};
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 20));

beforeEach(() => {
  connectEngine(null);
  useApp.setState({ boat: null, problem: null });
  useDialogs.setState({ question: null, answer: null, shown: null });
  useOffers.getState().set([]);
});

describe('documents', () => {
  it('open a file, and save it to where it came from as what it was', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    disk.pick(good);
    await documents.open();
    expect(state().boat?.name).toBe('Three lockers');
    state().nudge('battery', [0.01, 0, 0]);
    expect(await documents.save()).toBe(true);
    expect(disk.saves[0]?.token).toBe('token-of-file');
    const again = readBoat(disk.saves[0]?.text ?? '');
    const { engineVersion: _, ...saved } = again.ok ? again.boat : { engineVersion: '' };
    expect(saved).toEqual(state().boat);
    expect(hasUnsaved(state())).toBe(false);
    expect(disk.told).toEqual([true, false]);
  });

  it('a broken file is refused by path, value and limit, and the open boat stays', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    await documents.openFile(good);
    const before = state().boat;
    const broken = threeLockers();
    const pump = broken.compartments?.middle;
    if (pump) pump.rangeM = [1, 99_999];
    await documents.openFile(file('broken.boat.json', JSON.stringify(broken)));
    expect(state().boat).toBe(before);
    expect(state().problem?.title).toBe('broken.boat.json was not opened.');
    // derived: lengths in a boat file end at 1000 m
    expect(state().problem?.lines.join(' ')).toMatch(/compartments\.middle\.rangeM\[1\] is 99999.*1000/);
  });

  it('opens a file with a slip of the pen and says where it is', async () => {
    const disk = memory();
    const slipped = { ...threeLockers(), greatestHeelDegg: 25 };
    await documentsOver(disk.storage).openFile(file('slip.boat.json', JSON.stringify(slipped)));
    expect(state().boat?.name).toBe('Three lockers');
    expect(state().notes.join(' ')).toContain('greatestHeelDegg');
    expect(state().problem).toBeNull();
  });

  it('bring pictures beside the file where it is first saved, not again, and name what did not come along', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    const pictured = { ...threeLockers(), pictures: { a: { file: 'bilge.jpg' }, b: { file: 'lost.jpg' } } };
    await documents.openFile({ ...file('pictured.boat.json', JSON.stringify(pictured)), token: null });
    expect(await documents.save()).toBe(true);
    expect(disk.shelf).toEqual([
      'read bilge.jpg at null',
      'keep bilge.jpg at token-1',
      'read lost.jpg at null',
      'keep lost.jpg at token-1',
    ]);
    expect(state().problem?.lines).toEqual(['lost.jpg was not written']);
    expect(hasUnsaved(state())).toBe(false);
    disk.shelf.length = 0;
    await documents.save();
    expect(disk.shelf).toEqual([]);
  });

  it('asks before edits are lost: cancel stays, discard goes, save saves first', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    await documents.openFile(good);
    state().nudge('battery', [0.01, 0, 0]);
    const edited = state().boat;

    const cancelled = documents.openFile(good);
    await answer('cancel');
    await cancelled;
    expect(state().boat).toBe(edited);

    const saved = documents.openFile(good);
    await answer('save');
    await saved;
    expect(disk.saves).toHaveLength(1);
    expect(state().boat).not.toEqual(edited);

    state().nudge('battery', [0.01, 0, 0]);
    const discarded = documents.openFile(good);
    await answer('discard');
    await discarded;
    expect(disk.saves).toHaveLength(1);
    expect(hasUnsaved(state())).toBe(false);
  });

  it('lets a window with unsaved edits go only after the question', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    await documents.openFile(good);
    state().nudge('battery', [0.01, 0, 0]);
    disk.requestClose();
    await answer('cancel');
    await settled();
    expect(disk.closed()).toBe(false);
    disk.requestClose();
    await answer('discard');
    await settled();
    expect(disk.closed()).toBe(true);
  });

  it('journals every edit, undo too', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    await documents.openFile(good);
    state().nudge('battery', [0.01, 0, 0]);
    state().undo();
    await settled();
    expect(disk.journal[0]).toBe('start three.boat.json');
    expect(disk.journal).toHaveLength(3);
  });

  it('lets a version of before be brought back as one edit, which undo takes back', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    await documents.openFile(good);
    state().nudge('battery', [0.01, 0, 0]);
    const edited = state().boat;
    // the battery of that boat is a fixture, its pose its own
    disk.others.versions = [
      { savedAtMs: Date.UTC(2026, 4, 31, 12, 0), text: good.text },
      { savedAtMs: 0, text: 'torn' },
    ];
    const versions = await documents.versions();
    expect(versions.map(({ since }) => since)).toEqual(['1 fixture changed']);
    expect(versions[0]?.when).toMatch(/^31 May 2026, \d\d:\d\d$/);
    if (versions[0]) documents.restore(versions[0]);
    expect(state().canUndo).toBe(`Back to the version of ${versions[0]?.when}`);
    expect(state().boat).toEqual(versions[0]?.boat);
    expect(hasUnsaved(state())).toBe(true);
    state().undo();
    expect(state().boat).toEqual(edited);
  });

  describe('of which the file was changed by another hand', () => {
    const theirs = { ...threeLockers(), name: 'Theirs' };
    const other = {
      outcome: 'changed',
      name: 'three.boat.json',
      text: JSON.stringify(theirs),
      stamp: 'theirs',
    } as const;
    const begin = async () => {
      const disk = memory();
      const documents = documentsOver(disk.storage);
      disk.pick(good);
      await documents.open();
      state().nudge('battery', [0.01, 0, 0]);
      return { disk, documents };
    };

    it('are not saved over it unasked: keep mine names what it replaces', async () => {
      const { disk, documents } = await begin();
      disk.others.save = other;
      const saving = documents.save();
      await question(/changed by another program/, /1 fixture changed, the name changed/);
      disk.others.save = other;
      await answer('mine');
      expect(await saving).toBe(true);
      expect(disk.saves.map(({ replaces }) => replaces)).toEqual([null, 'theirs']);
    });

    it('ask again when it has changed once more since the question', async () => {
      const { disk, documents } = await begin();
      disk.others.save = other;
      const saving = documents.save();
      await question(/changed by another program/);
      disk.others.save = { ...other, stamp: 'newer' };
      await answer('mine');
      await question(/changed by another program/);
      await answer('cancel');
      expect(await saving).toBe(false);
      expect(hasUnsaved(state())).toBe(true);
    });

    it('take theirs at the wish of the user, and undo brings mine back', async () => {
      const { disk } = await begin();
      const mine = state().boat;
      disk.others.look = other;
      disk.focus();
      await answer('theirs');
      await settled();
      expect([state().boat?.name, hasUnsaved(state())]).toEqual(['Theirs', false]);
      state().undo();
      expect(state().boat).toEqual(mine);
      expect(hasUnsaved(state())).toBe(true);
      // Not asked of the same content again.
      disk.focus();
      await settled();
      expect(useDialogs.getState().question).toBeNull();
    });

    it('go to another place at the wish of the user', async () => {
      const { disk, documents } = await begin();
      disk.others.save = other;
      const saving = documents.save();
      await answer('as');
      expect(await saving).toBe(true);
      expect(disk.saves.at(-1)?.token).toBeNull();
    });

    it('say nothing when it holds the same boat in other words', async () => {
      const { disk, documents } = await begin();
      disk.others.look = { ...other, text: `${writeBoat(state().boat ?? fail())}  ` };
      disk.focus();
      await settled();
      expect([useDialogs.getState().question, hasUnsaved(state())]).toEqual([null, false]);
      await documents.save();
      expect(disk.saves.at(-1)?.replaces).toBe('theirs');
    });

    it('offer no taking of what is no boat', async () => {
      const { disk } = await begin();
      disk.others.look = { ...other, text: '{}' };
      disk.focus();
      await question(/changed by another program/, /no boat/);
      expect(useDialogs.getState().question?.choices.map(({ key }) => key)).toEqual(['mine', 'as', 'cancel']);
      await answer('cancel');
    });

    it('count as unsaved when it is gone', async () => {
      const disk = memory();
      disk.pick(good);
      await documentsOver(disk.storage).open();
      disk.others.look = { outcome: 'gone', name: 'three.boat.json' };
      disk.focus();
      await settled();
      expect(hasUnsaved(state())).toBe(true);
      expect(state().problem?.title).toBe('three.boat.json is no longer in its place.');
    });
  });

  it('say why a save failed and offer the ways on; the boat stays in the window', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    await documents.openFile(good);
    state().nudge('battery', [0.01, 0, 0]);
    const edited = state().boat;
    disk.others.save = { outcome: 'problem', message: 'three.boat.json was not written: the disk is full (ENOSPC).' };
    const saving = documents.save();
    await question(/^Not saved$/, /the disk is full.*the boat is in this window/);
    expect([state().boat, hasUnsaved(state())]).toEqual([edited, true]);
    await answer('again');
    expect(await saving).toBe(true);
    expect(hasUnsaved(state())).toBe(false);
  });

  it('keep undo over a save', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    await documents.openFile(good);
    const opened = state().boat;
    state().nudge('battery', [0.01, 0, 0]);
    await documents.save();
    state().nudge('battery', [0.01, 0, 0]);
    state().undo();
    // Nudges before and after a save are two steps: this is the state that was saved.
    expect(hasUnsaved(state())).toBe(false);
    state().undo();
    expect(state().boat).toEqual(opened);
    expect(hasUnsaved(state())).toBe(true);
  });

  it('take a name for the file that every system takes', async () => {
    const disk = memory();
    const documents = documentsOver(disk.storage);
    for (const name of [
      '../../etc/passwd',
      'CON',
      'nul',
      'COM1',
      'javascript:alert(1)',
      '<script>x</script>',
      '...',
      '\u202eevil',
    ]) {
      await documents.openFile(file('x.boat.json', JSON.stringify({ ...threeLockers(), name })));
      await documents.saveAs();
    }
    // by hand: letters, digits, spaces and hyphens are left of each; a device gets a word before it
    expect(disk.saves.map(({ suggestedName }) => suggestedName)).toEqual(
      ['etcpasswd', 'Boat CON', 'Boat nul', 'Boat COM1', 'javascriptalert1', 'scriptxscript', 'Boat', 'evil'].map(
        (name) => `${name}.boat.json`,
      ),
    );
  });
});

describe('what a crash left', () => {
  const baseText = (): string => {
    const base = readBoat(good.text);
    return base.ok ? writeBoat(base.boat) : fail();
  };
  const leftOf = (changes: Partial<LeftJournal>): LeftJournal => ({
    documentId: 'left',
    name: 'three.boat.json',
    token: null,
    baseText: baseText(),
    isSaved: true,
    fileText: null,
    entries: [],
    torn: false,
    editedAtMs: Date.UTC(2026, 4, 31, 12, 0),
    ...changes,
  });
  /** Two edits of a session that did not end well, and the boats after each. */
  const twoEdits = async () => {
    const first = memory();
    await documentsOver(first.storage).openFile(good);
    state().nudge('battery', [0.01, 0, 0]);
    const after = [state().boat];
    state().nudge('intake', [0, 0.02, 0]);
    after.push(state().boat);
    await settled();
    useApp.setState({ boat: null });
    return { entries: first.journal.slice(1), after };
  };
  const offers = () => useOffers.getState().offers;
  const plain = (boat: unknown) => ({ ...(boat as object), engineVersion: undefined });

  it('is offered in words, brought back, not saved, and journalled anew before the old journal goes', async () => {
    const { entries, after } = await twoEdits();
    const disk = memory([leftOf({ entries })]);
    const documents = documentsOver(disk.storage);
    await documents.start();
    expect(useDialogs.getState().shown).toBe('recovery');
    const [offer] = offers();
    if (!offer) throw new Error('expected an offer');
    expect(offerWords(offer)).toMatch(/^31 May 2026, \d\d:\d\d: 2 edits not saved$/);
    expect(offerNotes(offer)).toEqual([]);
    await documents.recover(offer);
    await settled();
    expect(plain(state().boat)).toEqual(plain(after[1]));
    expect(hasUnsaved(state())).toBe(true);
    expect(disk.journal.slice(-2)).toEqual(entries);
    expect(disk.log.indexOf('clear left')).toBeGreaterThan(disk.log.lastIndexOf('append'));
    expect(offers()).toEqual([]);
  });

  it('stays when nobody decides, and goes only when discarded', async () => {
    const { entries } = await twoEdits();
    const disk = memory([leftOf({ entries }), leftOf({ documentId: 'other', name: 'other.boat.json', entries })]);
    const documents = documentsOver(disk.storage);
    await documents.start();
    useDialogs.getState().show(null);
    expect([disk.cleared, offers().length]).toEqual([[], 2]);
    const [offer] = offers();
    if (offer) await documents.discard(offer);
    expect([disk.cleared, offers().map(({ left }) => left.name)]).toEqual([['left'], ['other.boat.json']]);
  });

  it('is not offered where the file holds it already, and is less where the file holds some of it', async () => {
    const { entries, after } = await twoEdits();
    const fileAfter = (edits: number) => writeBoat(after[edits - 1] ?? fail());
    const all = memory([leftOf({ entries, token: 'token-of-file', fileText: fileAfter(2) })]);
    await documentsOver(all.storage).start();
    expect([offers(), all.cleared]).toEqual([[], ['left']]);
    const some = memory([leftOf({ entries, token: 'token-of-file', fileText: fileAfter(1) })]);
    some.others.look = { outcome: 'changed', name: 'three.boat.json', text: fileAfter(1), stamp: 'our own' };
    const documents = documentsOver(some.storage);
    await documents.start();
    const [offer] = offers();
    expect([offer?.entries, offer?.fileIsOther]).toEqual([entries.slice(1), false]);
    if (offer) await documents.recover(offer);
    // What the file holds is ours: a save replaces it without a question.
    await documents.save();
    expect(some.saves.at(-1)?.replaces).toBe('our own');
  });

  it('says so when the file was changed since', async () => {
    const { entries } = await twoEdits();
    const theirs = JSON.stringify({ ...threeLockers(), name: 'Theirs' });
    await documentsOver(memory([leftOf({ entries, fileText: theirs })]).storage).start();
    expect(offers().flatMap(offerNotes)).toEqual([
      'The file was changed since. Saving will ask before it replaces that.',
    ]);
  });

  it('is offered for a boat that was never saved, even without an edit', async () => {
    await documentsOver(memory([leftOf({ isSaved: false })]).storage).start();
    expect(offers().map(offerWords)).toEqual([expect.stringMatching(/: never saved$/)]);
    useOffers.getState().set([]);
    await documentsOver(memory([leftOf({})]).storage).start();
    expect(offers()).toEqual([]);
  });

  it('ends at an entry that makes no boat or is none, and says how much is lost', async () => {
    const { entries, after } = await twoEdits();
    const [first = '', second = ''] = entries;
    const spoilt = JSON.stringify([{ op: 'replace', path: ['compartments', 'aft', 'rangeM'], value: 'no' }]);
    const hostile = JSON.stringify([{ op: 'add', path: ['__proto__', 'polluted'], value: true }]);
    for (const bad of [spoilt, hostile, '{', '[{"op":"replace","path":["nowhere","at","all"],"value":1}]', 'null']) {
      await documentsOver(memory([leftOf({ entries: [first, bad, second], torn: true })]).storage).start();
      const [offer] = offers();
      expect([bad, plain(offer?.boat)]).toEqual([bad, plain(after[0])]);
      expect(offer && offerNotes(offer)).toEqual([
        'The last edit was cut short and is lost.',
        "2 edits are damaged and can't be brought back.",
      ]);
    }
    expect('polluted' in {}).toBe(false);
  });

  it('that can’t be used is told and stays', async () => {
    const disk = memory([leftOf({ baseText: '{}', entries: ['[]'] })]);
    await documentsOver(disk.storage).start();
    expect(state().problem?.lines.join(' ')).toMatch(/three\.boat\.json.*can't be brought back now.*stay/);
    expect(disk.cleared).toEqual([]);
  });
});

/** Waits for a question whose title and text are these. */
async function question(title: RegExp, text = /./): Promise<void> {
  while (!useDialogs.getState().question) await new Promise((resolve) => setTimeout(resolve, 1));
  const asked = useDialogs.getState().question;
  expect(asked?.title).toMatch(title);
  expect(asked?.text).toMatch(text);
}
function fail(): never {
  throw new Error('expected a boat');
}
