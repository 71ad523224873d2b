import { distance, type Vec3 } from '../../base/vec';
import { structureOf } from '../../runs/routing/structure';
import { nearnessOf } from '../../runs/routing/wishes/nearness';
import { FACE_M } from '../../runs/routing/wishes/prices';
import { HANGING_FULL_M } from '../../runs/routing/wishes/wishes';
import { SolidPack } from '../../shape/space/kernel';
import { kindOfLine, pointsAlong, type RunPoint, runOrNone } from '../along-run';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** Length that a clip holds. */
const CLIP_M = 0.012;

/** What hangs free swings, chafes and works its fittings loose. */
export const unsupported = defineRule({
  id: 'runs/unsupported',
  question: 'Can every hose, tube and cable be held as often as its kind asks?',
  sources: [
    { key: 'iso-10133', clause: '7.3', standing: 'quoted' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  cannotSee: [
    'Other hoses that it can be tied to.',
    'Battens, trays and conduits that are not drawn.',
    'Whether a screw holds in what is there.',
  ],
  hazards: [],
  subjects: (facts) => facts.lineIds(),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrNone(lineId, facts);
    if ('outcome' in run) return [run];
    const kind = kindOfLine(lineId, facts);
    if (!kind) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const clips = Object.values(facts.arrangement()?.clipPoints[lineId] ?? {}).map(({ at }) => at);
    const free = longestFree(pointsAlong(run.prims), kind.outsideM / 2, clips, facts);
    if (kind.supportM === undefined) {
      if (free.lengthM === 0) return [{ outcome: 'notApplicable', reason: 'heldAllAlong' }];
      return [
        {
          outcome: 'cannotTell',
          reason: 'noSpacing',
          enterNext: `Enter how often ${kind.name} must be clipped`,
          at: free.at,
          data: { freeM: free.lengthM },
        },
      ];
    }
    const { met, ...compared } = withRunDoubt(
      judge({ value: free.lengthM, limit: kind.supportM, bound: 'atMost', unit: 'm', grade: [] }),
      lineId,
      facts,
    );
    const said = { ...compared, at: free.at, data: { withinM: HANGING_FULL_M } };
    if (met) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'hangsFree', ...said }];
  },
});

/** The longest stretch that nothing within reach of a bracket could hold, and its middle. Ports and clip points hold. */
function longestFree(
  points: readonly RunPoint[],
  radiusM: number,
  clips: readonly Vec3[],
  facts: Facts,
): { readonly lengthM: number; readonly at: Vec3 | null } {
  const nearness = nearnessOf(structureOf(facts.layout()), facts.hull());
  const faces = facesNear(points, facts);
  const isFree = ([x, y, z]: Vec3): boolean => {
    const reach = HANGING_FULL_M + radiusM;
    if (nearness.at(x, y, z) <= reach || clips.some((clip) => distance(clip, [x, y, z]) < CLIP_M)) return false;
    for (let k = 0; k < faces.size; k += 1) if (faces.distance(k, x, y, z, x, y, z, reach) < reach) return false;
    return true;
  };
  let longest = { lengthM: 0, from: 0, to: 0 };
  let lengthM = 0;
  let from = 0;
  points.forEach(({ at, stepM }, k) => {
    if (!isFree(at)) {
      lengthM = 0;
      from = k + 1;
      return;
    }
    lengthM += stepM;
    if (lengthM > longest.lengthM) longest = { lengthM, from, to: k };
  });
  return { lengthM: longest.lengthM, at: points[(longest.from + longest.to) >> 1]?.at ?? null };
}

/** Things beside the run that are large enough to screw a clip to. */
function facesNear(points: readonly RunPoint[], facts: Facts): SolidPack {
  const reach = 2 * HANGING_FULL_M;
  const edge = (axis: 0 | 1 | 2, pick: (a: number, b: number) => number, start: number): number =>
    points.reduce((so, { at }) => pick(so, at[axis]), start);
  const low = (axis: 0 | 1 | 2): number => edge(axis, Math.min, Number.POSITIVE_INFINITY) - reach;
  const high = (axis: 0 | 1 | 2): number => edge(axis, Math.max, Number.NEGATIVE_INFINITY) + reach;
  const all = new SolidPack(facts.solidsIn([low(0), low(1), low(2)], [high(0), high(1), high(2)]));
  return new SolidPack(
    all.solids.filter((_, k) => {
      const sides = [0, 1, 2].map(
        (axis) => (all.bounds[6 * k + 3 + axis] as number) - (all.bounds[6 * k + axis] as number),
      );
      sides.sort((a, b) => a - b);
      return (sides[1] as number) >= FACE_M;
    }),
  );
}
