import type { Finding } from '../../rules/finding';
import { comparedText, lengthText } from './quantity-text';
import { RULE_TEXT } from './rule-text';

type Length = (metres: number) => string;

/**
 * What was measured, where a value beside a limit would say nothing: against a limit of nothing, or in the words that a rule has
 * of its own. Null where the value and its limit say it; empty where nothing was measured, or it is said elsewhere.
 */
export function comparedInstead(finding: Finding, length: Length): string | null {
  if (finding.outcome !== 'fail' && finding.outcome !== 'pass') return '';
  const own = RULE_TEXT[finding.rule]?.compared?.(finding, length);
  if (own !== undefined) return own;
  const { measured, limit, closeCall } = finding;
  if (limit.value !== 0 || limit.unit !== 'm') return null;
  const spareM = limit.bound === 'atLeast' ? measured.value : -measured.value;
  // Nothing where nothing may be: that two compartments share no space.
  if (limit.bound === 'atMost' && spareM === 0 && !closeCall) return '';
  const lacking = limit.bound === 'atLeast' ? 'too little' : 'too much';
  const value = spareM < 0 ? `${length(-spareM)} ${lacking}` : `${length(spareM)} to spare`;
  const band = closeCall && !closeCall.hangsOn ? `, \u00b1${length(closeCall.gradeM)}` : '';
  return `${finding.data.capped === true ? 'more than ' : ''}${value}${band}`;
}

/** `52 mm, at least 150 mm`, or what says it better; empty where nothing was measured. */
export function measuredText(finding: Finding): string {
  const instead = comparedInstead(finding, lengthText);
  if (instead !== null || (finding.outcome !== 'fail' && finding.outcome !== 'pass')) return instead ?? '';
  return comparedText(finding.measured, finding.limit, finding.data.capped === true);
}
