import { AXES } from '@core/base/vec';
import { degreesText, lengthUnit, wholeLength } from '../../panels/format';
import type { DisplayUnits } from '../../store/types';
import { type Measure, readingOf } from '../../tools/measuring';

/** `450 mm, x 300 y 336`; of several legs `last 450, in all 1 230 mm, 92°`. */
export function measureWords(measure: Measure, units: DisplayUnits): string {
  const reading = readingOf(measure.points);
  if (!reading) return '';
  const length = (metres: number): string => wholeLength(metres, units);
  const last = reading.legsM.at(-1) ?? 0;
  const parts = AXES.flatMap((axis, k) => {
    const value = reading.alongM[k as 0 | 1 | 2];
    return value > 5e-4 ? [`${axis} ${length(value)}`] : [];
  });
  if (reading.angleDeg === null) {
    const beside = parts.length > 1 ? `, ${parts.join(' ')}` : '';
    return `${length(last)} ${lengthUnit(units)}${beside}`;
  }
  return `last ${length(last)}, in all ${length(reading.totalM)} ${lengthUnit(units)}, ${degreesText(reading.angleDeg)}`;
}
