import { along, distance, subtract, UP, type Vec3 } from '../../base/vec';
import type { LineKind } from '../../boat/schema/boat';
import { HANGING_FULL_M } from '../../runs/routing/wishes/wishes';
import { kindOfLine, pointsAlong, type RunPoint, runOrNone } from '../along-run';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare, SourceRef } from '../finding';
import { heldAlong, holderOf } from '../held-along';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

const CABLES: SourceRef = { key: 'iso-10133', clause: '7.3', standing: 'quoted' };
const PRACTICE: SourceRef = { key: 'practice', standing: 'commonPractice' };

/** What hangs free swings, chafes and works its fittings loose. */
export const unsupported = defineRule({
  id: 'runs/unsupported',
  question: 'Can every hose, tube and cable be held as often as its kind asks?',
  sources: [CABLES, PRACTICE],
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
    // The way of a line that is there is a guess until it is pinned: how it is held, whoever looks at it knows.
    if (facts.line(lineId)?.existing === true && run.pinned === undefined)
      return [{ outcome: 'notApplicable', reason: 'wayUnknown' }];
    const kind = kindOfLine(lineId, facts);
    if (!kind) return [{ outcome: 'notApplicable', reason: 'noneNear' }];
    const clips = facts.clipPoints(lineId);
    const free = longestFree(pointsAlong(run.prims), kind.outsideM / 2, clips, facts);
    const entered = facts.line(lineId)?.clipM;
    if (entered !== undefined) return [clippedEvery(entered, kind)];
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
      judge({
        value: free.lengthM,
        limit: kind.supportM,
        bound: 'atMost',
        unit: 'm',
        grade: spanDoubt(free.lengthM, kind.supportM, kind.outsideM / 2, run.prims, clips, lineId, facts),
      }),
      lineId,
      facts,
    );
    const said = { ...compared, at: free.at, sources: sourcesOf(kind), data: { withinM: HANGING_FULL_M } };
    if (met) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'hangsFree', ...said }];
  },
});

const sourcesOf = ({ what }: LineKind): readonly SourceRef[] => [what === 'cable' ? CABLES : PRACTICE];

/** Who enters how often a line is clipped knows what it is clipped to. How often a power cable must be is asked elsewhere. */
function clippedEvery(entered: number, kind: LineKind): Verdict {
  if (kind.what === 'cable' || kind.supportM === undefined) return { outcome: 'notApplicable', reason: 'clipsEntered' };
  const { met, ...compared } = judge({ value: entered, limit: kind.supportM, bound: 'atMost', unit: 'm', grade: [] });
  const said = { ...compared, sources: sourcesOf(kind), data: { withinM: HANGING_FULL_M } };
  return met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'advice', reason: 'clippedFar', ...said };
}

/** The longest stretch that nothing within reach of a bracket could hold, and its middle. Ports and clip points hold. */
function longestFree(
  points: readonly RunPoint[],
  radiusM: number,
  clips: readonly Vec3[],
  facts: Facts,
): { readonly lengthM: number; readonly at: Vec3 | null } {
  const held = heldAlong(points, radiusM, clips, facts);
  let longest = { lengthM: 0, from: 0, to: -1 };
  let lengthM = 0;
  let from = 0;
  points.forEach(({ stepM }, k) => {
    if (held[k]) {
      lengthM = 0;
      from = k + 1;
      return;
    }
    lengthM += stepM;
    if (lengthM > longest.lengthM) longest = { lengthM, from, to: k };
  });
  const begins = [points[longest.from - 1], points[longest.from]] as const;
  const ends = [points[longest.to + 1], points[longest.to]] as const;
  const edgesM = [begins, ends].map(([outer, inner]) =>
    outer && inner && longest.lengthM > 0 ? beyondMiddle(outer, inner, radiusM, clips, facts) : 0,
  );
  return {
    lengthM: longest.lengthM + (edgesM[0] ?? 0) + (edgesM[1] ?? 0),
    at: points[(longest.from + longest.to) >> 1]?.at ?? null,
  };
}

/**
 * What the tape may make of the span: what could hold the run may stand farther off, or nearer, than drawn by as much as the hull
 * and the ends of the run are known to. The span then is another by so much.
 */
function spanDoubt(
  spanM: number,
  limitM: number,
  radiusM: number,
  prims: Parameters<typeof pointsAlong>[0],
  clips: readonly Vec3[],
  lineId: string,
  facts: Facts,
): readonly GradeShare[] {
  const line = facts.line(lineId);
  const at = pointsAlong(prims)[0]?.at;
  const shares = [
    ...(line ? [line.from.thing, line.to.thing] : []).flatMap((id) => facts.gradesAlong(id, UP)),
    ...(at && facts.hull() ? [facts.gradeOfHull(at)] : []),
  ];
  const worst = shares.reduce<GradeShare | null>((most, one) => (most && most.gradeM >= one.gradeM ? most : one), null);
  if (!worst || worst.gradeM === 0) return [];
  // A clean margin is one and a half grades, and the span moves by jumps: it is looked at as far as that.
  const reach = (spanM <= limitM ? -1.5 : 1.5) * worst.gradeM;
  const otherM = longestFree(pointsAlong(prims), radiusM + reach, clips, facts).lengthM;
  return [{ path: worst.path, gradeM: Math.abs(otherM - spanM) }];
}

/** Halvings of a piece of 10 mm: what is left is under a millimetre. */
const HALVINGS = 5;

/** Between a point that is held and the next that hangs: how much farther than the middle between them it hangs, metres. */
function beyondMiddle(outer: RunPoint, inner: RunPoint, radiusM: number, clips: readonly Vec3[], facts: Facts): number {
  const isHeld = holderOf([outer, inner], radiusM, clips, facts);
  let [held, free] = [0, 1];
  for (let k = 0; k < HALVINGS; k += 1) {
    const middle = (held + free) / 2;
    if (isHeld(along(outer.at, subtract(inner.at, outer.at), middle))) held = middle;
    else free = middle;
  }
  // The stretch of a point reaches half its step to either side.
  const gapM = distance(outer.at, inner.at);
  return gapM * (1 - (held + free) / 2) - inner.stepM / 2;
}
