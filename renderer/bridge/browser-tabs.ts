/** What the tabs of one browser tell each other of the files that they have open. */
export interface Tabs {
  /** Says that this tab has the file open now. */
  opened(handle: FileSystemFileHandle): void;
  /** Says that this tab has written it. */
  saved(handle: FileSystemFileHandle): void;
}

interface Said {
  readonly what: 'opened' | 'alsoOpen' | 'saved';
  readonly handle: FileSystemFileHandle;
}

const CHANNEL = 'underberth-files';

/** `mine` is the file that is open in this tab. A browser without channels leaves it to the look before each save. */
export function tabsOver(
  make: ((name: string) => BroadcastChannel) | null,
  mine: () => FileSystemFileHandle | null,
  heard: { alsoOpen(name: string): void; savedElsewhere(): void },
): Tabs {
  const channel = make?.(CHANNEL);
  if (channel) {
    channel.onmessage = (event: MessageEvent<Said>) => {
      const own = mine();
      if (!own) return;
      void own.isSameEntry(event.data.handle).then((isSame) => {
        if (!isSame) return;
        if (event.data.what === 'saved') {
          heard.savedElsewhere();
          return;
        }
        heard.alsoOpen(own.name);
        if (event.data.what === 'opened') say('alsoOpen', own);
      });
    };
  }
  const say = (what: Said['what'], handle: FileSystemFileHandle): void => {
    channel?.postMessage({ what, handle } satisfies Said);
  };
  return { opened: (handle) => say('opened', handle), saved: (handle) => say('saved', handle) };
}
