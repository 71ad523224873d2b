/** What the first bytes of a picture say, so that nothing is decoded before its size is known. */
export interface PictureHeader {
  readonly type: 'image/jpeg' | 'image/png' | 'image/webp';
  readonly ending: 'jpg' | 'png' | 'webp';
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * Reads kind and size of a picture from its header; null when it is none of the three kinds, or ends before it says its size.
 * PNG: IHDR chunk (W3C PNG specification, 11.2.2). JPEG: the first start-of-frame segment (ITU-T T.81, B.2.2).
 * WebP: VP8, VP8L or VP8X chunk (RFC 9649; RFC 6386, 9.1). All from memory of those texts.
 */
export function pictureHeader(content: Uint8Array): PictureHeader | null {
  const view = new DataView(content.buffer, content.byteOffset, content.byteLength);
  if (textAt(content, 0, 4) === '\x89PNG' && textAt(content, 4, 4) === '\r\n\x1a\n') return ofPng(view, content);
  if (textAt(content, 0, 3) === '\xff\xd8\xff') return ofJpeg(view);
  if (textAt(content, 0, 4) === 'RIFF' && textAt(content, 8, 4) === 'WEBP') return ofWebp(view, content);
  return null;
}

const textAt = (content: Uint8Array, from: number, length: number): string =>
  String.fromCharCode(...content.subarray(from, from + length));

function ofPng(view: DataView, content: Uint8Array): PictureHeader | null {
  if (view.byteLength < 24 || textAt(content, 12, 4) !== 'IHDR') return null;
  return sized('image/png', 'png', view.getUint32(16), view.getUint32(20));
}

/** Segments follow one another, each with its length; the size stands in the start of frame: C0 to CF without C4, C8, CC. */
function ofJpeg(view: DataView): PictureHeader | null {
  let at = 2;
  while (at + 9 < view.byteLength) {
    if (view.getUint8(at) !== 0xff) return null;
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const isFrame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (isFrame) return sized('image/jpeg', 'jpg', view.getUint16(at + 7), view.getUint16(at + 5));
    if (marker === 0xda || marker === 0xd9) return null;
    // Restart markers and the like stand alone.
    const isAlone = marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);
    at += isAlone ? 2 : 2 + view.getUint16(at + 2);
  }
  return null;
}

function ofWebp(view: DataView, content: Uint8Array): PictureHeader | null {
  if (view.byteLength < 30) return null;
  const three = (at: number): number => view.getUint16(at, true) + 65_536 * view.getUint8(at + 2);
  switch (textAt(content, 12, 4)) {
    case 'VP8 ':
      return sized('image/webp', 'webp', view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff);
    case 'VP8L': {
      const bits = view.getUint32(21, true);
      return sized('image/webp', 'webp', 1 + (bits & 0x3fff), 1 + ((bits >>> 14) & 0x3fff));
    }
    case 'VP8X':
      return sized('image/webp', 'webp', 1 + three(24), 1 + three(27));
    default:
      return null;
  }
}

const sized = (
  type: PictureHeader['type'],
  ending: PictureHeader['ending'],
  widthPx: number,
  heightPx: number,
): PictureHeader | null => (widthPx > 0 && heightPx > 0 ? { type, ending, widthPx, heightPx } : null);
