import type { UnderberthDesktop } from '@electron/ipc/contract';
import { browserStorage } from './browser';
import { desktopStorage } from './desktop';
import type { Storage } from './storage';

/** The desktop where the preload has put its bridge, else the browser. */
export function storageOf(window: Window & { readonly underberthDesktop?: UnderberthDesktop }): Storage {
  return window.underberthDesktop ? desktopStorage(window.underberthDesktop, window) : browserStorage(window);
}
