import { z } from 'zod';
import type { Channel } from './channels';

/**
 * What may be asked of the desktop. Both directions of every channel are parsed in the main process.
 * Paths never come from the window: it holds tokens, and the desktop alone knows which path a token stands for.
 */

/** Longest boat file that is opened, saved or journalled, in bytes of UTF-8. */
export const BOAT_BYTES_LIMIT = 20 * 1024 * 1024;
/** Longest exported document, in bytes. */
export const EXPORT_BYTES_LIMIT = 100 * 1024 * 1024;
/** Largest picture that is kept beside a boat, in bytes. */
export const PICTURE_BYTES_LIMIT = 30 * 1024 * 1024;
/** Longest single journal entry, in characters. */
export const JOURNAL_ENTRY_LIMIT = 4 * 1024 * 1024;

const token = z.string().regex(/^[0-9a-f]{32}$/);
/** One document open in one window; chosen by the window, safe as a file name. */
const documentId = z.string().regex(/^[a-z0-9-]{8,64}$/);
// Separators, control characters and leading dots have no place in a name that a dialog is offered.
const fileName = z
  .string()
  .regex(/^[^\p{Cc}\p{Cf}/\\:*?"<>|.][^\p{Cc}\p{Cf}/\\:*?"<>|]{0,119}$/u)
  // Windows takes these for devices, whatever ending they have.
  .refine((name) => !/^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])\s*(\.|$)/i.test(name));
/** Tells one content of a file from any other. */
const stamp = z.string().regex(/^[0-9a-f]{64}$/);
/** The same with the ending of a picture: names are all that the window knows of the boat's folder. */
const pictureName = fileName.regex(/\.(jpe?g|png|webp)$/i);
const pictureContent = z.instanceof(Uint8Array).refine((bytes) => bytes.byteLength <= PICTURE_BYTES_LIMIT);
const boatText = z.string().max(BOAT_BYTES_LIMIT);

const problem = z.object({
  outcome: z.literal('problem'),
  /** What the world refused. */
  code: z.enum(['unreadable', 'tooLarge', 'notText', 'noSuchToken', 'notWritten', 'wrongKind']),
  /** Which file, which limit, what the system said: plain words for the user. */
  message: z.string(),
});
/** The file holds what was neither read nor written here. */
const changed = z.object({ outcome: z.literal('changed'), name: z.string(), text: z.string(), stamp });
const cancelled = z.object({ outcome: z.literal('cancelled') });

export const contract = {
  'boat:open': {
    in: z.null(),
    out: z.discriminatedUnion('outcome', [
      z.object({ outcome: z.literal('opened'), token, name: z.string(), text: z.string() }),
      cancelled,
      problem,
    ]),
  },
  'boat:save': {
    /**
     * Without a token the user is asked where to save. Content that was neither read nor written here is replaced only when
     * `replaces` names it.
     */
    in: z.object({ token: token.nullable(), suggestedName: fileName, text: boatText, replaces: stamp.nullable() }),
    out: z.discriminatedUnion('outcome', [
      z.object({ outcome: z.literal('saved'), token, name: z.string() }),
      changed,
      cancelled,
      problem,
    ]),
  },
  'boat:look': {
    /** Reads again what a token stands for: another program may have changed it. */
    in: z.object({ token }),
    out: z.discriminatedUnion('outcome', [
      z.object({ outcome: z.literal('same') }),
      z.object({ outcome: z.literal('gone'), name: z.string() }),
      changed,
      problem,
    ]),
  },
  'boat:versions': {
    /** What earlier saves have left beside the file, newest first. */
    in: z.object({ token }),
    out: z.discriminatedUnion('outcome', [
      z.object({
        outcome: z.literal('listed'),
        versions: z.array(z.object({ savedAtMs: z.number(), text: z.string() })),
      }),
      problem,
    ]),
  },
  'export:save': {
    in: z.object({
      suggestedName: fileName,
      content: z.union([
        z.string().max(EXPORT_BYTES_LIMIT),
        z.instanceof(Uint8Array).refine((bytes) => bytes.byteLength <= EXPORT_BYTES_LIMIT),
      ]),
    }),
    out: z.discriminatedUnion('outcome', [
      z.object({ outcome: z.literal('saved'), name: z.string() }),
      cancelled,
      problem,
    ]),
  },
  'picture:keep': {
    /** Into the folder of the boat that the token stands for. */
    in: z.object({ token, name: pictureName, content: pictureContent }),
    out: z.discriminatedUnion('outcome', [z.object({ outcome: z.literal('kept') }), problem]),
  },
  'picture:read': {
    in: z.object({ token, name: pictureName }),
    out: z.discriminatedUnion('outcome', [z.object({ outcome: z.literal('read'), content: pictureContent }), problem]),
  },
  'journal:start': {
    /**
     * Begins the document's journal anew: the base that later entries patch, whether that base is what the file holds, and the
     * file that it was saved to.
     */
    in: z.object({
      documentId,
      name: z.string().max(600),
      token: token.nullable(),
      baseText: boatText,
      isSaved: z.boolean(),
    }),
    out: z.discriminatedUnion('outcome', [z.object({ outcome: z.literal('started') }), problem]),
  },
  'journal:append': {
    in: z.object({ documentId, entry: z.string().max(JOURNAL_ENTRY_LIMIT) }),
    out: z.discriminatedUnion('outcome', [z.object({ outcome: z.literal('appended'), entries: z.number() }), problem]),
  },
  'journal:list': {
    in: z.null(),
    out: z.object({
      journals: z.array(
        z.object({
          documentId,
          name: z.string(),
          /** Grants saving back to the file that the document came from, while that file still stands. */
          token: token.nullable(),
          baseText: z.string(),
          /** Whether the base was what the file held. */
          isSaved: z.boolean(),
          /** What that file holds now, where it is no longer the base; null: it is the base, or there is none. */
          fileText: z.string().nullable(),
          entries: z.array(z.string()),
          /** Whether the last record was cut short and left out. */
          torn: z.boolean(),
          /** When the last edit came, ms since 1970. */
          editedAtMs: z.number(),
        }),
      ),
      /** Journals that can't be read, in words. Each is told once and stays in its folder. */
      unreadable: z.array(z.string()),
    }),
  },
  'journal:clear': { in: z.object({ documentId }), out: z.null() },
  'window:unsaved': { in: z.object({ unsaved: z.boolean() }), out: z.null() },
  'window:closeConfirmed': { in: z.null(), out: z.null() },
} as const satisfies Record<Channel, { in: z.ZodType; out: z.ZodType }>;

