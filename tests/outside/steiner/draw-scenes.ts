import type { Vec3 } from '@core/base/vec';
import { type Dice, dice, micro, micro3 } from '../../support/dice';
import type { SteinerBox, SteinerRoom, SteinerScene } from './scene';

/** Rooms in a row along x that open into each other, boxes in them, and a place to start from in the first and to reach in the last. */
export function drawScene(seed: number): SteinerScene {
  const d = dice(seed);
  for (;;) {
    const scene = drawn(d, `s${seed}`);
    if (scene) return scene;
  }
}

const ROOMS_APART_M = 0.35;
const FREE_M = 0.07;
/** A box that stands through floor and ceiling, or through a side, ends this far beyond. */
const BEYOND_M = 0.1;

function drawn(d: Dice, id: string): SteinerScene | null {
  const rooms: SteinerRoom[] = [];
  let x = 0;
  for (let k = 0, count = 1 + d.whole(3); k < count; k += 1) {
    const length = d.from(0.9, 1.6);
    const low = micro3([x, d.from(-0.7, 0), d.from(-0.5, 0)]);
    rooms.push({ low, high: micro3([x + length, low[1] + d.from(0.8, 1.2), low[2] + d.from(0.7, 1)]) });
    x = micro(x + length);
  }
  for (const [k, room] of rooms.entries()) {
    const next = rooms[k + 1];
    if (next && [1, 2].some((axis) => overlap(room, next, axis) < ROOMS_APART_M)) return null;
  }
  const boxes: SteinerBox[] = [];
  for (const room of rooms)
    for (let k = 0, count = 2 + d.whole(3), tries = 0; k < count && tries < 40; tries += 1) {
      const box = standing(d, room);
      if (boxes.some((one) => !apart(one, box))) continue;
      boxes.push(box);
      k += 1;
    }
  const place = (room: SteinerRoom): Vec3 | null => {
    for (let tries = 0; tries < 30; tries += 1) {
      const p = micro3(
        [0, 1, 2].map((i) => d.from(at(room.low, i) + FREE_M, at(room.high, i) - FREE_M)) as [number, number, number],
      );
      if (
        boxes.every(
          (box) =>
            Math.hypot(p[0] - box.centre[0], p[1] - box.centre[1]) > Math.hypot(box.half[0], box.half[1]) + FREE_M,
        )
      )
        return p;
    }
    return null;
  };
  const from = place(rooms[0] as SteinerRoom);
  const to = place(rooms.at(-1) as SteinerRoom);
  if (!from || !to) return null;
  const scene = { id, rooms, boxes, from, to };
  return isStraight(scene) ? null : scene;
}

/** Nothing in the way, as far as 400 looks tell: such a scene asks for nothing. */
const isStraight = ({ rooms, boxes, from, to }: SteinerScene): boolean =>
  Array.from({ length: 400 }, (_, k) => k / 400).every((t) => {
    const p = [0, 1, 2].map((i) => at(from, i) + (at(to, i) - at(from, i)) * t) as [number, number, number];
    const isIn = ({ low, high }: SteinerRoom): boolean => p.every((v, i) => v >= at(low, i) && v <= at(high, i));
    return rooms.some(isIn) && !boxes.some((box) => isInBox(box, p));
  });

function isInBox({ centre, half, yawDeg }: SteinerBox, p: Vec3): boolean {
  const [c, s] = [Math.cos((yawDeg * Math.PI) / 180), Math.sin((yawDeg * Math.PI) / 180)];
  const [x, y] = [p[0] - centre[0], p[1] - centre[1]];
  const local = [x * c + y * s, y * c - x * s, p[2] - centre[2]];
  return local.every((v, i) => Math.abs(v) <= at(half, i));
}

const at = (p: Vec3, axis: number): number => p[axis] as number;
const overlap = (a: SteinerRoom, b: SteinerRoom, axis: number): number =>
  Math.min(at(a.high, axis), at(b.high, axis)) - Math.max(at(a.low, axis), at(b.low, axis));

/** A pillar, a block on the floor or under the ceiling, or one that hangs free; half of them turned. */
function standing(d: Dice, { low, high }: SteinerRoom): SteinerBox {
  const half: [number, number, number] = [d.from(0.05, 0.2), d.from(0.12, 0.32), d.from(0.1, 0.25)];
  const yawDeg = d.next() < 0.5 ? 0 : micro(d.from(-40, 40));
  const reach = Math.hypot(half[0], half[1]) + FREE_M;
  const middle = (axis: number): number => (at(low, axis) + at(high, axis)) / 2;
  const between = (axis: number, keep: number): number => {
    const [a, b] = [at(low, axis) + keep, at(high, axis) - keep];
    return a < b ? d.from(a, b) : middle(axis);
  };
  const tall = at(high, 2) - at(low, 2);
  const kind = d.pick(['pillar', 'floor', 'ceiling', 'free'] as const);
  const centre: [number, number, number] = [between(0, reach), between(1, reach), between(2, half[2] + FREE_M)];
  if (kind === 'pillar') [centre[2], half[2]] = [middle(2), tall / 2 + BEYOND_M];
  else if (kind === 'floor') centre[2] = at(low, 2) + half[2] - BEYOND_M / 2;
  else if (kind === 'ceiling') centre[2] = at(high, 2) - half[2] + BEYOND_M / 2;
  return { centre: micro3(centre), half: micro3(half), yawDeg };
}

const apart = (a: SteinerBox, b: SteinerBox): boolean =>
  Math.hypot(a.centre[0] - b.centre[0], a.centre[1] - b.centre[1]) >
  Math.hypot(a.half[0], a.half[1]) + Math.hypot(b.half[0], b.half[1]) + FREE_M;
