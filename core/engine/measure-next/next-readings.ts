import { CLEAN_MARGIN, combine, GRADE_LARGER, gradeM, normalShare } from '../../boat/accuracy';
import { edit } from '../../boat/edits';
import type { Boat } from '../../boat/schema/boat';
import type { Finding, Severity } from '../../rules/finding';
import type { NextReading, Settled } from '../../rules/next-reading';
import { RULES } from '../../rules/registry';
import { findings, findingsOf, findingsOn } from '../finding-stages';
import { atOnce, type InSlices, inSlices, type Progress } from '../in-slices';
import { runReport } from '../report-stages';
import { compartmentOf, hull } from '../shape-stages';
import { lineIds, type Source, sourceOf } from '../source';
import { Store } from '../store';
import { attitude } from '../water-stages';
import { type Candidate, candidatesFor, type Readable, sizeReadings } from './candidates';
import { readingTaken } from './reading-taken';

export interface NextReadingsOptions {
  /** Default: the arrangement that is marked current, else the first by id. */
  readonly arrangement?: string;
  /** How many are wanted; default 5. */
  readonly most?: number;
  /** A store that may know some of it already. It is worked in, and left to nobody else. */
  readonly store?: Store<Source>;
}

export const USUAL_READINGS = 5;
/** Plans that are tried: one for each reading that is wanted, and a few more. */
const TRIED_BESIDE = 4;
/**
 * A reading may come out anywhere within its grade: it is tried at the middle of each fifth of the chances, in standard deviations
 * of a normal distribution (10, 30, 50, 70 and 90 %).
 */
const FIFTHS: readonly number[] = [-1.2816, -0.5244, 0, 0.5244, 1.2816];
/** A value that adds less than this share to the grade of a verdict is not worth a reading. */
const LEAST_SHARE = 0.15;
const MORE_OFTEN_THAN_NOT = 0.5;
/** A verdict that a reading settles less often than this is not named beside it. */
const LEAST_CHANCE = 0.1;
/** What a verdict weighs. Project judgement: one danger before three faults before nine remarks. */
const WEIGHT: Readonly<Record<Severity, number>> = { danger: 9, fault: 3, advice: 1 };
/** What was there before the plan works as it is, more likely than not. Project judgement. */
const EXISTING_SHARE = 1 / 3;
/** Most of the list that are to be looked up at home. */
const LOOK_UP_SHARE = 0.4;
/** Reasons for which nothing can be measured: something else has to come first. */
const NOT_A_READING: ReadonlySet<string> = new Set(['noRun', 'notRouted', 'ruleCrashed', 'nowhere', 'valveNowhere']);

const GRAVEST: ReadonlyMap<string, Severity> = new Map(RULES.map(({ id, gravest }) => [id, gravest ?? 'fault']));

const weightOf = (finding: Finding): number =>
  WEIGHT[finding.outcome === 'fail' ? finding.severity : (GRAVEST.get(finding.rule) ?? 'fault')] *
  (finding.cause === 'existing' ? EXISTING_SHARE : 1);

type CloseCall = Extract<Finding, { outcome: 'pass' | 'fail' }>;

/**
 * The readings that would settle most of what stands open, the best first. A reading is tried at outcomes spread over its grade,
 * each entered as measured, and whatever rests on it is judged anew; its value is the expected number of verdicts that become
 * clean, weighed by how grave they are and whether they are of the plan. What is missing for a verdict counts as settled by
 * entering it. Sizes of parts, which a data sheet tells, leave at least three of five places to the tape while there is use for it.
 */
export function nextReadings(boat: Boat, options: NextReadingsOptions = {}): readonly NextReading[] {
  return atOnce(startNextReadings(boat, options));
}

/** The same in slices: each judges one line, or tries one outcome of one reading. */
export function startNextReadings(
  boat: Boat,
  { arrangement, most = USUAL_READINGS, store }: NextReadingsOptions = {},
): InSlices<readonly NextReading[]> {
  const source = sourceOf(boat, arrangement);
  const own = store ?? new Store(source);
  own.set(source);
  return inSlices(readings(own, source, most));
}

