import type { SourceKey } from '../../base/bibliography';
import { byId } from '../../base/order';
import { distance, type Vec3 } from '../../base/vec';
import { type Judgement, judge } from '../../boat/accuracy';
import type { Fixture } from '../../boat/schema/boat';
import type { DISCHARGES } from '../../boat/schema/sea-opening';
import type { WaterPlane } from '../../shape/hull/types';
import { depthBelow, type HeelingWaters, type Immersion, immersionOf } from './immersion';

export type Discharge = (typeof DISCHARGES)[number];
export type HoleRole = 'intake' | 'outlet';
type SeaOpening = NonNullable<Fixture['opensToSea']>;

/** What is known of one through-hull. */
export interface Hole {
  readonly id: string;
  /** Middle of the hole in the hull, boat frame. */
  readonly at: Vec3;
  readonly boreM: number;
  readonly use: SeaOpening['use'];
  readonly isLog: boolean;
  readonly material?: SeaOpening['material'];
  readonly fittedYear?: number | undefined;
  readonly valve: 'none' | 'ball' | 'gate' | 'other';
  /** Ids of things, or names, that use it besides the set. */
  readonly sharedBy: readonly string[];
  /** Whether the engine draws through it. */
  readonly feedsEngine: boolean;
  /** What comes out of it; null: it is an outlet, and nobody has said. */
  readonly discharges: readonly Discharge[] | null;
  /** How deep a hand must go to its handle; unknown with what to enter next. */
  readonly reach:
    | { readonly kind: 'stands' }
    | { readonly kind: 'reach'; readonly distanceM: number; readonly limitM: number; readonly gradeM: number }
    | { readonly kind: 'unknown'; readonly enterNext: string };
  /** Two standard deviations of its depth, metres. */
  readonly depthGradeM: number;
}

/** Something else that lets water out over the side, such as an exhaust above the waterline. */
export type OtherOutlet = Pick<Hole, 'id' | 'at' | 'discharges'>;

/** A water in which the set is run. */
export interface RunningWater {
  readonly name: string;
  readonly use: 'anchored' | 'motoring' | 'sailing';
  readonly heelDeg: number;
  readonly down: 'upright' | 'port' | 'starboard';
  readonly water: WaterPlane;
}

export interface HoleQuestion {
  readonly holes: readonly Hole[];
  readonly otherOutlets: readonly OtherOutlet[];
  /** Of the run-states that were chosen, upright and heeled. */
  readonly running: readonly RunningWater[];
  readonly heeling: HeelingWaters;
  /** Bores that the set asks for, metres. */
  readonly boreM: Readonly<Record<HoleRole, number>>;
  readonly noHaulOut: boolean;
  /** The year that it is, where the caller knows it: the age of a fitting follows. */
  readonly year: number | null;
}

/** How much a reason counts: what rules a hole out, what is dangerous, what speaks against it, what is not known, what speaks for it. */
export type HoleWeight = 'rulesOut' | 'danger' | 'against' | 'unknown' | 'note' | 'for';

export interface HoleReason {
  readonly key: HoleReasonKey;
  readonly weight: HoleWeight;
  /** Values that the words need; lengths in metres. */
  readonly data: Readonly<Record<string, string | number>>;
  readonly source: {
    readonly key: SourceKey;
    readonly standing: 'derived' | 'commonPractice' | 'boatFile' | 'quoted';
  };
  readonly closeCall?: Judgement['closeCall'];
}

export type HoleReasonKey =
  | 'dry'
  | 'shallow'
  | 'immersed'
  | 'narrow'
  | 'wasteComesOut'
  | 'dischargeAhead'
  | 'dischargeNear'
  | 'dischargeUnknown'
  | 'engineShares'
  | 'shared'
  | 'spare'
  | 'takenAsIntake'
  | 'outOfReach'
  | 'reachUnknown'
  | 'inReach'
  | 'noValve'
  | 'gateValve'
  | 'brass'
  | 'materialUnknown'
  | 'old'
  | 'logFitting'
  | 'haulOut'
  | 'needsHaulOut'
  | 'above'
  | 'underAtHeel'
  | 'underUpright'
  | 'backsUp'
  | 'aheadOfIntake';

