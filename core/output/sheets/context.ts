import { formatLength } from '../../base/entry';
import type { Boat } from '../../boat/schema/boat';
import { practiceText } from '../text/assumption-text';
import { digits } from '../text/quantity-text';
import type { Lettering, Sheet } from './marks';
import type { TitleFields } from './paper';
import type { PaperSize } from './paper-size';

/** What every document is told: the paper, the letters, the day, and whose boat it is about. */
export interface PrintContext {
  readonly paper: PaperSize;
  readonly lettering: Lettering;
  /** YYYY-MM-DD. */
  readonly date: string;
  readonly boatName: string;
  readonly practice: Boat['practice'];
  /** Name of the boat file; empty where it was never saved. */
  readonly fileName: string;
  readonly units: 'mm' | 'inch';
}

/** The sheets, or why there are none. */
export type Made = { readonly sheets: readonly Sheet[] } | { readonly problem: string };

export const lengthWords = (metres: number, context: Pick<PrintContext, 'units'>): string =>
  `${lengthFigure(metres, context)} ${unitWords(context)}`;

/** A length without its unit, for columns whose head names it. */
export const lengthFigure = (metres: number, { units }: Pick<PrintContext, 'units'>): string =>
  units === 'mm'
    ? digits(metres * 1000, Math.abs(metres * 1000 - Math.round(metres * 1000)) < 0.05 ? 0 : 1)
    : formatLength(metres, 'in', 'drawn').replace(/ in$/, '').replace('-', '−');

export const unitWords = ({ units }: Pick<PrintContext, 'units'>): string => (units === 'mm' ? 'mm' : 'in');

/** Title block entries that are the same on every sheet of a document. */
export const titleFields = (
  context: PrintContext,
  own: Pick<TitleFields, 'sheet' | 'subject' | 'measured' | 'scale' | 'number' | 'of'>,
): TitleFields => ({
  boat: context.boatName,
  drawnFrom: context.fileName === '' ? 'not saved yet' : context.fileName,
  practice: practiceText(context.practice),
  date: context.date,
  ...own,
});
