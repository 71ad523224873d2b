import { analyze } from '@core/analyze';
import type { Boat } from '@core/boat/schema/boat';
import type { Finding } from '@core/rules/finding';
import { KINDS, perturbed } from './perturbed';

/** Share of its clean verdicts that may turn when a boat is perturbed within its grades. The product's promise. */
export const GREATEST_SHARE = 0.005;

/** Cause of a flip that no kind of record brings about by itself. */
const TOGETHER = 'several kinds together';

export interface Flip {
  readonly seed: number;
  readonly key: string;
  readonly from: string;
  readonly to: string;
  /** Kinds of records whose errors alone turn it, or that it takes several kinds together; empty where nobody asked. */
  readonly cause: readonly string[];
  /** What the verdict speaks of besides its subject. */
  readonly records: readonly string[];
}

export interface Flips {
  readonly judged: number;
  readonly clean: number;
  readonly closeCalls: number;
  readonly tried: number;
  readonly flips: readonly Flip[];
}

const isVerdict = (finding: Finding): finding is Extract<Finding, { outcome: 'pass' | 'fail' }> =>
  finding.outcome === 'pass' || finding.outcome === 'fail';

/** What became of a verdict: failures of one subject may go by the name of what they met. */
function outcomeNow(before: Finding, now: readonly Finding[]): string {
  const same = now.find(({ key }) => key === before.key);
  if (same) return same.outcome;
  const others = now.filter(({ rule, subject }) => rule === before.rule && subject === before.subject);
  if (others.some(({ outcome }) => outcome === before.outcome)) return before.outcome;
  return others[0]?.outcome ?? 'gone';
}

/** Perturbs a boat so many times and lists the clean verdicts that turn, with causes where they are asked for: six more boats each. */
export function flipsOf(boat: Boat, perturbations: number, { withCauses = false } = {}): Flips {
  const judged = analyze(boat).findings.filter(isVerdict);
  const clean = judged.filter(({ closeCall }) => !closeCall);
  const flips: Flip[] = [];
  for (let seed = 0; seed < perturbations; seed++) {
    const now = analyze(perturbed(boat, seed)).findings;
    const turned = clean.filter((finding) => outcomeNow(finding, now) !== finding.outcome);
    if (turned.length === 0) continue;
    const alone = (withCauses ? KINDS : []).map(
      (kind) => [kind, analyze(perturbed(boat, seed, kind)).findings] as const,
    );
    for (const finding of turned) {
      const single = alone.filter(([, findings]) => outcomeNow(finding, findings) !== finding.outcome);
      flips.push({
        seed,
        key: finding.key,
        from: finding.outcome,
        to: outcomeNow(finding, now),
        cause: withCauses && single.length === 0 ? [TOGETHER] : single.map(([kind]) => kind),
        records: finding.related,
      });
    }
  }
  return {
    judged: judged.length,
    clean: clean.length,
    closeCalls: judged.length - clean.length,
    tried: clean.length * perturbations,
    flips,
  };
}
