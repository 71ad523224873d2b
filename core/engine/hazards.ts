import { HAZARDS, type Hazard, hazardsOfLine, hazardsOfThing, isMet } from '../rules/hazard';
import type { Remedy } from '../rules/remedy';
import { line, lineKind, thing } from './source';
import type { Read } from './store';

/** What can hurt whoever works on a thing or a line; of a line also at the hull fittings that it ends at. */
function hazardsOf(id: string, read: Read): readonly Hazard[] {
  const lineNow = read(line, id);
  if (!lineNow) {
    const thingNow = read(thing, id);
    return thingNow ? hazardsOfThing(thingNow) : [];
  }
  const opens = [lineNow.from, lineNow.to].some((end) => read(thing, end.thing)?.opensToSea !== undefined);
  return [...hazardsOfLine(lineNow, read(lineKind, lineNow.kind) ?? {}), ...(opens ? (['hullHole'] as const) : [])];
}

/** Met at what stands beside the subject too: whoever mends the one works at the other. */
const BESIDE: readonly Hazard[] = ['hullHole', 'dcFault', 'ignition'];

/** What is said to hurt, and what acting on a verdict of that rule meets at the thing or line that it speaks of and at its related ones. */
export function withHazardsOf(
  [subject = '', ...related]: readonly string[],
  rule: string,
  said: readonly Hazard[],
  read: Read,
): readonly Hazard[] {
  const own = hazardsOf(subject, read);
  const beside = related.flatMap((id) => hazardsOf(id, read)).filter((hazard) => BESIDE.includes(hazard));
  return HAZARDS.filter(
    (hazard) => said.includes(hazard) || ((own.includes(hazard) || beside.includes(hazard)) && isMet(hazard, rule)),
  );
}

/** Of a change to the boat: what the verdict says can hurt, and whatever can about the things and lines that it touches. */
export function hazardsOfAll(ids: readonly string[], said: readonly Hazard[], read: Read): readonly Hazard[] {
  const own = ids.flatMap((id) => hazardsOf(id, read));
  return HAZARDS.filter((hazard) => said.includes(hazard) || own.includes(hazard));
}

/** Ids among the values of a change; a value that names nothing in the boat has no hazard. */
export const touched = (what: Remedy['what']): readonly string[] =>
  Object.values(what).flatMap((value) => (typeof value === 'string' ? [value] : []));
