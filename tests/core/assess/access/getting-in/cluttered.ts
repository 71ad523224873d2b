import type { Pose, Vec3 } from '@core/base/vec';
import type { BoxSolid } from '@core/shape/space/solids';
import { dice, micro } from '../../../../support/dice';
import { axesOf, type LockerScene } from './lockers';
import { along, boxesMeet, halfOf } from './retrace';

/** Boxes are put down clear of the way by so much (metres). */
const CLEAR_M = 0.012;

/** The scene with 4 to 13 boxes in its locker, a third of them turned, all clear of the moves: so there is a way. */
export function cluttered(scene: LockerScene, moves: readonly Pose[], seed: number): LockerScene {
  const d = dice(seed * 7919 + 13);
  const reachM = Math.hypot(...halfOf(scene));
  const way = [...along(moves, reachM, 0.006)];
  const grown = halfOf(scene).map((h) => h + CLEAR_M) as unknown as Vec3;
  const clutter: BoxSolid[] = [];
  const wanted = 4 + d.whole(10);
  for (let n = 0; n < 200 && clutter.length < wanted; n += 1) {
    const half: Vec3 = [micro(d.from(0.02, 0.2)), micro(d.from(0.02, 0.2)), micro(d.from(0.02, 0.2))];
    const turn =
      d.next() < 0.33
        ? { yawDeg: d.from(0, 90), pitchDeg: d.from(-30, 30), rollDeg: 0 }
        : { yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    const box: BoxSolid = {
      type: 'box',
      id: `clutter${n}`,
      owner: `clutter${n}`,
      label: 'clutter',
      layer: 'furnishing',
      centre: [0, 1, 2].map((k) => micro(d.from(0, scene.sizeM[k] as number))) as unknown as Vec3,
      half,
      axes: axesOf(turn),
    };
    if (way.some((placed) => boxesMeet(placed, grown, box))) continue;
    clutter.push(box);
  }
  return { ...scene, clutter };
}
