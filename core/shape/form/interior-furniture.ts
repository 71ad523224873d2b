import type { Vec2 } from '../../base/vec';
import { BOARD_M, mirrored, type PlanBuilder } from './interior-plan';

/** Furniture that stands alike in every monohull: a saloon with a settee on each side, a berth in the bow. */

/** Key, word and sign of y of either side. */
export const SIDES = [
  ['port', 'port', 1],
  ['stbd', 'starboard', -1],
] as const;

/** A stretch across the boat on one side, from inboard to outboard. */
export const onSide = (sign: 1 | -1, from: number, to: number): [number, number] =>
  sign > 0 ? [from, to] : [-to, -from];

export interface Saloon {
  readonly x: readonly [number, number];
  /** Half of the sole between the settees, and of the room that the hull bounds. */
  readonly sole: number;
  readonly half: number;
  /** Where the settees' backs stand; null where the hull is their back. */
  readonly back: number | null;
  readonly soleZ: number;
  readonly seatZ: number;
  readonly topZ: number;
}

/** The room between and over the settees. */
export function saloonBetween(b: PlanBuilder, { x, sole, half, back, soleZ, seatZ, topZ }: Saloon): void {
  const seat = back ?? half;
  const side: Vec2[] = [
    [sole, soleZ],
    [sole, seatZ],
    [seat, seatZ],
    [seat, topZ],
  ];
  b.section('saloon', 'Saloon', 'cabin', [...mirrored(side), ...side], x, { berth: true });
}

/** A saloon shorter than this has one locker under each settee, a longer one two. Common practice, no source. */
const ONE_LOCKER_UP_TO_M = 1.5;

/** Lockers under the settee of one side, each with a lid, and the one behind its back; gives the ids of those under it. */
export function setteeOn(
  b: PlanBuilder,
  { x, sole, half, back, seatZ }: Saloon,
  [key, words, sign]: (typeof SIDES)[number],
  size: { readonly floorZ: number; readonly backTopZ: number; readonly lidM: number },
): readonly string[] {
  const parted = (x[0] + x[1]) / 2;
  const pieces: readonly (readonly [string, string, readonly [number, number]])[] =
    x[1] - x[0] > ONE_LOCKER_UP_TO_M
      ? [
          ['aft', `${words} aft`, [x[0], parted - BOARD_M / 2]],
          ['fwd', `${words} forward`, [parted + BOARD_M / 2, x[1]]],
        ]
      : [['all', words, x]];
  const ids = pieces.map(([piece, where, stretch]) => {
    const id = `settee-${key}-${piece}`;
    const across = onSide(sign, sole + BOARD_M, half);
    b.box(id, `Settee locker, ${where}`, 'locker', stretch, across, [size.floorZ, seatZ - BOARD_M]);
    b.opening({
      id: `${id}-lid`,
      name: `Settee lid, ${where}`,
      compartment: id,
      to: 'saloon',
      face: 'top',
      mostM: [size.lidM, 0.8],
      how: 'liftOut',
      standing: 'saloon-sole',
      moveFirst: ['Settee cushion'],
    });
    return id;
  });
  if (back === null) return ids;
  const behind = onSide(sign, back + BOARD_M, half);
  b.box(`back-${key}`, `Behind the settee back, ${words}`, 'locker', x, behind, [seatZ, size.backTopZ]);
  b.opening({
    id: `back-${key}-board`,
    name: `Backrest board, ${words}`,
    compartment: `back-${key}`,
    to: 'saloon',
    face: 'inboard',
    mostM: [1.6, 0.42],
    how: 'liftOut',
    standing: 'saloon-sole',
    moveFirst: ['Settee backrest'],
  });
  return ids;
}

/** Share of the fore cabin's length that the berth's voids reach; the chain locker's slope takes the rest. Common practice, no source. */
const BERTH_SHARE = 0.72;

/** Voids under the berth in the bow: one on each side, the middle one deeper, as tanks go there. */
export function foreBerth(
  b: PlanBuilder,
  berth: {
    /** The fore cabin. */
    readonly x: readonly [number, number];
    readonly half: number;
    /** Half of the middle void: the way to the berth. */
    readonly middle: number;
    readonly berthZ: number;
    readonly sideFloorZ: number;
    floorZ(from: number, to: number): number;
  },
): void {
  const x: readonly [number, number] = [berth.x[0], berth.x[0] + BERTH_SHARE * (berth.x[1] - berth.x[0])];
  const topZ = berth.berthZ - BOARD_M;
  for (const [key, words, sign] of SIDES) {
    const across = onSide(sign, berth.middle + BOARD_M, berth.half);
    b.box(`vee-${key}`, `Void under the ${words} berth`, 'void', x, across, [berth.sideFloorZ, topZ]);
  }
  b.box(
    'vee-centre',
    'Tank space under the berth',
    'void',
    x,
    [-berth.middle, berth.middle],
    [berth.floorZ(...x), topZ],
  );
}

/** Lids in the berth over those voids. */
export function foreBerthLids(b: PlanBuilder, standing: string): void {
  for (const [key, words] of [...SIDES, ['centre', 'middle']] as const)
    b.opening({
      id: `vee-${key}-lid`,
      name: `Lid in the fore berth, ${words}`,
      compartment: `vee-${key}`,
      to: 'forepeak',
      face: 'top',
      mostM: [0.4, 0.7],
      how: 'liftOut',
      moveFirst: ['Berth cushion'],
      standing,
    });
}

/** The way from the saloon into the passage before it, and from there into the heads. */
export function passageOpenings(b: PlanBuilder, way: { readonly id: string; readonly name: string }): void {
  b.opening({
    ...way,
    compartment: 'passage',
    to: 'saloon',
    face: 'aft',
    mostM: [0.6, 1.7],
    how: 'open',
    standing: 'saloon-sole',
  });
  b.opening({
    id: 'heads-door',
    name: 'Heads door',
    compartment: 'heads',
    to: 'passage',
    face: 'inboard',
    mostM: [0.55, 1.6],
    how: 'hinged',
    standing: 'passage-sole',
  });
}
