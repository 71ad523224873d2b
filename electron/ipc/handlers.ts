import type { Channel } from './channels';
import { contract, type In, type Out } from './contract';

/** The part of an IPC event that says who asks. */
export interface Asker {
  readonly senderFrame: { readonly url: string; readonly parent: unknown } | null;
}
/** The part of Electron's ipcMain that is needed. */
export interface Listening<E extends Asker> {
  handle(channel: string, listener: (event: E, payload: unknown) => Promise<unknown>): void;
}

/** The work behind the channels, given from outside so that tests run it without a window. */
export interface Desktop {
  readonly isOwnPage: (address: string) => boolean;
  readonly files: {
    open(): Promise<Out<'boat:open'>>;
    save(request: In<'boat:save'>): Promise<Out<'boat:save'>>;
    look(request: In<'boat:look'>): Promise<Out<'boat:look'>>;
    versions(request: In<'boat:versions'>): Promise<Out<'boat:versions'>>;
    exportFile(request: In<'export:save'>): Promise<Out<'export:save'>>;
  };
  readonly pictures: {
    keep(request: In<'picture:keep'>): Promise<Out<'picture:keep'>>;
    read(request: In<'picture:read'>): Promise<Out<'picture:read'>>;
  };
  readonly journals: {
    start(request: In<'journal:start'>): Promise<Out<'journal:start'>>;
    append(request: In<'journal:append'>): Promise<Out<'journal:append'>>;
    list(): Promise<Out<'journal:list'>>;
    clear(request: In<'journal:clear'>): Promise<void>;
  };
  readonly setUnsaved: (unsaved: boolean) => void;
  readonly confirmClose: () => void;
}

/** Whoever asks must be the main frame of our own page. */
function assertOwnPage(event: Asker, isOwnPage: Desktop['isOwnPage']): void {
  const frame = event.senderFrame;
  if (!frame || frame.parent !== null || !isOwnPage(frame.url)) throw new Error('Refused: not our own page');
}

export function registerHandlers<E extends Asker>(ipc: Listening<E>, desktop: Desktop): void {
  const work: { readonly [C in Channel]: (payload: In<C>) => Promise<Out<C>> } = {
    'boat:open': () => desktop.files.open(),
    'boat:save': (request) => desktop.files.save(request),
    'boat:look': (request) => desktop.files.look(request),
    'boat:versions': (request) => desktop.files.versions(request),
    'export:save': (request) => desktop.files.exportFile(request),
    'picture:keep': (request) => desktop.pictures.keep(request),
    'picture:read': (request) => desktop.pictures.read(request),
    'journal:start': (request) => desktop.journals.start(request),
    'journal:append': (request) => desktop.journals.append(request),
    'journal:list': () => desktop.journals.list(),
    'journal:clear': async (request) => {
      await desktop.journals.clear(request);
      return null;
    },
    'window:unsaved': async ({ unsaved }) => {
      desktop.setUnsaved(unsaved);
      return null;
    },
    'window:closeConfirmed': async () => {
      desktop.confirmClose();
      return null;
    },
  };
  const listen = <C extends Channel>(channel: C): void => {
    const shapes: { in: { parse(value: unknown): unknown }; out: { parse(value: unknown): unknown } } =
      contract[channel];
    ipc.handle(channel, async (event, payload) => {
      assertOwnPage(event, desktop.isOwnPage);
      return shapes.out.parse(await work[channel](shapes.in.parse(payload) as In<C>));
    });
  };
  for (const channel of Object.keys(work) as Channel[]) listen(channel);
}
