import { supplyPath } from '../../assess/power/supply-path';
import { conductorResistance, RESISTIVITY } from '../../base/formulas/conductor';
import { SET_PUMPS } from '../../boat/kinds';
import type { Thing } from '../../boat/schema/boat';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { judge, times as share } from '../judge';
import { LENGTH_DOUBT } from '../length-doubt';
import { withRunDoubt } from '../run-doubt';

/** Share of the source voltage that a motor may lose on the way, where the boat file says nothing: the 10 % of both practices. */
const LIMITS = inBoth({ dropShare: 0.1 });
/** Making-up at both ends of a conductor: it is cut longer than its run. Common practice, no source. */
const TERMINATION_M = 0.1;

/** A motor that gets too few volts draws more, runs hot and makes less water. */
export const motorVoltage = defineRule({
  id: 'power/motor-voltage',
  question: 'Does every motor of the set get enough voltage?',
  sources: [
    { key: 'iso-10133', standing: 'quoted' },
    { key: 'abyc-e11', standing: 'quoted' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Corroded terminals.',
    'The voltage of a tired bank under load.',
    'Heat that raises the resistance of copper by 4 % each 10 K.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) =>
    facts.thingIds().filter((id) => (facts.isPart(id) || isSetPump(id, facts)) && isMotor(id, facts)),
  check(thingId, facts): readonly Verdict[] {
    const verdicts = voltageAt(thingId, facts);
    // Of a set that is aboard already nobody has to draw the cables.
    const isAsked = facts.isPart(thingId) || verdicts.every(({ outcome }) => outcome !== 'cannotTell');
    return isAsked ? verdicts : [{ outcome: 'notApplicable', reason: 'noElectricsDrawn' }];
  },
});

function voltageAt(thingId: string, facts: Facts): readonly Verdict[] {
  const thing = facts.thing(thingId);
  if (!thing) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
  const { drivenBy = 'dc' } = thing.electric ?? {};
  if (drivenBy !== 'dc') return [{ outcome: 'notApplicable', reason: 'notFromBank' }];
  const amperes = thing.electric?.drawA ?? greatestLineCurrent(thingId, facts);
  if (!amperes) {
    if (!hasPowerPort(thing)) return [{ outcome: 'notApplicable', reason: 'noElectricsDrawn' }];
    return [
      {
        outcome: 'cannotTell',
        reason: 'noCurrent',
        enterNext: `Enter the current that ${thing.name} draws`,
        missing: { path: `parts.${thingId}.electric.drawA`, unit: 'A' },
      },
    ];
  }
  const circuit = facts.circuit();
  const answer = supplyPath(circuit, thingId, (id) => kindOf(id, facts)?.conductors ?? 2);
  if ('missing' in answer) {
    return [
      {
        outcome: 'cannotTell',
        reason: answer.missing,
        enterNext:
          answer.missing === 'noSource'
            ? 'Draw the cables from the motor to a source with its voltage'
            : 'Draw the return conductor',
      },
    ];
  }
  const { found } = answer;
  const profile = RESISTIVITY[facts.profile()];
  let lostV = amperes * found.ownOhm;
  let lengthM = 0;
  const grade: GradeShare[] = [];
  const related: string[] = [found.source];
  for (const { id, times } of found.lines) {
    const run = facts.run(id);
    const areaMm2 = kindOf(id, facts)?.areaMm2;
    related.push(id);
    if (!areaMm2)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noArea',
          enterNext: `Enter the copper area of ${facts.line(id)?.name ?? id}`,
          related: [id],
        },
      ];
    if (run?.status !== 'routed')
      return [
        {
          outcome: 'cannotTell',
          reason: 'noRun',
          enterNext: `Make room for the run of ${facts.line(id)?.name ?? id}`,
          related: [id],
        },
      ];
    const copperM = times * (run.lengthM + TERMINATION_M);
    lengthM += copperM;
    const ohm = conductorResistance({ lengthM: copperM, areaMm2, ohmMm2PerM: profile.ohmMm2PerM });
    // a feeder that others share carries more than this motor's own current
    const current = Math.max(amperes, facts.line(id)?.currentA ?? 0);
    lostV += current * ohm;
    grade.push({ path: `lines.${id}`, gradeM: LENGTH_DOUBT * current * ohm });
    const voltsPerMetre = (current * times * ohm) / copperM;
    for (const end of [facts.line(id)?.from.thing, facts.line(id)?.to.thing])
      if (end !== undefined) grade.push(share(facts.gradeOf(end), voltsPerMetre));
  }
  const leastV =
    thing.electric?.leastV ?? found.sourceV * (1 - (thing.electric?.dropShare ?? LIMITS[facts.profile()].dropShare));
  const own = judge({
    value: found.sourceV - lostV,
    limit: leastV,
    bound: 'atLeast',
    unit: 'V',
    grade,
  });
  const { met, ...compared } = found.lines.reduce((judged, { id }) => withRunDoubt(judged, id, facts), own);
  const verdict = {
    ...compared,
    related,
    at: facts.pose(thingId)?.at ?? null,
    sources: [{ key: profile.source, standing: 'quoted' }] as const,
    data: {
      lostV,
      amperes,
      lengthM,
      sourceV: found.sourceV,
      share: lostV / found.sourceV,
      ohmMm2PerM: profile.ohmMm2PerM,
      leastShare: 1 - leastV / found.sourceV,
      ...(thing.productLH === undefined ? {} : { lostLH: (thing.productLH * lostV) / found.sourceV }),
    },
  };
  return [
    met ? { outcome: 'pass', ...verdict } : { outcome: 'fail', severity: 'fault', reason: 'tooFewVolts', ...verdict },
  ];
}

const isSetPump = (id: string, facts: Facts): boolean => SET_PUMPS.has(facts.thing(id)?.kind ?? '');

/** Current of the lines at a motor that does not state its own. */
function greatestLineCurrent(thingId: string, facts: Facts): number {
  const lines = facts.lineIds().map((id) => facts.line(id));
  const own = lines.filter(
    (line) => line?.medium === 'dcPower' && (line.from.thing === thingId || line.to.thing === thingId),
  );
  return Math.max(0, ...own.map((line) => line?.currentA ?? 0));
}

function kindOf(lineId: string, facts: Facts) {
  const line = facts.line(lineId);
  return line ? facts.lineKind(line.kind) : null;
}

const hasPowerPort = (thing: Thing): boolean => Object.values(thing.ports).some((port) => port.medium === 'dcPower');

/** Pumps of the set, and whatever else of it draws a current from a power port. */
function isMotor(id: string, facts: Facts): boolean {
  const thing = facts.thing(id);
  if (!thing) return false;
  return SET_PUMPS.has(thing.kind) || ((thing.electric?.drawA ?? 0) > 0 && hasPowerPort(thing));
}
