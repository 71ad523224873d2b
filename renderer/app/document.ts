import { applied, type Patch } from '@core/boat/edits';
import { checkBoat, readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import type { TakeoffRow } from '@core/engine/report';
import type { LeftJournal, Opened, Storage } from '../bridge/storage';
import { useDoor } from '../doors/door';
import { bringPictures, connectPictures } from '../pictures/pictures';
import { hasUnsaved, useApp } from '../store/app';
import { connectJournal } from '../store/connections';
import { ask } from './dialogs';
import type { PdfOrder } from './sheets/print';

export interface Sample {
  readonly folder: string;
  /** Address of the boat file beside the page. */
  readonly boat: string;
}

/** What can be done with files. One at work at a time: a second wish while a dialog is open is dropped. */
export interface Documents {
  open(): Promise<void>;
  openFile(file: Opened): Promise<void>;
  openSample(sample: Sample): Promise<void>;
  /** A boat that was never saved; asks to save the present one first. */
  openNew(boat: Boat): Promise<void>;
  samples(): Promise<readonly Sample[]>;
  save(): Promise<boolean>;
  saveAs(): Promise<boolean>;
  /** The parts-and-lengths list as CSV; what writes it is loaded only now. */
  exportList(rows: readonly TakeoffRow[]): Promise<void>;
  /** The offsets of the hull as CSV, from keel to sheer, station by station. */
  exportOffsets(unit: 'mm' | 'ft-in-8'): Promise<void>;
  /** Makes a document of sheets and saves it as a PDF; what makes it is loaded only now. */
  savePdf(order: PdfOrder): Promise<void>;
  /** At the start: what a crash left, else the first sample boat. */
  start(): Promise<void>;
}

const SAMPLES = 'sample-boats/index.json';
const BOAT_ENDING = '.boat.json';
/** The desktop takes names of 120 letters with their ending. */
const LONGEST_NAME = 100;

export function documentsOver(storage: Storage): Documents {
  let busy = false;
  let documentId = newId();
  let journalling = Promise.resolve();

  const show = (title: string, lines: readonly string[]): void => useApp.getState().showProblem({ title, lines });

  /** Journal work happens in order; its failure is told once and stops nothing. */
  const journal = (work: () => Promise<void>): void => {
    journalling = journalling.then(work).catch((error: unknown) => {
      useApp.getState().notify(`The recovery journal cannot be written: ${wordsOf(error)}`);
    });
  };

  connectPictures(storage.pictures);
  connectJournal({
    append: (patches) => {
      const id = documentId;
      journal(() => storage.journal.append(id, JSON.stringify(patches)));
    },
  });

  const startJournal = (boat: Boat, name: string, token: string | null): void => {
    const old = documentId;
    documentId = newId();
    const id = documentId;
    const text = writeBoat(boat);
    journal(async () => {
      await storage.journal.clear(old);
      await storage.journal.start({ documentId: id, name, token, text });
    });
  };

  const put = (
    { boat, notes }: { readonly boat: Boat; readonly notes: readonly string[] },
    file: { fileName: string; token: string | null; saved: boolean; isSample?: boolean },
  ): void => {
    useApp.getState().open(boat, { ...file, notes });
    useDoor.getState().show(null);
    startJournal(boat, file.fileName, file.token);
  };

  const read = (name: string, text: string): { readonly boat: Boat; readonly notes: readonly string[] } | null => {
    const result = readBoat(text);
    if (result.ok) return result;
    show(
      `${name} was not opened.`,
      result.problems.map((problem) => problem.message),
    );
    return null;
  };

  const mayLeave = async (): Promise<boolean> => {
    const state = useApp.getState();
    if (!hasUnsaved(state)) return true;
    const answer = await ask({
      title: `Save ${state.document.fileName || 'the boat'} first?`,
      text: 'Edits since the last save would be lost.',
      choices: [
        { key: 'save', words: 'Save', main: true },
        { key: 'discard', words: 'Discard the edits' },
        { key: 'cancel', words: 'Cancel' },
      ],
    });
    if (answer === 'save') return saveTo(useApp.getState().document.token);
    return answer === 'discard';
  };

  const saveTo = async (token: string | null): Promise<boolean> => {
    const { boat, document } = useApp.getState();
    if (!boat) return false;
    const revision = document.revision;
    const result = await storage.save({ token, suggestedName: suggestedName(boat), text: writeBoat(boat) });
    if (result.outcome === 'problem') {
      show('Not saved.', [result.message]);
      return false;
    }
    if (result.outcome === 'cancelled') return false;
    useApp.getState().saved({ fileName: result.name, token: result.token, at: timeNow(), revision });
    const left = await bringPictures(boat, document.token, result.token);
    if (left.length > 0) show('Saved, but not every picture came along.', left);
    startJournal(boat, result.name, result.token);
    return true;
  };

  const exportCsv = async (what: string, make: (boat: Boat) => string | null): Promise<void> => {
    const { boat, showProblem, notify } = useApp.getState();
    const content = boat ? make(boat) : null;
    if (!boat || content === null) return;
    const suggestedName = `${plainName(boat.name)} ${what}.csv`;
    const result = await storage.exportFile({ suggestedName, content, type: 'text/csv' });
    if (result.outcome === 'problem') showProblem({ title: 'Not exported.', lines: [result.message] });
    if (result.outcome === 'saved') notify(`Exported ${result.name}`);
  };

  const once = async <T>(work: () => Promise<T>, otherwise: T): Promise<T> => {
    if (busy) return otherwise;
    busy = true;
    try {
      return await work();
    } finally {
      busy = false;
    }
  };

  const openFile = async (file: Opened): Promise<void> => {
    const found = read(file.name, file.text);
    if (found && (await mayLeave())) put(found, { fileName: file.name, token: file.token, saved: true });
  };

  const samples = async (): Promise<readonly Sample[]> => {
    const answer = await fetch(SAMPLES);
    if (!answer.ok) return [];
    const list: unknown = await answer.json();
    return Array.isArray(list) ? list.filter(isSample) : [];
  };

  const openSample = async (sample: Sample): Promise<void> => {
    const answer = await fetch(sample.boat);
    if (!answer.ok) {
      show(`${sample.folder} was not opened.`, [`The sample boat answers ${answer.status}.`]);
      return;
    }
    const found = read(sample.folder, await answer.text());
    if (found && (await mayLeave()))
      put(found, { fileName: suggestedName(found.boat), token: null, saved: true, isSample: true });
  };

  const recover = async (left: LeftJournal): Promise<boolean> => {
    const base = readBoat(left.baseText);
    if (!base.ok || left.entries.length === 0) return false;
    const answer = await ask({
      title: `Bring back ${left.name}?`,
      text: `The program ended with ${left.entries.length} edits of ${left.name} not saved. They are all kept.`,
      choices: [
        { key: 'recover', words: 'Bring them back', main: true },
        { key: 'discard', words: 'Discard them' },
      ],
    });
    if (answer !== 'recover') return false;
    let boat = base.boat;
    const brought: string[] = [];
    for (const entry of left.entries) {
      const next = afterEntry(boat, entry);
      if (!next) break;
      boat = next;
      brought.push(entry);
    }
    useApp.getState().open(boat, { fileName: left.name, token: left.token, saved: false });
    // The new journal begins where the old one began: should this session end badly too, the same edits are offered again.
    startJournal(base.boat, left.name, left.token);
    const id = documentId;
    for (const entry of brought) journal(() => storage.journal.append(id, entry));
    return true;
  };

  storage.onCloseRequest(() => {
    void once(async () => {
      if (await mayLeave()) {
        await storage.journal.clear(documentId);
        storage.confirmClose();
      }
    }, undefined);
  });
  let told = false;
  useApp.subscribe((state) => {
    const unsaved = hasUnsaved(state);
    if (unsaved !== told) {
      told = unsaved;
      storage.setUnsaved(unsaved);
    }
  });

  return {
    open: () =>
      once(async () => {
        const file = await storage.open();
        if (file.outcome === 'problem') show('Not opened.', [file.message]);
        if (file.outcome === 'opened') await openFile(file);
      }, undefined),
    openFile: (file) => once(() => openFile(file), undefined),
    openNew: (boat) =>
      once(async () => {
        if (await mayLeave()) put({ boat, notes: [] }, { fileName: boat.name, token: null, saved: false });
      }, undefined),
    openSample: (sample) => once(() => openSample(sample), undefined),
    samples,
    save: () => once(() => saveTo(useApp.getState().document.token), false),
    saveAs: () => once(() => saveTo(null), false),
    exportList: (rows) =>
      once(async () => {
        const { takeoffCsv } = await import('@core/output/takeoff/csv');
        await exportCsv('parts and lengths', () => takeoffCsv(rows));
      }, undefined),
    exportOffsets: (unit) =>
      once(async () => {
        const { offsetsCsv } = await import('@core/boat/offsets/write');
        await exportCsv('offsets', ({ hull }) => (hull ? offsetsCsv(hull, unit) : null));
      }, undefined),
    savePdf: (order) =>
      once(async () => {
        const { showProblem, notify } = useApp.getState();
        try {
          const { pdfOf } = await import('./sheets/print');
          const printed = await pdfOf(order);
          if ('problem' in printed) {
            showProblem({ title: `${order.name} was not printed.`, lines: [printed.problem] });
            return;
          }
          const { bytes, missingLetters } = printed;
          const result = await storage.exportFile({
            suggestedName: `${plainName(order.name)}.pdf`,
            content: bytes,
            type: 'application/pdf',
          });
          if (result.outcome === 'problem') showProblem({ title: 'Not saved.', lines: [result.message] });
          if (result.outcome !== 'saved') return;
          notify(
            missingLetters.length === 0
              ? `Saved ${result.name}`
              : `Saved ${result.name}. Letters that the print lacks are printed as ?: ${missingLetters.join(' ')}`,
          );
        } catch (error) {
          showProblem({ title: `${order.name} was not printed.`, lines: [wordsOf(error)] });
        }
      }, undefined),
    start: () =>
      once(async () => {
        const left = await storage.journal.left().catch(() => []);
        for (const journalLeft of left) {
          const recovered = await recover(journalLeft);
          await storage.journal.clear(journalLeft.documentId).catch(() => {});
          if (recovered) return;
        }
        const list = await samples().catch(() => []);
        const first = list.find((sample) => sample.folder.startsWith('complete/')) ?? list[0];
        if (first) await openSample(first);
      }, undefined),
  };
}

/** A journal entry is untrusted too: the boat after it must be one that a file could hold. */
function afterEntry(boat: Boat, entry: string): Boat | null {
  try {
    const result = checkBoat(applied(boat, JSON.parse(entry) as Patch[]));
    return result.ok ? result.boat : null;
  } catch {
    return null;
  }
}

const isSample = (value: unknown): value is Sample =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as Partial<Sample>).folder === 'string' &&
  typeof (value as Partial<Sample>).boat === 'string';

/** Letters, digits, spaces and hyphens of a name, not too many: what every file system takes. */
const plainName = (name: string): string =>
  name
    .replace(/[^\p{L}\p{N} -]/gu, '')
    .trim()
    .slice(0, LONGEST_NAME)
    .trim() || 'Boat';
const suggestedName = (boat: Boat): string => `${plainName(boat.name)}${BOAT_ENDING}`;

const newId = (): string => crypto.randomUUID();
const timeNow = (): string => {
  const now = new Date();
  return `${String(now.getHours()).padStart(2, '0')}:${String(now.getMinutes()).padStart(2, '0')}`;
};
const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
