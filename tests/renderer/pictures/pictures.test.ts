import type { PictureShelf } from '@renderer/bridge/storage';
import { pictureHeader } from '@renderer/pictures/picture-header';
import { addPicture, connectPictures, loadPicture, PICTURE_LIMITS } from '@renderer/pictures/pictures';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

/** Headers as the formats write them; derived by hand from W3C PNG 11.2.2, ITU-T T.81 B.2.2 and RFC 9649 (from memory). */
function png(widthPx: number, heightPx: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(40);
  bytes.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52]);
  const view = new DataView(bytes.buffer);
  view.setUint32(16, widthPx);
  view.setUint32(20, heightPx);
  return bytes;
}
const JPEG = new Uint8Array([
  ...[0xff, 0xd8, 0xff, 0xe0, 0x00, 0x04, 0x00, 0x00],
  ...[0xff, 0xc4, 0x00, 0x03, 0x00],
  ...[0xff, 0xc2, 0x00, 0x11, 0x08, 0x0b, 0xd0, 0x0f, 0xc0, 0x03, 0x01, 0x22, 0x00],
]);
function webp(kind: string, ...body: number[]): Uint8Array {
  const bytes = new Uint8Array(40);
  bytes.set(new TextEncoder().encode('RIFF....WEBP'));
  bytes.set(new TextEncoder().encode(kind), 12);
  bytes.set(body, 20);
  return bytes;
}

describe('the header of a picture', () => {
  it('says kind and size before anything is decoded', () => {
    expect(pictureHeader(png(8944, 6708))).toMatchObject({ type: 'image/png', widthPx: 8944, heightPx: 6708 });
    // 0x0fc0 = 4032, 0x0bd0 = 3024: a phone's photograph, progressive, after a Huffman table that is no frame
    expect(pictureHeader(JPEG)).toMatchObject({ type: 'image/jpeg', widthPx: 4032, heightPx: 3024 });
    expect(pictureHeader(webp('VP8X', 0, 0, 0, 0, 0xff, 0x0f, 0, 0xff, 0x0b, 0))).toMatchObject({
      type: 'image/webp',
      widthPx: 4096,
      heightPx: 3072,
    });
    expect(pictureHeader(webp('VP8 ', 0, 0, 0, 0x9d, 0x01, 0x2a, 0x80, 0x02, 0xe0, 0x41))).toMatchObject({
      widthPx: 640,
      heightPx: 480,
    });
    // 14 bits each: 639 and 479 in one word of 32
    const word = 639 + 479 * 16384;
    expect(
      pictureHeader(webp('VP8L', 0x2f, word & 255, (word >> 8) & 255, (word >> 16) & 255, (word >> 24) & 255)),
    ).toMatchObject({ widthPx: 640, heightPx: 480 });
  });

  it('is null for what is no picture, cut short, without size, or runs in a circle', () => {
    expect(pictureHeader(new Uint8Array([0x4d, 0x5a, 0x90, 0]))).toBeNull();
    expect(pictureHeader(new Uint8Array(0))).toBeNull();
    expect(pictureHeader(png(10, 10).slice(0, 20))).toBeNull();
    expect(pictureHeader(png(0, 10))).toBeNull();
    expect(pictureHeader(JPEG.slice(0, 14))).toBeNull();
    expect(pictureHeader(new Uint8Array([0xff, 0xd8, 0xff, ...new Uint8Array(60)]))).toBeNull();
    expect(pictureHeader(webp('VP9 '))).toBeNull();
  });
});

