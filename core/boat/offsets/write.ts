import Papa from 'papaparse';
import type { Hull } from '../schema/boat';
import { stationsInOrder } from '../station-edits';
import { loftedText } from './cell';

/**
 * The offsets of a hull as a list of points, comma-separated, one point a row from keel to sheer (RFC 4180, CRLF). In millimetres
 * every micrometre is kept, so reading it again gives the same hull; feet, inches and eighths are rounded to the sixteenth.
 */
export function offsetsCsv(hull: Pick<Hull, 'stations'>, unit: 'mm' | 'ft-in-8'): string {
  const length = (metres: number): string =>
    unit === 'mm' ? String(Number((metres * 1000).toFixed(3))) : loftedText(metres);
  const suffix = unit === 'mm' ? ' (mm)' : '';
  const fields = ['Station', `x${suffix}`, 'Point', `Half-breadth${suffix}`, `Height${suffix}`, 'Knuckle'];
  const data = stationsInOrder(hull).flatMap(([, { xM, points, knuckles }], number) =>
    points.map(([y, z], index) => [
      String(number),
      length(xM),
      String(index + 1),
      length(y),
      length(z),
      knuckles?.includes(index) ? 'k' : '',
    ]),
  );
  return `${Papa.unparse({ fields, data }, { newline: '\r\n' })}\r\n`;
}
