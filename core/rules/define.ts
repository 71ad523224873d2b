import type { Vec3 } from '../base/vec';
import type { Facts, PracticeProfile } from './facts';
import type { Outcome, Severity, SourceRef } from './finding';
import type { Hazard } from './hazard';
import type { FailedFinding, Mend, MendingAt } from './mend';

/** Values that the words of a verdict need. */
export type VerdictData = Readonly<Record<string, string | number | boolean | null>>;

interface VerdictBase {
  /** Tells several verdicts on one subject apart; part of the key. */
  readonly instance?: string;
  readonly related?: readonly string[];
  readonly at?: Vec3 | null;
  readonly data?: VerdictData;
  /** It speaks of what the arrangement plans (a new hole, a pin), though neither subject nor what is related is a part or a planned line. */
  readonly isPlanned?: boolean;
  /** Where they differ from those of the rule. */
  readonly sources?: readonly SourceRef[];
  readonly hazards?: readonly Hazard[];
}

export type Verdict = VerdictBase & Outcome;

/** Limits of a rule by practice profile, each by its name, in SI. */
export type Limits<Name extends string = string> = Readonly<Record<PracticeProfile, Readonly<Record<Name, number>>>>;

/** Limits in which the profiles agree. */
export const inBoth = <Name extends string>(limits: Readonly<Record<Name, number>>): Limits<Name> => ({
  isoSmallCraft: { ...limits },
  usVoluntary: { ...limits },
});

export interface Rule {
  /** Path of the file: folder is the subject matter. */
  readonly id: string;
  readonly question: string;
  readonly sources: readonly SourceRef[];
  /** What it compares with, in SI. The check reads it by the profile of the boat, each time that it is asked; missing: it has no figure of its own. */
  readonly limits?: Limits;
  /** The worst that it can find; default fault. */
  readonly gravest?: Severity;
  /** It asks for much work: it speaks in the report with the deeper tries alone. */
  readonly late?: boolean;
  /** What the check cannot see. */
  readonly cannotSee: readonly string[];
  /** What whoever acts on its verdicts must beware of; a verdict may name others. */
  readonly hazards: readonly Hazard[];
  /** Ids of things, lines or openings that the rule speaks about. */
  readonly subjects: (facts: Facts) => readonly string[];
  readonly check: (subject: string, facts: Facts) => readonly Verdict[];
  /** Changes that may help against a failure, the likeliest first; parts that are moved or turned the engine tries by itself. */
  readonly mends?: (finding: FailedFinding, at: MendingAt) => readonly Mend[];
}

export const defineRule = (rule: Rule): Rule => rule;
