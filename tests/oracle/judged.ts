import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { checkBoat } from '@core/boat/read';
import type { Boat, Hull } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { checkRuns, type Violation } from '../support/check-run';

export function boatOf(draft: unknown): Boat {
  const read = checkBoat(draft);
  if (!read.ok) throw new Error(`boatOf: ${read.problems.map((one) => one.message).join('; ')}`);
  return read.boat;
}

const skins = new WeakMap<Hull, HullSurface>();
function skinOf(hull: Hull): HullSurface {
  const skin = skins.get(hull) ?? hullSurface(hull);
  skins.set(hull, skin);
  return skin;
}

export const judge = (boat: Boat, report: Report): Violation[] =>
  checkRuns(boat, report, { kinds: LINE_KINDS, ...(boat.hull ? { hull: skinOf(boat.hull) } : {}) });
