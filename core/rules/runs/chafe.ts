import type { Vec3 } from '../../base/vec';
import { distanceToKeepOut } from '../../shape/space/keep-out';
import { SolidPack } from '../../shape/space/kernel';
import { pointsAlong, type RunPoint, radiusOf, runOrNone, STEP_M } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';
import { withRunDoubt } from '../run-doubt';

/** Room beside moving gear is common practice; that beside an engine on its feet is from memory. */
const LIMITS = inBoth({ movingM: 0.04, engineM: 0.025 });
/** What passes this much farther off is not spoken of. */
const PASSING_M = 0.1;
/** Farther off than this distances need not be known. */
const FAR_M = 2;

/** What touches something that moves is sawn through: slowly by a shaking engine, in one night by a quadrant. */
export const chafe = defineRule({
  id: 'runs/chafe',
  question: 'Does every hose and cable keep off moving gear, a shaking engine and raw edges?',
  sources: [
    { key: 'practice', standing: 'fromMemory' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Sleeves and spiral wrap.',
    'How far a loose hose sways.',
    'Edges that are not holes.',
    'Runs that lie against one another: they may be clipped together.',
  ],
  hazards: [],
  subjects: (facts) => facts.lineIds(),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const line = facts.line(lineId);
    const own = [line?.from.thing ?? '', line?.to.thing ?? ''];
    const points = pointsAlong(run.prims);
    const radiusM = radiusOf(lineId, facts);
    const near = [...nearMoving(points, radiusM, own, facts), ...nearEngines(points, radiusM, own, facts)].map((one) =>
      verdictOf(lineId, one, facts),
    );
    const edges = run.crossings.flatMap(({ panelId, holeId, at }): Verdict[] => {
      const hole = holeId === null ? null : rawHole(panelId, holeId, facts);
      if (hole === null) return [];
      return [
        {
          outcome: 'fail',
          severity: 'fault',
          reason: 'rawEdge',
          instance: `edge ${panelId} ${hole}`,
          measured: { value: 1, unit: 'count' },
          limit: { value: 0, unit: 'count', bound: 'atMost' },
          at,
          data: { panel: panelId, hole },
        },
      ];
    });
    const failing = [...near, ...edges].filter(({ outcome }) => outcome === 'fail');
    if (failing.length > 0) return failing;
    return near.length > 0 ? [near[0] as Verdict] : [{ outcome: 'notApplicable', reason: 'noneNear' }];
  },
  mends: bushes,
});

interface Near {
  readonly owner: string;
  readonly about: 'moving' | 'engine';
  readonly awayM: number;
  readonly at: Vec3;
}

function verdictOf(lineId: string, { owner, about, awayM, at }: Near, facts: Facts): Verdict {
  const { movingM, engineM } = LIMITS[facts.profile()];
  const { met, ...compared } = withRunDoubt(
    judge({
      value: awayM,
      limit: about === 'moving' ? movingM : engineM,
      bound: 'atLeast',
      unit: 'm',
      grade: facts.gradesAlong(owner, [0, 0, 1]),
    }),
    lineId,
    facts,
  );
  const said = { ...compared, related: [owner], at, data: { about, owner } };
  if (met) return { outcome: 'pass', ...said };
  return about === 'moving'
    ? { outcome: 'fail', severity: 'fault', reason: 'nearMoving', instance: `moving ${owner}`, ...said }
    : { outcome: 'fail', severity: 'fault', reason: 'nearEngine', instance: `engine ${owner}`, ...said };
}

/** The nearest that the surface of a run comes to what each thing moves through. */
function nearMoving(
  points: readonly RunPoint[],
  radiusM: number,
  own: readonly string[],
  facts: Facts,
): readonly Near[] {
  return facts.thingIds().flatMap((owner): Near[] => {
    const sweeps = Object.values(facts.thing(owner)?.sweeps ?? {});
    const pose = sweeps.length > 0 && !own.includes(owner) ? facts.pose(owner) : null;
    if (!pose) return [];
    return nearestOf(points, radiusM, LIMITS[facts.profile()].movingM + PASSING_M, (at) =>
      Math.min(...sweeps.map((sweep) => distanceToKeepOut(sweep, pose, at))),
    ).map((nearest) => ({ owner, about: 'moving' as const, ...nearest }));
  });
}

function nearEngines(
  points: readonly RunPoint[],
  radiusM: number,
  own: readonly string[],
  facts: Facts,
): readonly Near[] {
  const engines = facts.thingIds().filter((id) => facts.thing(id)?.kind === 'engine' && !own.includes(id));
  return engines.flatMap((owner): Near[] => {
    const pack = new SolidPack(facts.solidsOf(owner).filter(({ layer }) => layer === 'furnishing'));
    const nearest = nearestOf(points, radiusM, LIMITS[facts.profile()].engineM + PASSING_M, ([x, y, z]) =>
      pack.solids.reduce((least, _, k) => Math.min(least, pack.distance(k, x, y, z, x, y, z, FAR_M)), FAR_M),
    );
    return nearest.map((one) => ({ owner, about: 'engine' as const, ...one }));
  });
}

/** One, or none where nothing comes within reach. */
function nearestOf(
  points: readonly RunPoint[],
  radiusM: number,
  withinM: number,
  distanceFrom: (at: Vec3) => number,
): readonly Pick<Near, 'awayM' | 'at'>[] {
  let nearest: Pick<Near, 'awayM' | 'at'> | null = null;
  for (let k = 0; k < points.length; k += 1) {
    const { at } = points[k] as RunPoint;
    const awayM = Math.max(0, distanceFrom(at) - radiusM);
    if (awayM < withinM && (!nearest || awayM < nearest.awayM)) nearest = { awayM, at };
    // what is that far off is not reached by the next points
    k += Math.max(0, Math.floor((awayM - withinM) / STEP_M));
  }
  return nearest ? [nearest] : [];
}

/** The hole of a panel's record that is said to have a raw edge. */
function rawHole(panelId: string, holeId: string, facts: Facts): string | null {
  const record = recordOf(panelId, facts);
  return record?.holes[holeId]?.bushed === false ? holeId : null;
}

function recordOf(panelId: string, facts: Facts): ReturnType<Facts['panelRecords']>[string] | undefined {
  const dataId = facts.layout().panels[panelId]?.dataId;
  return dataId === undefined ? undefined : facts.panelRecords()[dataId];
}

function bushes({ data }: FailedFinding, { facts }: MendingAt): readonly Mend[] {
  const { hole, panel } = data;
  const dataId = typeof panel === 'string' ? facts.layout().panels[panel]?.dataId : undefined;
  if (typeof hole !== 'string' || dataId === undefined) return [];
  return [
    {
      id: `bush ${dataId} ${hole}`,
      change: 'add',
      what: { item: 'grommet', to: dataId },
      recipe: (boat) => {
        const bored = boat.panels[dataId]?.holes[hole];
        if (bored) bored.bushed = true;
      },
    },
  ];
}
