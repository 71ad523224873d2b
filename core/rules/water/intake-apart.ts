import { dischargesOf, usersOf } from '../../assess/water/hole-users';
import { setIntakes } from '../../assess/water/intakes';
import { foulingOf, type OtherOutlet } from '../../assess/water/which-hole';
import { pointInBoat } from '../../base/vec';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { nameOf } from '../name-of';

/** What comes out this near ahead of an intake on its side is drawn in, metres. Common practice, from memory. */
const LIMITS = inBoth({ apartM: 1 });

/** A head, a sink or an exhaust that empties just ahead of the intake is drunk. */
export const intakeApart = defineRule({
  id: 'water/intake-apart',
  question: 'Does nothing foul come out just ahead of the intake while the set runs?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'geometry', standing: 'derived' },
  ],
  limits: LIMITS,
  gravest: 'danger',
  cannotSee: ['Eddies about the keel, and a tide that runs from astern at anchor.', 'What other boats let out.'],
  hazards: ['drinkingWater'],
  subjects: (facts) => setIntakes(facts.circuit()),
  check(intakeId, facts): readonly Verdict[] {
    const { apartM: limitM } = LIMITS[facts.profile()];
    const at = holeAt(intakeId, facts);
    if (!at) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const isMotoring = Object.values(facts.runStates()).some(({ use }) => use === 'motoring');
    const others = facts.thingIds().flatMap((id) => outletOf(id, facts) ?? []);
    const near = foulingOf({ id: intakeId, at }, others, isMotoring, Number.POSITIVE_INFINITY).filter(
      ({ isAhead }) => isAhead,
    );
    const [worst] = near.filter(({ what }) => what !== null);
    const unsaid = near.filter(({ what, apartM }) => what === null && apartM < limitM);
    const verdicts = unsaid.map(
      ({ other }): Verdict => ({
        outcome: 'cannotTell',
        reason: 'unknownOutlet',
        instance: other,
        enterNext: `Enter what comes out of ${nameOf(other, facts)}`,
        related: [other],
        at,
      }),
    );
    if (!worst) return verdicts.length > 0 ? verdicts : [{ outcome: 'notApplicable', reason: 'noneAhead' }];
    const { met, ...compared } = judge({
      value: worst.apartM,
      limit: limitM,
      bound: 'atLeast',
      unit: 'm',
      grade: [facts.gradeOf(intakeId), facts.gradeOf(worst.other)],
    });
    const said = {
      ...compared,
      related: [worst.other],
      at,
      data: { other: nameOf(worst.other, facts), what: worst.what ?? '' },
    };
    if (met) return [{ outcome: 'pass', ...said }, ...verdicts];
    return [{ outcome: 'fail', severity: 'danger', reason: 'foulAhead', ...said }, ...verdicts];
  },
});

function holeAt(id: string, facts: Facts) {
  const opening = facts.thing(id)?.opensToSea;
  const pose = facts.pose(id);
  return opening && pose ? pointInBoat(pose, opening.at) : null;
}

/** A through-hull that lets something out, or an exhaust that is drawn without a hole. */
function outletOf(id: string, facts: Facts): OtherOutlet | null {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (!thing || !pose) return null;
  if (!thing.opensToSea) return thing.kind === 'exhaust' ? { id, at: pose.at, discharges: ['exhaust'] } : null;
  const circuit = facts.circuit();
  const at = pointInBoat(pose, thing.opensToSea.at);
  return { id, at, discharges: dischargesOf(thing, usersOf(circuit, id), circuit) };
}
