import { analyze } from '@core/analyze';
import { remedies } from '@core/engine/remedies/remedies';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { suiteScene } from '../../../support/suite-scene';
import { broken, toHeal } from './judged-remedies';

/** Scenes by their seeds: REMEDY_SEED is the first, REMEDY_SCENES how many. */
const FIRST = Number(process.env.REMEDY_SEED ?? 500);
const SCENES = Number(process.env.REMEDY_SCENES ?? 12);
/** Failing lines that are looked at in one scene. */
const LINES = 2;

describe('remedies of failing lines in scenes', () => {
  it('keep their word when the boat is analysed afresh with each of them', () => {
    const wrong: string[] = [];
    const kinds = new Map<string, number>();
    let [failing, mended] = [0, 0];
    for (let seed = FIRST; seed < FIRST + SCENES; seed++) {
      const boat = boatOf(suiteScene(seed).boat);
      const before = analyze(boat);
      const lines = before.runs.map(({ lineId }) => lineId).filter((id) => toHeal(before, id).length > 0);
      for (const lineId of lines.slice(0, LINES)) {
        const found = remedies(boat, lineId);
        failing += 1;
        if (found.length > 0) mended += 1;
        for (const remedy of found) {
          kinds.set(remedy.change, (kinds.get(remedy.change) ?? 0) + 1);
          wrong.push(...broken(boat, before, lineId, remedy).map((what) => `${seed}/${lineId} ${what}`));
        }
      }
    }
    const told = [...kinds].map(([kind, count]) => `${kind} ${count}`).join(', ');
    process.stdout.write(`remedies: ${mended} of ${failing} failing lines have some; ${told}\n`);
    expect(wrong).toEqual([]);
  });
});
