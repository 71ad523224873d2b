import type { Boat } from '@core/boat/schema/boat';
import { Session } from '@core/engine/session';

/** How long it takes until the first tints of all compartments are there, and until the answer is whole, milliseconds. */
export interface PlaceTimes {
  readonly firstMs: readonly number[];
  readonly settledMs: readonly number[];
  /** By part: compartments that were asked, and how many of them the part goes in. */
  readonly asked: Readonly<Record<string, { readonly compartments: number; readonly goes: number }>>;
}

/** Asked of the reference boat: its heaviest part with five lines, its longest, and a small one on two hoses. */
const PARTS = ['pump', 'membrane', 'strainer'];
const ROUNDS = 3;

/** Where can it go, asked of a boat at rest, part by part; `calibrate` runs the kernel beside each. */
export function placeTimes(boat: Boat, calibrate: () => void): PlaceTimes {
  const session = new Session(boat);
  session.settled();
  const firstMs: number[] = [];
  const settledMs: number[] = [];
  const asked: Record<string, { compartments: number; goes: number }> = {};
  for (let round = 0; round < ROUNDS; round++)
    for (const part of PARTS) {
      calibrate();
      const start = performance.now();
      const work = session.places([part]);
      for (let isFirst = true; ; ) {
        const step = work.step();
        if ('answer' in step) {
          settledMs.push(performance.now() - start);
          const { compartments } = step.answer;
          const goes = compartments.filter(({ verdict }) => verdict === 'goes' || verdict === 'goesClose').length;
          asked[part] = { compartments: compartments.length, goes };
          break;
        }
        if (isFirst && step.partial) {
          firstMs.push(performance.now() - start);
          isFirst = false;
        }
      }
    }
  return { firstMs, settledMs, asked };
}
