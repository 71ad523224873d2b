import { carrying } from '../../assess/power/carrying';
import { kindOfLine } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import { judge } from '../judge';
import { kindMend, thickerKinds } from '../power-mends';

/** Share of its ampacity that a conductor may carry all the time. */
const LIMITS = inBoth({ ampacityShare: 1 });

/** More current than its copper may carry ages the insulation, and in a bundle or by the engine melts it. */
export const conductorSize = defineRule({
  id: 'power/conductor-size',
  question: 'Can every power cable carry its current without growing too hot?',
  sources: [
    { key: 'cfr-33-183', clause: '183.425 Table 5 and note 1', standing: 'published' },
    { key: 'ul-1426', standing: 'quoted' },
  ],
  limits: LIMITS,
  gravest: 'danger',
  cannotSee: [
    'Cables aboard that are not drawn, and lie in the same bundle.',
    'Joints that grow hot.',
    'Surges while a motor starts: they are allowed.',
    'Lockers that are hotter than 30 °C, but for engine spaces.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => facts.lineIds().filter((id) => facts.line(id)?.medium === 'dcPower'),
  check(lineId, facts): readonly Verdict[] {
    const kind = kindOfLine(lineId, facts);
    const amperes = facts.currentIn(lineId);
    if (!kind || amperes === null) return [{ outcome: 'notApplicable', reason: 'noCurrent' }];
    const may = facts.carrying(lineId);
    if (!may) {
      if (kind.areaMm2 === undefined)
        return [
          {
            outcome: 'cannotTell',
            reason: 'noArea',
            enterNext: `Enter the copper area of ${kind.name}`,
            missing: { path: `lineKinds.${facts.line(lineId)?.kind}.areaMm2`, unit: 'mm2' },
          },
        ];
      return [{ outcome: 'notApplicable', reason: 'notInTable' }];
    }
    const { ampacityShare } = LIMITS[facts.profile()];
    const [low, high] = [may.amperes[0] * ampacityShare, may.amperes[1] * ampacityShare];
    const isMet = amperes <= low;
    const { others } = facts.bundle(lineId);
    const related = [...others];
    const data = {
      gauge: may.gauge,
      ratingC: may.ratingC,
      engineSpace: may.engineSpace,
      bundled: may.bundled,
      areaMm2: kind.areaMm2 ?? 0,
    };
    if (!isMet && amperes <= high)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noInsulation',
          enterNext: `Enter what temperature the insulation of ${kind.name} stands`,
          related,
          data,
        },
      ];
    const { met, ...compared } = judge({
      value: amperes,
      limit: isMet ? low : high,
      bound: 'atMost',
      unit: 'A',
      grade: [],
    });
    if (met) return [{ outcome: 'pass', ...compared, related, data }];
    return [{ outcome: 'fail', severity: 'danger', reason: 'tooThin', ...compared, related, data }];
  },
  mends: ({ subject, measured }, { boat, facts }) => {
    const place = facts.carrying(subject);
    if (!place) return [];
    const enough = thickerKinds(boat, subject).find(([, kind]) => {
      const may = carrying(kind, place);
      return may !== null && may.amperes[0] * LIMITS[facts.profile()].ampacityShare >= measured.value;
    });
    return enough ? [kindMend(boat, subject, enough[0])] : [];
  },
});
