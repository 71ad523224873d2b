import { compassDeviationDeg } from '../../base/formulas/compass-deviation';
import { distance } from '../../base/vec';
import { awayFrom } from '../../runs/routing/wishes/prices';
import { directionTo, kindOfLine, pointsAlong, runOrNone } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { judge, times } from '../judge';

/** A helmsman does not see a degree, and an autopilot hunts on two. Common practice, no source. */
const LIMITS = inBoth({ turnDeg: 1 });

/** The current of a pump swings the compass while it runs, and only then. */
export const nearCompass = defineRule({
  id: 'power/near-compass',
  question: 'Do power cables leave every compass alone?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: ['Iron nearby.', 'Bends of the cable: it counts as straight and long.', 'Magnets in speakers and motors.'],
  hazards: ['dcFault'],
  subjects: (facts) => facts.lineIds().filter((id) => facts.wishesOf(id)?.carries === 'power'),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const line = facts.line(lineId);
    const kind = kindOfLine(lineId, facts);
    const zones = facts.zonesAlong(lineId).filter((zone) => zone.kind === 'compass');
    const points = pointsAlong(run.prims);
    const passed = zones.flatMap((zone) => {
      const centre = facts.pose(zone.owner)?.at;
      if (!centre) return [];
      const near = points.filter(({ at }) => awayFrom(zone, at) < zone.reachM);
      return near.map(({ at }) => ({ zone, at, centre, awayM: distance(at, centre) }));
    });
    if (!line || !kind || passed.length === 0) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const worst = passed.reduce((least, one) => (one.awayM < least.awayM ? one : least));
    const { zone, at, awayM, centre } = worst;
    const related = [zone.owner];
    const amperes = currentOf(lineId, facts);
    // Two conductors laid side by side share the width of the pair.
    const apartM = (kind.conductors ?? 1) >= 2 ? kind.outsideM / 2 : 0;
    const data = { compass: zone.label, awayM, isPair: apartM > 0, amperes };
    if (amperes === null)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noCurrent',
          enterNext: 'Enter the current in the cable',
          missing: { path: `lines.${lineId}.currentA`, unit: 'A' },
          related,
          at,
          data,
        },
      ];
    const degreesAt = (d: number): number => compassDeviationDeg({ amperes, awayM: Math.max(1e-3, d), apartM });
    const { met, ...compared } = judge({
      value: degreesAt(awayM),
      limit: LIMITS[facts.profile()].turnDeg,
      bound: 'atMost',
      unit: 'deg',
      grade: inDegrees(facts.gradesAlong(zone.owner, directionTo(centre, at)), awayM, degreesAt),
    });
    if (met) return [{ outcome: 'pass', ...compared, related, at, data }];
    return [{ outcome: 'fail', severity: 'fault', reason: 'tooNear', ...compared, related, at, data }];
  },
});

/** What the line says, else what the thing at one of its ends draws. */
function currentOf(lineId: string, facts: Facts): number | null {
  const line = facts.line(lineId);
  if (!line) return null;
  const drawn = [line.to.thing, line.from.thing].map((id) => facts.thing(id)?.electric?.drawA);
  return line.currentA ?? drawn.find((amperes) => amperes !== undefined) ?? null;
}

/** Metres of doubt about the distance as degrees of doubt about the needle. */
const inDegrees = (
  grade: readonly GradeShare[],
  awayM: number,
  degreesAt: (d: number) => number,
): readonly GradeShare[] => {
  const slope = Math.abs(degreesAt(awayM * 1.01) - degreesAt(awayM * 0.99)) / (0.02 * awayM);
  return grade.map((share) => times(share, slope));
};
