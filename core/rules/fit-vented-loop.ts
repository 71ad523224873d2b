import type { z } from 'zod';
import { dot, type Vec3 } from '../base/vec';
import { type Draft, freeId, placed } from '../boat/edits';
import type { Boat, Part } from '../boat/schema/boat';
import type { part } from '../boat/schema/things';
import type { WaterPlane } from '../shape/hull/types';
import type { Facts } from './facts';
import type { Mend } from './mend';

/** A loop of the trade, by the bore of its hose: legs two and a half bores apart, 150 mm tall. Typical, no source. */
const LEGS_BORES = 2.5;
const TALL_M = 0.15;
const MASS_KG = 0.3;
/** It is set this much higher than it must be. */
const TO_SPARE_M = 0.02;
/** Where it is tried: beside the middle between the ends of the line, level, metres. A hose needs room to come up to it. */
const BESIDE_M = [
  [0, 0],
  [0.4, 0],
  [-0.4, 0],
  [0, 0.4],
  [0, -0.4],
] as const;

export interface LoopWish {
  readonly lineId: string;
  readonly boreM: number;
  /** Waters above which its crest must stand, and how high. */
  readonly waters: readonly WaterPlane[];
  readonly heightM: number;
  readonly ends: readonly [Vec3, Vec3];
}

/** The line cut in two with a vented loop between, wherever along it a compartment is high enough. */
export function fitVentedLoop(wish: LoopWish, boat: Boat, arrangementId: string, facts: Facts): readonly Mend[] {
  const line = Object.hasOwn(boat.lines, wish.lineId) ? boat.lines[wish.lineId] : undefined;
  if (!line || (line.supplied && !line.supplied.mayCut)) return [];
  const [from, to] = wish.ends;
  const layout = facts.layout();
  return BESIDE_M.flatMap(([asideX, asideY], k): readonly Mend[] => {
    const [x, y] = [(from[0] + to[0]) / 2 + asideX, (from[1] + to[1]) / 2 + asideY];
    const crestM = Math.max(
      ...wish.waters.map(({ up, levelM }) => (levelM + wish.heightM + TO_SPARE_M - dot([x, y, 0], up)) / up[2]),
    );
    const at: Vec3 = [x, y, Math.round(1e4 * (crestM - TALL_M / 2)) / 1e4];
    if (layout.compartmentAt([x, y, at[2] + TALL_M / 2]) === null || layout.compartmentAt(at) === null) return [];
    return [
      {
        id: `loop/${k + 1}`,
        change: 'add',
        what: { item: 'ventedLoop', to: wish.lineId },
        recipe: (draft) => cutInTwo(draft, wish, arrangementId, at),
      },
    ];
  });
}

function cutInTwo(boat: Draft<Boat>, { lineId, boreM }: LoopWish, arrangementId: string, at: Vec3): void {
  const own = boat.lines[lineId];
  if (!own) return;
  const legM = (LEGS_BORES * boreM) / 2;
  const port = (side: 1 | -1): NonNullable<z.input<typeof part>['ports']>[string] => ({
    at: [side * legM, 0, -TALL_M / 2],
    direction: [0, 0, -1],
    medium: own.medium,
    boreM,
  });
  const loop: z.input<typeof part> = {
    name: `Vented loop for ${own.name}`.slice(0, 120),
    kind: 'ventedLoop',
    shape: { type: 'box', sizeM: [2 * legM + 1.5 * boreM, 1.5 * boreM, TALL_M] },
    massKg: MASS_KG,
    ports: { a: port(-1), b: port(1) },
    source: 'typical',
  };
  const loopId = freeId({ ...boat.parts, ...boat.fixtures }, `${lineId}-loop`);
  boat.parts[loopId] = loop as Draft<Part>;
  placed(arrangementId, loopId, { at })(boat);
  const { to, from } = own.ends;
  boat.lines[freeId(boat.lines, `${lineId}-half`)] = {
    ...own,
    name: `${own.name}, second half`.slice(0, 120),
    from: { thing: loopId, port: 'b' },
    to: { ...own.to },
    ends: to ? { to } : {},
  };
  own.to = { thing: loopId, port: 'a' };
  own.ends = from ? { from } : {};
}
