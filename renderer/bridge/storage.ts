/** What the app asks of files, the same on the desktop and in a browser. */
export interface Storage {
  readonly kind: 'desktop' | 'browser';
  /** Whether a saved file keeps its place, so that the next save asks nothing. */
  readonly keepsPlace: boolean;
  open(): Promise<Opened | Cancelled | Refused>;
  /** Without a token the user is asked where. */
  save(request: SaveRequest): Promise<Saved | Cancelled | Refused>;
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
  }): Promise<void>;
  append(documentId: string, entry: string): Promise<void>;
  /** What sessions that did not end well have left. */
  left(): Promise<readonly LeftJournal[]>;
  clear(documentId: string): Promise<void>;
}

export interface LeftJournal {
  readonly documentId: string;
  readonly name: string;
  readonly token: string | null;
  readonly baseText: string;
  readonly entries: readonly string[];
}

/** Longest boat file that is read at all. */
export const MOST_BYTES = 20_000_000;
