import { expect, test } from 'vitest';
import { dice } from '../../../support/dice';
import { ALL_FORMS, drawnDimensions } from '../../../support/forms';
import { ALL_ABOARD, judgeFirstBoat } from './judge-first-boat';

/** 40 of each form: 200 boats. */
const COUNT = Number(process.env.FIRST_BOATS ?? 40);
/** A boat in twenty may have more than a fifth of its lines blocked: a small boat with a large set is full. */
const TIGHT_SHARE = 0.05;

for (const form of ALL_FORMS)
  test(`${form}: ${COUNT} seeded boats are good first boats, and their lines are routed`, () => {
    const wrong: string[] = [];
    const tight: string[] = [];
    let routed = 0;
    let lines = 0;
    for (let seed = 1; seed <= COUNT; seed += 1) {
      const throws = dice(seed * 7919 + ALL_FORMS.indexOf(form));
      const d = drawnDimensions(form, throws);
      const setSize = throws.pick([30, 60, 100] as const);
      const judged = judgeFirstBoat({ ...d, setSize, lockers: [], fixtures: ALL_ABOARD });
      routed += judged.routed;
      lines += judged.lines;
      for (const remark of judged.remarks)
        (remark.includes(' blocked: ') ? tight : wrong).push(`${seed} ${JSON.stringify(d)} ${setSize} L/h: ${remark}`);
    }
    console.log(JSON.stringify({ form, boats: COUNT, routed, lines, tight, wrong }));
    expect(wrong).toEqual([]);
    expect(routed).toBeGreaterThanOrEqual(0.8 * lines);
    expect(tight.length, tight.join('\n')).toBeLessThanOrEqual(TIGHT_SHARE * COUNT);
  });
