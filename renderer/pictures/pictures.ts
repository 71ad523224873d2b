import type { Boat } from '@core/boat/schema/boat';
import type { PictureShelf } from '../bridge/storage';
import { figure } from '../panels/format';
import { useApp } from '../store/app';
import { type PictureHeader, pictureHeader } from './picture-header';

/** What is taken of a picture; a phone's photograph has 12 million pixels and 3 to 8 MB. */
export const PICTURE_LIMITS = { bytes: 30 * 1024 * 1024, pixels: 40_000_000 } as const;
/** For the file dialog. What is really taken is decided by content. */
export const PICTURE_TYPES = 'image/jpeg,image/png,image/webp';

export type PictureAdded =
  | { readonly outcome: 'added'; readonly name: string; readonly widthPx: number; readonly heightPx: number }
  | { readonly outcome: 'problem'; readonly message: string };
export type PictureLoaded =
  | {
      readonly outcome: 'loaded';
      /** Upright as the camera was held. It may be smaller than the picture; close it when it is no longer drawn. */
      readonly bitmap: ImageBitmap;
      /** Pixels of the picture itself, upright: what scale points count in. */
      readonly widthPx: number;
      readonly heightPx: number;
    }
  | { readonly outcome: 'problem'; readonly message: string };

const NO_SHELF: PictureShelf = {
  besideTheBoat: false,
  keep: async (_token, name) => ({ outcome: 'problem', message: `${name} was not kept: nothing is connected.` }),
  read: async (_token, name) => ({ outcome: 'problem', message: `${name} cannot be read: nothing is connected.` }),
};
let shelf = NO_SHELF;
export const connectPictures = (connected: PictureShelf | null): void => {
  shelf = connected ?? NO_SHELF;
  forgetAddresses();
};
export const picturesLieBesideTheBoat = (): boolean => shelf.besideTheBoat;

/** Of one boat at one place: another boat may mean another picture by the same name. */
const addresses = new Map<string, string>();
let addressedToken: string | null = null;
function forgetAddresses(): void {
  for (const address of addresses.values()) URL.revokeObjectURL(address);
  addresses.clear();
}
const tokenNow = (): string | null => useApp.getState().document.token;
const refused = (message: string): { readonly outcome: 'problem'; readonly message: string } => ({
  outcome: 'problem',
  message,
});

/**
 * Checks a picture by its content, keeps it and gives the name by which the boat's `pictures` may speak of it. The boat is not
 * touched: the edit is the caller's. The same picture added twice is one file.
 */
export async function addPicture(file: File): Promise<PictureAdded> {
  if (file.size > PICTURE_LIMITS.bytes) {
    return refused(
      `${file.name} has ${megabytes(file.size)} MB; at most ${megabytes(PICTURE_LIMITS.bytes)} are taken.`,
    );
  }
  let content: Uint8Array<ArrayBuffer>;
  try {
    content = new Uint8Array(await file.arrayBuffer());
  } catch (error) {
    return refused(`${file.name} cannot be read: ${wordsOf(error)}`);
  }
  const header = pictureHeader(content);
  if (!header) return refused(notAPicture(file.name, content));
  const fault = tooManyPixels(file.name, header);
  if (fault) return refused(fault);
  const decoded = await decode(file.name, content, header, THUMB_PX);
  if (decoded.outcome === 'problem') return decoded;
  decoded.bitmap.close();
  const name = await nameOf(file.name, content, header);
  const kept = await shelf.keep(tokenNow(), name, content);
  if (kept.outcome === 'problem') return kept;
  return { outcome: 'added', name, widthPx: decoded.widthPx, heightPx: decoded.heightPx };
}

/** Reads and decodes a picture of the open boat, no side longer than `longestPx` pixels. */
export async function loadPicture(
  name: string,
  { longestPx = 4096 }: { readonly longestPx?: number } = {},
): Promise<PictureLoaded> {
  const checked = await checkedContent(name);
  if (checked.outcome === 'problem') return checked;
  return decode(name, checked.content, checked.header, longestPx);
}