function* readings(store: Store<Source>, source: Source, most: number): Generator<Progress, readonly NextReading[]> {
  const { boat } = source;
  const toTry = TRIED_BESIDE + most;
  const routed = store.read(lineIds);
  const before = routed.length + RULES.length;
  const total = before + toTry * FIFTHS.length;
  for (const [done, id] of routed.entries()) {
    store.read(runReport, id);
    yield { done, of: total };
  }
  for (const [done, { id }] of RULES.entries()) {
    store.read(findingsOf, id);
    yield { done: routed.length + done, of: total };
  }
  const open = store.read(findings).filter((finding) => finding.accepted === undefined);
  const from: Readable = {
    boat,
    arrangementId: source.arrangementId,
    hull: store.read(hull),
    attitude: store.read(attitude),
    compartmentOf: (id) => store.read(compartmentOf, id),
    gradeM: (grade) => gradeM(boat, grade),
  };
  const plans = mostlyTape(
    plansFor(open.filter(isCloseCall), from),
    ({ candidates }) => candidates.every(isLookUp),
    toTry,
  );
  const settled: Tried[] = [];
  for (const [index, plan] of plans.entries()) {
    const chances = new Map<string, number>();
    for (const fifth of FIFTHS.keys()) {
      for (const key of settledBy(store, from, plan, fifth))
        chances.set(key, (chances.get(key) ?? 0) + 1 / FIFTHS.length);
      yield { done: before + index * FIFTHS.length + fifth + 1, of: total };
    }
    // Five tries are few, of two readings only slips against each other: that none settled it does not say that none will.
    for (const [key, chance] of plan.chances)
      if (!chances.has(key)) chances.set(key, Math.min(chance, 1 / FIFTHS.length));
    settled.push({ plan, chances });
  }
  return mostlyTape([...missing(open), ...readingsFrom(settled, open)].sort(byValue), isLookUp, most);
}

/**
 * The first of a ranking, look-ups making up no more than two of five while there is anything else: whoever goes aboard with a
 * tape wants what only the tape tells. Project judgement.
 */
function mostlyTape<T>(ranked: readonly T[], isFromSheet: (one: T) => boolean, most: number): readonly T[] {
  const sheets = ranked.filter(isFromSheet);
  const others = Math.min(most, ranked.length - sheets.length);
  const room = new Set(sheets.slice(0, Math.max(Math.ceil(LOOK_UP_SHARE * most), most - others)));
  return ranked.filter((one) => !isFromSheet(one) || room.has(one)).slice(0, most);
}

const isCloseCall = (finding: Finding): finding is CloseCall =>
  (finding.outcome === 'pass' || finding.outcome === 'fail') && finding.closeCall !== undefined;

/** Readings to be taken together, and the verdicts that they may settle. */
interface Plan {
  readonly candidates: readonly Candidate[];
  /** Verdicts, each with the chance that the combination of grades alone gives it to become clean. */
  readonly chances: ReadonlyMap<string, number>;
  /** What the combination of grades alone lets one expect for each reading. */
  readonly guess: number;
}

interface Tried {
  readonly plan: Plan;
  readonly chances: ReadonlyMap<string, number>;
}

/** Plans by what they promise. A verdict goes to the fewest readings that settle it more often than not, the coarsest first. */
function plansFor(open: readonly CloseCall[], from: Readable): readonly Plan[] {
  const plans = new Map<string, { candidates: readonly Candidate[]; chances: Map<string, number>; guess: number }>();
  for (const finding of open) {
    const chosen = fewestFor(finding, from);
    if (!chosen) continue;
    const name = chosen.candidates.map(({ id }) => id).join(' ');
    const plan = plans.get(name) ?? { candidates: chosen.candidates, chances: new Map(), guess: 0 };
    plans.set(name, plan);
    plan.chances.set(finding.key, chosen.chance);
    plan.guess += (weightOf(finding) * chosen.chance) / chosen.candidates.length;
  }
  return [...plans.values()].sort(
    (a, b) => b.guess - a.guess || byPlace(a.candidates[0] as Candidate, b.candidates[0] as Candidate),
  );
}