export interface RankedHole {
  readonly id: string;
  /** From 1. */
  readonly rank: number;
  /** False: something rules it out. */
  readonly isUsable: boolean;
  /** Heaviest first. */
  readonly reasons: readonly HoleReason[];
  readonly immersion: Immersion;
  /** Shallowest in the waters in which the set is run. */
  readonly least: DepthIn;
  readonly greatest: DepthIn;
  readonly side: 'port' | 'starboard' | 'centreline';
}

export interface DepthIn {
  readonly depthM: number;
  readonly heelDeg: number;
  readonly down: RunningWater['down'];
  readonly state: string;
}

export interface HoleRanking {
  readonly asIntake: readonly RankedHole[];
  readonly asOutlet: readonly RankedHole[];
}

/** Depth below which an intake draws air in a chop. Common practice, from memory. */
const SHALLOW_M = 0.05;
/** What comes out within this of an intake, on its side, is drawn in. Common practice, from memory. */
const NEAR_M = 1;
/** Nearer to the centreline than this a hole belongs to both sides. */
const CENTRE_M = 0.15;
/** Fittings older than this are looked at first, years. Common practice, from memory. */
export const OLD_YEARS = 25;

/** Discharges that foul an intake, and what runs only while the engine does. Deck water and the boat's own brine foul little. */
const FOUL: ReadonlySet<Discharge> = new Set(['head', 'sink', 'exhaust', 'bilge']);
const WITH_ENGINE: ReadonlySet<Discharge> = new Set(['exhaust', 'cooling']);

const WEIGHTS: Readonly<Record<HoleWeight, number>> = {
  rulesOut: 1000,
  danger: 100,
  against: 10,
  unknown: 3,
  note: 1,
  for: 0,
};

const PRACTICE = { key: 'practice', standing: 'commonPractice' } as const;
const GEOMETRY = { key: 'geometry', standing: 'derived' } as const;
const FILE = { key: 'boat-file', standing: 'boatFile' } as const;

/**
 * Every through-hull ranked as intake and as brine outlet, with reasons. The order: nothing that rules it out first, then the least weight of
 * reasons against it, then as intake the deepest where it is shallowest, as outlet the highest where it is deepest, then by id. Holes that do
 * not exist are never proposed.
 */
export function rankHoles(question: HoleQuestion): HoleRanking {
  const asIntake = ranked(
    question,
    (hole, depths) => intakeReasons(hole, depths, question),
    (a) => -a.least.depthM,
  );
  const intake = asIntake.find(({ isUsable }) => isUsable);
  const intakeHole = question.holes.find(({ id }) => id === intake?.id) ?? null;
  const asOutlet = ranked(
    question,
    (hole, depths) => outletReasons(hole, depths, intakeHole, question),
    (a) => a.greatest.depthM,
  );
  return { asIntake, asOutlet };
}

interface Depths {
  readonly least: DepthIn;
  readonly greatest: DepthIn;
  readonly uprightM: number;
}

function ranked(
  question: HoleQuestion,
  reasonsOf: (hole: Hole, depths: Depths) => readonly HoleReason[],
  tie: (hole: Omit<RankedHole, 'rank'>) => number,
): readonly RankedHole[] {
  const weightOf = (reasons: readonly HoleReason[]): number =>
    reasons.reduce((sum, { weight }) => sum + WEIGHTS[weight], 0);
  return question.holes
    .map((hole) => {
      const immersion = immersionOf(hole.at, question.heeling);
      const depths = { ...depthsIn(hole.at, question.running), uprightM: immersion.uprightM };
      const reasons = [...reasonsOf(hole, depths)].sort((a, b) => WEIGHTS[b.weight] - WEIGHTS[a.weight]);
      return {
        id: hole.id,
        isUsable: !reasons.some(({ weight }) => weight === 'rulesOut'),
        reasons,
        immersion,
        least: depths.least,
        greatest: depths.greatest,
        side: sideOf(hole.at),
      };
    })
    .sort((a, b) => weightOf(a.reasons) - weightOf(b.reasons) || stepped(tie(a) - tie(b)) || byId(a, b))
    .map((hole, i) => ({ ...hole, rank: i + 1 }));
}

