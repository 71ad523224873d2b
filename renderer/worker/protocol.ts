import type { Pose } from '@core/base/vec';
import type { Patch } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { sameValue } from '@core/boat/schema-walk';
import type { Progress } from '@core/engine/in-slices';
import type { Report, RunReport } from '@core/engine/report';
import type { Delta as SessionDelta, WhatIf } from '@core/engine/session';
import type { Finding } from '@core/rules/finding';
import type { NextReading } from '@core/rules/next-reading';

/** To the worker. `sent` counts what was sent; the answer carries the count that it answers. */
export type ToWorker =
  | { readonly type: 'open'; readonly sent: number; readonly boat: Boat }
  /** Text of a boat file that is likely opened next: it may be judged ahead. Nothing is answered. */
  | { readonly type: 'foresee'; readonly text: string }
  | { readonly type: 'edit'; readonly sent: number; readonly patches: readonly Patch[] }
  /** A step of a drag. Steps that a newer one overtakes are not answered. */
  | {
      readonly type: 'whatIf';
      readonly seq: number;
      readonly places: Readonly<Record<string, Pose>>;
      readonly pulled: PulledRuns;
    }
  /** An edit that is looked at before it is made: the answer tells the run that this line would have. A newer one overtakes it. */
  | { readonly type: 'trial'; readonly trial: number; readonly lineId: string; readonly patches: readonly Patch[] }
  | { readonly type: 'endWhatIf' }
  /** A question that takes its time: worked on in slices between all else, and dropped when the boat changes or another comes. */
  | { readonly type: 'ask'; readonly ask: number; readonly question: Question }
  | { readonly type: 'dropAsk' };

/** What is held of runs: clip points and crossings at places that are tried. */
export type PulledRuns = Pick<WhatIf, 'clips' | 'slid'>;

/** What may be asked beside the report. */
export interface Question {
  readonly kind: 'nextReadings';
  readonly most: number;
}

export type FromWorker =
  | { readonly type: 'report'; readonly sent: number; readonly change: ReportChange }
  /** Nothing more is being worked out for that count: the last report is the answer with the deeper tries in it. */
  | { readonly type: 'rests'; readonly sent: number }
  | { readonly type: 'delta'; readonly seq: number; readonly delta: Delta }
  | { readonly type: 'asking'; readonly ask: number; readonly progress: Progress }
  | { readonly type: 'answer'; readonly ask: number; readonly readings: readonly NextReading[] }
  | { readonly type: 'tried'; readonly trial: number; readonly run: RunReport | null }
  /** The engine threw: a fault of the program. The boat on the board is safe. */
  | { readonly type: 'crashed'; readonly message: string };

/** What a drag makes different from what was told before: each piece adds to the last, none may be left out. */
export type Delta = Pick<SessionDelta, 'runs' | 'findings' | 'gone'>;

/**
 * A report told by what changed since the last one: runs and findings that did not change are named only,
 * so that the window keeps its own objects and redraws nothing for them. `whole` means that nothing came before.
 */
export interface ReportChange {
  readonly whole: boolean;
  readonly rest: Omit<Report, 'runs' | 'findings'>;
  readonly runs: readonly RunReport[];
  readonly runOrder: readonly string[];
  readonly findings: readonly Finding[];
  readonly findingOrder: readonly string[];
}

export function changeBetween(before: Report | null, after: Report): ReportChange {
  const { runs, findings, ...rest } = after;
  const oldRuns = new Map(before?.runs.map((run) => [run.lineId, run]));
  const oldFindings = new Map(before?.findings.map((finding) => [finding.key, finding]));
  return {
    whole: before === null,
    rest,
    runs: runs.filter((run) => differs(oldRuns.get(run.lineId), run)),
    runOrder: runs.map((run) => run.lineId),
    findings: findings.filter((finding) => differs(oldFindings.get(finding.key), finding)),
    findingOrder: findings.map((finding) => finding.key),
  };
}

/** The engine keeps the old object mostly, not always, when nothing of it changed. */
const differs = (old: unknown, now: unknown): boolean => old !== now && !sameValue(old, now);

/** The window's side of `changeBetween`. */
export function changed(before: Report | null, change: ReportChange): Report {
  const base = change.whole ? null : before;
  const runs = new Map([...(base?.runs ?? []), ...change.runs].map((run) => [run.lineId, run]));
  const findings = new Map([...(base?.findings ?? []), ...change.findings].map((finding) => [finding.key, finding]));
  return {
    ...change.rest,
    runs: change.runOrder.map((id) => known(runs, id)),
    findings: change.findingOrder.map((key) => known(findings, key)),
  };
}

function known<T>(records: ReadonlyMap<string, T>, key: string): T {
  const record = records.get(key);
  if (record === undefined) throw new Error(`changed: expected a record of ${key} before, got none`);
  return record;
}