function fewestFor(finding: CloseCall, from: Readable): { candidates: readonly Candidate[]; chance: number } | null {
  const shares = [...(finding.gradeFrom ?? [])].sort((a, b) => b.gradeM - a.gradeM || (a.path < b.path ? -1 : 1));
  const candidates: Candidate[] = [];
  for (const { path, gradeM: share } of shares) {
    if (share < LEAST_SHARE * (finding.closeCall?.gradeM ?? 0)) break;
    for (const candidate of candidatesFor(path, from)) {
      if (candidates.some(({ id }) => id === candidate.id)) continue;
      candidates.push(candidate);
      const chance = chanceByGrades(finding, candidates, from);
      if (chance >= MORE_OFTEN_THAN_NOT) return { candidates: [...candidates].sort(byPlace), chance };
    }
  }
  const chance = chanceByGrades(finding, candidates, from);
  return candidates.length > 0 && chance >= LEAST_CHANCE ? { candidates: candidates.sort(byPlace), chance } : null;
}

/**
 * Chance that a verdict becomes clean: its margin then lies beyond 1.5 of what is left of its grade, where the readings move it
 * by a normal error with the part of the grade that they take away.
 */
function chanceByGrades(
  { closeCall, gradeFrom = [] }: CloseCall,
  candidates: readonly Candidate[],
  from: Readable,
): number {
  const best = from.gradeM('measured');
  const taken = combine(
    ...gradeFrom.map(({ path, gradeM: share }) => {
      const own = candidates.find(({ paths }) => paths.some((one) => one === path || one.startsWith(`${path}.`)));
      const coarse = own?.gradeM ?? best;
      return own ? share * Math.sqrt(Math.max(0, 1 - (best / coarse) ** 2)) : 0;
    }),
  );
  const whole = closeCall?.gradeM ?? 0;
  const left = CLEAN_MARGIN * Math.sqrt(Math.max(0, whole * whole - taken * taken));
  const margin = closeCall ? marginOf(closeCall) : 0;
  const deviation = Math.max(taken / 2, 1e-9);
  return normalShare((margin - left) / deviation) + normalShare((-margin - left) / deviation);
}

/**
 * The margin that a close call hangs on, in the unit of its grade: what is measured need not be what is in doubt. Out of the
 * chance that is nearer to even, which is the one for the coarser grade.
 */
