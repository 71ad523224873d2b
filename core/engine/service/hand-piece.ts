import { depthFromOpening } from '../../assess/access/opening-reach';
import { bothAsBefore, reachWithBoth } from '../../assess/access/reach/both-hands';
import type { PostureRegion } from '../../assess/access/reach/posture-region';
import { type ReachAsk, type ReachLevel, reachThrough } from '../../assess/access/reach/reach-through';
import type { ArmAnswer, ArmPose, ArmStage, Grasp } from '../../assess/access/reach/types';
import { armThrough, type OpeningNeed, openingFor, passesHand } from '../../base/formulas/hand-openings';
import { distance } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import type { SourceRef } from '../../rules/finding';
import { segmentToSolid } from '../../shape/space/kernel';
import {
  blockerOf,
  FROM_MEMORY,
  type Measure,
  measureOf,
  NOTHING_SHOWN,
  type Piece,
  PRACTICE,
  type TaskScene,
} from './pieces';
import type { TaskBlocker } from './service-report';
import type { PlacedTask } from './task-stages';

/** How hard an arm is looked for, and with what. */
export interface HandAsk {
  readonly level: ReachLevel;
  /** Whether what is in the way is named and measured where there is none. */
  readonly explain: boolean;
  /** How much thicker everything about it is taken, metres. */
  readonly grownM?: number;
  /** Ways of the answer before a move, by hand, tried first. */
  readonly kept?: readonly (readonly ArmPose[])[];
}

const BODY_SOURCES: readonly SourceRef[] = [
  { key: 'nureg-0700', standing: 'quoted' },
  { key: 'practice', standing: 'commonPractice' },
];

const REASON: Readonly<Record<ArmStage, string>> = {
  hand: 'noRoomForHand',
  forearm: 'noRoomForForearm',
  upperArm: 'noRoomForUpperArm',
  wayIn: 'noWayInForArm',
};

/** Whether the hands get to their places in one posture. */
export function handPiece(
  task: PlacedTask,
  grasps: readonly Grasp[],
  region: PostureRegion,
  opening: Opening | null,
  scene: TaskScene,
  ask: HandAsk,
): Piece {
  if (grasps.length > 1 && scene.onlyArm !== null) return needsBoth();
  const table = opening && !WHOLE_BODY.has(region.posture) ? throughOpening(grasps, opening, task, scene) : null;
  const measures = table ? [table] : [];
  if (table && !table.judged.met)
    return {
      kind: 'hand',
      outcome: 'no',
      reason: grasps.length > 1 ? 'openingTooSmallForTwo' : 'openingTooSmall',
      measures,
      blockers: [blockerOf({ owner: region.opening ?? '', label: opening?.name ?? '' }, shortOf(table))],
      shortByM: shortOf(table),
      tried: 1,
      shown: NOTHING_SHOWN,
    };
  const answers = armsFor(task, grasps, region, scene, ask);
  const failed = answers.find(isFailed);
  const tried = answers.reduce((sum, answer) => sum + answer.tried, 0);
  const room = (valueM: number, owners: readonly string[]): Measure =>
    measureOf(
      'handRoom',
      {
        value: valueM,
        limit: 0,
        bound: 'atLeast',
        unit: 'm',
        grade: scene.gradesBetween(task.face.direction, [...owners, ...(region.opening ? [region.opening] : [])]),
      },
      [...PRACTICE, ...FROM_MEMORY],
    );
  if (failed) {
    const thinner = failed.shortByM === null && ask.explain ? thinnerWay(task, grasps, region, scene, ask) : null;
    const met = failed.blockers.map(({ owner, label, depthM }) => blockerOf({ owner, label }, depthM));
    // Where only the body has no room, arm and hand meet nothing on the way of a thinner one.
    const blockers = thinner && thinner.blockers.length > 0 ? thinner.blockers : met;
    const shortByM = thinner ? thinner.shortByM : failed.shortByM;
    return {
      kind: 'hand',
      outcome: failed.outcome === 'cannot' ? 'no' : 'notFound',
      reason: REASON[failed.stage],
      measures: [
        ...measures,
        ...(shortByM === null
          ? []
          : [
              room(
                -Math.max(0, shortByM),
                blockers.map(({ owner }) => owner),
              ),
            ]),
      ],
      blockers,
      shortByM,
      tried,
      shown: NOTHING_SHOWN,
    };
  }
  const reached = answers.flatMap((answer) => (answer.outcome === 'reached' ? [answer] : []));
  const spareM = Math.min(...reached.map((answer) => answer.spareM));
  const armM = scene.body.upperArmM + scene.body.forearmM + scene.body.handM;
  const farthest = Math.max(...reached.map(({ pose }) => distance(pose.shoulder, pose.grip)));
  return {
    kind: 'hand',
    outcome: 'yes',
    reason: 'reached',
    measures: [
      ...measures,
      measureOf('reach', { value: farthest, limit: armM, bound: 'atMost', unit: 'm', grade: [] }, BODY_SOURCES),
      room(Math.max(0, spareM), []),
    ],
    blockers: [],
    shortByM: null,
    tried,
    shown: {
      ...NOTHING_SHOWN,
      arms: reached.map(({ side, pose, way }) => ({ side, pose, way })),
      body: reached[0]?.body ?? null,
    },
  };
}

/** How much thinner an arm is tried for which there is a pose and no way in, metres. */
const THINNER_M = [0.005, 0.01, 0.02, 0.03, 0.04] as const;

