import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { CONTENT_POLICY } from './content-policy';

/** Folders that the window may read from: the built page, and the boats that come with the product. */
export interface AppFolders {
  readonly page: string;
  readonly sampleBoats: string;
}
export interface Answer {
  readonly status: 200 | 400 | 404;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array<ArrayBuffer>;
}

const SAMPLES = 'sample-boats';
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.md': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
};

const bytesOf = (text: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(text);

function answer(status: Answer['status'], type: string, body: Uint8Array<ArrayBuffer>): Answer {
  return {
    status,
    body,
    headers: {
      'content-type': type,
      'content-security-policy': CONTENT_POLICY,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-resource-policy': 'same-origin',
      'cache-control': 'no-cache',
    },
  };
}
const refused = (status: 400 | 404): Answer =>
  answer(status, 'text/plain; charset=utf-8', bytesOf(status === 400 ? 'Bad path' : 'Not found'));

/** Path segments of a request, or null when it tries to leave its folder by any spelling. */
function segmentsOf(requestPath: string): readonly string[] | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(requestPath.split(/[?#]/, 1)[0] ?? '');
  } catch {
    return null;
  }
  // A second layer of escapes, drive letters and backslashes are never ours.
  if (/[\0\\:%]/.test(decoded)) return null;
  const segments = decoded.split('/').filter((segment) => segment !== '');
  return segments.some((segment) => segment.startsWith('.')) ? null : segments;
}

/** Answers one request of the window; `requestPath` is the raw path of the address, escapes and all. */
export async function appFile(folders: AppFolders, requestPath: string): Promise<Answer> {
  const segments = segmentsOf(requestPath);
  if (!segments) return refused(400);
  const inSamples = segments[0] === SAMPLES;
  if (inSamples && segments.length === 2 && segments[1] === 'index.json') {
    return answer(200, TYPES['.json'] ?? '', bytesOf(JSON.stringify(await sampleList(folders.sampleBoats))));
  }
  const root = path.resolve(inSamples ? folders.sampleBoats : folders.page);
  const rest = inSamples ? segments.slice(1) : segments.length === 0 ? ['index.html'] : segments;
  const file = path.resolve(root, ...rest);
  if (!file.startsWith(root + path.sep)) return refused(400);
  const type = TYPES[path.extname(file).toLowerCase()];
  if (!type) return refused(404);
  try {
    return answer(200, type, new Uint8Array(await readFile(file)));
  } catch {
    return refused(404);
  }
}

/** A boat that comes with the product: its folder under sample-boats, and its address relative to the page. */
export interface SampleBoat {
  readonly folder: string;
  readonly boat: string;
}

/** Every folder, at most two levels down, that holds a boat.json. */
async function sampleList(folder: string): Promise<readonly SampleBoat[]> {
  const found: SampleBoat[] = [];
  const visit = async (inFolder: readonly string[]): Promise<void> => {
    const entries = await readdir(path.join(folder, ...inFolder), { withFileTypes: true }).catch(() => []);
    if (inFolder.length > 0 && entries.some((entry) => entry.isFile() && entry.name === 'boat.json')) {
      found.push({ folder: inFolder.join('/'), boat: [SAMPLES, ...inFolder, 'boat.json'].join('/') });
    }
    if (inFolder.length >= 2) return;
    for (const entry of entries) if (entry.isDirectory()) await visit([...inFolder, entry.name]);
  };
  await visit([]);
  return found.sort((a, b) => (a.folder < b.folder ? -1 : 1));
}
