import type { Feed } from '../../assess/power/distribution';
import { isDevice } from '../../assess/power/distribution';
import { kindOfLine } from '../along-run';
import { defineRule, type Limits, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { judge, times } from '../judge';
import { LENGTH_DOUBT } from '../length-doubt';
import { valueMend } from '../power-mends';
import { withRunDoubt } from '../run-doubt';

/**
 * Along the conductor from its source to the fuse or breaker: 7 in, and 40 in where it is sheathed all the way (33 CFR 183.455); at a battery
 * the US voluntary practice allows 72 in in a sheath (ABYC E-11).
 */
const LIMITS: Limits<'bareM' | 'sheathedM' | 'sheathedAtBatteryM'> = {
  isoSmallCraft: { bareM: 0.1778, sheathedM: 1.016, sheathedAtBatteryM: 1.016 },
  usVoluntary: { bareM: 0.1778, sheathedM: 1.016, sheathedAtBatteryM: 1.8288 },
};

const CFR: SourceRef = { key: 'cfr-33-183', clause: '183.455(b)', standing: 'published' };
const E11: SourceRef = { key: 'abyc-e11', standing: 'quoted' };

/** Nothing limits the current in the piece between a bank and its fuse: what chafes through there burns. */
export const fuseDistance = defineRule({
  id: 'power/fuse-distance',
  question: 'Does every conductor have a fuse close to its source?',
  sources: [CFR, E11],
  limits: LIMITS,
  gravest: 'danger',
  cannotSee: [
    'Fuses on the posts of a bank that are not drawn.',
    'Whether a sheath is whole.',
    'Cables that are not drawn.',
    'Fuses of the return: the ungrounded conductor is meant.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => [...new Set(facts.distribution().ways.flatMap((way) => firstOf(way, facts)))],
  check(lineId, facts): readonly Verdict[] {
    const ways = facts.distribution().ways.filter(({ path, device }) => path[0] === lineId && device === null);
    const [first] = ways;
    if (!first) return [{ outcome: 'notApplicable', reason: 'noSource' }];
    const { source } = first;
    if (first.consumers.length > 0 && first.consumers.every((id) => facts.thing(id)?.kind === 'engine'))
      return [{ outcome: 'notApplicable', reason: 'cranking' }];
    const at = facts.pose(source)?.at ?? null;
    const bare = ways.find(({ end, consumers }) => consumers.includes(end));
    if (bare) return [unfused(bare, facts)];
    const fused = ways.filter(({ end }) => isDevice(facts.thing(end)));
    if (fused.length === 0) return [{ outcome: 'notApplicable', reason: 'leadsNowhere' }];
    const far = farthest(fused, facts);
    if (far === null) return [{ outcome: 'notApplicable', reason: 'noRun' }];
    const { way, lengthM } = far;
    const limits = LIMITS[facts.profile()];
    const isSheathed = way.path.every((id) => facts.line(id)?.sheathed ?? kindOfLine(id, facts)?.sheathed ?? false);
    const atBattery = facts.thing(source)?.kind === 'battery';
    const limit = isSheathed ? (atBattery ? limits.sheathedAtBatteryM : limits.sheathedM) : limits.bareM;
    const grade = [
      ...way.path.map((id) => times({ path: `lines.${id}`, gradeM: lengthM }, LENGTH_DOUBT)),
      facts.gradeOf(source),
      facts.gradeOf(way.end),
    ];
    const own = judge({ value: lengthM, limit, bound: 'atMost', unit: 'm', grade });
    const { met, ...compared } = way.path.reduce((judged, id) => withRunDoubt(judged, id, facts), own);
    const isPetrol = facts.isPetrol();
    const said = {
      ...compared,
      related: [source, way.end, ...way.path.slice(1)],
      at,
      sources: limit === limits.sheathedAtBatteryM && limit !== limits.sheathedM ? [E11] : [CFR],
      data: {
        source,
        device: way.end,
        isSheathed,
        isPetrol,
        sheathedM: atBattery ? limits.sheathedAtBatteryM : limits.sheathedM,
      },
    };
    if (met) return [{ outcome: 'pass', ...said }];
    // A panel that is aboard has a main fuse somewhere, or it should.
    if (isAboard(way, facts) && facts.thing(way.end)?.kind === 'dcPanel') return [notDrawn(way, facts)];
    const severity = isPetrol || lengthM > limits.sheathedAtBatteryM ? 'danger' : 'fault';
    return [{ outcome: 'fail', severity, reason: 'tooFar', ...said }];
  },
  mends: ({ subject, reason, data, measured }, { boat, facts }) => {
    if (reason !== 'tooFar' || data.isSheathed === true || measured.value > Number(data.sheathedM)) return [];
    const path = facts.distribution().ways.find(({ path, end }) => path[0] === subject && end === data.device)?.path;
    return path?.length === 1 ? [valueMend(boat, subject, 'sheathed', true)] : [];
  },
});

/** Its first conductor, where the source does not protect it itself. */
function firstOf({ path, source }: Feed, facts: Facts): readonly string[] {
  return path[0] === undefined || isDevice(facts.thing(source)) ? [] : [path[0]];
}

const isAboard = ({ path }: Feed, facts: Facts): boolean => path.every((id) => facts.line(id)?.existing === true);

/** What is aboard already may have a fuse that nobody drew. */
function notDrawn({ source, end, path }: Feed, facts: Facts): Verdict {
  const [first = ''] = path;
  return {
    outcome: 'cannotTell',
    reason: 'noFuseDrawn',
    enterNext: `Draw the fuse of ${facts.line(first)?.name ?? first}`,
    related: [source, end],
    at: facts.pose(source)?.at ?? null,
    data: { source, end },
  };
}

/** What leads to a consumer with no fuse before it. */
function unfused(way: Feed, facts: Facts): Verdict {
  if (isAboard(way, facts)) return notDrawn(way, facts);
  const { source, end } = way;
  return {
    outcome: 'fail',
    severity: 'danger',
    reason: 'noFuse',
    measured: { value: 0, unit: 'count' },
    limit: { value: 1, unit: 'count', bound: 'atLeast' },
    related: [source, end],
    at: facts.pose(source)?.at ?? null,
    data: { source, end },
  };
}

/** The longest way to a fuse; null where a run is missing. */
function farthest(ways: readonly Feed[], facts: Facts): { readonly way: Feed; readonly lengthM: number } | null {
  let most: { readonly way: Feed; readonly lengthM: number } | null = null;
  for (const way of ways) {
    let lengthM = 0;
    for (const id of way.path) {
      const run = facts.run(id);
      if (run?.status !== 'routed') return null;
      lengthM += run.lengthM;
    }
    if (!most || lengthM > most.lengthM) most = { way, lengthM };
  }
  return most;
}
