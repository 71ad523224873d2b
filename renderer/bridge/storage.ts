/** What the app asks of files, the same on the desktop and in a browser. */
export interface Storage {
  readonly kind: 'desktop' | 'browser';
  /** Whether a saved file keeps its place, so that the next save asks nothing. */
  readonly keepsPlace: boolean;
  open(): Promise<Opened | Cancelled | Refused>;
  /** Without a token the user is asked where. What another program or window has put there meanwhile is not replaced unasked. */
  save(request: SaveRequest): Promise<Saved | Changed | Cancelled | Refused>;
  /** Reads again what a token stands for. */
  look(token: string): Promise<Same | Gone | Changed | Refused>;
  /** What saves before have left of this file, newest first. */
  versions(file: { readonly token: string | null; readonly name: string }): Promise<readonly Version[]>;
  /** Called when the open file may have changed: the window comes to the front, or another window has saved it. */
  onMaybeChanged(listener: () => void): () => void;
  /** Called when another window turns out to have the same file open. */
  onAlsoOpen(listener: (name: string) => void): () => void;
  exportFile(request: {
    readonly suggestedName: string;
    readonly content: string | Uint8Array<ArrayBuffer>;
    readonly type: string;
  }): Promise<Exported | Cancelled | Refused>;
  readonly journal: Journal;
  readonly pictures: PictureShelf;
  /** Tells whoever closes the window that edits would be lost. */
  setUnsaved(unsaved: boolean): void;
  /** Called when the user closes a window with unsaved edits; `confirmClose` lets it go. */
  onCloseRequest(listener: () => void): () => void;
  confirmClose(): void;
}

export interface Opened {
  readonly outcome: 'opened';
  readonly name: string;
  readonly text: string;
  /** Names the place for later saves; null when there is none. */
  readonly token: string | null;
}
export interface SaveRequest {
  readonly token: string | null;
  readonly suggestedName: string;
  readonly text: string;
  /** Stamp of the one content, besides what was read or written here, that the user has agreed to replace. */
  readonly replaces: string | null;
}
export interface Same {
  readonly outcome: 'same';
}
export interface Gone {
  readonly outcome: 'gone';
  readonly name: string;
}
/** The file holds what was neither read nor written here. */
export interface Changed {
  readonly outcome: 'changed';
  readonly name: string;
  readonly text: string;
  /** Names that content, for `SaveRequest.replaces`. */
  readonly stamp: string;
}
export interface Version {
  readonly savedAtMs: number;
  readonly text: string;
}
export interface Saved {
  readonly outcome: 'saved';
  readonly name: string;
  readonly token: string | null;
}
export interface Exported {
  readonly outcome: 'saved';
  readonly name: string;
}
export interface Cancelled {
  readonly outcome: 'cancelled';
}
/** The world is awkward: unreadable, full, too large. */
export interface Refused {
  readonly outcome: 'problem';
  readonly message: string;
}

/** Pictures of a boat, undecoded. Their names carry a hash of their content, so that one name is one picture. */
export interface PictureShelf {
  /** Whether pictures lie beside the boat file once it has a place; else this browser keeps them. */
  readonly besideTheBoat: boolean;
  /** Without a token the boat has no place yet: they wait here until it gets one. */
  keep(token: string | null, name: string, content: Uint8Array<ArrayBuffer>): Promise<Kept | Refused>;
  read(token: string | null, name: string): Promise<PictureRead | Refused>;
}
export interface Kept {
  readonly outcome: 'kept';
}
export interface PictureRead {
  readonly outcome: 'read';
  readonly content: Uint8Array<ArrayBuffer>;
}

/** Edits on their way, so that a crash loses nothing. */
export interface Journal {
  start(base: {
    readonly documentId: string;
    readonly name: string;
    readonly token: string | null;
    readonly text: string;
    /** Whether the text is what the file holds. */
    readonly isSaved: boolean;
  }): Promise<void>;
  /** Resolves once the edit is kept for good. */
  append(documentId: string, entry: string): Promise<void>;
  /** What sessions that did not end well have left. */
  left(): Promise<LeftJournals>;
  clear(documentId: string): Promise<void>;
}

export interface LeftJournals {
  readonly journals: readonly LeftJournal[];
  /** In words, of those that can't be read. */
  readonly unreadable: readonly string[];
}
export interface LeftJournal {
  readonly documentId: string;
  readonly name: string;
  readonly token: string | null;
  readonly baseText: string;
  readonly isSaved: boolean;
  /** What the file holds now, where that is not what was last seen there; null: it is, or nobody can tell. */
  readonly fileText: string | null;
  readonly entries: readonly string[];
  /** The last edit was cut short and is left out. */
  readonly torn: boolean;
  /** ms since 1970; null where it was not noted. */
  readonly editedAtMs: number | null;
}

/** Longest boat file that is read at all. */
export const MOST_BYTES = 20_000_000;
