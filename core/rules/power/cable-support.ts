import { kindOfLine, pointsAlong, runOrNone } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { heldAlong } from '../held-along';
import { judge } from '../judge';
import { valueMend } from '../power-mends';
import { withRunDoubt } from '../run-doubt';

/** Spacing of clips, closer at a battery, and how soon from its terminal the first of them holds: ISO 10133 7.3 and 7.4, ABYC E-11 18 in. */
const LIMITS = inBoth({ spacingM: 0.45, batterySpacingM: 0.3, firstM: 1 });

/** A heavy cable that swings works its terminals loose, and chafes where nothing protects it yet. */
export const cableSupport = defineRule({
  id: 'power/cable-support',
  question: 'Is every power cable held often enough, and soon after a battery?',
  sources: [
    { key: 'iso-10133', clause: '7.3, 7.4', standing: 'quoted' },
    { key: 'abyc-e11', standing: 'quoted' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Conduits and trays that are not drawn.',
    'Whether clips are really set as planned.',
    'Clips that are too wide, or cut into the sheath.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => facts.lineIds().filter((id) => facts.line(id)?.medium === 'dcPower'),
  check(lineId, facts): readonly Verdict[] {
    return [spacing(lineId, facts), ...fromBattery(lineId, facts)];
  },
  mends: ({ subject, key, limit }, { boat }) =>
    key.endsWith('|') ? [valueMend(boat, subject, 'clipM', limit.value)] : [],
});

/** How often it is clipped: of the line itself that counts with the closer spacing at a battery, of its kind with the usual one. */
function spacing(lineId: string, facts: Facts): Verdict {
  const run = runOrNone(lineId, facts);
  if ('outcome' in run) return run;
  const own = facts.line(lineId)?.clipM;
  const value = own ?? kindOfLine(lineId, facts)?.supportM;
  if (value === undefined) return { outcome: 'notApplicable', reason: 'noSpacing' };
  const { spacingM, batterySpacingM } = LIMITS[facts.profile()];
  const atBattery = own !== undefined && batteryEnd(lineId, facts) !== null;
  const limit = atBattery ? batterySpacingM : spacingM;
  if (run.lengthM <= limit) return { outcome: 'notApplicable', reason: 'short' };
  const { met, ...compared } = judge({ value, limit, bound: 'atMost', unit: 'm', grade: [] });
  const said = { ...compared, data: { atBattery } };
  return met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'fault', reason: 'tooWide', ...said };
}

/** The first place where a clip can be set, along the cable from the terminal of a battery. */
function fromBattery(lineId: string, facts: Facts): readonly Verdict[] {
  const end = batteryEnd(lineId, facts);
  const run = facts.run(lineId);
  const kind = kindOfLine(lineId, facts);
  const { firstM } = LIMITS[facts.profile()];
  if (end === null || run?.status !== 'routed' || !kind || run.lengthM <= firstM) return [];
  const clips = facts.clipPoints(lineId);
  const points = pointsAlong(run.prims);
  const battery = facts.line(lineId)?.[end].thing ?? '';
  const held = heldAlong(points, kind.outsideM / 2, clips, facts, [battery]);
  const [seen, holds] = end === 'from' ? [points, held] : [points.toReversed(), held.toReversed()];
  const first = holds.indexOf(true);
  const reached = first < 0 ? run.lengthM : (seen[first]?.alongM ?? 0);
  const value = end === 'to' && first >= 0 ? run.lengthM - reached : reached;
  const { met, ...compared } = withRunDoubt(
    judge({ value, limit: firstM, bound: 'atMost', unit: 'm', grade: [] }),
    lineId,
    facts,
  );
  const said = { instance: 'first', ...compared, related: [battery], at: seen[Math.max(0, first)]?.at ?? null };
  return [met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'fault', reason: 'firstTooFar', ...said }];
}

function batteryEnd(lineId: string, facts: Facts): 'from' | 'to' | null {
  const line = facts.line(lineId);
  const isBattery = (id: string | undefined): boolean => id !== undefined && facts.thing(id)?.kind === 'battery';
  return isBattery(line?.from.thing) ? 'from' : isBattery(line?.to.thing) ? 'to' : null;
}
