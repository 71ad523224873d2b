import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { findingText } from '@core/output/text/finding-text';
import type { Finding } from '@core/rules/finding';

const WIDTH = 100;
const INDENT = 13;
const RANK = ['danger', 'fault', 'advice', 'cannotTell'] as const;
type Rank = (typeof RANK)[number];
const HEADS: Readonly<Record<Rank, string>> = {
  danger: 'DANGER',
  fault: 'FAULT',
  advice: 'ADVICE',
  cannotTell: 'CANNOT TELL',
};

/** What a person reads after `check`: a summary, then every failure and every cannot-tell, worst first. */
export function checkText(report: Report, boat: Boat, notes: readonly string[]): string {
  const shown = report.findings
    .flatMap((finding) => {
      const rank = rankOf(finding);
      return rank === null ? [] : [{ finding, rank }];
    })
    .sort((a, b) => RANK.indexOf(a.rank) - RANK.indexOf(b.rank) || standing(a.finding) - standing(b.finding));
  const blocks = shown.map(({ finding, rank }) => block(HEADS[rank], finding, boat));
  return [summary(report), ...notes.map((note) => `note: ${note}`), ...blocks].map(printable).join('\n');
}

function rankOf(finding: Finding): Rank | null {
  if (finding.outcome === 'fail') return finding.severity;
  return finding.outcome === 'cannotTell' ? 'cannotTell' : null;
}
/** What the arrangement causes comes first; what is accepted, last. */
const standing = (finding: Finding): number => (finding.accepted ? 2 : finding.cause === 'existing' ? 1 : 0);

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

function summary({ boat, arrangement, summary: sum }: Report): string {
  const findings = [
    counted(sum.danger, 'danger', 'dangers'),
    counted(sum.fault, 'fault', 'faults'),
    `${sum.advice} advice`,
    `${sum.cannotTell} cannot tell`,
    `${sum.pass} passed (${counted(sum.closeCalls, 'close call', 'close calls')})`,
  ];
  const runs = [
    `${counted(sum.routed, 'run', 'runs')} routed, ${sum.blocked} blocked`,
    `${sum.hoseM.toFixed(2)} m of run`,
    counted(sum.newHoles, 'new hole', 'new holes'),
  ];
  const of = arrangement === null ? 'no arrangement' : `arrangement ${arrangement}`;
  return `${boat}, ${of}\n${findings.join(', ')}\n${runs.join('; ')}`;
}

function block(head: string, finding: Finding, boat: Boat): string {
  const words = findingText(finding, boat);
  const marks = [
    finding.cause === 'existing' ? 'was there before' : '',
    finding.accepted ? `accepted by ${finding.accepted.by} on ${finding.accepted.on}: ${finding.accepted.why}` : '',
  ].filter((mark) => mark !== '');
  const lines = [
    words.measured === '' ? words.title : `${words.title}: ${words.measured}`,
    words.why,
    words.closeCall,
    words.enterNext === '' ? '' : `Enter next: ${words.enterNext}`,
    ...words.cautions.map((caution) => `Caution: ${caution}`),
    words.sources.length === 0 ? '' : `Source: ${words.sources.join('; ')}`,
    `Rule: ${finding.rule}${marks.length === 0 ? '' : ` (${marks.join('; ')})`}`,
  ].filter((line) => line !== '');
  const body = lines.flatMap((line) => wrapped(line, WIDTH - INDENT));
  return `\n${body.map((line, at) => (at === 0 ? head : '').padEnd(INDENT) + line).join('\n')}`;
}

export function wrapped(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** Names come from a file that may be anybody's: nothing in them steers the terminal. */
export const printable = (text: string): string => text.replace(/[^\P{C}\n]/gu, '');
