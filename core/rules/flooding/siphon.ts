import { loopHeight } from '../../assess/flooding/loops';
import { openEnds } from '../../assess/flooding/open-ends';
import type { SeaArrival } from '../../assess/flooding/sea-reach';
import * as portable from '../../base/portable';
import { pointInBoat, UP, type Vec3 } from '../../base/vec';
import { unrolledProfile } from '../../runs/profile';
import type { Routed } from '../../runs/routing/types';
import { heightAbove } from '../../shape/hull/attitude';
import { runOrUnknown } from '../along-run';
import { defineRule, type Limits, type Verdict } from '../define';
import type { Facts, HeeledWater, PracticeProfile } from '../facts';
import type { SourceRef } from '../finding';
import { fitVentedLoop } from '../fit-vented-loop';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';
import { withRunDoubt } from '../run-doubt';

/** Sources of the trade differ between 200 mm above the heeled water and 10 inches: each practice has its own. */
const LIMITS: Limits<'loopM' | 'bilgeOutletM'> = {
  isoSmallCraft: { loopM: 0.2, bilgeOutletM: 0.2 },
  usVoluntary: { loopM: 0.254, bilgeOutletM: 0.203 },
};
const LOOP_SOURCES: readonly SourceRef[] = [{ key: 'loop-heights', standing: 'quoted' }];
const BILGE_SOURCES: Readonly<Record<PracticeProfile, readonly SourceRef[]>> = {
  isoSmallCraft: LOOP_SOURCES,
  usVoluntary: [{ key: 'abyc-h22', standing: 'quoted' }],
};
/** What is emptied by a pump fills its hose to the crest and starts a siphon; the others only ever fill from the sea. */
const PUMPED: ReadonlySet<string> = new Set(['head', 'bilgePump']);

/** A hose that is open inside the boat and ends in the sea runs backwards as soon as its crest goes under. */
export const siphon = defineRule({
  id: 'flooding/siphon',
  question: 'Does every line with an open end inside the boat rise high enough above the heeled water?',
  gravest: 'danger',
  sources: LOOP_SOURCES,
  limits: LIMITS,
  cannotSee: [
    'Whether the vent of a loop is clogged.',
    'Waves against the side, and a boat that is deeper than drawn.',
    'Exhausts and cooling water of engines.',
  ],
  hazards: ['hullHole'],
  subjects: (facts) => [...new Set(ways(facts).map(({ way }) => way.line))],
  check(lineId, facts): readonly Verdict[] {
    const found = ways(facts).filter(({ way }) => way.line === lineId);
    return found.map(({ throughHull, way }) => ({ ...judgeWay(throughHull, way, facts), instance: throughHull }));
  },
  mends: (finding, at) => [...leadHigher(finding, at), ...ventedLoop(finding, at)],
});

/** What keeps the sea out of drinking water is another question: check valves and relief, not heights. */
const FRESH: ReadonlySet<string> = new Set(['freshWater', 'product']);

/** Ways from through-hulls to open ends. */
const ways = (facts: Facts): readonly { readonly throughHull: string; readonly way: SeaArrival }[] => {
  const circuit = facts.circuit();
  return circuit.seaOpenings.flatMap((throughHull) =>
    openEnds(circuit, facts.seaReach(throughHull))
      .filter((way) => way.lines.every((line) => !FRESH.has(circuit.lines[line]?.medium ?? '')))
      .map((way) => ({ throughHull, way })),
  );
};

interface Crest {
  readonly heightM: number;
  readonly at: Vec3;
  /** Thing that it is at; null: in a run. */
  readonly loop: string | null;
  readonly line: string | null;
}

