import type { Vec3 } from '../../base/vec';
import type { Routed } from '../../runs/routing/types';
import { APART_M } from '../../runs/routing/wishes/wishes';
import { pointsAlong, type RunPoint, radiusOf, runOrNone } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** Crossing and the last stretch to a common thing are no matter; a shared loom is. Common practice, no source. */
const LIMITS = inBoth({ besideM: 1 });

/** A pump's or charger's current is heard in instrument and sensor cables that are tied to it. */
export const signalApart = defineRule({
  id: 'power/signal-apart',
  question: 'Do signal cables keep apart from power cables?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: ['Screens and twisted pairs.', 'Currents that are not switched.', 'Cables aboard that are not drawn.'],
  hazards: ['dcFault'],
  subjects: (facts) => facts.lineIds().filter((id) => facts.wishesOf(id)?.carries === 'signal'),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const power = facts.lineIds().filter((id) => facts.wishesOf(id)?.carries === 'power');
    const runs = power.flatMap((id) => {
      const other = facts.run(id);
      return other?.status === 'routed' ? [{ id, other }] : [];
    });
    if (runs.length === 0) {
      return power.length > 0
        ? [{ outcome: 'cannotTell', reason: 'noPowerRun', enterNext: 'Make room for the power cables first' }]
        : [{ outcome: 'notApplicable', reason: 'noPower' }];
    }
    const radiusM = radiusOf(lineId, facts);
    const points = pointsAlong(run.prims);
    const beside = runs.map(({ id, other }) => ({
      id,
      ...besideOf(points, other, radiusM + radiusOf(id, facts)),
    }));
    const worst = beside.reduce((most, one) => (one.lengthM > most.lengthM ? one : most));
    const { met, ...compared } = withRunDoubt(
      judge({
        value: worst.lengthM,
        limit: LIMITS[facts.profile()].besideM,
        bound: 'atMost',
        unit: 'm',
        grade: gradeOf(lineId, facts),
      }),
      lineId,
      facts,
    );
    const said = {
      ...compared,
      related: worst.lengthM > 0 ? [worst.id] : [],
      at: worst.at,
      data: { withinM: APART_M },
    };
    if (met) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'tooNear', ...said }];
  },
});

/** Length over which points lie within reach of another run, and where the first of them is. */
function besideOf(
  points: readonly RunPoint[],
  other: Routed,
  radiiM: number,
): { readonly lengthM: number; readonly at: Vec3 | null } {
  const others = pointsAlong(other.prims);
  const reach = (APART_M + radiiM) ** 2;
  let lengthM = 0;
  let first: Vec3 | null = null;
  for (const { at, stepM } of points) {
    const isBeside = others.some(
      ({ at: q }) => (at[0] - q[0]) ** 2 + (at[1] - q[1]) ** 2 + (at[2] - q[2]) ** 2 < reach,
    );
    if (!isBeside) continue;
    lengthM += stepM;
    first ??= at;
  }
  return { lengthM, at: first };
}

/** Where the ends of the cable are moves the stretch by as much. */
const gradeOf = (lineId: string, facts: Facts) => {
  const line = facts.line(lineId);
  return line ? [line.from.thing, line.to.thing].flatMap((id) => facts.gradesAlong(id, [1, 0, 0])) : [];
};