/** Less than a tenth of a millimetre decides nothing: a mirrored boat ranks alike. */
const stepped = (difference: number): number => (Math.abs(difference) < 1e-4 ? 0 : difference);

function depthsIn(at: Vec3, waters: readonly RunningWater[]): { readonly least: DepthIn; readonly greatest: DepthIn } {
  const depths = waters.map(({ name, heelDeg, down, water }) => ({
    depthM: depthBelow(water, at),
    heelDeg,
    down,
    state: name,
  }));
  const [first] = depths;
  if (!first) throw new Error('depthsIn: expected at least one water, got none');
  return {
    least: depths.reduce((a, b) => (b.depthM < a.depthM - 1e-12 ? b : a)),
    greatest: depths.reduce((a, b) => (b.depthM > a.depthM + 1e-12 ? b : a)),
  };
}

const sideOf = ([, y]: Vec3): RankedHole['side'] =>
  Math.abs(y) <= CENTRE_M ? 'centreline' : y > 0 ? 'port' : 'starboard';

const isBeside = (a: Vec3, b: Vec3): boolean => {
  const [one, other] = [sideOf(a), sideOf(b)];
  return one === other || one === 'centreline' || other === 'centreline';
};

const depthData = ({ depthM, heelDeg, down, state }: DepthIn) => ({ depthM, heelDeg, down, state });

function intakeReasons(hole: Hole, depths: Depths, question: HoleQuestion): HoleReason[] {
  const reasons: HoleReason[] = [];
  const { least } = depths;
  const under = judge(least.depthM, { value: 0, bound: 'atLeast' }, hole.depthGradeM);
  const close = under.closeCall ? { closeCall: under.closeCall } : {};
  if (under.outcome === 'fail' || least.depthM <= 0)
    reasons.push({ key: 'dry', weight: 'rulesOut', data: depthData(least), source: GEOMETRY, ...close });
  else if (least.depthM < SHALLOW_M)
    reasons.push({
      key: 'shallow',
      weight: 'against',
      data: { ...depthData(least), limitM: SHALLOW_M },
      source: PRACTICE,
      ...close,
    });
  else
    reasons.push({
      key: 'immersed',
      weight: under.closeCall ? 'note' : 'for',
      data: depthData(least),
      source: GEOMETRY,
      ...close,
    });
  if (hole.discharges?.some((discharge) => FOUL.has(discharge)))
    reasons.push({ key: 'wasteComesOut', weight: 'rulesOut', data: { what: foulOf(hole) }, source: PRACTICE });
  reasons.push(...fouledBy(hole, question));
  const isMotoring = question.running.some(({ use }) => use === 'motoring');
  if (hole.feedsEngine)
    reasons.push({
      key: 'engineShares',
      weight: isMotoring ? 'danger' : 'against',
      data: {},
      source: PRACTICE,
    });
  return [...reasons, ...usedBy(hole, 'intake'), ...fittingReasons(hole, depths, 'intake', question)];
}

const foulOf = (hole: Hole): Discharge => hole.discharges?.find((discharge) => FOUL.has(discharge)) ?? 'head';

/** What comes out near an intake, on its side, and would be drawn in. */
export interface Fouling {
  readonly other: string;
  readonly apartM: number;
  /** Water passes from forward to aft: what comes out ahead is carried past. */
  readonly isAhead: boolean;
  /** Null: nobody has said what comes out. */
  readonly what: Discharge | null;
}