function marginOf({ gradeM: grade, passProbability }: NonNullable<CloseCall['closeCall']>): number {
  const [least, greatest] = passProbability;
  const chance = least >= 0.5 ? least : greatest;
  let [low, high] = [-CLEAN_MARGIN * grade, CLEAN_MARGIN * grade];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (normalShare((2 * middle) / (grade * GRADE_LARGER)) < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Verdicts of a plan that are clean when its readings come out in one of the fifths of their chances, each in another one. */
function settledBy(
  store: Store<Source>,
  from: Readable,
  { candidates, chances }: Plan,
  fifth: number,
): readonly string[] {
  const { boat, arrangementId } = from;
  const best = gradeM(boat, 'measured');
  // The sizes of a part that are looked up together slip each by itself.
  const singly = candidates.flatMap((candidate) =>
    isLookUp(candidate) && candidate.present === null
      ? [...sizeReadings(candidate.record, from), candidate]
      : [candidate],
  );
  const edited = edit(boat, (draft) => {
    singly.forEach((candidate, index) => {
      const deviations = FIFTHS[(fifth + 2 * index) % FIFTHS.length] ?? 0;
      const slip = (deviations * Math.sqrt(Math.max(0, (candidate.gradeM ?? 0) ** 2 - best * best))) / 2;
      readingTaken(candidate, candidate.present === null ? null : candidate.present + slip)(draft);
    });
  });
  if (!edited.ok) return [];
  store.set(sourceOf(edited.boat, arrangementId));
  const settled = [...chances.keys()].filter((key) => {
    const [rule = '', subject = '', instance = ''] = key.split('|');
    const now = store.read(findingsOn, `${rule}|${subject}`);
    const own = now.find((finding) => finding.key === key);
    // What failed by the name of what it met may have no failure left: then the subject's own verdict counts.
    const verdict = own ?? (instance === '' ? undefined : now.find((finding) => finding.outcome === 'pass'));
    return verdict !== undefined && (verdict.outcome === 'pass' || verdict.outcome === 'fail') && !verdict.closeCall;
  });
  store.set(sourceOf(boat, arrangementId));
  return settled;
}

/** Each reading with all that it settles, alone and along with others. */
function readingsFrom(tried: readonly Tried[], open: readonly Finding[]): readonly NextReading[] {
  const weights = new Map(open.map((finding) => [finding.key, weightOf(finding)]));
  const byId = new Map<string, { candidate: Candidate; settles: Settled[]; value: number }>();
  for (const { plan, chances } of tried)
    for (const candidate of plan.candidates)
      for (const [key, chance] of chances) {
        if (chance < LEAST_CHANCE) continue;
        const reading = byId.get(candidate.id) ?? { candidate, settles: [], value: 0 };
        byId.set(candidate.id, reading);
        const along = plan.candidates.flatMap(({ id }) => (id === candidate.id ? [] : [id])).sort();
        reading.settles.push({ key, chance: rounded(chance), along });
        reading.value += (chance * (weights.get(key) ?? 0)) / plan.candidates.length;
      }
  return [...byId.values()].map(({ candidate, settles, value }) => ({
    ...candidate,
    settles: settles.sort((a, b) => a.along.length - b.along.length || b.chance - a.chance || (a.key < b.key ? -1 : 1)),
    value: rounded(value),
  }));
}

const rounded = (value: number): number => Math.round(value * 1e4) / 1e4;

/** Inputs without which verdicts cannot be told, verdicts that lack the same one together. */
function missing(open: readonly Finding[]): readonly NextReading[] {
  const byWhat = new Map<string, NextReading>();
  for (const finding of open) {
    if (finding.outcome !== 'cannotTell' || finding.enterNext === '' || NOT_A_READING.has(finding.reason)) continue;
    const what = finding.missing?.path ?? finding.enterNext;
    const known = byWhat.get(what);
    byWhat.set(what, {
      id: `missing:${finding.missing?.path ?? finding.key}`,
      kind: 'missing',
      record: finding.subject,
      from: { record: finding.subject, side: null },
      to: { record: finding.subject, side: null },
      axis: null,
      paths: finding.missing ? [finding.missing.path] : [],
      present: null,
      unit: finding.missing?.unit ?? null,
      grade: null,
      gradeM: null,
      at: finding.at,
      enterNext: finding.enterNext,
      ...known,
      settles: [...(known?.settles ?? []), { key: finding.key, chance: 1, along: [] }],
      value: (known?.value ?? 0) + weightOf(finding),
    });
  }
  return [...byWhat.values()];
}

/** Sizes of a part are on its data sheet. */
const isLookUp = ({ kind }: Candidate): boolean => kind === 'partSize';

/** Of two that are worth the same the tape comes before the data sheet. */
const byValue = (a: NextReading, b: NextReading): number =>
  b.value - a.value || Number(isLookUp(a)) - Number(isLookUp(b)) || byPlace(a, b);

/** Between equals the place in the boat decides, from aft forward, and what is measured: names and ids do not. */
function byPlace(a: Candidate, b: Candidate): number {
  const order = (p: Candidate): readonly number[] =>
    [...(p.at ?? [1e6, 0, 0]), p.present ?? 0].map((v) => Math.round(v * 1e6));
  const [p, q] = [order(a), order(b)];
  const k = p.findIndex((value, index) => value !== q[index]);
  if (k >= 0) return (p[k] ?? 0) - (q[k] ?? 0);
  return a.kind < b.kind ? -1 : a.kind > b.kind ? 1 : a.id < b.id ? -1 : 1;
}
