import { type GettingIn, gettingIn } from '@core/assess/access/getting-in/getting-in';
import { type CarriedWay, carriedWay, WayRoom } from '@core/assess/access/getting-in/way-room';
import type { Pose, Vec3 } from '@core/base/vec';
import type { Opening, Shape } from '@core/boat/schema/boat';
import { opening as openingSchema } from '@core/boat/schema/interior';
import type { Layout } from '@core/shape/layout/types';
import type { BoxSolid } from '@core/shape/space/solids';
import { type Dice, dice, micro } from '../../../../support/dice';
import { boxIn, layoutOf } from '../../../shape/layout/boats';

/** A locker behind the cabin's side, x 0 to length, y 0 to depth, z 0 to height, with one opening in its side towards the cabin. */
export interface LockerScene {
  readonly sizeM: Vec3;
  /** Room before it: the side that faces the opening stands there. */
  readonly beforeM: number;
  readonly opening: {
    readonly at: readonly [number, number];
    readonly widthM: number;
    readonly heightM: number;
    readonly isRound?: boolean;
  };
  readonly shape: Shape;
  readonly pose: Pose;
  readonly clutter: readonly BoxSolid[];
}

/** The same locker seen in a mirror that lies fore and aft, or further forward. */
export interface Seen {
  readonly isMirrored?: boolean;
  readonly shiftM?: number;
}

const seenAt = ([x, y, z]: Vec3, { isMirrored = false, shiftM = 0 }: Seen): Vec3 => [
  x + shiftM,
  isMirrored ? -y : y,
  z,
];

const openingOf = ({ opening: { at, widthM, heightM, isRound } }: LockerScene, seen: Seen = {}): Opening =>
  openingSchema.parse({
    name: 'Door',
    compartment: 'locker',
    to: 'cabin',
    at: seenAt([at[0], 0, at[1]], seen),
    normal: [0, seen.isMirrored ? 1 : -1, 0],
    widthM,
    heightM,
    shape: isRound ? 'round' : 'rectangle',
  });

export function layoutFor({ sizeM: [length, depth, height], beforeM }: LockerScene, seen: Seen = {}): Layout {
  const box = (a: Vec3, b: Vec3, kind: string) => {
    const [p, q] = [seenAt(a, seen), seenAt(b, seen)];
    const low: Vec3 = [Math.min(p[0], q[0]), Math.min(p[1], q[1]), p[2]];
    const high: Vec3 = [Math.max(p[0], q[0]), Math.max(p[1], q[1]), q[2]];
    return boxIn('plan', low, high, { kind: kind as 'cabin' });
  };
  return layoutOf({
    locker: box([0, 0, 0], [length, depth, height], 'locker'),
    cabin: box([-1.5, -beforeM, -0.4], [length + 1.5, 0, 1.6], 'cabin'),
  });
}

export function roomFor(scene: LockerScene, seen: Seen = {}): WayRoom {
  const layout = layoutFor(scene, seen);
  const way = carriedWay(layout, { door: openingOf(scene, seen) }, ['door'], 'locker') as CarriedWay;
  const clutter = scene.clutter.map((box) => ({
    ...box,
    centre: seenAt(box.centre, seen),
    axes: box.axes.map((axis) => seenAt(axis, { ...seen, shiftM: 0 })) as unknown as BoxSolid['axes'],
  }));
  return new WayRoom(way, { layout, hull: null, kindOf: (id) => (id === 'cabin' ? 'cabin' : 'locker') }, clutter);
}

const poseSeen = ({ at, yawDeg, pitchDeg, rollDeg }: Pose, seen: Seen): Pose => ({
  at: seenAt(at, seen),
  yawDeg: seen.isMirrored ? -yawDeg : yawDeg,
  pitchDeg,
  rollDeg: seen.isMirrored ? -rollDeg : rollDeg,
});

