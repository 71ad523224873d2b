/** Papers that documents are printed on. */
export const PAPER_SIZES = ['A4', 'A3', 'letter'] as const;
export type PaperSize = (typeof PAPER_SIZES)[number];

const WORDS: Readonly<Record<PaperSize, string>> = { A4: 'A4', A3: 'A3', letter: 'Letter' };
export const paperWords = (size: PaperSize): string => WORDS[size];
