import { protocol } from 'electron';
import { type AppFolders, appFile } from '../files/app-files';

export const SCHEME = 'app';
export const APP_HOST = 'underberth';
export const APP_ORIGIN = `${SCHEME}://${APP_HOST}`;
export const START_PAGE = `${APP_ORIGIN}/index.html`;

/** Must run before the app is ready, and only once. */
export function registerScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
  ]);
}

/** Serves the page and the sample boats under app://, so that no file:// address is ever loaded. */
export function answerScheme(folders: AppFolders): void {
  protocol.handle(SCHEME, async (request) => {
    const address = new URL(request.url);
    if (address.host !== APP_HOST) return new Response('Wrong host', { status: 404 });
    if (request.method !== 'GET') return new Response('Read only', { status: 405 });
    const { status, headers, body } = await appFile(folders, address.pathname);
    return new Response(body, { status, headers: { ...headers } });
  });
}
