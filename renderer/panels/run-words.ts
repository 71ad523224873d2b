import type { RunReport } from '@core/engine/report';
import { blockedText } from '@core/output/text/rule-text';
import type { DisplayUnits } from '../store/types';
import { lengthUnit, wholeLength } from './format';

/** Why a run is blocked, in the words of the findings and the units that were chosen. */
export function blockWords(run: RunReport, nameOf: (id: string) => string, units: DisplayUnits): string {
  if (!run.reason) return 'Not routed.';
  const length = (metres: number) => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  return blockedText({ reason: run.reason, proved: run.proved ?? false }, nameOf, length);
}