/** Outlets within reach of an intake on its side, nearest first: those that run in the states in which the set does. */
export function foulingOf(
  intake: Pick<Hole, 'id' | 'at'>,
  others: readonly OtherOutlet[],
  isMotoring: boolean,
  nearM: number = NEAR_M,
): readonly Fouling[] {
  return others
    .flatMap((other): Fouling[] => {
      if (other.id === intake.id || !isBeside(intake.at, other.at)) return [];
      const apartM = distance(intake.at, other.at);
      if (apartM > nearM) return [];
      const isAhead = other.at[0] >= intake.at[0];
      if (other.discharges === null) return [{ other: other.id, apartM, isAhead, what: null }];
      const what = other.discharges.find(
        (discharge) => FOUL.has(discharge) && (isMotoring || !WITH_ENGINE.has(discharge)),
      );
      return what ? [{ other: other.id, apartM, isAhead, what }] : [];
    })
    .sort((a, b) => a.apartM - b.apartM || byId({ id: a.other }, { id: b.other }));
}

function fouledBy(hole: Hole, { holes, otherOutlets, running }: HoleQuestion): HoleReason[] {
  const isMotoring = running.some(({ use }) => use === 'motoring');
  const near = foulingOf(hole, [...holes, ...otherOutlets], isMotoring);
  return near.map(({ other, apartM, isAhead, what }): HoleReason => {
    if (what === null) return { key: 'dischargeUnknown', weight: 'unknown', data: { other, apartM }, source: FILE };
    return {
      key: isAhead ? 'dischargeAhead' : 'dischargeNear',
      weight: isAhead ? 'danger' : 'against',
      data: { other, apartM, limitM: NEAR_M, what },
      source: PRACTICE,
    };
  });
}

/** Who uses the hole besides the set, in words or ids; what comes out of it speaks where nobody is named. */
const usersOf = ({ sharedBy, discharges }: Hole): string =>
  (sharedBy.length > 0 ? sharedBy : (discharges ?? [])).join(', ');

function usedBy(hole: Hole, role: HoleRole): HoleReason[] {
  const by = usersOf(hole);
  if (by !== '') return [{ key: 'shared', weight: role === 'intake' ? 'note' : 'against', data: { by }, source: FILE }];
  return hole.use === 'spare' ? [{ key: 'spare', weight: 'for', data: {}, source: FILE }] : [];
}

/** Bore, valve, reach, metal and age; and whether what must be done to it needs the boat out of the water. */
function fittingReasons(hole: Hole, depths: Depths, role: HoleRole, question: HoleQuestion): HoleReason[] {
  const reasons: HoleReason[] = [];
  const against = (key: HoleReasonKey, data: HoleReason['data'], source: HoleReason['source'] = PRACTICE): void => {
    reasons.push({ key, weight: 'against', data, source });
  };
  const isWet = depths.uprightM > -hole.depthGradeM || depths.greatest.depthM > 0;
  const jobs: string[] = [];
  const wanted = question.boreM[role];
  if (hole.boreM < wanted - 1e-6) {
    against('narrow', { boreM: hole.boreM, wantedM: wanted }, GEOMETRY);
    jobs.push('a wider fitting');
  }
  if (hole.isLog) {
    against('logFitting', {});
    jobs.push('a through-hull with seacock in place of the log fitting');
  } else if (hole.valve === 'none' && isWet) {
    against('noValve', {});
    jobs.push('a seacock');
  }
  if (hole.valve === 'gate') {
    against('gateValve', {});
    jobs.push('a seacock in place of the gate valve');
  }
  if (hole.material === 'brass') {
    against('brass', {});
    jobs.push('a new fitting in place of plain brass');
  } else if (hole.material === undefined && isWet)
    reasons.push({ key: 'materialUnknown', weight: 'unknown', data: {}, source: FILE });
  if (question.year !== null && hole.fittedYear !== undefined && question.year - hole.fittedYear > OLD_YEARS)
    reasons.push({
      key: 'old',
      weight: 'note',
      data: { year: hole.fittedYear, years: question.year - hole.fittedYear, limit: OLD_YEARS },
      source: PRACTICE,
    });
  if (isWet && hole.valve !== 'none') reasons.push(reachReason(hole));
  // Above the water by more than the readings may be wrong, a fitting is changed afloat.
  if (jobs.length > 0 && depths.uprightM > -hole.depthGradeM)
    reasons.push(
      question.noHaulOut
        ? { key: 'needsHaulOut', weight: 'rulesOut', data: { jobs: jobs.join('; ') }, source: FILE }
        : { key: 'haulOut', weight: 'against', data: { jobs: jobs.join('; ') }, source: PRACTICE },
    );
  return reasons;
}

