import type { EventEmitter } from 'node:events';

interface StubContents extends EventEmitter {
  readonly sent: readonly (readonly unknown[])[];
  readonly reloads: number;
  readonly windowOpenHandler: ((details: { url: string }) => { action: string }) | null;
}
export interface StubWindow extends EventEmitter {
  readonly options: { readonly webPreferences: Readonly<Record<string, unknown>> };
  readonly loaded: readonly string[];
  readonly shown: boolean;
  readonly focused: boolean;
  readonly webContents: StubContents;
  close(): boolean;
}
export interface ElectronStub {
  readonly electron: Record<string, unknown> & { readonly app: EventEmitter & { readonly quitted: boolean } };
  readonly noted: {
    readonly order: readonly string[];
    readonly schemes: readonly { readonly scheme: string; readonly privileges: Readonly<Record<string, boolean>> }[];
    readonly schemeAnswers: ReadonlyMap<string, (request: { url: string; method: string }) => Promise<Response>>;
    readonly ipc: ReadonlyMap<string, (event: unknown, payload: unknown) => Promise<unknown>>;
    readonly windows: readonly StubWindow[];
    readonly openedOutside: readonly string[];
    readonly menus: readonly unknown[];
    readonly dialogs: {
      open: { canceled: boolean; filePaths: string[] };
      save: { canceled: boolean; filePath: string };
    };
  };
  readonly session: EventEmitter & {
    readonly requestHandler:
      | ((contents: unknown, permission: string, answer: (granted: boolean) => void) => void)
      | null;
    readonly checkHandler: ((...words: unknown[]) => boolean) | null;
    readonly deviceHandler: ((...words: unknown[]) => boolean) | null;
  };
}
export function createElectronStub(options: {
  readonly root: string;
  readonly userData: string;
  readonly firstInstance?: boolean;
  readonly packaged?: boolean;
}): ElectronStub;
