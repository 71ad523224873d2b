import { pointInBoat, UP } from '../../base/vec';
import type { Line, LineEndFitting } from '../../boat/schema/boat';
import { kindOfLine } from '../along-run';
import { defineRule, type Limits, type Verdict } from '../define';
import { greatestDepth } from '../depth-at-heel';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';

/** Two clamps by ISO practice; the American texts ask for one, stainless all through. */
const LIMITS: Limits<'clamps'> = { isoSmallCraft: { clamps: 2 }, usVoluntary: { clamps: 1 } };
const SOURCES: readonly SourceRef[] = [{ key: 'hose-clamps', standing: 'quoted' }];

/** What carries water that comes from the sea or leads to it. */
const SEA_MEDIA: ReadonlySet<Line['medium']> = new Set(['seaWater', 'brine', 'waste']);

/** A hose on one rusty clamp is a seacock that opens by itself. */
export const clamps = defineRule({
  id: 'runs/clamps',
  question: 'Is every hose joint below the heeled waterline clamped as the practice asks?',
  sources: SOURCES,
  limits: LIMITS,
  cannotSee: [
    'Whether the barb is long enough for two.',
    'Rust in the worm of a clamp.',
    'Clamps that nobody has counted: where nothing is entered nothing is said.',
  ],
  hazards: ['hullHole'],
  subjects: (facts) =>
    facts.lineIds().filter((id) => {
      const line = facts.line(id);
      return line !== null && SEA_MEDIA.has(line.medium) && kindOfLine(id, facts)?.what === 'hose';
    }),
  check(lineId, facts): readonly Verdict[] {
    const ends = (['from', 'to'] as const).flatMap((end) => judgeEnd(lineId, end, facts));
    const failing = ends.filter(({ outcome }) => outcome === 'fail');
    if (failing.length > 0) return failing;
    return [ends[0] ?? { outcome: 'notApplicable', reason: 'nothingSaid' }];
  },
  mends: moreClamps,
});

function judgeEnd(lineId: string, end: 'from' | 'to', facts: Facts): readonly Verdict[] {
  const line = facts.line(lineId);
  const kind = kindOfLine(lineId, facts);
  const fitting: LineEndFitting | undefined = line?.ends[end] ?? kind?.end;
  if (!line || !fitting || fitting.crimped || kind?.crimpedEnds) return [];
  if (fitting.clamps === undefined && fitting.clampsStainless !== false) return [];
  const thing = line[end].thing;
  const pose = facts.pose(thing);
  const port = facts.thing(thing)?.ports[line[end].port];
  if (!pose || !port) return [];
  const at = pointInBoat(pose, port.at);
  const worst = greatestDepth([at], facts);
  const dry = judge({
    value: worst.depthM,
    limit: 0,
    bound: 'atMost',
    unit: 'm',
    grade: [facts.gradeOfWater(), ...facts.gradesAlong(thing, UP)],
  });
  if (dry.met) return [];
  const data = { thing, depthM: worst.depthM, heelDeg: worst.heelDeg, down: worst.down };
  const said = { related: [thing], at, data };
  const verdicts: Verdict[] = [];
  if (fitting.clamps !== undefined) {
    const { met, ...compared } = judge({
      value: fitting.clamps,
      limit: LIMITS[facts.profile()].clamps,
      bound: 'atLeast',
      unit: 'count',
      grade: [],
    });
    verdicts.push(
      met
        ? { outcome: 'pass', instance: end, ...compared, ...said }
        : { outcome: 'fail', severity: 'fault', reason: 'tooFew', instance: end, ...compared, ...said },
    );
  }
  if (fitting.clampsStainless === false)
    verdicts.push({
      outcome: 'fail',
      severity: 'fault',
      reason: 'willRust',
      instance: `${end} metal`,
      measured: { value: fitting.clamps ?? 1, unit: 'count' },
      limit: { value: 0, unit: 'count', bound: 'atMost' },
      ...said,
    });
  return verdicts;
}

function moreClamps({ key, subject, reason }: FailedFinding, { boat, facts }: MendingAt): readonly Mend[] {
  const end = key.includes('|to') ? 'to' : 'from';
  const line = boat.lines[subject];
  const fitting = line?.ends[end] ?? kindOfLine(subject, facts)?.end;
  if (!line || !fitting) return [];
  const { clamps: to } = LIMITS[facts.profile()];
  const change = reason === 'tooFew' ? { clamps: to } : { clampsStainless: true };
  return [
    {
      id: `clamps ${subject} ${end}`,
      change: reason === 'tooFew' ? 'value' : 'add',
      what:
        reason === 'tooFew'
          ? { id: subject, field: `ends.${end}.clamps`, from: fitting.clamps ?? 0, to }
          : { item: 'stainlessClamps', to: subject },
      recipe: (draft) => {
        const edited = draft.lines[subject];
        if (edited) edited.ends[end] = { ...fitting, ...change };
      },
    },
  ];
}
