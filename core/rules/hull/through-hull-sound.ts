import { OLD_YEARS } from '../../assess/water/which-hole';
import { ORIGIN, pointInBoat, UP } from '../../base/vec';
import { countedFaults } from '../counted';
import { defineRule, inBoth, type Verdict } from '../define';
import { greatestDepth } from '../depth-at-heel';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { linesAt } from '../lines-at';
import type { FailedFinding, Mend, MendingAt } from '../mend';

/** Common practice, from memory: dezincification of plain brass and the bolts of old fittings are looked for first. */
const LIMITS = inBoth({ oldYears: OLD_YEARS });

/** A gate valve jams or shears, plain brass loses its zinc and snaps: what the plan hangs on it goes with it. */
export const throughHullSound = defineRule({
  id: 'hull/through-hull-sound',
  question: 'Is every through-hull below the heeled waterline of a kind that can be trusted?',
  sources: [
    { key: 'iso-9093', clause: '4', standing: 'quoted' },
    { key: 'practice', standing: 'fromMemory' },
  ],
  limits: LIMITS,
  cannotSee: [
    'The colour of the metal under paint: pink brass has lost its zinc.',
    'Whether the valve turns, and how its bolts are.',
    'What metal it really is.',
  ],
  hazards: ['hullHole'],
  subjects: (facts) => facts.thingIds().filter((id) => isAtTheSkin(id, facts)),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    const hole = thing?.opensToSea;
    if (!thing || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const at = pointInBoat(pose, hole?.at ?? ORIGIN);
    const worst = greatestDepth([at], facts);
    const { met: isDry, ...depth } = judge({
      value: worst.depthM,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade: [facts.gradeOfWater(), ...facts.gradesAlong(id, UP)],
    });
    if (isDry && !depth.closeCall) return [{ outcome: 'notApplicable', reason: 'aboveWater' }];
    const said = {
      related: plannedLinesAt(id, facts),
      at,
      data: {
        depthM: worst.depthM,
        heelDeg: worst.heelDeg,
        down: worst.down,
        isUnwanted: facts.isDemanded('noHaulOut'),
      },
    };
    const failing: Verdict[] = [];
    if (!isDry && thing.valve?.kind === 'gate')
      failing.push({ outcome: 'fail', severity: 'fault', reason: 'gateValve', instance: 'valve', ...depth, ...said });
    if (!isDry && hole?.material === 'brass')
      failing.push({ outcome: 'fail', severity: 'fault', reason: 'plainBrass', instance: 'metal', ...depth, ...said });
    if (!isDry && hole?.backed === false)
      failing.push({ outcome: 'fail', severity: 'fault', reason: 'unbacked', instance: 'pad', ...depth, ...said });
    const aged = ageOf(id, facts);
    if (aged && !aged.met) {
      const { met: _met, ...years } = aged;
      failing.push({ outcome: 'fail', severity: 'advice', reason: 'old', instance: 'age', ...years, ...said });
    }
    if (failing.length > 0) return failing;
    if (aged) {
      const { met: _met, ...years } = aged;
      return [{ outcome: 'pass', ...years, ...said }];
    }
    if (hole?.material === undefined) return [{ outcome: 'notApplicable', reason: 'nothingKnown' }];
    return [
      {
        outcome: 'pass',
        ...countedFaults(0),
        ...said,
      },
    ];
  },
  mends: renewed,
});

/** A new one in its place, of bronze with a ball valve, on a pad. */
function renewed({ subject }: FailedFinding, { boat, facts }: MendingAt): readonly Mend[] {
  if (!Object.hasOwn(boat.fixtures, subject) && !Object.hasOwn(boat.parts, subject)) return [];
  const year = facts.plannedYear();
  return [
    {
      id: `renew ${subject}`,
      change: 'add',
      what: { item: 'newSeacock', to: subject },
      recipe: (draft) => {
        const thing = draft.fixtures[subject] ?? draft.parts[subject];
        if (!thing) return;
        if (thing.valve) thing.valve.kind = 'ball';
        const hole = thing.opensToSea;
        if (hole) Object.assign(hole, { material: 'bronze', backed: true }, year === null ? {} : { fittedYear: year });
      },
    },
  ];
}

/** A through-hull, a seacock, or a gate valve right on the hose of a through-hull. */
function isAtTheSkin(id: string, facts: Facts): boolean {
  const thing = facts.thing(id);
  if (!thing) return false;
  if (thing.opensToSea || thing.kind === 'seacock') return true;
  return (
    thing.valve?.kind === 'gate' &&
    linesAt(id, facts).some((lineId) => {
      const line = facts.line(lineId);
      return [line?.from.thing, line?.to.thing].some((end) => end !== undefined && facts.thing(end)?.opensToSea);
    })
  );
}

function ageOf(id: string, facts: Facts): ReturnType<typeof judge> | null {
  const fitted = facts.thing(id)?.opensToSea?.fittedYear;
  const year = facts.plannedYear();
  if (fitted === undefined || year === null) return null;
  const { oldYears } = LIMITS[facts.profile()];
  return judge({ value: year - fitted, limit: oldYears, bound: 'atMost', unit: 'count', grade: [] });
}

/** Lines of the plan that hang on it. */
const plannedLinesAt = (id: string, facts: Facts): readonly string[] =>
  linesAt(id, facts).filter((lineId) => facts.line(lineId)?.existing === false);