export type In<C extends Channel> = z.infer<(typeof contract)[C]['in']>;
export type Out<C extends Channel> = z.infer<(typeof contract)[C]['out']>;

export type OpenResult = Out<'boat:open'>;
export type SaveResult = Out<'boat:save'>;
export type LookResult = Out<'boat:look'>;
export type VersionsResult = Out<'boat:versions'>;
export type ExportResult = Out<'export:save'>;
export type PictureKeepResult = Out<'picture:keep'>;
export type PictureReadResult = Out<'picture:read'>;
export type JournalStartResult = Out<'journal:start'>;
export type JournalAppendResult = Out<'journal:append'>;
export type LeftJournals = Out<'journal:list'>;
export type RecoverableJournal = LeftJournals['journals'][number];

/** What the preload puts at `window.underberthDesktop`; absent in a plain browser. */
export interface UnderberthDesktop {
  /** Asks the user for a boat file and reads it. */
  openBoat(): Promise<OpenResult>;
  /** Saves crash-safely, keeping the three versions before; asks where when `token` is null. */
  saveBoat(request: In<'boat:save'>): Promise<SaveResult>;
  /** Tells whether the file of a token still is what was read or written here. */
  lookAtBoat(request: In<'boat:look'>): Promise<LookResult>;
  /** The versions that earlier saves left beside the file. */
  boatVersions(request: In<'boat:versions'>): Promise<VersionsResult>;
  /** Asks where, then writes a list or sheet (text or bytes). */
  exportFile(request: In<'export:save'>): Promise<ExportResult>;
  /** Writes a picture into the folder of a boat that has a place on the disk. */
  keepPicture(request: In<'picture:keep'>): Promise<PictureKeepResult>;
  /** Reads a picture from that folder, undecoded. */
  readPicture(request: In<'picture:read'>): Promise<PictureReadResult>;
  /** Begins (again) the journal of a document from a base text: on open, on new, after a save. */
  startJournal(request: In<'journal:start'>): Promise<JournalStartResult>;
  /** Adds one edit; resolves once it is on the disk. */
  appendJournal(request: In<'journal:append'>): Promise<JournalAppendResult>;
  /** Journals left behind by a session that did not end well. */
  readJournals(): Promise<LeftJournals>;
  clearJournal(request: In<'journal:clear'>): Promise<null>;
  /** Tells whether closing the window now would lose edits. */
  setUnsaved(request: In<'window:unsaved'>): Promise<null>;
  /** Called when the user closes a window with unsaved edits; answer with `confirmClose` to let it go. */
  onCloseRequest(listener: () => void): () => void;
  confirmClose(): Promise<null>;
}
