import { inOrder } from '../../base/order';
import { combine, gradeM, type Judgement, judge } from '../../boat/accuracy';
import type { Boat, Grade, Part, Place } from '../../boat/schema/boat';
import type { Finding } from '../../rules/finding';
import { deriveLayout } from '../../shape/layout/derive';
import type { Layout } from '../../shape/layout/types';
import { report } from '../report-stages';
import { sourceOf } from '../source';
import { Store } from '../store';
import { type ConvexRoom, FIT_DUST_M, type Fit, fitInside, largestFor, proofAgainst, type WayRound } from './fit';
import {
  COMPARTMENT,
  LOCKER_READINGS,
  type Locker,
  lockerBoat,
  NO_GRADES,
  problemsOf,
  sideNameIn,
  withReading,
} from './locker';
import { bestPlaces, type Placed, type Stand, tasksAt } from './places';
import { placedTogether, type Together } from './several';

/** How sure a reading of an angle is, two standard deviations in degrees: common practice with a phone or a bevel; no publication. */
const LEAN_GRADES_DEG: Readonly<Record<Grade, number>> = { measured: 1, taped: 2, scaled: 4, guessed: 10 };

/** Places tried for a part that has the locker to itself. */
const ALONE_PLACES = 1500;

/** Whether a part stands inside, judged with the tape. */
export type InsideAnswer =
  | { readonly outcome: 'fits'; readonly way: WayRound; readonly judged: Judgement; readonly tight: readonly string[] }
  | {
      readonly outcome: 'cannot';
      readonly proof: NonNullable<Fit['proof']>;
      /** Clean: the readings leave no doubt. */
      readonly judged: Judgement;
    }
  | {
      readonly outcome: 'notFound';
      readonly way: WayRound | null;
      /** Of the best way tried: negative by what is missing. */
      readonly judged: Judgement | null;
      readonly tight: readonly string[];
    };

export interface PartAnswer {
  readonly part: Part;
  readonly fit: Fit;
  readonly inside: InsideAnswer;
  /** Best place when it has the locker to itself; where nothing fits, the place that comes nearest. */
  readonly placed: Placed | null;
  readonly triedPlaces: number;
  /** The engine's own word on that place: the way in, overlaps, room for service. */
  readonly findings: readonly Finding[];
}

export interface LockerAnswers {
  /** The locker with the parts that found a place together: what it is turned into. */
  readonly boat: Boat;
  readonly findings: readonly Finding[];
  readonly parts: Readonly<Record<string, PartAnswer>>;
  readonly together: Together;
}

/**
 * What a measured locker can take: for each part alone whether it passes the opening, stands inside and can be serviced, and the best layout of
 * all of them. Expects readings in which `problemsOf` finds nothing.
 */
export function lockerAnswers(locker: Locker, parts: Readonly<Record<string, Part>>): LockerAnswers {
  const answers = Object.fromEntries(inOrder(parts).map(([id, part]) => [id, answerAlone(locker, id, part)] as const));
  const fits = Object.fromEntries(Object.entries(answers).map(([id, { fit }]) => [id, fit]));
  const together = placedTogether(parts, fits, standIn(locker));
  const places = Object.fromEntries(Object.entries(together.places).map(([id, placed]) => [id, placeOf(placed)]));
  const boat = lockerBoat(locker, parts, places);
  return { boat, findings: findingsOf(boat), parts: answers, together };
}

const ALONE = new WeakMap<Locker, WeakMap<Part, ReadonlyMap<string, PartAnswer>>>();

/** The answers for one part that has the locker to itself. Asked for again it is the same: another part changes nothing of it. */
export function answerAlone(locker: Locker, id: string, part: Part): PartAnswer {
  const ofLocker = ALONE.get(locker) ?? new WeakMap<Part, ReadonlyMap<string, PartAnswer>>();
  ALONE.set(locker, ofLocker);
  const known = ofLocker.get(part);
  const answer = known?.get(id) ?? aloneIn(locker, id, part);
  ofLocker.set(part, new Map([...(known ?? []), [id, answer]]));
  return answer;
}

function aloneIn(locker: Locker, id: string, part: Part): PartAnswer {
  const stand = standIn(locker);
  const fit = fitInside(part, stand.room);
  const search = bestPlaces(id, part, fit.ways, stand, { most: 1, budget: ALONE_PLACES });
  const [first] = search.places;
  const placed = first ? { ...first, tasks: tasksAt(part, first.pose, stand) } : nearestPlace(part, fit, stand);
  const inside = insideAnswer(part, fit, placed, locker);
  const findings = placed ? findingsOf(lockerBoat(locker, { [id]: part }, { [id]: placeOf(placed) })) : [];
  return { part, fit, inside, placed, triedPlaces: search.tried, findings };
}

function standIn(locker: Locker): Stand {
  const problems = problemsOf(locker);
  if (problems.length > 0) throw new Error(`standIn: ${problems.map(({ message }) => message).join('; ')}`);
  const bare = lockerBoat(locker, {}, {});
  const layout = layoutOf(bare);
  return { room: roomOf(layout), layout, openings: bare.openings, solids: [] };
}

