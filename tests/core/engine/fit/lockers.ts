import type { PartDraft } from '@core/boat/catalogue/templates';
import type { Grade, Part } from '@core/boat/schema/boat';
import { part } from '@core/boat/schema/things';
import type { Locker, LockerFace, Reading } from '@core/engine/fit/locker';

/** A locker from millimetres: a box, or a section that leans from `bottom` to `top`. */
export function lockerOf(sizes: {
  readonly length: number;
  readonly height: number;
  readonly bottom: number;
  readonly top?: number;
  readonly lining?: number;
  readonly side?: 'port' | 'starboard';
  readonly face?: LockerFace;
  readonly opening: readonly [number, number];
  readonly edges?: readonly [number, number];
  readonly grade?: Grade;
}): Locker {
  const grade = sizes.grade ?? 'measured';
  const reading = (mm: number): Reading => ({ valueM: mm / 1000, grade });
  return {
    name: 'Locker',
    side: sizes.side ?? 'port',
    slopeBy: 'depths',
    leanDeg: 0,
    readings: {
      length: reading(sizes.length),
      height: reading(sizes.height),
      depthBottom: reading(sizes.bottom),
      depthTop: reading(sizes.top ?? sizes.bottom),
      lining: reading(sizes.lining ?? 0),
      openingWidth: reading(sizes.opening[0]),
      openingHeight: reading(sizes.opening[1]),
      openingAcross: reading(sizes.edges?.[0] ?? 0),
      openingUp: reading(sizes.edges?.[1] ?? 0),
    },
    opening: { face: sizes.face ?? 'front', centred: sizes.edges === undefined },
  };
}

type Millimetres = readonly [number, number, number];
const inMetres = ([x, y, z]: Millimetres): [number, number, number] => [x / 1000, y / 1000, z / 1000];

export const boxPart = (sides: Millimetres, more: Partial<PartDraft> = {}): Part =>
  part.parse({ name: 'Box', kind: 'other', shape: { type: 'box', sizeM: inMetres(sides) }, ...more });

/** Lies along x. */
export const cylinderPart = (diameter: number, length: number): Part =>
  part.parse({
    name: 'Rod',
    kind: 'other',
    shape: { type: 'cylinder', diameterM: diameter / 1000, lengthM: length / 1000, axis: 'x' },
  });

const WAYS = { forward: [1, 0, 0], port: [0, 1, 0], starboard: [0, -1, 0], up: [0, 0, 1] } as const;

/** One task from the middle of a side of a box: 40 x 40 across, so deep. */
export function servedFrom(
  way: keyof typeof WAYS,
  sides: Millimetres,
  deep: number,
): NonNullable<PartDraft['services']> {
  const direction = WAYS[way];
  const at = inMetres([(direction[0] * sides[0]) / 2, (direction[1] * sides[1]) / 2, (direction[2] * sides[2]) / 2]);
  return { task: { task: 'other', at, direction: [...direction], acrossM: [0.04, 0.04], clearM: deep / 1000 } };
}
