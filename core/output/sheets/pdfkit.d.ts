/** What is used of pdfkit. Its published types pull Node in, which the core does not know. */
declare module 'pdfkit' {
  interface Instant {
    getTime(): number;
  }
  interface OpenFont {
    readonly font: { hasGlyphForCodePoint(codePoint: number): boolean };
  }
  export default class PDFDocument {
    constructor(options: {
      readonly autoFirstPage: boolean;
      /** Bytes of a TrueType font; without it the built-in fonts would be looked for as files. */
      readonly font: Uint8Array;
      readonly lang: string;
      readonly displayTitle: boolean;
      readonly compress: boolean;
      readonly info: Readonly<Record<string, string | Instant>>;
    });
    on(event: 'data', listener: (chunk: Uint8Array) => void): this;
    on(event: 'end', listener: () => void): this;
    on(event: 'error', listener: (error: Error) => void): this;
    addPage(options: { readonly size: readonly [number, number]; readonly margin: number }): this;
    end(): void;
    save(): this;
    restore(): this;
    rotate(degrees: number, options: { readonly origin: readonly [number, number] }): this;
    moveTo(x: number, y: number): this;
    lineTo(x: number, y: number): this;
    closePath(): this;
    rect(x: number, y: number, width: number, height: number): this;
    lineWidth(width: number): this;
    lineCap(style: 'butt' | 'round'): this;
    lineJoin(style: 'miter' | 'round'): this;
    dash(lengths: readonly number[], options: { readonly phase: number }): this;
    undash(): this;
    strokeColor(colour: string): this;
    fillColor(colour: string): this;
    stroke(): this;
    fill(rule: 'even-odd'): this;
    registerFont(name: string, bytes: Uint8Array): this;
    font(name: string): this;
    fontSize(size: number): this;
    widthOfString(words: string, options?: TextOptions): number;
    text(words: string, x: number, y: number, options: TextOptions): this;
    /** The font chosen last. */
    readonly _font: OpenFont;
  }
  interface TextOptions {
    readonly lineBreak?: false;
    readonly baseline?: 'alphabetic';
    readonly features?: readonly string[];
  }
}
