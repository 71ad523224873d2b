import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../support/random';
import { AskedBoat, expectKept, type Proposal } from './promises';

/** Another choice of parts and places: PLACE_SEED. */
const SEED = Number(process.env.PLACE_SEED ?? 1);
const CASES = 50;
const LEAST_AWAY = 10;

const PARTS: Readonly<Record<string, readonly string[]>> = {
  sandwort: ['strainer', 'coarse', 'spares', 'carbon', 'flush-valve', 'membrane', 'pump', 'station', 'diverter'],
  queller: ['strainer', 'spares', 'coarse', 'flush-valve', 'membrane-60', 'pump-60', 'fuse-60', 'diverter'],
};

describe('places that are proposed', () => {
  it(`keep their word in ${CASES} seeded cases over both complete boats, at least ${LEAST_AWAY} of them elsewhere than the part is`, () => {
    const random = randomFrom(SEED);
    let cases = 0;
    let goesAway = 0;
    const boats = Object.keys(PARTS).map((name) => new AskedBoat(name));
    const questions = boats
      .flatMap((asked) => (PARTS[asked.name] ?? []).map((part) => ({ asked, part, turn: random() })))
      .sort((a, b) => a.turn - b.turn);
    for (const { asked, part } of questions) {
      const proposals: Proposal[] = asked
        .proposals(part)
        .map((proposal) => ({ proposal, turn: random() }))
        .sort((a, b) => a.turn - b.turn)
        .map(({ proposal }) => proposal);
      // what goes is asked for first, then some of the noes
      const goes = proposals.filter(({ answer }) => answer.verdict !== 'no').slice(0, 6);
      const noes = proposals.filter(({ answer }) => answer.verdict === 'no').slice(0, 2);
      for (const proposal of [...goes, ...noes]) {
        if (cases >= CASES) break;
        expectKept(proposal, asked);
        cases += 1;
        if (proposal.answer.verdict !== 'no' && !proposal.answer.isNow) goesAway += 1;
      }
    }
    expect(cases).toBe(CASES);
    expect(goesAway).toBeGreaterThanOrEqual(LEAST_AWAY);
  });
});
