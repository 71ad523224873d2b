import { readBoat } from '@core/boat/read';
import type { PlaceReport } from '@core/engine/placement/place-report';
import { placesFor } from '@core/engine/placement/places';
import { studiesNow } from '@renderer/store/connections';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';
import { studiesAtHand } from './studies-at-hand';

const boat = (() => {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  return read.boat;
})();

let end = (): void => {};
beforeEach(() => {
  end = studiesAtHand();
});
afterEach(() => end());

/** Asks, and gives all that was told before the answer with it. */
const asked = (parts: readonly string[], partials: PlaceReport[], done: number[] = []): Promise<PlaceReport> =>
  new Promise((resolve, reject) => {
    studiesNow().study(
      'places',
      { boat, parts },
      (told) => (told.ok ? resolve(told.gives) : reject(new Error(told.message))),
      (progress, partial) => {
        done.push(progress.done);
        if (partial) partials.push(partial);
      },
    );
  });

describe('where parts can go, asked of the worker of studies', () => {
  it('tells the first bounds, then what is refined, and at last what a cold search says', async () => {
    const partials: PlaceReport[] = [];
    const done: number[] = [];
    const report = await asked(['strainer'], partials, done);
    expect(report).toEqual(JSON.parse(JSON.stringify(placesFor(boat, ['strainer']))));
    expect(report.stage).toBe('settled');
    expect(partials.length).toBeGreaterThan(1);
    expect(partials.every(({ stage, compartments }) => stage === 'first' && compartments.length === 3)).toBe(true);
    const notYet = partials.map(
      ({ compartments }) => compartments.filter(({ verdict }) => verdict === 'notYet').length,
    );
    expect(notYet[0]).toBeGreaterThan(0);
    // What is judged stays so.
    expect(notYet).toEqual([...notYet].sort((a, b) => b - a));
    expect(done).toEqual([...done].sort((a, b) => a - b));
  });

  it('is taken back by a newer question, and tells why it cannot be asked', async () => {
    const partials: PlaceReport[] = [];
    const takeBack = studiesNow().study(
      'places',
      { boat, parts: ['strainer'] },
      () => expect.unreachable('a question that was taken back is not answered'),
      (_, partial) => partial && partials.push(partial),
    );
    takeBack();
    await expect(asked(['nowhere'], [])).rejects.toThrow('parts.nowhere is missing');
    expect(partials).toEqual([]);
  });
});
