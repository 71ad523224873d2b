import type { z } from 'zod';
import type { Part } from '../schema/boat';
import { part } from '../schema/things';

export type PartDraft = z.input<typeof part>;
type PortDraft = NonNullable<PartDraft['ports']>[string];
type ServiceDraft = NonNullable<PartDraft['services']>[string];

/** Typical sizes of the trade; each is to be replaced by the data sheet of the real article. */
export const TYPICAL = 'typical size, to be replaced by the data sheet';

/** Millimetres to metres, to the micrometre. */
export const mm = (value: number): number => Math.round(value * 1000) / 1e6;
const point = (x: number, y: number, z: number): [number, number, number] => [mm(x), mm(y), mm(z)];

export const boxOf = (length: number, width: number, height: number): PartDraft['shape'] => ({
  type: 'box',
  sizeM: point(length, width, height),
});
export const cylinderOf = (diameter: number, length: number, axis: 'x' | 'y' | 'z'): PartDraft['shape'] => ({
  type: 'cylinder',
  diameterM: mm(diameter),
  lengthM: mm(length),
  axis,
});

const DIRECTIONS = {
  forward: [1, 0, 0],
  aft: [-1, 0, 0],
  port: [0, 1, 0],
  starboard: [0, -1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
} as const satisfies Record<string, readonly [number, number, number]>;
export type Way = keyof typeof DIRECTIONS;
const way = (name: Way): [number, number, number] => [...DIRECTIONS[name]];

/** A port at a point in millimetres from the centre, leaving one way. */
export const portAt = (
  at: readonly [number, number, number],
  leaving: Way,
  medium: NonNullable<PortDraft['medium']>,
  role: NonNullable<PortDraft['role']>,
  boreMm?: number,
): PortDraft => ({
  at: point(...at),
  direction: way(leaving),
  medium,
  role,
  ...(boreMm === undefined ? {} : { boreM: mm(boreMm) }),
});

/** A clear space in millimetres: from a point, one way, so wide and high, so deep. */
export const clear = (
  task: ServiceDraft['task'],
  at: readonly [number, number, number],
  towards: Way,
  across: readonly [number, number],
  depthMm: number,
  more: Partial<ServiceDraft> = {},
): ServiceDraft => ({
  task,
  at: point(...at),
  direction: way(towards),
  acrossM: [mm(across[0]), mm(across[1])],
  clearM: mm(depthMm),
  ...more,
});

/** A task that takes only what hand, eye and tool need: at a point in millimetres, one way out of the thing. */
export const workedAt = (
  task: ServiceDraft['task'],
  at: readonly [number, number, number],
  towards: Way,
  more: Partial<ServiceDraft> = {},
): ServiceDraft => ({ task, at: point(...at), direction: way(towards), ...more });

export interface Template {
  readonly id: string;
  readonly group: 'watermaker' | 'filters' | 'valves' | 'electric' | 'engine' | 'plumbing' | 'structure' | 'aboard';
  readonly draft: PartDraft;
}

/** The part that a template stands for, with its defaults filled in. */
export const partOf = (template: Template): Part => part.parse({ source: TYPICAL, ...template.draft });
