import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type AppFolders, appFile } from '../files/app-files';

export interface BrowserMode {
  readonly url: string;
  readonly close: () => Promise<void>;
}

const LOOPBACK = '127.0.0.1';

/**
 * Serves the built page to a browser on this machine only. The wanted port is tried first, then any free one.
 * The Host header is checked so that no page from elsewhere can reach it by giving its own name this address.
 */
export async function serve(folders: AppFolders, wantedPort: number): Promise<BrowserMode> {
  const server = createServer((request, response) => {
    const { port } = server.address() as AddressInfo;
    const host = request.headers.host;
    if (host !== `${LOOPBACK}:${port}` && host !== `localhost:${port}`) {
      response.writeHead(403, { 'content-type': 'text/plain' }).end('Wrong host');
      return;
    }
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.writeHead(405, { allow: 'GET, HEAD', 'content-type': 'text/plain' }).end('Read only');
      return;
    }
    appFile(folders, request.url ?? '/').then(
      ({ status, headers, body }) => {
        response.writeHead(status, { ...headers, 'content-length': String(body.byteLength) });
        response.end(request.method === 'HEAD' ? undefined : body);
      },
      () => response.writeHead(500, { 'content-type': 'text/plain' }).end('Failed'),
    );
  });
  const listen = (port: number): Promise<void> =>
    new Promise((resolve, reject) => {
      server.once('error', reject);
      server.listen(port, LOOPBACK, () => {
        server.off('error', reject);
        resolve();
      });
    });
  await listen(wantedPort).catch(() => listen(0));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://${LOOPBACK}:${port}/`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}
