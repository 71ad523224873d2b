import { alternatives } from '@core/engine/alternatives/alternatives';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { suiteScene } from '../../../support/suite-scene';
import { broken } from './judged-alternatives';

/** Scenes by their seeds: ALTERNATIVE_SEED is the first, ALTERNATIVE_SCENES how many. */
const FIRST = Number(process.env.ALTERNATIVE_SEED ?? 700);
const SCENES = Number(process.env.ALTERNATIVE_SCENES ?? 12);
const LINES = 3;

describe('alternatives of lines in scenes', () => {
  it('are truly different, and the edit brings each about', () => {
    const wrong: string[] = [];
    let [asked, found] = [0, 0];
    for (let seed = FIRST; seed < FIRST + SCENES; seed++) {
      const boat = boatOf(suiteScene(seed).boat);
      for (const lineId of Object.keys(boat.lines).slice(0, LINES)) {
        const all = alternatives(boat, lineId);
        asked += 1;
        found += all.filter(({ isCurrent }) => !isCurrent).length;
        wrong.push(...broken(boat, lineId, all).map((what) => `${seed}/${lineId} ${what}`));
      }
    }
    process.stdout.write(`alternatives: ${found} of ${asked} lines\n`);
    expect(wrong).toEqual([]);
    expect(found).toBeGreaterThan(asked / 2);
  });
});