export const carriedIn = (
  scene: LockerScene,
  looks: number,
  { seen = {}, ...more }: { seen?: Seen; longerM?: number; wantedM?: number; explains?: boolean } = {},
): GettingIn =>
  gettingIn({ shape: scene.shape, pose: poseSeen(scene.pose, seen) }, roomFor(scene, seen), {
    looks,
    seed: 'part',
    ...more,
  });

const turnOf = (d: Dice): Pick<Pose, 'yawDeg' | 'pitchDeg' | 'rollDeg'> => ({
  yawDeg: d.pick([0, 90, 0, 90, 30]),
  pitchDeg: d.pick([0, 0, 90]),
  rollDeg: d.pick([0, 0, 90]),
});

/** A locker of 0.4 to 1.2 m each way, one opening, one part that stands somewhere in it, and nothing else. */
export function emptyScene(seed: number): LockerScene {
  const d = dice(seed);
  const sizeM: Vec3 = [micro(d.from(0.5, 1.3)), micro(d.from(0.4, 1)), micro(d.from(0.4, 0.9))];
  const isRound = d.next() < 0.1;
  const widthM = micro(d.from(0.2, Math.min(0.7, sizeM[0] - 0.02)));
  const heightM = isRound ? widthM : micro(d.from(0.2, Math.min(0.6, sizeM[2] - 0.02)));
  const at: [number, number] = [
    micro(d.from(widthM / 2 + 0.005, sizeM[0] - widthM / 2 - 0.005)),
    micro(d.from(Math.min(heightM / 2 + 0.005, sizeM[2] / 2), Math.max(sizeM[2] / 2, sizeM[2] - heightM / 2 - 0.005))),
  ];
  const side = (): number => micro(d.from(0.08, 0.55));
  const shape: Shape =
    d.next() < 0.25
      ? { type: 'cylinder', axis: 'x', diameterM: micro(d.from(0.08, 0.25)), lengthM: micro(d.from(0.3, 1.1)) }
      : { type: 'box', sizeM: [side(), side(), side()] };
  const turn = turnOf(d);
  const half = halfSpread(shape, turn);
  const within = (k: 0 | 1 | 2): number => {
    const roomM = sizeM[k] / 2 - half[k] - 0.001;
    return micro(sizeM[k] / 2 + (roomM > 0 ? d.from(-roomM, roomM) : 0));
  };
  const pose: Pose = { at: [within(0), within(1), micro(half[2] + 0.002)], ...turn };
  return {
    sizeM,
    beforeM: micro(d.from(0.6, 1.6)),
    opening: { at, widthM, heightM, isRound },
    shape,
    pose,
    clutter: [],
  };
}

/** Half of what a turned part takes up along the axes of the boat. */
function halfSpread(shape: Shape, turn: Pick<Pose, 'yawDeg' | 'pitchDeg' | 'rollDeg'>): Vec3 {
  const axes = axesOf(turn);
  const sides = shape.type === 'box' ? shape.sizeM : ([shape.lengthM, shape.diameterM, shape.diameterM] as const);
  return [0, 1, 2].map((k) =>
    [0, 1, 2].reduce((sum, n) => sum + (Math.abs(axes[n]?.[k] ?? 0) * (sides[n] as number)) / 2, 0),
  ) as unknown as Vec3;
}

/** Yaw, pitch and roll about z, y and x, written out anew. */
export function axesOf({
  yawDeg,
  pitchDeg,
  rollDeg,
}: Pick<Pose, 'yawDeg' | 'pitchDeg' | 'rollDeg'>): readonly [Vec3, Vec3, Vec3] {
  const r = (deg: number): readonly [number, number] => [
    Math.cos((deg * Math.PI) / 180),
    Math.sin((deg * Math.PI) / 180),
  ];
  const [[cy, sy], [cp, sp], [cr, sr]] = [r(yawDeg), r(pitchDeg), r(rollDeg)];
  return [
    [cy * cp, sy * cp, -sp],
    [cy * sp * sr - sy * cr, sy * sp * sr + cy * cr, cp * sr],
    [cy * sp * cr + sy * sr, sy * sp * cr - cy * sr, cp * cr],
  ];
}
