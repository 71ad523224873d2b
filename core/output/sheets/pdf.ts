import type { default as PDFDocument } from 'pdfkit';
import type { Vec2 } from '../../base/vec';
import { type Face, INK_COLOURS, type Lettering, type LineMark, type Mark, type Sheet, type TextMark } from './marks';

/** Bytes of the TrueType files; whoever asks for a document fetches or reads them. */
export type FontBytes = Readonly<Record<Face, Uint8Array>>;

/** What the file says of itself. No clock here: the caller brings the day. */
export interface DocumentFacts {
  readonly title: string;
  readonly subject: string;
  readonly made: { getTime(): number };
}

export interface Printed {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Letters that the fonts do not have; each is printed as a question mark. */
  readonly missingLetters: readonly string[];
}

export interface Press extends Lettering {
  /** The sheets as one PDF in vectors, 1:1, fonts embedded. The same input gives the same bytes. */
  print(sheets: readonly Sheet[], facts: DocumentFacts): Promise<Printed>;
}

/** A point of typography is a 72nd of an inch of 25.4 mm. */
export const POINTS_PER_MM = 72 / 25.4;
const pt = (mm: number): number => mm * POINTS_PER_MM;

/** Share of the em that capitals take in Barlow, from the fonts' own tables. */
const CAPITALS = 0.7;
const FACES: readonly Face[] = ['plain', 'strong', 'place'];
/** Figures of one width, so that columns stand. */
const FEATURES = { features: ['tnum'], lineBreak: false } as const;
const REPLACEMENT = '?';
/** Room of the white box around words, share of the capitals' height. */
const BOX_MARGIN = 0.35;

/** Loads what writes PDFs, half a megabyte that nothing else needs, and the fonts. */
export async function openPress(fonts: FontBytes): Promise<Press> {
  const { default: Document } = await import('pdfkit');
  const start = (facts: DocumentFacts): PDFDocument => {
    const document = new Document({
      autoFirstPage: false,
      font: fonts.plain,
      lang: 'en',
      displayTitle: true,
      compress: true,
      info: {
        Title: facts.title,
        Subject: facts.subject,
        Creator: 'Underberth',
        Producer: 'Underberth',
        CreationDate: facts.made,
      },
    });
    for (const face of FACES) document.registerFont(face, fonts[face]);
    return document;
  };
  const gauge = start({ title: '', subject: '', made: { getTime: () => 0 } });
  const known = (face: Face): ((letter: string) => boolean) => {
    const { font } = gauge.font(face)._font;
    return (letter) => font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0);
  };
  const knows = { plain: known('plain'), strong: known('strong'), place: known('place') };

  /** What the font can say of the words: spaces of every kind are one, letters that it lacks are replaced. */
  const spelled = (words: string, face: Face, missing?: Set<string>): string =>
    [...words.normalize('NFC').replace(/\s+/g, ' ')]
      .map((letter) => {
        if (knows[face](letter)) return letter;
        missing?.add(letter);
        return REPLACEMENT;
      })
      .join('');

  // Laying words out is slow and the same words are measured many times: the width of one em of each is kept.
  const ems: Readonly<Record<Face, Map<string, number>>> = { plain: new Map(), strong: new Map(), place: new Map() };
  const width = (words: string, sizeMm: number, face: Face = 'plain'): number => {
    let em = ems[face].get(words);
    if (em === undefined) {
      em = gauge.font(face).fontSize(1).widthOfString(spelled(words, face), FEATURES);
      ems[face].set(words, em);
    }
    return (em * sizeMm) / CAPITALS;
  };

  return {
    width,
    print(sheets, facts) {
      const missing = new Set<string>();
      const document = start(facts);
      const done = bytesOf(document);
      for (const sheet of sheets) {
        document.addPage({ size: [pt(sheet.widthMm), pt(sheet.heightMm)], margin: 0 });
        for (const mark of sheet.marks) {
          if (mark.kind === 'text')
            drawText(document, { ...mark, words: spelled(mark.words, mark.face, missing) }, width);
          else drawShape(document, mark);
        }
      }
      document.end();
      return done.then((bytes) => ({ bytes, missingLetters: [...missing].sort() }));
    },
  };
}

function drawShape(document: PDFDocument, mark: Exclude<Mark, TextMark>): void {
  if (mark.kind === 'area') {
    for (const ring of mark.rings) trace(document, ring, true);
    document.fillColor(INK_COLOURS[mark.ink]).fill('even-odd');
    return;
  }
  if (mark.points.length < 2) return;
  drawLine(document, mark);
}

function drawLine(document: PDFDocument, mark: LineMark): void {
  document.lineWidth(pt(mark.widthMm)).lineCap('butt').lineJoin('miter').strokeColor(INK_COLOURS[mark.ink]);
  if (mark.dashMm.length > 0) document.dash(mark.dashMm.map(pt), { phase: 0 });
  trace(document, mark.points, mark.closed);
  document.stroke();
  if (mark.dashMm.length > 0) document.undash();
}

function trace(document: PDFDocument, points: readonly Vec2[], closed: boolean): void {
  points.forEach(([x, y], i) => {
    if (i === 0) document.moveTo(pt(x), pt(y));
    else document.lineTo(pt(x), pt(y));
  });
  if (closed) document.closePath();
}

function drawText(document: PDFDocument, mark: TextMark, width: Lettering['width']): void {
  const [x, y] = mark.at;
  const room = width(mark.words, mark.sizeMm, mark.face);
  const left = x - (mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? room / 2 : room);
  document.save();
  if (mark.turnDeg !== 0) document.rotate(mark.turnDeg, { origin: [pt(x), pt(y)] });
  if (mark.boxed) {
    const margin = mark.sizeMm * BOX_MARGIN;
    document
      .fillColor(INK_COLOURS.paper)
      .rect(pt(left - margin), pt(y - mark.sizeMm - margin), pt(room + 2 * margin), pt(mark.sizeMm + 2 * margin))
      .fill('even-odd');
  }
  document
    .fillColor(INK_COLOURS[mark.ink])
    .font(mark.face)
    .fontSize(pt(mark.sizeMm / CAPITALS))
    .text(mark.words, pt(left), pt(y), { ...FEATURES, baseline: 'alphabetic' });
  document.restore();
}

function bytesOf(document: PDFDocument): Promise<Uint8Array<ArrayBuffer>> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on('data', (chunk) => chunks.push(chunk));
    document.on('error', reject);
    document.on('end', () => {
      const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        whole.set(chunk, at);
        at += chunk.length;
      }
      resolve(whole);
    });
  });
}
