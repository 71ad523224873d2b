import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import type { Boat, Line, Thing } from '@core/boat/schema/boat';
import type { Finding } from '@core/rules/finding';
import type { Hazard } from '@core/rules/hazard';

/**
 * Which of the six matters that can hurt (holes below the waterline, high pressure, faults of direct current, ignition, drinking
 * water, lifting) a finding touches: by the data of what it speaks about, and by its own words. Common sense, no source.
 */
interface Touching {
  readonly boat: Boat;
  readonly finding: Finding;
  /** Its title, reason and what to enter, as they are read. */
  readonly words: string;
}

const MATTERS: Readonly<Record<Hazard, (about: Touching) => boolean>> = {
  hullHole: ({ boat, finding, words }) =>
    isOpenToSea(boat, finding.subject) || /seacock|through-hull|skin fitting|below the waterline/i.test(words),
  highPressure: ({ boat, finding, words }) =>
    (about(finding, 'runs', 'water') && pressureOf(boat, finding.subject) >= 20) ||
    (about(finding, 'access', 'water') && /^(pumpModule|membrane)$/.test(kindOf(boat, finding.subject))) ||
    /high.pressure|\bbursts?\b/i.test(words),
  dcFault: ({ boat, finding, words }) =>
    (about(finding, 'runs', 'power') && boat.lines[finding.subject]?.medium === 'dcPower') ||
    (about(finding, 'power', 'flooding', 'access') &&
      /^(battery|fuse|breaker|busbar)$/.test(kindOf(boat, finding.subject))) ||
    /\bfuses?\b|\bbreaker|short circuit|\bconductor|\bbattery\b|\bbank\b|electrics/i.test(words),
  ignition: ({ boat, finding, words }) =>
    kindOf(boat, finding.subject) === 'gasLocker' ||
    thingOf(boat, finding.subject)?.fuel === 'petrol' ||
    /petrol vapour|gas locker|\bspark|ignit|hydrogen/i.test(words),
  drinkingWater: ({ boat, finding, words }) =>
    (about(finding, 'runs', 'water') && /^(product|freshWater)$/.test(boat.lines[finding.subject]?.medium ?? '')) ||
    (about(finding, 'water') && kindOf(boat, finding.subject) === 'waterTank') ||
    /\bdrink|chlorine|brackish/i.test(words),
  lifting: ({ boat, finding, words }) =>
    (about(finding, 'access', 'hull') && (thingOf(boat, finding.subject)?.massKg ?? 0) >= 15) ||
    /\btwo people|\btackle\b|\blift(s|ed|ing)? (it|them)\b/i.test(words),
};

/** The matters of which a finding says nothing to whoever acts on it. */
export const uncautioned = (touching: Touching): readonly Hazard[] =>
  (Object.keys(MATTERS) as Hazard[]).filter(
    (hazard) => MATTERS[hazard](touching) && !touching.finding.hazards.includes(hazard),
  );

const about = ({ rule }: Finding, ...subjects: readonly string[]): boolean =>
  subjects.includes(rule.slice(0, rule.indexOf('/')));
const thingOf = (boat: Boat, id: string): Thing | undefined => boat.fixtures[id] ?? boat.parts[id];
const kindOf = (boat: Boat, id: string): string => thingOf(boat, id)?.kind ?? '';

function pressureOf(boat: Boat, id: string): number {
  const line: Line | undefined = boat.lines[id];
  const rated = line && line.medium !== 'gauge' ? lineKindOf(boat.lineKinds, line.kind)?.pressureBar : undefined;
  return rated ?? 0;
}

function isOpenToSea(boat: Boat, id: string): boolean {
  const line = boat.lines[id];
  const ends = line ? [line.from.thing, line.to.thing] : [id];
  return ends.some((end) => thingOf(boat, end)?.opensToSea !== undefined);
}
