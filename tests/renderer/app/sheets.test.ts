import { readFileSync } from 'node:fs';
import { checkBoat } from '@core/boat/read';
import { connectDocuments } from '@renderer/app/commands';
import { documentsOver } from '@renderer/app/document';
import { printMockUp, printSurvey } from '@renderer/app/sheets/orders';
import type { Storage } from '@renderer/bridge/storage';
import { useApp } from '@renderer/store/app';
import { connectEngine } from '@renderer/store/connections';
import { usePaper } from '@renderer/store/paper';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { inProject } from '../../../electron/launch/project.mjs';
import { threeLockers } from '../../support/boats';
import { pagesOf, rawText } from '../../support/pdf-content';

interface Kept {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A disk that keeps what it is given, or refuses it. */
function disk(refusal: string | null = null): { readonly storage: Storage; readonly kept: Kept[] } {
  const kept: Kept[] = [];
  const storage: Storage = {
    kind: 'desktop',
    keepsPlace: true,
    open: async () => ({ outcome: 'cancelled' }),
    save: async () => ({ outcome: 'cancelled' }),
    look: async () => ({ outcome: 'same' }),
    versions: async () => [],
    onMaybeChanged: () => () => {},
    onAlsoOpen: () => () => {},
    async exportFile({ suggestedName, content, type }) {
      if (refusal !== null) return { outcome: 'problem', message: refusal };
      if (typeof content === 'string' || type !== 'application/pdf') throw new Error(`expected a PDF, got ${type}`);
      kept.push({ name: suggestedName, bytes: content });
      return { outcome: 'saved', name: suggestedName };
    },
    journal: {
      start: async () => {},
      append: async () => {},
      left: async () => ({ journals: [], unreadable: [] }),
      clear: async () => {},
    },
    pictures: {
      besideTheBoat: true,
      keep: async () => ({ outcome: 'kept' }),
      read: async (_, name) => ({ outcome: 'problem', message: `no ${name}` }),
    },
    setUnsaved: () => {},
    onCloseRequest: () => () => {},
    confirmClose: () => {},
  };
  return { storage, kept };
}

/** The server of the page: fonts by their file names, or nothing. */
const fonts = async (address: string): Promise<Response> => {
  const name = /BarlowSemiCondensed_(\w+)\.ttf/.exec(address)?.[1] ?? '';
  const file = inProject(
    'node_modules/@expo-google-fonts/barlow-semi-condensed',
    name,
    `BarlowSemiCondensed_${name}.ttf`,
  );
  return new Response(readFileSync(file));
};

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  const read = checkBoat(threeLockers());
  if (!read.ok) throw new Error('expected a boat');
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
  useApp.getState().dismissProblem();
  usePaper.getState().setPaper('A4');
});
afterEach(() => vi.unstubAllGlobals());

const partOfBoat = () => {
  const part = useApp.getState().boat?.parts.strainer;
  if (!part) throw new Error('expected a strainer');
  return part;
};

describe('printing from the window', () => {
  it('tells that the letters were not loaded, and prints once they are', async () => {
    const { storage, kept } = disk();
    connectDocuments(documentsOver(storage));
    vi.stubGlobal('fetch', async () => new Response('', { status: 404 }));
    await printMockUp(partOfBoat());
    expect(useApp.getState().problem?.title).toBe('Mock-up of Strainer was not printed.');
    expect(useApp.getState().problem?.lines[0]).toMatch(/answers 404/);
    expect(kept).toEqual([]);

    useApp.getState().dismissProblem();
    vi.stubGlobal('fetch', fonts);
    await printMockUp(partOfBoat());
    expect(useApp.getState().problem).toBeNull();
    expect(kept.map(({ name }) => name)).toEqual(['Mock-up of Strainer.pdf']);
    expect(rawText(kept[0]?.bytes ?? new Uint8Array())).toMatch(/^%PDF-/);
    expect(useApp.getState().notice).toBe('Saved Mock-up of Strainer.pdf');
  });

  it('uses the paper that is chosen', async () => {
    const { storage, kept } = disk();
    connectDocuments(documentsOver(storage));
    vi.stubGlobal('fetch', fonts);
    usePaper.getState().setPaper('A3');
    const { boat } = useApp.getState();
    if (!boat) throw new Error('expected a boat');
    await printSurvey(boat, 'middle');
    expect(kept[0]?.name).toBe('Survey of Middle locker.pdf');
    expect(pagesOf(kept[0]?.bytes ?? new Uint8Array())[0]?.heightMm).toBeCloseTo(420, 3);
  });

  it('tells a part that is too large, with its size and the limit, and a disk that refuses', async () => {
    const { storage, kept } = disk('The disk is full.');
    connectDocuments(documentsOver(storage));
    vi.stubGlobal('fetch', fonts);
    await printMockUp({ ...partOfBoat(), name: 'Keel', shape: { type: 'box', sizeM: [8, 2, 3] } });
    expect(useApp.getState().problem?.lines[0]).toMatch(/Keel is 8000 × 2000 × 3000 mm: more than 120 sheets/);
    await printMockUp(partOfBoat());
    expect(useApp.getState().problem).toEqual({ title: 'Not saved.', lines: ['The disk is full.'] });
    expect(kept).toEqual([]);
  });
});
