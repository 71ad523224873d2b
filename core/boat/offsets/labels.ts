/** What a heading of a row or a column of a table of offsets means. */
export type OffsetLabel =
  | { readonly kind: 'station' }
  | { readonly kind: 'x'; readonly from: 'aft' | 'forward' }
  | { readonly kind: 'halfBreadths' }
  | { readonly kind: 'heights'; readonly below: boolean }
  /** Half-breadths at a height; null: the height is not given. */
  | { readonly kind: 'waterline'; readonly text: string | null }
  /** Heights at a half-breadth; null: the half-breadth is not given. */
  | { readonly kind: 'buttock'; readonly text: string | null }
  | { readonly kind: 'sheer'; readonly of: 'breadth' | 'height' | null }
  | { readonly kind: 'keel'; readonly of: 'breadth' | 'height' | null }
  | { readonly kind: 'knuckle'; readonly of: 'breadth' | 'height' | null }
  | { readonly kind: 'halfBreadth' }
  | { readonly kind: 'height' }
  | { readonly kind: 'point' };

/** Inches as a rule has them: `6`, `6.5`, `6 1/2`, `6½`. */
const INCHES = String.raw`\d+(?:[.,]\d+)?(?:\s+\d+\/\d+|\s*[¼½¾⅛⅜⅝⅞])?\s*(?:"|″|”|''|in\b)`;
const NUMBER = new RegExp(
  [
    String.raw`[-−+]?\d+\s*-\s*\d+\s*-\s*\d+\+?`,
    String.raw`[-−+]?\d+(?:[.,]\d+)?\s*(?:'(?!')|′|’|ft\b)(?:\s*${INCHES})?`,
    `[-−+]?${INCHES}`,
    String.raw`[-−+]?\d[\d.,\u2009]*(?:\s*(?:mm|cm|m))?`,
  ].join('|'),
);

/** Reads a heading as the trade writes it; null for what is none. */
export function labelOf(text: string): OffsetLabel | null {
  const words = text.trim().toLowerCase().replace(/\s+/g, ' ');
  if (words === '') return null;
  const of = /breadth|width|half/.test(words)
    ? 'breadth'
    : /height|above|below|elevation|\bz\b/.test(words)
      ? 'height'
      : null;
  if (/^(point|pt|no\.?|knot)$/.test(words)) return { kind: 'point' };
  if (/^(station|stations|st\.?|sta\.?|section|sections|frame|frames|ordinate)( no\.?| number)?$/.test(words))
    return { kind: 'station' };
  if (/^(x|distance|position|spacing|location|from)\b/.test(words))
    return { kind: 'x', from: /forward|bow|stem|\bfp\b/.test(words) && /from/.test(words) ? 'forward' : 'aft' };
  if (/sheer|deck|gunwale|rail/.test(words)) return { kind: 'sheer', of };
  if (/keel|rabbet|profile|fairbody|bottom|half[- ]siding/.test(words))
    return { kind: 'keel', of: /siding/.test(words) ? 'breadth' : of };
  if (/chine|knuckle/.test(words)) return { kind: 'knuckle', of };
  if (/^(dwl|lwl|cwl|load waterline|design(ed)? waterline)$/.test(words)) return { kind: 'waterline', text: '0' };
  if (/^(wl|w\.l\.?|w ?l|waterline|level)\b/.test(words)) return { kind: 'waterline', text: numberIn(text) };
  if (/^(b|bl|butt\.?|buttock)\b/.test(words) && !/breadth/.test(words))
    return { kind: 'buttock', text: numberIn(text) };
  if (/half[- ]?breadths|^breadths/.test(words)) return { kind: 'halfBreadths' };
  if (/heights/.test(words)) return { kind: 'heights', below: /below/.test(words) };
  if (/half[- ]?breadth|^y\b/.test(words)) return { kind: 'halfBreadth' };
  if (/^height|^z\b/.test(words)) return { kind: 'height' };
  return null;
}

/** The figure of a heading: `WL 300`, `Buttock 1-6-0`, `WL 1′ 6″`, `WL -0.3 m`. */
function numberIn(text: string): string | null {
  const rest = text.replace(/^\s*[a-z.]+(?:\s*line)?\.?\s*/i, '');
  const found = NUMBER.exec(rest);
  const below = /below/i.test(text) && found ? '-' : '';
  return found ? `${below}${found[0].trim()}` : null;
}