/** The least thin arm that has a way in, and what a full one meets on that way; null where even the thinnest has none. */
function thinnerWay(
  task: PlacedTask,
  grasps: readonly Grasp[],
  region: PostureRegion,
  scene: TaskScene,
  ask: HandAsk,
): Pick<Piece, 'shortByM' | 'blockers'> | null {
  for (const byM of THINNER_M) {
    const answers = armsFor(task, grasps, region, scene, { ...ask, level: 'quick', explain: false, grownM: -byM });
    if (answers.some(isFailed)) continue;
    const ways = answers.flatMap((answer) => (isFailed(answer) ? [] : answer.way));
    return { shortByM: byM, blockers: metBy(ways, task.thing, scene) };
  }
  return null;
}

/** What links and hand of a full arm meet in any of the poses, the deepest first. */
function metBy(poses: readonly ArmPose[], own: string, { arms, body }: TaskScene): Piece['blockers'] {
  const handM = Math.min(...body.handBoxM) / 2;
  const deepest = new Map<string, TaskBlocker>();
  for (const { owner, label, solid } of arms) {
    if (owner === own) continue;
    for (const { shoulder, elbow, wrist, grip } of poses) {
      const depthM = Math.max(
        body.upperArmRadiusM - segmentToSolid(shoulder, elbow, solid, body.upperArmRadiusM),
        body.forearmRadiusM - segmentToSolid(elbow, wrist, solid, body.forearmRadiusM),
        handM - segmentToSolid(wrist, grip, solid, handM),
      );
      if (depthM > MET_M && depthM > (deepest.get(owner)?.shortByM ?? 0))
        deepest.set(owner, { owner, label, shortByM: depthM });
    }
  }
  return [...deepest.values()].sort((a, b) => (b.shortByM ?? 0) - (a.shortByM ?? 0) || (a.owner < b.owner ? -1 : 1));
}
/** Less than this is no more than touching. */
const MET_M = 0.001;

/** Who goes in with the head or the whole body is not stopped by the size of an arm. */
const WHOLE_BODY: ReadonlySet<PostureRegion['posture']> = new Set(['free', 'headIn', 'climbIn']);

type Failed = Exclude<ArmAnswer, { readonly outcome: 'reached' }>;
const isFailed = (answer: ArmAnswer): answer is Failed => answer.outcome !== 'reached';

const needsBoth = (): Piece => ({
  kind: 'hand',
  outcome: 'no',
  reason: 'needsBothHands',
  measures: [],
  blockers: [],
  shortByM: null,
  tried: 0,
  shown: NOTHING_SHOWN,
});

function armsFor(
  task: PlacedTask,
  grasps: readonly Grasp[],
  region: PostureRegion,
  { arms, hull, body }: TaskScene,
  ask: HandAsk,
): readonly ArmAnswer[] {
  const [first, second] = grasps;
  if (!first) return [];
  const [way, other] = ask.kept ?? [];
  const asked: ReachAsk = {
    grasp: first,
    body,
    posture: region,
    around: arms,
    hull,
    level: ask.level,
    explain: ask.explain,
    seed: `${task.key} ${region.posture} ${region.opening ?? ''}`,
    ...(ask.grownM === undefined ? {} : { grownM: ask.grownM }),
    ...(way === undefined ? {} : { kept: way }),
  };
  if (second && way && other && ask.level === 'kept') return bothAsBefore(asked, second, [way, other]);
  return second ? reachWithBoth(asked, second) : [reachThrough(asked)];
}

/** Clear sides of the opening against what of arm or arms is in it while the hand works so deep. */
function throughOpening(
  grasps: readonly Grasp[],
  opening: Opening,
  { face }: PlacedTask,
  { gradesBetween }: TaskScene,
): Measure {
  const depthM = Math.max(...grasps.map(({ point }) => depthFromOpening(opening, point).distanceM));
  const need = openingFor(grasps.length > 1 ? 'twoHands' : armThrough(depthM), depthM);
  const { valueM, limitM } = tightest(opening, need);
  return measureOf(
    grasps.length > 1 ? 'twoHands' : 'opening',
    { value: valueM, limit: limitM, bound: 'atLeast', unit: 'm', grade: gradesBetween(face.direction, []) },
    FROM_MEMORY,
  );
}

/** The side that decides, of the better way round: what is there and what is needed. */
function tightest(opening: Opening, need: OpeningNeed): { readonly valueM: number; readonly limitM: number } {
  const { widthM, heightM } = opening;
  const { spareM } = passesHand({ widthM, heightM, round: opening.shape === 'round' }, need);
  if (opening.shape === 'round') return { valueM: Math.min(widthM, heightM), limitM: need.diameterM };
  const sides = [
    [widthM, need.widthM],
    [heightM, need.heightM],
    [heightM, need.widthM],
    [widthM, need.heightM],
  ] as const;
  const [valueM, limitM] = sides.find(([there, needed]) => Math.abs(there - needed - spareM) < SAME_M) ?? sides[0];
  return { valueM, limitM };
}
const SAME_M = 1e-9;

const shortOf = ({ judged }: Measure): number => Math.max(0, judged.limit.value - judged.measured.value);

/** A hand at one end of the arc that a spanner is swung through. */
export const swungPiece = (held: Piece): Piece => ({
  ...held,
  kind: 'turn',
  reason: held.outcome === 'yes' ? 'turns' : 'handStopsTool',
});