describe('adding a picture', () => {
  const kept = new Map<string, Uint8Array<ArrayBuffer>>();
  const shelf: PictureShelf = {
    besideTheBoat: true,
    async keep(_token, name, content) {
      kept.set(name, content);
      return { outcome: 'kept' };
    },
    async read(_token, name) {
      const content = kept.get(name);
      return content ? { outcome: 'read', content } : { outcome: 'problem', message: `${name} is not there` };
    },
  };
  let decoded: unknown[] = [];
  beforeEach(() => {
    kept.clear();
    decoded = [];
    connectPictures(shelf);
    vi.stubGlobal('createImageBitmap', async (_blob: Blob, options: { resizeWidth?: number }) => {
      decoded.push(options.resizeWidth);
      return { width: options.resizeWidth ?? 4032, height: 10, close() {} };
    });
  });
  afterEach(() => {
    vi.unstubAllGlobals();
    connectPictures(null);
  });
  const file = (name: string, content: Uint8Array<ArrayBuffer>): File => new File([content], name);

  it('keeps it under a plain name with a hash of its content; the same picture twice is one file', async () => {
    const first = await addPicture(file('Engine space (1).PNG', png(400, 300)));
    expect(first).toMatchObject({ outcome: 'added', widthPx: 400, heightPx: 300 });
    const name = first.outcome === 'added' ? first.name : '';
    expect(name).toMatch(/^engine-space-1-[0-9a-f]{8}\.png$/);
    // a copy that was exported and is brought back
    expect(await addPicture(file(name, png(400, 300)))).toMatchObject({ name });
    expect([...kept.keys()]).toEqual([name]);
    expect(await addPicture(file('Engine space (1).PNG', png(400, 301)))).not.toMatchObject({ name });
  });

  it('refuses 60 megapixels by file, value and limit, before anything is decoded', async () => {
    const refused = await addPicture(file('panorama.png', png(8944, 6708)));
    // derived: 8944 x 6708 = 59 996 352
    expect(refused.outcome === 'problem' && refused.message).toMatch(/panorama\.png has 60\.0 megapixels.*at most 40/);
    expect(decoded).toEqual([]);
    expect(kept.size).toBe(0);
  });

  it('refuses a renamed program, an empty file and one that is too large by name, value and limit', async () => {
    const program = await addPicture(file('holiday.jpg', new Uint8Array([0x4d, 0x5a, 0x90, 0x00, 3])));
    expect(program.outcome === 'problem' && program.message).toMatch(/holiday\.jpg is no .*begins with 4D 5A 90 00/);
    const empty = await addPicture(file('nothing.png', new Uint8Array(0)));
    expect(empty.outcome === 'problem' && empty.message).toMatch(/nothing\.png.*empty/);
    const large = await addPicture(file('poster.png', new Uint8Array(PICTURE_LIMITS.bytes + 1)));
    expect(large.outcome === 'problem' && large.message).toMatch(/poster\.png has 30\.0 MB; at most 30/);
    expect(kept.size).toBe(0);
  });

  it('refuses what begins as a picture and cannot be decoded', async () => {
    vi.stubGlobal('createImageBitmap', async () => {
      throw new DOMException('The source image could not be decoded.', 'InvalidStateError');
    });
    const refused = await addPicture(file('torn.png', png(400, 300)));
    expect(refused.outcome === 'problem' && refused.message).toMatch(/torn\.png is damaged/);
    expect(kept.size).toBe(0);
  });

  it('judges what a boat file names as strictly when it is loaded, and decodes no larger than asked', async () => {
    kept.set('planted.jpg', new Uint8Array([0x4d, 0x5a]));
    kept.set('huge.png', png(60_000, 60_000));
    kept.set('plan.png', png(4032, 3024));
    expect(await loadPicture('planted.jpg')).toMatchObject({ outcome: 'problem' });
    expect(await loadPicture('huge.png')).toMatchObject({ outcome: 'problem' });
    expect(await loadPicture('none.png')).toMatchObject({ outcome: 'problem', message: 'none.png is not there' });
    expect(decoded).toEqual([]);
    expect(await loadPicture('plan.png', { longestPx: 1008 })).toMatchObject({ widthPx: 4032, heightPx: 3024 });
    expect(decoded).toEqual([1008]);
  });
});
