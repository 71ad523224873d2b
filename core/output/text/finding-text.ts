import { BIBLIOGRAPHY } from '../../base/bibliography';
import type { Boat } from '../../boat/schema/boat';
import type { Finding, SourceRef } from '../../rules/finding';
import { nameOf } from './names';
import { comparedText } from './quantity-text';
import { RULE_TEXT, type RuleWords } from './rule-text';

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
  readonly closeCall: string;
}

const STANDING: Readonly<Record<SourceRef['standing'], string>> = {
  published: 'published',
  quoted: 'quoted, not read',
  derived: 'derived',
  commonPractice: 'common practice, no source',
  fromMemory: 'from memory, unverified',
  boatFile: 'entered in the boat file',
};

export function sourceText(source: SourceRef): string {
  const reference = Object.hasOwn(BIBLIOGRAPHY, source.key)
    ? BIBLIOGRAPHY[source.key as keyof typeof BIBLIOGRAPHY]
    : null;
  const title = reference?.title ?? source.key;
  const clause = source.clause ? `, clause ${source.clause}` : '';
  const standing = STANDING[source.standing];
  return standing.startsWith(title.toLowerCase()) ? `${title}${clause}` : `${title}${clause} (${standing})`;
}

/** The words of a finding, rendered from the catalogue at the last moment. */
export function findingText(finding: Finding, boat: Boat): FindingWords {
  const words: RuleWords | undefined = RULE_TEXT[finding.rule];
  const subject = nameOf(boat, finding.subject);
  const name = (id: string) => nameOf(boat, id);
  const reason = finding.outcome === 'pass' ? 'pass' : finding.reason;
  const line = words?.[finding.outcome === 'pass' ? 'pass' : finding.outcome]?.[reason] ?? words?.other;
  const said = line?.({ subject, name, finding, data: finding.data }) ?? fallback(finding, subject);
  const measured =
    finding.outcome === 'fail' || finding.outcome === 'pass'
      ? comparedText(finding.measured, finding.limit, finding.data.capped === true)
      : '';
  const close = (finding.outcome === 'fail' || finding.outcome === 'pass') && finding.closeCall;
  return {
    title: finding.outcome === 'pass' && close ? `${said.title}, inside the tape` : said.title,
    measured,
    why: said.why,
    enterNext: finding.outcome === 'cannotTell' ? finding.enterNext : '',
    sources: finding.sources.map(sourceText),
    blindTo: finding.cannotSee,
    closeCall: close
      ? `Inside the tape: ±${Math.round(close.gradeM * 1000)} mm. The chance that it passes is ${percent(close.passProbability[0])} to ${percent(close.passProbability[1])}.`
      : '',
  };
}

const percent = (chance: number): string => `${Math.round(chance * 100)} %`;

function fallback(finding: Finding, subject: string): { title: string; why: string } {
  if (finding.outcome === 'cannotTell')
    return {
      title: `Cannot tell: ${subject}`,
      why:
        finding.reason === 'ruleCrashed'
          ? 'The check itself failed. The rest of the report stands.'
          : `${finding.enterNext}.`,
    };
  if (finding.outcome === 'notApplicable') return { title: `${subject}: does not apply`, why: '' };
  return { title: subject, why: '' };
}