function judgeWay(throughHull: string, way: SeaArrival, facts: Facts): Verdict {
  const thing = facts.thing(throughHull);
  const pose = facts.pose(throughHull);
  const end = way.far.thing;
  const endPose = facts.pose(end);
  const port = facts.thing(end)?.ports[way.far.port];
  if (!thing?.opensToSea || !pose || !endPose || !port) return { outcome: 'notApplicable', reason: 'notPlaced' };
  const hole = pointInBoat(pose, thing.opensToSea.at);
  const endAt = pointInBoat(endPose, port.at);
  const related = [throughHull, end, ...way.lines, ...way.loops];
  const isBilge = facts.thing(end)?.kind === 'bilgePump';
  const limits = LIMITS[facts.profile()];
  const waters = facts.greatestHeelWaters();
  const wet = waters.filter(({ water }) => heightAbove(water, hole) < 0);
  const data = { throughHull, end, stoppedBy: way.stoppedBy ?? '', isOpen: way.isOpen };
  const water = facts.gradeOfWater();
  if (wet.length === 0) {
    const low = least(waters, ({ water: plane }) => heightAbove(plane, hole));
    if (!isBilge || low.value >= limits.bilgeOutletM) return { outcome: 'notApplicable', reason: 'aboveWater' };
    const { met: _, ...compared } = judge({
      value: low.value,
      limit: limits.bilgeOutletM,
      bound: 'atLeast',
      unit: 'm',
      grade: [water, ...facts.gradesAlong(throughHull, UP)],
    });
    const said = { ...compared, related, at: hole, data: { ...data, ...heelOf(low.water) } };
    const isKept = way.stoppedBy !== null && way.loops.length > 0;
    return isKept
      ? { outcome: 'notApplicable', reason: 'shutAndVented', related, data }
      : {
          outcome: 'fail',
          severity: 'fault',
          reason: 'outletLow',
          sources: BILGE_SOURCES[facts.profile()],
          ...said,
        };
  }
  const dryEnd = least(wet, ({ water: plane }) => heightAbove(plane, endAt));
  const isPumped = PUMPED.has(facts.thing(end)?.kind ?? '');
  const isBasin = facts.thing(end)?.kind === 'sink';
  if (isBasin || (dryEnd.value >= 0 && !isPumped)) {
    const { met, ...compared } = judge({
      value: dryEnd.value,
      limit: 0,
      bound: 'atLeast',
      unit: 'm',
      grade: [water, ...facts.gradesAlong(end, UP)],
    });
    const said = { ...compared, related, at: endAt, data: { ...data, ...heelOf(dryEnd.water), isEnd: true } };
    if (met) return { outcome: 'pass', ...said };
    return way.isOpen
      ? { outcome: 'fail', severity: 'fault', reason: 'basinUnder', ...said }
      : { outcome: 'fail', severity: 'advice', reason: 'basinUnderWhileOpen', ...said };
  }
  const runs: { readonly line: string; readonly run: Routed }[] = [];
  for (const line of way.lines) {
    const run = runOrUnknown(line, facts);
    if ('outcome' in run) return { ...run, related, data };
    runs.push({ line, run });
  }
  const crests = wet.map((one) => ({ one, crest: crestOf(way, runs, one.water, facts) }));
  const worst = crests.reduce((low, next) => (next.crest.heightM < low.crest.heightM ? next : low));
  const { crest } = worst;
  const { met, ...compared } = withRunDoubt(
    judge({
      value: crest.heightM,
      limit: limits.loopM,
      bound: 'atLeast',
      unit: 'm',
      grade: [
        water,
        ...(crest.loop === null ? [throughHull, end] : [crest.loop]).flatMap((id) => facts.gradesAlong(id, UP)),
      ],
    }),
    crest.line ?? way.line,
    facts,
  );
  const said = {
    ...compared,
    related,
    at: crest.at,
    data: { ...data, ...heelOf(worst.one), crestOn: crest.line ?? '' },
  };
  if (!met)
    return way.isOpen
      ? { outcome: 'fail', severity: 'danger', reason: 'tooLow', ...said }
      : { outcome: 'fail', severity: 'advice', reason: 'tooLowWhileOpen', ...said };
  const vents = way.loops.filter((id) =>
    wet.every(({ water: plane }) => (heightOfLoop(id, plane, facts) ?? 0) >= limits.loopM),
  );
  // a loop without a vent passes a siphon on once a pump has filled it
  if (isPumped && dryEnd.value < 0 && vents.length === 0) {
    const { met: _, ...counted } = judge({ value: 0, limit: 1, bound: 'atLeast', unit: 'count', grade: [] });
    return { outcome: 'fail', severity: 'advice', reason: 'notVented', ...said, ...counted };
  }
  return { outcome: 'pass', ...said };
}

const heelOf = ({ heelDeg, down }: HeeledWater) => ({ heelDeg, down });

