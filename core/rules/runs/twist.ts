import type { Line, LineKind } from '../../boat/schema/boat';
import { ONE_PLANE_DEG, twistOf } from '../../runs/twist';
import { defineRule, inBoth, type Verdict } from '../define';
import { judge } from '../judge';

const LIMITS = inBoth({ onePlaneDeg: ONE_PLANE_DEG });

/** A made-up hose that bends in two planes is wrung when both its ends are held: it lets go at a ferrule, years early. */
export const twist = defineRule({
  id: 'runs/twist',
  question: 'Does every made-up hose with two fixed ends bend in one plane?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  gravest: 'advice',
  limits: LIMITS,
  cannotSee: [
    'How far the hose was turned when its ends were tightened.',
    'Clips that are not drawn: a clip point counts as a clamp.',
    'How much a soft hose forgives.',
  ],
  hazards: [],
  subjects: (facts) =>
    facts.lineIds().filter((id) => {
      const line = facts.line(id);
      return line !== null && facts.lineKind(line.kind)?.what === 'hose';
    }),
  check(lineId, facts): readonly Verdict[] {
    const line = facts.line(lineId);
    const kind = line && facts.lineKind(line.kind);
    if (!line || !kind) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    if (!isHeld(line, kind)) return [{ outcome: 'notApplicable', reason: 'endTurns' }];
    const run = facts.run(lineId);
    if (!run) return [{ outcome: 'cannotTell', reason: 'notRouted', enterNext: 'Place both ends of the line' }];
    if (run.status === 'blocked') {
      if (run.reason.kind === 'notPlaced') return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
      return [{ outcome: 'cannotTell', reason: 'noRun', enterNext: 'Make room for the run first' }];
    }
    const clips = facts.clipPoints(lineId);
    const found = twistOf(run.prims, clips);
    const { met, ...compared } = judge({
      value: found?.angleDeg ?? 0,
      limit: LIMITS[facts.profile()].onePlaneDeg,
      bound: 'atMost',
      unit: 'deg',
      grade: [],
    });
    const related = [line.from.thing, line.to.thing];
    if (met || !found) return [{ outcome: 'pass', ...compared, related, data: { bends: run.bends } }];
    return [
      {
        outcome: 'fail',
        severity: 'advice',
        reason: 'twoPlanes',
        ...compared,
        related,
        at: found.at,
        data: { bends: run.bends },
      },
    ];
  },
});

/** Both ends are on before the hose is laid, and neither turns. */
const isHeld = (line: Line, kind: LineKind): boolean =>
  (['from', 'to'] as const).every((which) => {
    const end = line.ends[which] ?? kind.end;
    return ((end?.crimped ?? false) || kind.crimpedEnds) && !end?.swivel;
  });
