import { lineKindOf } from '../../../boat/catalogue/line-kinds';
import type { Boat } from '../../../boat/schema/boat';
import { type Hazard, hazardsOfLine, hazardsOfThing } from '../../../rules/hazard';
import type { TakeoffRow } from '../../takeoff/row';

/** What can hurt whoever builds the plan, whether or not a check speaks of it. */
export function planHazards(boat: Boat, rows: readonly TakeoffRow[]): ReadonlySet<Hazard> {
  const found = new Set<Hazard>();
  for (const line of Object.values(boat.lines)) {
    if (line.existing) continue;
    const kind = lineKindOf(boat.lineKinds, line.kind);
    if (kind) for (const hazard of hazardsOfLine(line, kind)) found.add(hazard);
    for (const { thing } of [line.from, line.to])
      if ((boat.fixtures[thing] ?? boat.parts[thing])?.opensToSea) found.add('hullHole');
  }
  for (const part of Object.values(boat.parts)) {
    for (const hazard of hazardsOfThing(part)) found.add(hazard);
  }
  if (rows.some(({ hole }) => hole?.panelId.includes('skin'))) found.add('hullHole');
  if (Object.values(boat.compartments).some(({ openToGas }) => openToGas)) found.add('ignition');
  return found;
}
