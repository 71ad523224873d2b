import type { P3 } from './geometry-oracle';
import { randomFrom } from './random';

/** Seeded choices: the same scene everywhere. */
export function dice(seed: number): {
  next: () => number;
  from: (a: number, b: number) => number;
  whole: (n: number) => number;
  pick: <T>(all: readonly T[]) => T;
} {
  const next = randomFrom(Math.imul(seed, 2654435761));
  const whole = (n: number): number => Math.min(n - 1, Math.floor(next() * n));
  return {
    next,
    whole,
    from: (a, b) => a + (b - a) * next(),
    pick: (all) => all[whole(all.length)] as (typeof all)[number],
  };
}
export type Dice = ReturnType<typeof dice>;
export const micro = (v: number): number => Math.round(v * 1e6) / 1e6;
export const micro3 = (p: P3): [number, number, number] => [micro(p[0]), micro(p[1]), micro(p[2])];
