import * as portable from '../../../base/portable';
import { radians, scale } from '../../../base/vec';
import { type Arm, armOf, type FlatPose, HAND, PALM, POSE_NUMBERS, WRIST } from './arm';
import { squareAxes } from './directions';
import { gripOffM } from './pose-search';
import type { Surroundings } from './surroundings';
import type { BodySizes, Grasp } from './types';

/** Cells that are cut finer than this prove nothing any more: the hand has room within so much, metres. */
const FINEST_M = 0.0015;
/** Counted limit of cells. */
const MOST_CELLS = 6000;
/** The hand in the middle of a cell that is as small as this is asked about: where it has room itself, nothing is to be proved, metres. */
const NEARLY_M = 0.012;
/** Where nothing is left of the hand box the cell is cut before it is looked at, metres. */
const LEAST_HALF_M = 0.003;

/** Directions of the hand off the normal from and to, about it from and to, and its rolls, radians. */
type Cell = readonly [number, number, number, number, number, number];

/**
 * Proof that the hand has no room at a point, whichever way it points and rolls: all of that is cut into cells, and in every cell what all its
 * hands have in common meets something. Two hands of a cell differ by a turn about the grip; no point of the box moves farther in it than
 * `spreadM`, so the box thinner by that is in each of them. A cell that is not proved is cut in two; false as soon as one is as fine as makes
 * no difference. Without a normal nothing is proved.
 */
export function hasNoRoomForHand(world: Surroundings, grasp: Grasp, body: BodySizes, grownM: number): boolean {
  if (!grasp.normal) return false;
  const arm = armOf(body, grownM);
  const hands = new HandsInCell(grasp, arm);
  const coneRad = radians(Math.min(120, grasp.coneDeg));
  const stack: Cell[] = [];
  for (let k = 0; k < 8; k += 1) stack.push([0, coneRad, (k * Math.PI) / 4, ((k + 1) * Math.PI) / 4, 0, Math.PI / 2]);
  for (const [a, b, c, d, , turn] of [...stack]) stack.push([a, b, c, d, turn, 2 * turn]);
  let cells = 0;
  for (let cell = stack.pop(); cell; cell = stack.pop()) {
    cells += 1;
    const turns = hands.turns(cell);
    const spreadM = hands.spread(turns);
    const pose = hands.middle(cell);
    const isTold = Math.min(...arm.halfM) - spreadM > LEAST_HALF_M;
    if (isTold && !world.handIsFree(pose, armOf(body, grownM - spreadM), true)) continue;
    if (spreadM < FINEST_M || cells > MOST_CELLS) return false;
    if (spreadM < NEARLY_M && world.handIsFree(pose, arm, true)) return false;
    const k = turns[0] >= turns[1] && turns[0] >= turns[2] ? 0 : turns[1] >= turns[2] ? 2 : 4;
    stack.push(...halves(cell, k));
  }
  return true;
}

function halves(cell: Cell, k: 0 | 2 | 4): readonly [Cell, Cell] {
  const middle = (cell[k] + cell[(k + 1) as 1 | 3 | 5]) / 2;
  const [low, high] = [[...cell], [...cell]] as unknown as [number[], number[]];
  low[k + 1] = middle;
  high[k] = middle;
  return [low, high] as unknown as [Cell, Cell];
}

class HandsInCell {
  private readonly pose: FlatPose = new Float64Array(POSE_NUMBERS);
  private readonly square = new Float64Array(6);

  constructor(
    private readonly grasp: Grasp,
    private readonly arm: Arm,
  ) {
    const [x, y, z] = scale(grasp.normal ?? [0, 0, 1], -1);
    squareAxes(x, y, z, this.square, 0);
  }

  /**
   * Angles by which a hand of the cell is turned at most from its middle: off the normal, about it, and rolled. The roll is counted from the
   * hand that is turned off the normal the short way; going round by an angle turns such a hand about itself by (1 - cos) of it as well,
   * and its direction by the sine.
   */
  turns([low, high, from, to, first, last]: Cell): readonly [number, number, number] {
    const round = (to - from) / 2;
    const direction = round * portable.sin(Math.min(high, Math.PI / 2));
    return [(high - low) / 2, direction + round * (1 - portable.cos(high)), (last - first) / 2];
  }

  /**
   * By how much the box has to be thinner all round so that it is in every hand of the cell: no point of the thinner box moves farther.
   */
  spread([off, round, roll]: readonly [number, number, number]): number {
    const [a, b, c] = this.arm.halfM;
    const turned = off + round;
    // What the whole box moves is enough; the less of it is left the less it moves, so a few halvings between come near to the least.
    const moved = (thinner: number): number => {
      const wide = Math.sqrt(Math.max(0, b - thinner) ** 2 + Math.max(0, c - thinner) ** 2);
      const far = Math.max(0, a - thinner) + this.arm.behindM;
      return turned * Math.sqrt(far * far + wide * wide) + roll * wide;
    };
    let high = moved(0);
    let low = moved(high);
    for (let k = 0; k < 5; k += 1) {
      const thinner = (low + high) / 2;
      if (moved(thinner) > thinner) low = thinner;
      else high = thinner;
    }
    return high;
  }

  middle([low, high, from, to, first, last]: Cell): FlatPose {
    const { pose, square: s, grasp, arm } = this;
    const off = (low + high) / 2;
    const round = (from + to) / 2;
    const [sin, cos] = [portable.sin(off), portable.cos(off)];
    const [c, d] = [portable.cos(round), portable.sin(round)];
    const [rollCos, rollSin] = [portable.cos((first + last) / 2), portable.sin((first + last) / 2)];
    // In the frame of the axis: the hand, and the two square axes turned off with it the short way.
    const back = cos - 1;
    for (let i = 0; i < 3; i += 1) {
      const n = (grasp.normal as readonly number[])[i] as number;
      const [a, u, v] = [-n, s[i] as number, s[3 + i] as number];
      const lean = u * c + v * d;
      const hand = a * cos + lean * sin;
      const p = u + lean * c * back - a * sin * c;
      const q = v + lean * d * back - a * sin * d;
      pose[HAND + i] = hand;
      pose[PALM + i] = p * rollCos + q * rollSin;
      pose[WRIST + i] = (grasp.point[i] as number) + n * gripOffM(grasp) - hand * arm.handM;
    }
    return pose;
  }
}
