import type { Region } from '../../assess/access/reach/posture-region';
import { sightOf } from '../../assess/access/sight';
import type { BodySizes } from '../../base/formulas/body-sizes';
import { add, UNIT_AXES, type Vec3 } from '../../base/vec';
import type { StandingPlace } from '../../boat/schema/boat';
import { hull } from '../shape-stages';
import { boxKey } from '../solid-stages';
import { demands, openings, standingPlaces } from '../source';
import { type ComputedStage, identical, type Read } from '../store';
import { aboutBox, wallsAbout, wallsKey } from './around-stages';
import { bodyFor, cutKey, taskOutcome } from './outcome-stages';
import type { BrokenDemand } from './task-report';
import { type PlacedTask, placedTask } from './task-stages';

/** What is looked at from afar, as it is used: where a demand names no part. */
const WATCHED: ReadonlySet<PlacedTask['service']['task']> = new Set(['gauge', 'panelFront', 'breaker']);
/** Read from where one stands, where the demand says no distance: metres and degrees. From memory. */
const SEEN_WITHIN_M = 3;
const SEEN_ASLANT_DEG = 60;
/** The head moves so far to either side, and up and down, while one stays where one is, metres. */
const HEAD_ASIDE_M = 0.2;
const HEAD_UP_M = 0.1;
/** Of somebody who lies: eyes over the berth, metres. */
const LYING_EYE_M = 0.25;

/** The demand that a task breaks, the dismantling first; null where it breaks none. Key: as of `taskOutcome`. */
export const brokenDemand: ComputedStage<BrokenDemand> = {
  id: 'brokenDemand',
  compute: (key, read) => {
    const asked = Object.values(read(demands) ?? {});
    const { person, task: taskKey } = cutKey(key);
    const task = asked.length > 0 ? read(placedTask, taskKey) : null;
    if (!task) return null;
    const isAbout = (subject: string | undefined): boolean => subject === undefined || subject === task.thing;
    if (asked.some(({ kind, subject }) => kind === 'noDismantling' && isAbout(subject))) {
      const { verdict } = read(taskOutcome, key);
      if (verdict === 'byDismantling' || verdict === 'notAtAll') return 'noDismantling';
    }
    const isHidden = asked.some(
      ({ kind, subject, place, distanceM }) =>
        kind === 'seenFrom' &&
        (subject === task.thing || (subject === undefined && task.isPart)) &&
        WATCHED.has(task.service.task) &&
        place !== undefined &&
        isHiddenFrom(task, place, person, distanceM ?? SEEN_WITHIN_M, read),
    );
    return isHidden ? 'seenFrom' : null;
  },
  same: identical,
};

/** Nobody at a standing place sees it, with what stands open while the boat is lived in. */
function isHiddenFrom(
  { face, needs, thing }: PlacedTask,
  place: string,
  person: string,
  withinM: number,
  read: Read,
): boolean {
  const standing = read(standingPlaces)[place];
  if (!standing) return false;
  const eyes = eyesAt(standing, read(bodyFor, person).sizes);
  const corner = (pick: (a: number, b: number) => number, by: number): Vec3 =>
    [0, 1, 2].map((k) => pick(face.at[k] ?? 0, eyes.centre[k] ?? 0) + by) as unknown as Vec3;
  const [low, high] = [corner(Math.min, -HEAD_ASIDE_M), corner(Math.max, HEAD_ASIDE_M)];
  const about = read(aboutBox, boxKey(low, high));
  const open = Object.entries(read(openings)).flatMap(([id, { how }]) => (STAND_OPEN.has(how) ? [id] : []));
  return !sightOf(
    { at: face.at, normal: face.direction, radiusM: (needs.see?.diameterM ?? 0) / 2, own: thing },
    [eyes],
    [...about.things, ...about.runs, ...read(wallsAbout, wallsKey(open, low, high))],
    { distanceM: withinM, angleDeg: SEEN_ASLANT_DEG, mirrorOk: false, hull: read(hull) },
  ).isSeen;
}
const STAND_OPEN: ReadonlySet<string> = new Set(['open', 'curtain', 'sliding']);

/** Where the eyes of somebody can be who stays at a place. */
function eyesAt({ at, posture }: StandingPlace, body: BodySizes): Region {
  const heights: Readonly<Record<StandingPlace['posture'], number>> = {
    stand: body.standingEyeM,
    kneel: body.kneelingShoulderM + body.eyeOverShoulderM,
    sit: body.sittingShoulderM + body.eyeOverShoulderM,
    lie: LYING_EYE_M,
  };
  return { centre: add(at, [0, 0, heights[posture]]), half: [HEAD_ASIDE_M, HEAD_ASIDE_M, HEAD_UP_M], axes: UNIT_AXES };
}