function reachReason({ reach }: Hole): HoleReason {
  if (reach.kind === 'unknown')
    return { key: 'reachUnknown', weight: 'unknown', data: { enterNext: reach.enterNext }, source: FILE };
  if (reach.kind === 'stands') return { key: 'inReach', weight: 'for', data: { distanceM: 0 }, source: GEOMETRY };
  const { distanceM, limitM, gradeM } = reach;
  const judged = judge(distanceM, { value: limitM, bound: 'atMost' }, gradeM);
  const close = judged.closeCall ? { closeCall: judged.closeCall } : {};
  const data = { distanceM, limitM };
  return judged.outcome === 'pass'
    ? { key: 'inReach', weight: judged.closeCall ? 'note' : 'for', data, source: GEOMETRY, ...close }
    : { key: 'outOfReach', weight: 'danger', data, source: GEOMETRY, ...close };
}

function outletReasons(hole: Hole, depths: Depths, intake: Hole | null, question: HoleQuestion): HoleReason[] {
  const reasons: HoleReason[] = [];
  const { greatest, uprightM } = depths;
  const dry = judge(greatest.depthM, { value: 0, bound: 'atMost' }, hole.depthGradeM);
  const close = dry.closeCall ? { closeCall: dry.closeCall } : {};
  if (uprightM > 0)
    reasons.push({ key: 'underUpright', weight: 'against', data: { depthM: uprightM }, source: PRACTICE });
  else if (greatest.depthM > 0)
    reasons.push({ key: 'underAtHeel', weight: 'against', data: depthData(greatest), source: PRACTICE, ...close });
  else
    reasons.push({
      key: 'above',
      weight: dry.closeCall ? 'note' : 'for',
      data: depthData(greatest),
      source: GEOMETRY,
      ...close,
    });
  if (hole.use === 'intake' && (hole.sharedBy.length > 0 || hole.feedsEngine))
    reasons.push({
      key: 'takenAsIntake',
      weight: 'rulesOut',
      data: { by: hole.sharedBy.join(', ') || 'the engine' },
      source: PRACTICE,
    });
  // A tee into a sink or cockpit drain saves a hole, and backs up into it when the drain is under water.
  if (usersOf(hole) !== '' && hole.use !== 'intake' && greatest.depthM > 0)
    reasons.push({
      key: 'backsUp',
      weight: 'against',
      data: { ...depthData(greatest), by: usersOf(hole) },
      source: PRACTICE,
    });
  if (intake?.id === hole.id)
    reasons.push({ key: 'takenAsIntake', weight: 'rulesOut', data: { by: 'the set itself' }, source: GEOMETRY });
  else if (intake && isBeside(intake.at, hole.at) && hole.at[0] >= intake.at[0]) {
    const apartM = distance(intake.at, hole.at);
    if (apartM <= NEAR_M)
      reasons.push({
        key: 'aheadOfIntake',
        weight: 'against',
        data: { intake: intake.id, apartM, limitM: NEAR_M },
        source: PRACTICE,
      });
  }
  return [...reasons, ...usedBy(hole, 'outlet'), ...fittingReasons(hole, depths, 'outlet', question)];
}