function least(
  waters: readonly HeeledWater[],
  of: (water: HeeledWater) => number,
): { readonly value: number; readonly water: HeeledWater } {
  return waters.map((water) => ({ value: of(water), water })).reduce((low, one) => (one.value < low.value ? one : low));
}

const heightOfLoop = (id: string, water: HeeledWater['water'], facts: Facts): number | null => {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  return thing && pose ? loopHeight({ thing, pose, solid: facts.envelope(id) }, water) : null;
};

/** Highest point of a way from the sea: of its runs, and of the loops that it passes. */
function crestOf(
  way: SeaArrival,
  runs: readonly { readonly line: string; readonly run: Routed }[],
  water: HeeledWater['water'],
  facts: Facts,
): Crest {
  const inRuns = runs.map(({ line, run }): Crest => {
    const top = unrolledProfile(run.prims, water).reduce((high, point) =>
      point.heightM > high.heightM ? point : high,
    );
    return { heightM: top.heightM, at: top.at, loop: null, line };
  });
  const inLoops = way.loops.flatMap((loop): readonly Crest[] => {
    const heightM = heightOfLoop(loop, water, facts);
    const pose = facts.pose(loop);
    return heightM === null || !pose ? [] : [{ heightM, at: pose.at, loop, line: null }];
  });
  return [...inRuns, ...inLoops].reduce((high, one) => (one.heightM > high.heightM ? one : high));
}

/** Most that a hose is led up for a crest, metres above the floating water. */
const HIGHEST_M = 1.5;

/** The line that has the crest may be led as much higher as it lacks; heel makes less of a rise, so that more than that is asked. */
function leadHigher({ reason, data, measured, limit }: FailedFinding, { boat, facts }: MendingAt): readonly Mend[] {
  const line = typeof data.crestOn === 'string' ? data.crestOn : '';
  const run = facts.run(line);
  if (
    (reason !== 'tooLow' && reason !== 'tooLowWhileOpen') ||
    !Object.hasOwn(boat.lines, line) ||
    run?.status !== 'routed'
  )
    return [];
  const topM = Math.max(...unrolledProfile(run.prims, facts.attitude()).map(({ heightM }) => heightM));
  const cosine = portable.cos((Number(data.heelDeg) * Math.PI) / 180);
  const toM = Math.ceil(100 * (topM + (limit.value - measured.value) / cosine)) / 100;
  if (toM > HIGHEST_M) return [];
  const from = boat.lines[line]?.riseToM;
  return [
    {
      id: 'rise',
      change: 'value',
      what: { id: line, field: 'riseToM', to: toM, ...(from === undefined ? {} : { from }) },
      recipe: (draft) => {
        const found = draft.lines[line];
        if (found) found.riseToM = toM;
      },
    },
  ];
}

/** What a loop helps against. */
const LOOPED: ReadonlySet<string> = new Set(['tooLow', 'tooLowWhileOpen', 'notVented']);

/** A vented loop in the line that is open inside, above all waters in which its other end is under. */
function ventedLoop(
  { reason, subject, data }: FailedFinding,
  { boat, arrangementId, facts }: MendingAt,
): readonly Mend[] {
  const throughHull = String(data.throughHull);
  const thing = facts.thing(throughHull);
  const pose = facts.pose(throughHull);
  const line = facts.line(subject);
  if (!thing?.opensToSea || !pose || !line || !LOOPED.has(reason)) return [];
  const ends = [line.from, line.to].flatMap((end) => {
    const port = facts.thing(end.thing)?.ports[end.port];
    const placed = facts.pose(end.thing);
    return port && placed ? [pointInBoat(placed, port.at)] : [];
  });
  const [from, to] = ends;
  if (!from || !to) return [];
  const hole = pointInBoat(pose, thing.opensToSea.at);
  const wish = {
    lineId: subject,
    boreM: facts.lineKind(line.kind)?.boreM ?? thing.opensToSea.boreM,
    waters: facts
      .greatestHeelWaters()
      .map(({ water }) => water)
      .filter((water) => heightAbove(water, hole) < 0),
    heightM: LIMITS[facts.profile()].loopM,
    ends: [from, to] as const,
  };
  return fitVentedLoop(wish, boat, arrangementId, facts);
}