/** A blob address for an `img`; it lives until another boat is opened. */
export async function pictureAddress(
  name: string,
): Promise<{ readonly outcome: 'found'; readonly address: string } | { outcome: 'problem'; message: string }> {
  if (addressedToken !== tokenNow()) forgetAddresses();
  addressedToken = tokenNow();
  const known = addresses.get(name);
  if (known !== undefined) return { outcome: 'found', address: known };
  const checked = await checkedContent(name);
  if (checked.outcome === 'problem') return checked;
  const address = URL.createObjectURL(new Blob([checked.content], { type: checked.header.type }));
  addresses.set(name, address);
  return { outcome: 'found', address };
}

/** Brings the pictures of a boat to its new place after a save there; one line for each that did not come along. */
export async function bringPictures(boat: Boat, from: string | null, to: string | null): Promise<readonly string[]> {
  if (from === to || !shelf.besideTheBoat) return [];
  const names = new Set(Object.values(boat.pictures ?? {}).map(({ file }) => file));
  const left: string[] = [];
  for (const name of names) {
    const read = await shelf.read(from, name);
    const kept = read.outcome === 'read' ? await shelf.keep(to, name, read.content) : read;
    if (kept.outcome === 'problem') left.push(kept.message);
  }
  return left;
}

/** A boat file may name anything: what it names is judged as if it were new. */
async function checkedContent(
  name: string,
): Promise<
  | { readonly outcome: 'checked'; readonly content: Uint8Array<ArrayBuffer>; readonly header: PictureHeader }
  | { readonly outcome: 'problem'; readonly message: string }
> {
  try {
    const read = await shelf.read(tokenNow(), name);
    if (read.outcome === 'problem') return read;
    const header = pictureHeader(read.content);
    if (!header) return refused(notAPicture(name, read.content));
    const fault = tooManyPixels(name, header);
    return fault ? refused(fault) : { outcome: 'checked', content: read.content, header };
  } catch (error) {
    return refused(`${name} cannot be read: ${wordsOf(error)}`);
  }
}

const THUMB_PX = 320;

async function decode(
  name: string,
  content: Uint8Array<ArrayBuffer>,
  header: PictureHeader,
  longestPx: number,
): Promise<PictureLoaded> {
  const { widthPx, heightPx } = header;
  const share = Math.min(1, longestPx / Math.max(widthPx, heightPx));
  try {
    const blob = new Blob([content], { type: header.type });
    // One side alone: the browser keeps the proportion, also where the camera was held on its side.
    const bitmap = await createImageBitmap(
      blob,
      share < 1 ? { resizeWidth: Math.max(1, Math.round(widthPx * share)), resizeQuality: 'medium' } : {},
    );
    const turned = bitmap.width < bitmap.height !== widthPx < heightPx;
    return turned
      ? { outcome: 'loaded', bitmap, widthPx: heightPx, heightPx: widthPx }
      : { outcome: 'loaded', bitmap, widthPx, heightPx };
  } catch {
    return refused(
      `${name} is damaged: it begins as a picture of ${widthPx} \u00d7 ${heightPx} but cannot be decoded.`,
    );
  }
}

function tooManyPixels(name: string, { widthPx, heightPx }: PictureHeader): string | null {
  const pixels = widthPx * heightPx;
  if (pixels <= PICTURE_LIMITS.pixels) return null;
  const millions = (value: number): string => figure(value / 1e6, value % 1e6 === 0 ? 0 : 1);
  return `${name} has ${millions(pixels)} megapixels (${widthPx} \u00d7 ${heightPx}); at most ${millions(PICTURE_LIMITS.pixels)} are taken. Save a smaller copy and add that.`;
}

function notAPicture(name: string, content: Uint8Array): string {
  const first = [...content.subarray(0, 4)].map((byte) => byte.toString(16).padStart(2, '0').toUpperCase()).join(' ');
  return `${name} is no JPEG, PNG or WebP picture: ${first === '' ? 'it is empty' : `it begins with ${first}`}.`;
}

/** Plain letters of the old name, so that the owner knows it again, and the first 32 bits of the content's SHA-256. */
async function nameOf(given: string, content: Uint8Array<ArrayBuffer>, { ending }: PictureHeader): Promise<string> {
  const plain = given
    .replace(/\.[^.]*$/, '')
    .replace(/-[0-9a-f]{8}$/, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40);
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', content));
  const hash = [...digest.subarray(0, 4)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return `${plain === '' ? 'picture' : plain}-${hash}.${ending}`;
}

const megabytes = (bytes: number): string => figure(bytes / 1024 / 1024, bytes % (1024 * 1024) === 0 ? 0 : 1);
const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