/** With the deeper tries in them: one part has time to be turned in its locker. */
const findingsOf = (boat: Boat): readonly Finding[] =>
  new Store(sourceOf(boat, undefined, undefined, true)).read(report).findings;

const layoutOf = (boat: Boat): Layout =>
  deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: boat.newHoleCostM });

function roomOf(layout: Layout): ConvexRoom {
  const cells = (layout.cellsOf[COMPARTMENT] ?? []).map((index) => layout.cells[index]);
  const [cell] = cells;
  if (!cell || cells.length !== 1) throw new Error(`roomOf: expected one convex piece, got ${cells.length}`);
  return cell;
}

const placeOf = ({ pose }: Placed): Place => ({ ...pose, at: [...pose.at] });

/** Where a part that does not fit comes nearest to it, with what its service would find. */
function nearestPlace(part: Part, fit: Fit, stand: Stand): Placed | null {
  const way = fit.best;
  if (!way) return null;
  const pose = { at: way.at, ...way.turn };
  return { pose, way, tasks: tasksAt(part, pose, stand), met: 0 };
}

function insideAnswer(part: Part, fit: Fit, placed: Placed | null, locker: Locker): InsideAnswer {
  if (fit.proof) {
    const grade = proofGrade(part, fit.proof, locker);
    const { needs, has } = fit.proof;
    return { outcome: 'cannot', proof: fit.proof, judged: judge(has, { value: needs, bound: 'atLeast' }, grade) };
  }
  // The way round of the best place speaks: it may leave less than another in which nothing can be serviced.
  const way = fit.ways.length > 0 ? (placed?.way ?? fit.best) : fit.best;
  if (!way) return { outcome: 'notFound', way: null, judged: null, tight: [] };
  const judged = judge(
    Math.abs(way.spareM) < FIT_DUST_M ? 0 : way.spareM,
    { value: 0, bound: 'atLeast' },
    spareGrade(part, way, locker),
  );
  const named = sideNameIn(locker);
  const { planes } = roomOf(layoutOf(lockerBoat(locker, {}, {})));
  const tight = [...new Set(way.tight.flatMap((i) => (planes[i] ? [named(planes[i].normal)] : [])))];
  return fit.ways.length > 0 ? { outcome: 'fits', way, judged, tight } : { outcome: 'notFound', way, judged, tight };
}

/**
 * Two standard deviations of the spare: what it changes by when each reading is longer by its own grade, and the part by its own, combined as
 * independent readings.
 */
function spareGrade(part: Part, way: WayRound, locker: Locker): number {
  return shares(
    locker,
    (other) => largestFor(part, way.turn, roomOf(layoutOf(lockerBoat(other, {}, {}))).planes)?.growthM ?? null,
    gradeM(NO_GRADES, part.grade ?? 'measured'),
  );
}

/** The same of what the room has where a theorem speaks; the needs of the part carry its own grade. */
function proofGrade(part: Part, proof: NonNullable<Fit['proof']>, locker: Locker): number {
  const own = gradeM(NO_GRADES, part.grade ?? 'measured');
  const { shape } = part;
  const larger: Part = {
    ...part,
    shape:
      shape.type === 'box'
        ? { ...shape, sizeM: [shape.sizeM[0] + own, shape.sizeM[1] + own, shape.sizeM[2] + own] }
        : { ...shape, diameterM: shape.diameterM + own, lengthM: shape.lengthM + own },
  };
  const room = (other: Locker): ConvexRoom => roomOf(layoutOf(lockerBoat(other, {}, {})));
  const needsMore = proofAgainst(larger, room(locker));
  const needs = needsMore?.proof === proof.proof ? Math.abs(needsMore.needs - proof.needs) : 0;
  return shares(
    locker,
    (other) => {
      const again = proofAgainst(part, room(other));
      return again?.proof === proof.proof ? again.has : null;
    },
    needs,
  );
}

/**
 * Root of the sum of squares of what a value changes by with each reading, and of a share of its own. Each reading is taken longer and shorter
 * and the greater change counts: where several sides bind at once, one way may change nothing.
 */
function shares(locker: Locker, quantity: (locker: Locker) => number | null, own: number): number {
  const now = quantity(locker);
  if (now === null) return own;
  const changeOf = (other: Locker): number => {
    const then = problemsOf(other).length > 0 ? null : quantity(other);
    return then === null ? 0 : Math.abs(then - now);
  };
  const counted = LOCKER_READINGS.filter(
    (key) =>
      !key.startsWith('opening') &&
      !(key === 'depthTop' && locker.slopeBy === 'lean') &&
      !(key === 'lining' && locker.readings.lining.valueM === 0),
  );
  const changes = counted.map((key) => {
    const by = gradeM(NO_GRADES, locker.readings[key].grade);
    return Math.max(changeOf(withReading(locker, key, by)), changeOf(withReading(locker, key, -by)));
  });
  if (locker.slopeBy === 'lean') {
    const by = LEAN_GRADES_DEG[locker.readings.depthTop.grade];
    const leaning = (deg: number): Locker => ({ ...locker, leanDeg: locker.leanDeg + deg });
    changes.push(Math.max(changeOf(leaning(by)), changeOf(leaning(-by))));
  }
  return combine(own, ...changes);
}
