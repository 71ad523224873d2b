import type { BoatRecipe } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import type { TakeoffRow } from '@core/engine/report';
import type { Changed, Opened, Storage, Version } from '../bridge/storage';
import { useDoor } from '../doors/door';
import { bringPictures, connectPictures } from '../pictures/pictures';
import { hasUnsaved, useApp } from '../store/app';
import { connectJournal } from '../store/connections';
import { ask, useDialogs } from './dialogs';
import { differenceWords } from './differences-words';
import { journallingOver } from './journalling';
import { type Offer, offerOf, timeWords, useOffers } from './recovery';
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
  /** The same as a workbook (XLSX); what writes it is loaded only now. */
  exportWorkbook(rows: readonly TakeoffRow[]): Promise<void>;
  /** The offsets of the hull as CSV, from keel to sheer, station by station. */
  exportOffsets(unit: 'mm' | 'ft-in-8'): Promise<void>;
  /** Makes a document of sheets and saves it as a PDF; what makes it is loaded only now. */
  savePdf(order: PdfOrder): Promise<void>;
  /** What saves before have left of the open file, newest first, with what each differs in from the boat as it is. */
  versions(): Promise<readonly BoatVersion[]>;
  /** Brings an earlier version back, as one edit that undo takes back. */
  restore(version: BoatVersion): void;
  /** Brings back what a session left that did not end well. */
  recover(offer: Offer): Promise<void>;
  /** Throws it away. */
  discard(offer: Offer): Promise<void>;
  /** At the start: what a crash left is offered, then the first sample boat opens. */
  start(): Promise<void>;
}

export interface BoatVersion {
  /** `25 Nov 2026, 22:14` */
  readonly when: string;
  /** What was changed since then. */
  readonly since: string;
  readonly boat: Boat;
}

const SAMPLES = 'sample-boats/index.json';
const NOT_KEPT = 'Edits are not kept in the recovery journal.';
const BOAT_ENDING = '.boat.json';
/** The desktop takes names of 120 letters with their ending. */
const LONGEST_NAME = 100;

/** Shown to whoever has opened nothing yet: the larger of the finished boats. */
const FIRST_SAMPLE = 'complete/sandwort';

