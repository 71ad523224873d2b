import { angleBetween, degrees, directionInBoat, UP, type Vec3 } from '../../base/vec';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';
import { mountingOf } from '../mounted';

/** A crankcase is filled by a level mark. Common practice, from memory. */
const LIMITS = inBoth({ levelDeg: 5 });
const FINE_DEG = 1e-6;

/** A crankcase on its side starves its bearings and breathes oil. */
export const level = defineRule({
  id: 'access/level',
  question: 'Does what must stand upright do so, as fitted and at the heel in which it runs?',
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'fromMemory' },
  ],
  limits: LIMITS,
  cannotSee: ['Rolling: the steady heel of the run states counts.', 'How much oil is in it.'],
  hazards: [],
  subjects: (facts) =>
    facts.thingIds().filter((id) => {
      const { upright, levelDeg, tiltDeg } = mountingOf(id, facts) ?? {};
      return upright === true || levelDeg !== undefined || tiltDeg !== undefined;
    }),
  check(id, facts): readonly Verdict[] {
    const pose = facts.pose(id);
    const asked = mountingOf(id, facts);
    if (!pose || !asked) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const own = directionInBoat(pose, UP);
    const verdicts: Verdict[] = [];
    if (asked.upright === true || asked.levelDeg !== undefined) {
      const leansDeg = between(own, UP);
      const { met, ...compared } = judge({
        value: leansDeg,
        limit: asked.levelDeg ?? LIMITS[facts.profile()].levelDeg,
        bound: 'atMost',
        unit: 'deg',
        grade: [],
      });
      const said = { instance: 'fitted', ...compared, at: pose.at, data: { leansDeg } };
      verdicts.push(
        met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'fault', reason: 'notUpright', ...said },
      );
    }
    if (asked.tiltDeg !== undefined) verdicts.push(running(id, own, asked.tiltDeg, facts));
    return verdicts;
  },
  mends: stoodUp,
});

function running(id: string, own: Vec3, tiltDeg: number, facts: Facts): Verdict {
  const worst = facts
    .runningWaters()
    .map(({ name, heelDeg, down, water }) => ({ name, heelDeg, down, tiltedDeg: between(own, water.up) }))
    .reduce((most, one) => (one.tiltedDeg > most.tiltedDeg + FINE_DEG ? one : most));
  const { met, ...compared } = judge({
    value: worst.tiltedDeg,
    limit: tiltDeg,
    bound: 'atMost',
    unit: 'deg',
    grade: [],
  });
  const at = facts.pose(id)?.at ?? null;
  const data = { state: worst.name, heelDeg: worst.heelDeg, down: worst.down };
  const said = { instance: 'running', ...compared, at, data };
  return met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'fault', reason: 'tiltsTooFar', ...said };
}

/** To a millionth of a degree: a heel that is just allowed is allowed. */
const between = (a: Vec3, b: Vec3): number => Math.round(degrees(angleBetween(a, b)) / FINE_DEG) * FINE_DEG;

/** Its lean taken out. */
function stoodUp({ subject }: FailedFinding, { arrangementId, facts }: MendingAt): readonly Mend[] {
  const pose = facts.pose(subject);
  if (!pose || (pose.rollDeg === 0 && pose.pitchDeg === 0)) return [];
  return [
    {
      id: `upright ${subject}`,
      change: 'value',
      what: { id: subject, field: 'leanDeg', to: 0 },
      recipe: (boat) => {
        const place = boat.arrangements[arrangementId]?.places[subject];
        if (!place) return;
        place.rollDeg = 0;
        place.pitchDeg = 0;
      },
    },
  ];
}
