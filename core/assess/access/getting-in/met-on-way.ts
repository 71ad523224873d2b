import { ORIGIN, type Pose, rotationOf, UNIT_AXES } from '../../../base/vec';
import type { Shape } from '../../../boat/schema/boat';
import {
  bodyOfShape,
  type CarriedPose,
  grownBody,
  legLength,
  onLeg,
  quaternionOf,
  reachOfBody,
} from '../../../shape/space/carrying/carried-body';
import { ClearRoom } from '../../../shape/space/carrying/clear-room';
import type { Obstruction } from '../../../shape/space/opened-walls';

/** What is met less deep than this is brushed past; and poses along the way are no farther apart (metres). */
const BRUSHED_M = 0.001;
const LOOK_M = 0.01;

/** Owners of what a part meets on its moves, in the order in which it meets them; what it stands in at its place is not met. */
export function metOnWay(shape: Shape, moves: readonly Pose[], about: readonly Obstruction[]): readonly string[] {
  const room = new ClearRoom(about, { origin: ORIGIN, axes: UNIT_AXES }, null, false);
  const body = grownBody(bodyOfShape(shape), -BRUSHED_M);
  const reachM = reachOfBody(body);
  room.carry(body);
  const out = moves.map((pose): CarriedPose => ({ at: pose.at, turn: quaternionOf(rotationOf(pose)) })).reverse();
  const [place] = out;
  if (!place) return [];
  const there = new Set<number>();
  room.eachNear(place, 1e-9, (index) => there.add(index));
  const met = new Set<string>();
  out.slice(1).forEach((to, n) => {
    const from = out[n] as CarriedPose;
    const looks = Math.max(1, Math.ceil(legLength(from, to, reachM) / LOOK_M));
    for (let k = 0; k <= looks; k += 1)
      room.eachNear(onLeg(from, to, k / looks), 1e-9, (index, d) => {
        if (d <= 0 && !there.has(index)) met.add(about[index]?.owner ?? '');
      });
  });
  return [...met];
}
