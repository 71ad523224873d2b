import { sightOf } from '@core/assess/access/sight';
import { swingOf } from '@core/assess/access/tool-swing';
import { withdrawalOf } from '@core/assess/access/withdrawal';
import type { BoxSolid, CylinderSolid, Solid } from '@core/shape/space/solids';
import { convexGap, firstContact, middleOf } from '../../support/convex-gap';
import { gap, inner, minus, normalised, outer, type P3, plus, times } from '../../support/geometry-oracle';
import { randomFrom } from '../../support/random';
import { capsuleGap } from '../../support/service/arm-model';
import { type ArmScene, armScene } from '../../support/service/arm-scene';
import { obstructionsOf } from './judged-arm';

const LIMITS = { distanceM: 0.7, angleDeg: 45, mirrorOk: true } as const;
const GLASS_M = 0.01;
const NEEDED = 0.8;
/** Points of the disc and places of the eye by which brute force looks. */
const POINTS = 48;
const PLACES = 220;

export interface JudgedRoom {
  readonly seed: number;
  readonly sight: {
    readonly told: boolean;
    readonly truth: boolean;
    readonly shareError: number | null;
    readonly mirror: boolean;
  };
  readonly withdrawal: { readonly isBlocked: boolean; readonly errorM: number; readonly isGraze: boolean };
  readonly swing: { readonly toldDeg: number; readonly truthDeg: number };
}

/** Sight, withdrawal and the swing of a spanner in the scenes of the arm, each against brute force that knows solids by definition alone. */
export function judgeRoom(seed: number): JudgedRoom {
  const scene = armScene(seed);
  const normal = scene.grasp.normal ?? [1, 0, 0];
  return {
    seed,
    sight: judgeSight(scene, normal),
    withdrawal: judgeWithdrawal(scene, normal),
    swing: judgeSwing(scene, normal),
  };
}

