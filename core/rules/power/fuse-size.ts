import { carrying } from '../../assess/power/carrying';
import type { Device } from '../../assess/power/distribution';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, MendingAt } from '../mend';
import { pathOf } from '../name-of';
import { kindMend, thickerKinds, valueMend } from '../power-mends';

/** Share of the ampacity of the smallest conductor behind it that a fuse may be rated at, below 50 V. */
const LIMITS = inBoth({ ampacityShare: 1.5 });

/** A fuse that is too large lets the cable burn before it blows; one that is too small blows while the pump starts. */
export const fuseSize = defineRule({
  id: 'power/fuse-size',
  question: 'Does every fuse protect the thinnest conductor behind it, and carry its load?',
  sources: [{ key: 'cfr-33-183', clause: '183.455(c)(1), 183.425 Table 5', standing: 'published' }],
  limits: LIMITS,
  gravest: 'danger',
  cannotSee: [
    'How long the motor takes to start, and what it draws then.',
    'Slow and fast fuses.',
    'The maker of the set may ask for a smaller fuse.',
    'Return conductors that are thinner than what feeds.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => Object.keys(facts.distribution().devices).filter((id) => facts.thing(id)?.kind !== 'dcPanel'),
  check(deviceId, facts): readonly Verdict[] {
    const device = facts.distribution().devices[deviceId];
    const thing = facts.thing(deviceId);
    if (!device || !thing || device.protects.length === 0)
      return [{ outcome: 'notApplicable', reason: 'nothingBehind' }];
    const ratingA = thing.electric?.ratingA;
    const at = facts.pose(deviceId)?.at ?? null;
    if (ratingA === undefined)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noRating',
          enterNext: `Enter the rating of ${thing.name}`,
          missing: { path: pathOf(deviceId, 'electric.ratingA', facts), unit: 'A' },
          at,
        },
      ];
    return [overConductor(device, ratingA, facts), ...overLoad(device, ratingA, facts)].map((verdict) => ({
      at,
      ...verdict,
    }));
  },
  mends: (finding, at) => [...otherRatings(finding, at), ...thickerCable(finding, at)],
});

interface Conductor {
  readonly line: string;
  readonly gauge: string;
  readonly ratingC: number | null;
  readonly engineSpace: boolean;
  readonly low: number;
  readonly high: number;
}

function overConductor(device: Device, ratingA: number, facts: Facts): Verdict {
  const conductors = device.protects.flatMap((line): Conductor[] => {
    const may = facts.carrying(line);
    return may ? [{ line, ...may, low: may.aloneAmperes[0], high: may.aloneAmperes[1] }] : [];
  });
  const unknown = device.protects.find((line) => !conductors.some((one) => one.line === line));
  const { ampacityShare } = LIMITS[facts.profile()];
  const [first, ...rest] = conductors;
  const smallest = first && rest.reduce((least, one) => (one.low < least.low ? one : least), first);
  if (!smallest || (unknown !== undefined && ratingA <= smallest.low * ampacityShare)) {
    const line = unknown ?? device.protects[0] ?? device.id;
    return {
      outcome: 'cannotTell',
      reason: 'noArea',
      enterNext: `Enter the copper area of ${facts.line(line)?.name ?? line}`,
      related: [line],
    };
  }
  // Insulation that nobody names: sure where the poorest allows it, or the best does not.
  const isMet = ratingA <= smallest.low * ampacityShare;
  const sure = isMet || ratingA > smallest.high * ampacityShare;
  const related = [smallest.line];
  const data = {
    line: smallest.line,
    gauge: smallest.gauge,
    ratingC: smallest.ratingC,
    engineSpace: smallest.engineSpace,
    ampacityA: isMet ? smallest.low : smallest.high,
    ampacityShare,
    isPetrol: facts.isPetrol(),
  };
  if (!sure)
    return {
      outcome: 'cannotTell',
      reason: 'noInsulation',
      enterNext: `Enter what temperature the insulation of ${facts.line(smallest.line)?.name ?? smallest.line} stands`,
      related,
      data,
    };
  const { met, ...compared } = judge({
    value: ratingA,
    limit: data.ampacityA * ampacityShare,
    bound: 'atMost',
    unit: 'A',
    grade: [],
  });
  if (met) return { outcome: 'pass', ...compared, related, data };
  return { outcome: 'fail', severity: 'danger', reason: 'tooLarge', ...compared, related, data };
}

/** What it feeds must not blow it. */
function overLoad(device: Device, ratingA: number, facts: Facts): readonly Verdict[] {
  const loads = device.protects.flatMap((line) => {
    const amperes = facts.currentIn(line);
    return amperes === null ? [] : [{ line, amperes }];
  });
  const [first, ...rest] = loads;
  if (!first) return [];
  const most = rest.reduce((so, one) => (one.amperes > so.amperes ? one : so), first);
  const { met, ...compared } = judge({ value: ratingA, limit: most.amperes, bound: 'atLeast', unit: 'A', grade: [] });
  const said = { instance: 'load', ...compared, related: [most.line], data: { line: most.line } };
  return [met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'fault', reason: 'tooSmall', ...said }];
}

/** Ratings that fuses and breakers are sold in. Typical of the trade, no source. */
const SOLD_A = [
  5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 90, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400,
];
/** What a motor draws while it starts wants some room. Common practice, no source. */
const LOAD_ROOM = 1.25;

function otherRatings({ subject }: FailedFinding, { boat, facts }: MendingAt) {
  const device = facts.distribution().devices[subject];
  if (!device) return [];
  const loadA = Math.max(0, ...device.protects.map((line) => facts.currentIn(line) ?? 0));
  const mostA =
    LIMITS[facts.profile()].ampacityShare *
    Math.min(...device.protects.map((line) => facts.carrying(line)?.aloneAmperes[0] ?? 0));
  const fits = SOLD_A.filter((rating) => rating >= loadA && rating <= mostA);
  const best = fits.find((rating) => rating >= LOAD_ROOM * loadA) ?? fits.at(-1);
  return best === undefined ? [] : [valueMend(boat, subject, 'electric.ratingA', best)];
}

function thickerCable({ subject, reason, data }: FailedFinding, { boat, facts }: MendingAt) {
  const line = data.line;
  const ratingA = facts.thing(subject)?.electric?.ratingA;
  const place = typeof line === 'string' ? facts.carrying(line) : null;
  if (reason !== 'tooLarge' || typeof line !== 'string' || ratingA === undefined || !place) return [];
  const { ampacityShare } = LIMITS[facts.profile()];
  const enough = thickerKinds(boat, line).find(([, kind]) => {
    const may = carrying(kind, { engineSpace: place.engineSpace, bundled: 1 });
    return may !== null && may.aloneAmperes[0] * ampacityShare >= ratingA;
  });
  return enough ? [kindMend(boat, line, enough[0])] : [];
}
