import { ALIKE } from '../../base/order';
import type { Vec3 } from '../../base/vec';
import { midpoint } from '../../base/vec';
import { awayFrom } from '../../runs/routing/wishes/prices';
import type { WishZone } from '../../runs/routing/wishes/zones';
import { directionTo, kindOfLine, pointsAlong, runOrNone } from '../along-run';
import { defineRule, type Verdict } from '../define';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** What passes this much farther off than it must is not spoken of. */
const PASSING_M = 0.1;

/** Soft hose and cable sheaths that lie beside hot metal harden, crack and let go when the engine has run longest. */
export const nearHeat = defineRule({
  id: 'runs/near-heat',
  question: 'Does every hose and cable keep away from what gets hotter than it stands?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  cannotSee: [
    'How hot things get really: usual temperatures are taken.',
    'Lagging, shields and air flow.',
    'Hot pipes that are not drawn.',
  ],
  hazards: [],
  subjects: (facts) => facts.lineIds(),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const wishes = facts.wishesOf(lineId);
    const kind = kindOfLine(lineId, facts);
    const zones = facts
      .zonesAlong(lineId)
      .filter(({ kind: about, owner }) => about === 'heat' && !wishes?.ownThings.includes(owner));
    if (!wishes || !kind || zones.length === 0) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const points = pointsAlong(run.prims);
    const radiusM = kind.outsideM / 2;
    let worst: { zone: WishZone; awayM: number; at: Vec3 } | null = null;
    for (const zone of zones)
      for (const { at } of points) {
        const awayM = Math.max(0, awayFrom(zone, at) - radiusM);
        if (awayM < zone.reachM + PASSING_M && (!worst || awayM - zone.keepM < worst.awayM - worst.zone.keepM - ALIKE))
          worst = { zone, awayM, at };
      }
    if (!worst) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const { zone, awayM, at } = worst;
    const related = [zone.owner];
    const data = { hot: zone.label, heatC: zone.heatC, standsC: wishes.standsC };
    if (kind.temperatureC === undefined && awayM < zone.keepM)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noTemperature',
          enterNext: `Enter how hot ${kind.name} may get`,
          related,
          at,
          data,
        },
      ];
    const { met, ...compared } = withRunDoubt(
      judge({
        value: awayM,
        // What stands the heat may touch.
        limit: wishes.standsC >= zone.heatC ? 0 : zone.keepM,
        bound: 'atLeast',
        unit: 'm',
        grade:
          wishes.standsC >= zone.heatC
            ? []
            : facts.gradesAlong(zone.owner, directionTo(midpoint(zone.low, zone.high), at)),
      }),
      lineId,
      facts,
    );
    if (met) return [{ outcome: 'pass', ...compared, related, at, data }];
    return [{ outcome: 'fail', severity: 'fault', reason: 'tooHot', ...compared, related, at, data }];
  },
});
