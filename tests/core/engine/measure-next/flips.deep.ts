import { readdirSync, readFileSync } from 'node:fs';
import { checkBoat } from '@core/boat/read';
import { describe, expect, it } from 'vitest';
import { scene } from '../../../support/scenes';
import { boatFrom, completeBoats } from '../moved-boats';
import { type Flips, flipsOf, GREATEST_SHARE } from './flips';

/** One line of JSON a boat, then one for each flip with its cause. */
function print(boat: string, { judged, clean, closeCalls, tried, flips }: Flips): void {
  const share = flips.length / tried;
  process.stdout.write(`${JSON.stringify({ boat, judged, clean, closeCalls, tried, flips: flips.length, share })}\n`);
  for (const flip of flips) process.stdout.write(`${JSON.stringify({ boat, ...flip })}\n`);
}

describe('200 boats that may be the true one', () => {
  it.each(completeBoats())('turn at most one in 200 of the clean verdicts of %s', (name) => {
    const found = flipsOf(boatFrom(readFileSync(`sample-boats/complete/${name}/boat.json`, 'utf8')), 200, {
      withCauses: true,
    });
    print(name, found);
    expect(found.flips.length / found.tried).toBeLessThanOrEqual(GREATEST_SHARE);
  });

  it.each(readdirSync('sample-boats/faulty'))(
    'turn at most one, or one in 200, of the clean verdicts of the faulty boat %s',
    (name) => {
      const found = flipsOf(boatFrom(readFileSync(`sample-boats/faulty/${name}/boat.json`, 'utf8')), 40, {
        withCauses: true,
      });
      print(name, found);
      expect(found.flips.length).toBeLessThanOrEqual(Math.max(1, GREATEST_SHARE * found.tried));
    },
  );

  it('turn at most 0.5 % of the clean verdicts of twelve seeded boats', () => {
    let [flips, tried] = [0, 0];
    for (let seed = 1; seed <= 12; seed++) {
      const read = checkBoat(scene(seed).boat);
      if (!read.ok) throw new Error(`scene ${seed} is no boat`);
      const found = flipsOf(read.boat, 20, { withCauses: true });
      print(`scene ${seed}`, found);
      flips += found.flips.length;
      tried += found.tried;
    }
    expect(flips / tried).toBeLessThanOrEqual(GREATEST_SHARE);
  });
});
