import { MIRROR_PATH_M } from '../../assess/access/mirror-sight';
import type { Region } from '../../assess/access/reach/posture-region';
import { type SightAnswer, sightOf } from '../../assess/access/sight';
import { along, norm, subtract } from '../../base/vec';
import type { SeeNeeds } from '../../boat/catalogue/task-defaults';
import { SolidPack } from '../../shape/space/kernel';
import {
  AS_USUAL,
  blockerOf,
  FROM_FILE,
  GEOMETRY,
  isDone,
  type Measure,
  measureOf,
  NOTHING_SHOWN,
  type Piece,
  type TaskScene,
} from './pieces';
import type { RehearsalStep } from './service-report';
import type { PlacedTask } from './task-stages';

const REASON = {
  place: 'noPlaceForEyes',
  distance: 'seenTooFar',
  angle: 'seenAslant',
  blocked: 'notSeen',
} as const;

/** Not even a small share of what must be seen arrives from anywhere: finer places would not help. */
const HOPELESS_SHARE = 0.4;

/** What stops the rays from the best place, each once. */
function stoppedBy(
  { rays }: SightAnswer,
  all: TaskScene['all'],
): readonly { readonly owner: string; readonly label: string }[] {
  const owners = [...new Set(rays.flatMap(({ by }) => (by === null ? [] : [by])))].sort();
  return owners.map((owner) => ({ owner, label: all.find((one) => one.owner === owner)?.label ?? owner }));
}

/** Whether the place of a task is seen from where the eyes can be; a hand mirror is another answer. */
export function seePiece(task: PlacedTask, see: SeeNeeds, eyes: readonly Region[], { all, hull }: TaskScene): Piece {
  const { face, thing, service } = task;
  const said = (value: number | undefined) => (value === undefined ? AS_USUAL : FROM_FILE);
  const found = sightOf({ at: face.at, normal: face.direction, radiusM: see.diameterM / 2, own: thing }, eyes, all, {
    distanceM: see.distanceM,
    angleDeg: see.angleDeg,
    mirrorOk: see.mirrorOk,
    hull,
  });
  const exact = (
    what: Measure['what'],
    value: number,
    limit: number,
    bound: 'atMost' | 'atLeast',
    unit: 'm' | 'deg' | 'share',
    sources: Measure['sources'],
  ) => measureOf(what, { value, limit, bound, unit, grade: [] }, sources);
  const { share, neededShare, distanceM, angleDeg, lacks, eye, mirror } = found;
  const measures = [
    exact('seenShare', share, neededShare, 'atLeast', 'share', GEOMETRY),
    ...(distanceM === null
      ? []
      : [exact('seenDistance', distanceM, see.distanceM, 'atMost', 'm', said(service.see?.distanceM))]),
    ...(angleDeg === null
      ? []
      : [exact('seenAngle', angleDeg, see.angleDeg, 'atMost', 'deg', said(service.see?.angleDeg))]),
  ];
  const rays = found.rays.map(({ from, to, isFree, stop }) => ({ from, to: stop ?? to, isFree }));
  const base = { kind: 'see', measures, tried: found.tried, shortByM: null } as const;
  if (lacks === null)
    return { ...base, outcome: 'yes', reason: 'seen', blockers: [], shown: { ...NOTHING_SHOWN, eye, rays } };
  const stops = found.blockers.length > 0 ? found.blockers : stoppedBy(found, all);
  const blockers = stops.map((met) => blockerOf(met, null));
  if (mirror)
    return {
      ...base,
      measures: [
        exact('seenShare', mirror.share, neededShare, 'atLeast', 'share', GEOMETRY),
        exact('seenDistance', mirror.pathM, MIRROR_PATH_M, 'atMost', 'm', AS_USUAL),
        ...(mirror.angleDeg === null
          ? []
          : [exact('seenAngle', mirror.angleDeg, see.angleDeg, 'atMost', 'deg', said(service.see?.angleDeg))]),
      ],
      outcome: 'mirror',
      reason: 'seenInMirror',
      blockers,
      mirrorAt: mirror.mirror,
      shown: {
        ...NOTHING_SHOWN,
        eye: mirror.eye,
        rays: mirror.rays.map(({ from, to, isFree }) => ({ from, to, isFree })),
      },
    };
  return {
    ...base,
    outcome: lacks === 'blocked' && share >= HOPELESS_SHARE ? 'notFound' : 'no',
    reason: REASON[lacks],
    blockers,
    shown: { ...NOTHING_SHOWN, eye, rays },
  };
}

/** Where only what was seen before counts, and it is not seen any more. */
export const NOT_LOOKED_FOR: Piece = {
  kind: 'see',
  outcome: 'notFound',
  reason: REASON.blocked,
  measures: [],
  blockers: [],
  shortByM: null,
  tried: 0,
  shown: NOTHING_SHOWN,
};

/** Rays end this far before what they look at, which they touch, metres. */
const BEFORE_IT_M = 0.016;

/** Rays have no thickness: whether they are free is all that is asked, metres. */
const NEAR_M = 0.001;

/** What was seen before, where every ray that was free still is; null where it has to be looked for. */
export function keptSight(kept: readonly Piece[], { thing }: PlacedTask, { all, hull }: TaskScene): Piece | null {
  const before = kept.find(({ kind }) => kind === 'see');
  if (!before || !isDone(before.outcome)) return null;
  const others = new SolidPack(all.filter(({ owner }) => owner !== thing).map(({ solid }) => solid));
  const isFree = ({ from, to }: Pick<RehearsalStep['rays'][number], 'from' | 'to'>): boolean => {
    const span = subtract(to, from);
    const lengthM = norm(span);
    if (lengthM <= BEFORE_IT_M) return true;
    const end = along(from, span, 1 - BEFORE_IT_M / lengthM);
    for (let k = 0; k < others.size; k += 1) if (others.distance(k, ...from, ...end, NEAR_M) <= 0) return false;
    return (hull?.clearance(from, end, NEAR_M) ?? NEAR_M) > 0;
  };
  return before.shown.rays.every((ray) => !ray.isFree || isFree(ray)) ? before : null;
}
