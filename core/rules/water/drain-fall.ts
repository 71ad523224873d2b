import { dot, norm, UP, type Vec3 } from '../../base/vec';
import { drains } from '../../runs/routing/wishes/for-line';
import { lackingFall } from '../../runs/routing/wishes/prices';
import { LEAST_FALL } from '../../runs/routing/wishes/wishes';
import { pointsAlong, runOrUnknown } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** What a bend and a clip give or take, metres. Common practice, no source. */
const LIMITS = inBoth({ lackingM: 0.01 });

/** A drain that rises or lies level holds water: it smells, it freezes, and the sink empties slowly. */
export const drainFall = defineRule({
  id: 'water/drain-fall',
  question: 'Does every drain fall all the way?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: ['Sag between clips.', 'Water that backs up when the boat heels.', 'Traps that are meant to hold water.'],
  hazards: [],
  subjects: (facts) => facts.lineIds().filter((id) => isDrain(id, facts)),
  check(lineId, facts): readonly Verdict[] {
    const { lackingM: limitM } = LIMITS[facts.profile()];
    const run = runOrUnknown(lineId, facts);
    if ('outcome' in run) return [run];
    const line = facts.line(lineId);
    const ends = line ? [line.from.thing, line.to.thing] : [];
    const { up } = facts.attitude();
    const heights = [...pointsAlong(run.prims)].map(({ at, stepM }) => ({
      at,
      stepM,
      heightM: dot(at, up) / norm(up),
    }));
    let lackingM = 0;
    let backM = 0;
    let lowest = Number.POSITIVE_INFINITY;
    let worst: Vec3 | null = null;
    for (let k = 1; k < heights.length; k += 1) {
      const [before, here] = [heights[k - 1], heights[k]];
      if (!before || !here) continue;
      const step = (before.stepM + here.stepM) / 2;
      const rise = here.heightM - before.heightM;
      lackingM += lackingFall(Math.sqrt(Math.max(0, step * step - rise * rise)), rise);
      lowest = Math.min(lowest, before.heightM);
      if (here.heightM - lowest > backM) {
        backM = here.heightM - lowest;
        worst = here.at;
      }
    }
    const { met, ...compared } = withRunDoubt(
      judge({
        value: lackingM,
        limit: limitM,
        bound: 'atMost',
        unit: 'm',
        grade: lackingM === 0 ? [] : ends.flatMap((id) => facts.gradesAlong(id, UP)),
      }),
      lineId,
      facts,
    );
    const said = { ...compared, related: ends, at: worst, data: { backM, leastFall: LEAST_FALL } };
    if (met) return [{ outcome: 'pass', ...said }];
    if (backM > limitM) return [{ outcome: 'fail', severity: 'fault', reason: 'rises', ...said }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'tooLevel', ...said }];
  },
});

function isDrain(lineId: string, facts: Facts): boolean {
  const line = facts.line(lineId);
  const from = line && facts.thing(line.from.thing);
  return line !== null && from !== null && drains(line, from);
}