function judgeSight(scene: ArmScene, normal: P3): JudgedRoom['sight'] {
  const { grasp, posture, solids, seed } = scene;
  const at = plus(grasp.point, times(normal, 1e-3));
  const region = posture.gate
    ? {
        centre: plus(posture.gate.at, times(posture.gate.out, posture.gate.outerM + 0.185)),
        half: [0.125, posture.gate.widthM / 2 + 0.06, posture.gate.heightM / 2 + 0.06] as P3,
        axes: [posture.gate.out, posture.gate.across, posture.gate.up] as const,
      }
    : (posture.shoulders[0] as (typeof posture.shoulders)[number]);
  const told = sightOf({ at, normal, radiusM: GLASS_M }, [region], obstructionsOf(scene), LIMITS);
  const side = normalised(outer(normal, Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const other = outer(normal, side);
  const points = Array.from({ length: POINTS }, (_, n) => {
    const r = GLASS_M * Math.sqrt((n + 0.5) / POINTS);
    const angle = 2.399963229728653 * n;
    return plus(at, plus(times(side, r * Math.cos(angle)), times(other, r * Math.sin(angle))));
  });
  const isFree = (eye: P3, to: P3): boolean => {
    const end = plus(to, times(normalised(minus(eye, to)), 5e-4));
    return solids.every((solid) => capsuleGap(solid, eye, end, 0) > 0);
  };
  const shareFrom = (eye: P3, atLeast: number): number => {
    let missed = 0;
    for (const to of points) {
      if (!isFree(eye, to)) missed += 1;
      if (missed > points.length * (1 - atLeast)) return 0;
    }
    return 1 - missed / points.length;
  };
  const next = randomFrom(seed * 17 + 3);
  let truth = false;
  for (let n = 0; n < PLACES && !truth; n += 1) {
    const eye = region.axes.reduce<P3>(
      (p, axis, k) => plus(p, times(axis, (2 * next() - 1) * (region.half[k] as number))),
      region.centre,
    );
    const awayM = gap(eye, at);
    const cosine = inner(normal, times(minus(eye, at), 1 / awayM));
    if (awayM > LIMITS.distanceM || awayM < 0.15 || cosine < Math.SQRT1_2) continue;
    truth = shareFrom(eye, NEEDED + 0.04) > 0;
  }
  const shareError = told.isSeen && told.eye ? Math.abs(told.share - shareFrom(told.eye, 0)) : null;
  return { told: told.isSeen, truth, shareError, mirror: told.mirror !== null };
}

/** A bowl of 80 mm that stands on the place and is drawn straight off it by 0.3 m. */
function judgeWithdrawal(scene: ArmScene, normal: P3): JudgedRoom['withdrawal'] {
  const { grasp, seed, solids } = scene;
  const others = solids.filter(({ owner }) => owner !== grasp.own);
  const [from, to] = [plus(grasp.point, times(normal, 2e-3)), plus(grasp.point, times(normal, 0.082))];
  const named = { id: 'bowl', owner: grasp.own, label: 'bowl', layer: 'furnishing' } as const;
  const radius = seed % 2 === 0 ? 0.03 : 0.02;
  const side = normalised(outer(normal, Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const bowl: CylinderSolid | BoxSolid =
    seed % 3 === 0
      ? {
          ...named,
          type: 'box',
          centre: plus(grasp.point, times(normal, 0.042)),
          half: [0.04, radius, 0.03],
          axes: [normal, side, outer(normal, side)],
        }
      : { ...named, type: 'cylinder', from, to, radius };
  const around = obstructionsOf({ ...scene, solids: others });
  const told = withdrawalOf(bowl, normal, 0.3, around, { tiltOk: false });
  const met = others.map((solid) => firstContact(bowl, solid, normal, 0.3).t ?? 0.3);
  const truth = Math.min(0.3, ...met);
  const errorM = Math.abs(told.freeM - truth);
  return { isBlocked: truth < 0.3, errorM, isGraze: errorM > 1e-4 && isGraze(bowl, others, normal, told.freeM, truth) };
}

/** Whether what one of the two met is only touched: a bowl 0.3 mm smaller is free as far as the other says. */
function isGraze(bowl: Solid, others: readonly Solid[], normal: P3, told: number, truth: number): boolean {
  const shrunk: Solid =
    bowl.type === 'box'
      ? { ...bowl, half: [bowl.half[0], bowl.half[1] - 3e-4, bowl.half[2] - 3e-4] }
      : { ...bowl, radius: bowl.radius - 3e-4 };
  return (
    told > truth &&
    Math.min(0.3, ...others.map((solid) => firstContact(shrunk, solid, normal, 0.3).t ?? 0.3)) > told - 1e-3
  );
}

/** A spanner of 0.2 m on the place, by 720 thin spokes; drawn in by 0.2 mm, since what is only touched stops no tool. */
function judgeSwing(scene: ArmScene, normal: P3): JudgedRoom['swing'] {
  const { grasp, solids } = scene;
  const hub = plus(grasp.point, times(normal, 1e-3));
  const others = solids.filter((solid) => solid.owner !== grasp.own && capsuleGap(solid, hub, hub, 0) < 0.3);
  const tool = { kind: 'spanner', hub, axis: normal, lengthM: 0.2, headM: 0.015, neededDeg: 60 } as const;
  const told = swingOf(tool, obstructionsOf({ ...scene, solids: others }));
  const zero = normalised(outer(normal, Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const quarter = outer(normal, zero);
  const count = 720;
  const clear = Array.from({ length: count }, (_, k) => {
    const angle = (2 * Math.PI * k) / count;
    const way = plus(times(zero, Math.cos(angle)), times(quarter, Math.sin(angle)));
    const spoke = {
      type: 'box' as const,
      centre: plus(plus(hub, times(way, 0.1)), times(normal, 0.03)),
      half: [0.0998, 0.0148, 0.0298] as P3,
      axes: [way, outer(normal, way), normal] as const,
    };
    return others.every((solid) => convexGap(spoke, solid, middleOf(solid), 1000) > 0);
  });
  return { toldDeg: told.freeDeg, truthDeg: (longestRun(clear) * 360) / count };
}

function longestRun(clear: readonly boolean[]): number {
  if (clear.every(Boolean)) return clear.length;
  let longest = 0;
  let run = 0;
  for (let k = 0; k < 2 * clear.length; k += 1) {
    run = clear[k % clear.length] ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}

/** Counted over many scenes. */
export function roomTable(all: readonly JudgedRoom[]) {
  const seen = all.filter(({ sight }) => sight.truth || sight.told);
  const errors = all.filter(({ withdrawal }) => !withdrawal.isGraze).map(({ withdrawal }) => withdrawal.errorM);
  const wide = all.filter(({ swing }) => swing.truthDeg >= 60);
  return {
    scenes: all.length,
    seen: seen.length,
    missed: all.filter(({ sight }) => sight.truth && !sight.told).map(({ seed }) => seed),
    worstShare: Math.max(0, ...all.map(({ sight }) => sight.shareError ?? 0)),
    inMirror: all.filter(({ sight }) => sight.mirror).length,
    blocked: all.filter(({ withdrawal }) => withdrawal.isBlocked).length,
    grazes: all.filter(({ withdrawal }) => withdrawal.isGraze).length,
    worstWithdrawalM: Math.max(0, ...errors),
    swings: wide.length,
    swingsMissed: wide.filter(({ swing }) => swing.toldDeg < 60).length,
    swingsTooWide: all.filter(({ swing }) => swing.toldDeg > swing.truthDeg + 0.51).map(({ seed }) => seed),
  };
}
