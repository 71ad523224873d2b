import type { WebContents } from 'electron';
import { shell } from 'electron';
import { APP_ORIGIN } from './scheme';

/**
 * Hosts whose https pages a click may open in the user's own browser: none yet.
 * Sources are cited by title and edition; add a host here only together with the link that needs it.
 */
export const OUTSIDE_HOSTS: ReadonlySet<string> = new Set();

export const isOwnPage = (address: string): boolean => {
  try {
    const url = new URL(address);
    // The origin of a non-special scheme reads "null" in Node, so the parts are compared.
    return `${url.protocol}//${url.host}` === APP_ORIGIN;
  } catch {
    return false;
  }
};

export function mayOpenOutside(address: string, hosts: ReadonlySet<string> = OUTSIDE_HOSTS): boolean {
  try {
    const url = new URL(address);
    return url.protocol === 'https:' && url.username === '' && url.port === '' && hosts.has(url.hostname);
  } catch {
    return false;
  }
}

/** Keeps a window on our own page: no other address, no second window, no embedded browser. */
export function confine(contents: WebContents): void {
  const onlyOwnPages = (event: { url: string; preventDefault: () => void }): void => {
    if (!isOwnPage(event.url)) event.preventDefault();
  };
  contents.on('will-navigate', onlyOwnPages);
  contents.on('will-frame-navigate', onlyOwnPages);
  contents.on('will-redirect', onlyOwnPages);
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(({ url }) => {
    if (mayOpenOutside(url)) void shell.openExternal(url);
    return { action: 'deny' };
  });
}
