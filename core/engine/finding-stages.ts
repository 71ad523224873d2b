import { byKey } from '../base/order';
import { sameValue } from '../boat/schema-walk';
import type { Rule, Verdict } from '../rules/define';
import type { Cause, Finding, FindingBase } from '../rules/finding';
import { RULES } from '../rules/registry';
import { factsOver } from './facts';
import { withHazardsOf } from './hazards';
import { accepted, deeper, isPart, line, newHoles, practice } from './source';
import { type ComputedStage, type Read, sameItems, slicedStage } from './store';

const BY_ID: ReadonlyMap<string, Rule> = new Map(RULES.map((rule) => [rule.id, rule]));

function ruleOf(id: string): Rule {
  const rule = BY_ID.get(id);
  if (!rule) throw new Error(`ruleOf: expected a registered rule, got ${id}`);
  return rule;
}

/** Subjects of a rule, sorted. A rule that fails here speaks about itself, so that the rest of the report stands. */
export const subjects: ComputedStage<readonly string[]> = {
  id: 'subjects',
  compute: (ruleId, read) => {
    try {
      return [...ruleOf(ruleId).subjects(factsOver(read))].sort();
    } catch {
      return [ruleId];
    }
  },
  same: sameItems,
};

/** Findings of one rule on one subject, in the order of their keys. Key: `RULE|SUBJECT`. */
export const findingsOn: ComputedStage<readonly Finding[]> = {
  id: 'findingsOn',
  compute: (key, read) => {
    const cut = key.indexOf('|');
    const rule = ruleOf(key.slice(0, cut));
    const subject = key.slice(cut + 1);
    return verdicts(rule, subject, read)
      .map((verdict) => findingOf(rule, subject, verdict, read))
      .sort(byKey);
  },
  same: sameValue,
};

function verdicts(rule: Rule, subject: string, read: Read): readonly Verdict[] {
  try {
    return rule.check(subject, factsOver(read));
  } catch (error) {
    return [
      {
        outcome: 'cannotTell',
        reason: 'ruleCrashed',
        enterNext: '',
        data: { message: error instanceof Error ? error.message : String(error) },
      },
    ];
  }
}

function findingOf(rule: Rule, subject: string, verdict: Verdict, read: Read): Finding {
  const { instance, related = [], at = null, data = {}, isPlanned = false, sources, hazards, ...outcome } = verdict;
  const key = `${rule.id}|${subject}|${instance ?? ''}`;
  const acceptance = read(accepted)[key];
  const base: FindingBase = {
    key,
    rule: rule.id,
    subject,
    related,
    at,
    cause: isPlanned ? 'arrangement' : causeOf([subject, ...related], read),
    profile: read(practice),
    sources: sources ?? rule.sources,
    cannotSee: rule.cannotSee,
    hazards: withHazardsOf([subject, ...related], rule.id, hazards ?? rule.hazards, read),
    data,
    ...(acceptance ? { accepted: { by: acceptance.by, why: acceptance.why, on: acceptance.on } } : {}),
  };
  return { ...base, ...outcome };
}

/** What stands aboard already is no doing of the arrangement; a part, a planned line or a planned hole is. */
function causeOf(ids: readonly string[], read: Read): Cause {
  const holes = read(newHoles);
  const planned = ids.some((id) => read(isPart, id) || read(line, id)?.existing === false || Object.hasOwn(holes, id));
  return planned ? 'arrangement' : 'existing';
}

const OUTCOME_ORDER: Readonly<Record<string, number>> = { fail: 0, cannotTell: 1, pass: 2, notApplicable: 3 };
const SEVERITY_ORDER: Readonly<Record<string, number>> = { danger: 0, fault: 1, advice: 2 };

const rank = (finding: Finding): number =>
  (OUTCOME_ORDER[finding.outcome] ?? 9) * 100 +
  (finding.cause === 'existing' ? 10 : 0) +
  (finding.outcome === 'fail' ? (SEVERITY_ORDER[finding.severity] ?? 9) : 0);

/** Findings of one rule, so that a move looks again only at the rules that it touches. */
export const findingsOf: ComputedStage<readonly Finding[]> = {
  id: 'findingsOf',
  compute: (ruleId, read) => read(subjects, ruleId).flatMap((subject) => read(findingsOn, `${ruleId}|${subject}`)),
  same: sameItems,
};

/** The rules that speak in a report: those that are late only in one with the deeper tries in it. */
const rulesAsked = (isDeeper: boolean): readonly Rule[] => (isDeeper ? RULES : PROMPT);
/** Rules that speak in every report. */
export const PROMPT: readonly Rule[] = RULES.filter(({ late }) => !late);
const LATE: readonly Rule[] = RULES.filter(({ late }) => late);

/** What late rules are asked, `RULE|SUBJECT`, in order. */
export const lateQuestions: ComputedStage<readonly string[]> = {
  id: 'lateQuestions',
  compute: (_, read) => LATE.flatMap(({ id }) => read(subjects, id).map((subject) => `${id}|${subject}`)),
  same: sameItems,
};

/** The findings of a late rule on one subject, as one slice of deeper work. Key: as of `findingsOn`. */
export const lateFindings = slicedStage<readonly Finding[]>({
  id: 'lateFindings',
  start: (key, read) => ({ step: () => read(findingsOn, key) }),
  same: sameValue,
});

/** All findings: what fails first, what the arrangement causes before what was there already, then by severity and key. */
export const findings: ComputedStage<readonly Finding[]> = {
  id: 'findings',
  compute: (_, read) => {
    // Rules and their findings come almost in the order of keys: by rank first, little is left to sort.
    const byRank = new Map<number, Finding[]>();
    for (const { id } of rulesAsked(read(deeper)))
      for (const finding of read(findingsOf, id)) {
        const list = byRank.get(rank(finding));
        if (list) list.push(finding);
        else byRank.set(rank(finding), [finding]);
      }
    return [...byRank.keys()].sort((a, b) => a - b).flatMap((one) => byRank.get(one)?.sort(byKey) ?? []);
  },
  same: sameItems,
};
