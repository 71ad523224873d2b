import { readBoat } from '@core/boat/read';
import { writeBoat } from '@core/boat/write';
import { useDialogs } from '@renderer/app/dialogs';
import { documentsOver } from '@renderer/app/document';
import type { Cancelled, LeftJournal, Opened, SaveRequest, Storage } from '@renderer/bridge/storage';
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
  let toOpen: Opened | Cancelled = { outcome: 'cancelled' };
  let close: () => void = () => {};
  let closed = false;
  const storage: Storage = {
    kind: 'desktop',
    keepsPlace: true,
    open: async () => toOpen,
    async save(request) {
      saves.push(request);
      return { outcome: 'saved', name: request.suggestedName, token: request.token ?? 'token-1' };
    },
    async exportFile({ suggestedName, content }) {
      exports.push(content);
      return { outcome: 'saved', name: suggestedName };
    },
    journal: {
      start: async ({ name }) => void journal.push(`start ${name}`),
      append: async (_, entry) => void journal.push(entry),
      left: async () => left,
      clear: async () => {},
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

  it('brings back what a crash left, and says that it is not saved', async () => {
    const first = memory();
    await documentsOver(first.storage).openFile(good);
    state().nudge('battery', [0.01, 0, 0]);
    state().nudge('intake', [0, 0.02, 0]);
    await settled();
    const lost = state().boat;
    const base = readBoat(good.text);
    if (!base.ok) throw new Error('expected a boat');
    useApp.setState({ boat: null });

    const second = memory([
      {
        documentId: 'left',
        name: 'three.boat.json',
        token: null,
        baseText: writeBoat(base.boat),
        entries: first.journal.slice(1),
      },
    ]);
    const started = documentsOver(second.storage).start();
    await answer('recover');
    await started;
    const { engineVersion: _, ...recovered } = state().boat ?? { engineVersion: '' };
    expect(recovered).toEqual(lost);
    expect(hasUnsaved(state())).toBe(true);
  });

  it('stops at a journal entry that would make no boat', async () => {
    const base = readBoat(good.text);
    if (!base.ok) throw new Error('expected a boat');
    const spoilt = JSON.stringify([{ op: 'replace', path: ['compartments', 'aft', 'rangeM'], value: 'no' }]);
    const disk = memory([
      { documentId: 'left', name: 'three', token: null, baseText: writeBoat(base.boat), entries: [spoilt] },
    ]);
    const started = documentsOver(disk.storage).start();
    await answer('recover');
    await started;
    expect(state().boat?.compartments.aft?.rangeM).toEqual([0, 1]);
  });
});