export function documentsOver(storage: Storage): Documents {
  let busy = false;
  /** Stamp of what another hand has put into the file and the user has agreed to replace. */
  let agreed: string | null = null;

  const show = (title: string, lines: readonly string[]): void => useApp.getState().showProblem({ title, lines });

  const journalling = journallingOver(storage.journal, (failure) => {
    const { problem, dismissProblem, notify } = useApp.getState();
    if (failure !== null) {
      show(NOT_KEPT, [failure, 'They are in this window: save the boat.']);
      return;
    }
    if (problem?.title === NOT_KEPT) dismissProblem();
    notify('Edits are kept in the recovery journal again.');
  });

  connectPictures(storage.pictures);
  connectJournal({
    append: (patches) => {
      const { boat } = useApp.getState();
      if (boat) journalling.append(patches, boat);
    },
  });

  const put = (
    { boat, notes }: { readonly boat: Boat; readonly notes: readonly string[] },
    file: { fileName: string; token: string | null; saved: boolean; isSample?: boolean },
  ): void => {
    useApp.getState().open(boat, { ...file, notes });
    useDoor.getState().show(null);
    agreed = null;
    journalling.begin({ boat, name: file.fileName, token: file.token, isSaved: file.saved });
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
    journalling.mark();
    const request = { token, suggestedName: suggestedName(boat), text: writeBoat(boat), replaces: agreed };
    const result = await storage.save(request);
    if (result.outcome === 'cancelled') return false;
    if (result.outcome === 'problem') return saveFailed(token, result.message);
    if (result.outcome === 'changed') return token !== null && askAboutOther(result);
    agreed = null;
    useApp.getState().saved({ fileName: result.name, token: result.token, at: timeNow(), revision });
    journalling.saved({ boat, name: result.name, token: result.token, isSaved: true });
    const left = await bringPictures(boat, document.token, result.token);
    if (left.length > 0) show('Saved, but not every picture came along.', left);
    return true;
  };

  /** The work is still in the window: again, elsewhere, or later. */
  const saveFailed = async (token: string | null, message: string): Promise<boolean> => {
    const answer = await ask({
      title: 'Not saved',
      text: `${message} Nothing is lost: the boat is in this window as you see it.`,
      choices: [
        { key: 'again', words: 'Try again', main: true },
        { key: 'as', words: 'Save as' },
        { key: 'cancel', words: 'Go on without saving' },
      ],
    });
    if (answer === 'again') return saveTo(token);
    return answer === 'as' ? saveTo(null) : false;
  };

  /** The file holds what another program or window has put there. True when the boat of this window is saved after it. */
  const askAboutOther = async (other: Changed): Promise<boolean> => {
    const { boat, document } = useApp.getState();
    const theirs = readBoat(other.text);
    if (!boat) return false;
    if (theirs.ok && writeBoat(theirs.boat) === writeBoat(boat)) {
      agreed = other.stamp;
      nowOnDisk();
      return true;
    }
    const how = theirs.ok
      ? `Against your boat: ${differenceWords(boat, theirs.boat)}.`
      : 'What it holds now is no boat.';
    const answer = await ask({
      title: `${other.name} was changed by another program or window`,
      text: `${how} If you keep yours, theirs stays among the earlier versions. If you take theirs, undo brings yours back.`,
      choices: [
        { key: 'mine', words: 'Keep mine', main: true },
        ...(theirs.ok ? [{ key: 'theirs', words: 'Take theirs' }] : []),
        { key: 'as', words: 'Save mine under another name' },
        { key: 'cancel', words: 'Decide later' },
      ],
    });
    if (answer === 'as') return saveTo(null);
    if (answer === 'cancel') return false;
    agreed = other.stamp;
    if (answer === 'mine') return saveTo(document.token);
    if (!theirs.ok || !useApp.getState().edit(`Take ${other.name} as it is`, becomes(theirs.boat))) return false;
    nowOnDisk();
    return true;
  };

  /** What is on the board is what the file holds, though this window has not written it. */
  const nowOnDisk = (): void => {
    const { boat, document, saved } = useApp.getState();
    if (!boat) return;
    const { fileName, token, revision } = document;
    saved({ fileName, token, at: timeNow(), revision });
    journalling.mark();
    journalling.saved({ boat, name: fileName, token, isSaved: true });
  };

  /** Another program may have been at the file while this window was in the background. */
  const lookAtFile = async (): Promise<void> => {
    const { document } = useApp.getState();
    if (document.token === null) return;
    const now = await storage.look(document.token);
    if (useApp.getState().document.token !== document.token) return;
    if (now.outcome === 'changed' && now.stamp !== agreed) await askAboutOther(now);
    if (now.outcome === 'gone' && !hasUnsaved(useApp.getState())) {
      useApp.getState().lostFile();
      show(`${now.name} is no longer in its place.`, ['The boat is in this window as you see it. Save puts it back.']);
    }
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

  const recover = async (offer: Offer): Promise<void> => {
    if (!(await mayLeave())) return;
    const { base, boat, entries, isSaved, left } = offer;
    useApp.getState().open(boat, { fileName: left.name, token: left.token, saved: false });
    useDoor.getState().show(null);
    useOffers.getState().without(left.documentId);
    // The new journal begins where the old one began: should this session end badly too, the same edits are offered again.
    journalling.begin({ boat: base, name: left.name, token: left.token, isSaved }, entries, () =>
      storage.journal.clear(left.documentId),
    );
    agreed = null;
    if (left.token === null || left.fileText === null || offer.fileIsOther) return;
    // The save that was broken off is one of ours: what it put into the file need not be asked about.
    const now = await storage.look(left.token);
    if (now.outcome === 'changed' && now.text === left.fileText) agreed = now.stamp;
  };

  /** Finds what earlier sessions have left. What the file holds already is no work lost, and goes. */
  const findOffers = async (): Promise<void> => {
    const { journals, unreadable } = await storage.journal.left();
    const troubles = [...unreadable];
    const offers: Offer[] = [];
    for (const left of journals) {
      const offer = offerOf(left);
      if (offer === null) await storage.journal.clear(left.documentId).catch(() => undefined);
      else if (typeof offer === 'string') troubles.push(offer);
      else offers.push(offer);
    }
    useOffers.getState().set(offers);
    if (troubles.length > 0) show('Some unsaved work can’t be brought back.', troubles);
  };

  storage.onCloseRequest(() => {
    void once(async () => {
      if (await mayLeave()) {
        await journalling.drop();
        storage.confirmClose();
      }
    }, undefined);
  });
  storage.onMaybeChanged(() => void once(lookAtFile, undefined));
  storage.onAlsoOpen((name) =>
    show(`${name} is open in another window too.`, [
      'Edit it in one of them only. If both save, the second is asked before it replaces what the first has saved.',
    ]),
  );
  let told = false;
  useApp.subscribe((state) => {
    const unsaved = hasUnsaved(state);
    if (unsaved !== told) {
      told = unsaved;
      storage.setUnsaved(unsaved);
    }
  });

  return {
    async open() {
      if (busy) return;
      // A browser may never say that its dialog was cancelled: nothing else waits for it.
      const file = await storage.open();
      if (file.outcome === 'problem') show('Not opened.', [file.message]);
      if (file.outcome === 'opened') await once(() => openFile(file), undefined);
    },
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
        await exportCsv('parts and lengths', ({ stock }) => takeoffCsv(rows, stock === undefined ? {} : { stock }));
      }, undefined),
    exportWorkbook: (rows) =>
      once(async () => {
        const { boat, showProblem, notify } = useApp.getState();
        if (!boat) return;
        const { takeoffWorkbook } = await import('@core/output/workbook/workbook');
        const result = await storage.exportFile({
          suggestedName: `${plainName(boat.name)} parts and lengths.xlsx`,
          content: await takeoffWorkbook(rows, boat.stock === undefined ? {} : { stock: boat.stock }),
          type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
        });
        if (result.outcome === 'problem') showProblem({ title: 'Not exported.', lines: [result.message] });
        if (result.outcome === 'saved') notify(`Exported ${result.name}`);
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
    async versions() {
      const { boat, document } = useApp.getState();
      if (!boat) return [];
      const { token, fileName } = document;
      const found = await storage.versions({ token, name: token === null ? suggestedName(boat) : fileName });
      return found.flatMap((version) => versionOf(version, boat) ?? []);
    },
    restore(version) {
      useApp.getState().edit(`Back to the version of ${version.when}`, becomes(version.boat));
    },
    recover: (offer) => once(() => recover(offer), undefined),
    async discard({ left }) {
      await storage.journal.clear(left.documentId).catch(() => undefined);
      useOffers.getState().without(left.documentId);
    },
    async start() {
      await findOffers().catch((error: unknown) =>
        show('Unsaved work from before can’t be looked for.', [wordsOf(error)]),
      );
      if (useOffers.getState().offers.length > 0) useDialogs.getState().show('recovery');
      await once(async () => {
        const list = await samples().catch(() => []);
        const first = list.find((sample) => sample.folder === FIRST_SAMPLE) ?? list[0];
        if (first && !useApp.getState().boat) await openSample(first);
      }, undefined);
    },
  };
}

/** A version that can't be read is none. */
function versionOf({ savedAtMs, text }: Version, now: Boat): BoatVersion | null {
  const read = readBoat(text);
  if (!read.ok) return null;
  return { when: timeWords(savedAtMs), since: differenceWords(read.boat, now), boat: read.boat };
}

/** The whole boat becomes another one; what is the same in both stays untouched. */
const becomes =
  (other: Boat): BoatRecipe =>
  (draft) => {
    const now: Record<string, unknown> = draft;
    for (const key of Object.keys(now)) delete now[key];
    Object.assign(now, JSON.parse(JSON.stringify(other)));
  };

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
    .trim()
    // Windows takes these for devices, whatever ending they have.
    .replace(/^(con|prn|aux|nul|com\d|lpt\d)$/i, 'Boat $1') || 'Boat';
const suggestedName = (boat: Boat): string => `${plainName(boat.name)}${BOAT_ENDING}`;

const timeNow = (): string => {
  const now = new Date();
  return `${String(now.getHours()).padStart(2, '0')}:${String(now.getMinutes()).padStart(2, '0')}`;
};
const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
