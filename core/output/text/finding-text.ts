import { BIBLIOGRAPHY } from '../../base/bibliography';
import type { Boat } from '../../boat/schema/boat';
import type { CloseCall, Finding, MeasureUnit, SourceRef } from '../../rules/finding';
import { cautionTexts } from './caution-text';
import { measuredText } from './compared-text';
import { nameOf, obstacleName } from './names';
import { measureText } from './quantity-text';
import { RULE_TEXT } from './rule-text';
import type { RuleWords } from './say';

export interface FindingWords {
  /** One line for the list. */
  readonly title: string;
  /** `52 mm, at least 150 mm`; empty where nothing was measured. */
  readonly measured: string;
  readonly why: string;
  /** What to enter next, for a verdict that cannot be told. */
  readonly enterNext: string;
  readonly sources: readonly string[];
  readonly blindTo: readonly string[];
  /** What to beware of; empty for a pass, on which nobody acts. */
  readonly cautions: readonly string[];
  readonly closeCall: string;
}

const STANDING: Readonly<Record<SourceRef['standing'], string>> = {
  published: 'published',
  quoted: 'quoted, not read',
  derived: 'derived',
  commonPractice: 'common practice, no source',
  fromMemory: 'from memory, unverified default',
  boatFile: 'entered in the boat file',
};

/** A source in words, with its standing; common practice and the boat file are their own standing. */
export function sourceText(source: SourceRef): string {
  const reference = Object.hasOwn(BIBLIOGRAPHY, source.key)
    ? BIBLIOGRAPHY[source.key as keyof typeof BIBLIOGRAPHY]
    : null;
  const title = reference?.title ?? source.key;
  const clause = source.clause ? `, clause ${source.clause}` : '';
  const saysItself =
    (reference?.known === 'practice' || reference?.known === 'owner') && source.standing !== 'fromMemory';
  return saysItself ? `${title}${clause}` : `${title}${clause} (${STANDING[source.standing]})`;
}

/** The words of a finding, rendered from the catalogue at the last moment. */
export function findingText(finding: Finding, boat: Boat): FindingWords {
  const words: RuleWords | undefined = RULE_TEXT[finding.rule];
  const subject = nameOf(boat, finding.subject);
  const name = (id: string) => nameOf(boat, id);
  const reason = finding.outcome === 'pass' ? 'pass' : finding.reason;
  const obstacle = (id: string, label?: string) => obstacleName(boat, id, label);
  const line = words?.[finding.outcome === 'pass' ? 'pass' : finding.outcome]?.[reason];
  const said = line?.({ subject, name, obstacle, finding, data: finding.data }) ?? fallback(finding, subject);
  const close = (finding.outcome === 'fail' || finding.outcome === 'pass') && finding.closeCall;
  return {
    title: finding.outcome === 'pass' && close ? `${said.title}, ${closeTitle(finding.rule, close)}` : said.title,
    measured: measuredText(finding),
    why: sentence(said.why),
    enterNext: finding.outcome === 'cannotTell' ? finding.enterNext : '',
    sources: finding.sources.map(sourceText),
    blindTo: finding.cannotSee,
    cautions: finding.outcome === 'fail' || finding.outcome === 'cannotTell' ? cautionTexts(finding.hazards) : [],
    closeCall: close
      ? close.hangsOn
        ? `The ends of the run are known to ±${bandText(close.gradeM, 'm')}: the chance that it can lie as drawn is ${percentBand(close.passProbability)}.`
        : `The drawing is good to ±${bandText(close.gradeM, close.unit ?? finding.limit.unit)} here: the chance that it passes is ${percentBand(close.passProbability)}.`
      : '',
  };
}

/** What a pass that is no better than the tape hangs on. */
function closeTitle(rule: string, { hangsOn }: CloseCall): string {
  if (!hangsOn) return 'a close call';
  return rule === 'runs/blocked' ? 'if its ends are where they are drawn' : 'if the run can lie as drawn';
}

/** Lengths to the millimetre, whatever the limit is in. */
const bandText = (grade: number, unit: MeasureUnit): string =>
  unit === 'm' ? `${Math.round(grade * 1000)} mm` : measureText({ value: grade, unit });

/** The reasons may begin with the name of an obstacle. */
const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** `16 to 26 %`; never 0 or 100, for a close call is neither. */
export function percentBand([least, greatest]: readonly [number, number]): string {
  const [low, high] = [Math.round(least * 100), Math.round(greatest * 100)];
  if (high < 1) return 'below 1 %';
  if (low > 99) return 'above 99 %';
  if (low < 1) return `at most ${high} %`;
  if (high > 99) return `at least ${low} %`;
  return low === high ? `${low} %` : `${low} to ${high} %`;
}

function fallback(finding: Finding, subject: string): { title: string; why: string } {
  if (finding.outcome === 'cannotTell')
    return {
      title: `Cannot tell: ${subject}`,
      why: finding.reason === 'ruleCrashed' ? 'The check itself failed. The rest of the report stands.' : '',
    };
  if (finding.outcome === 'notApplicable')
    return { title: `${subject}: ${questionOf(finding.rule)} does not apply`, why: '' };
  return { title: subject, why: '' };
}

/** `flooding/green-water` to `green water`: what a check asks about. */
const questionOf = (rule: string): string => (rule.split('/').at(-1) ?? rule).replaceAll('-', ' ');
