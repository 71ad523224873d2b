import type { HoleRanking } from '@core/assess/water/which-hole';
import type { Boat } from '@core/boat/schema/boat';
import { Session } from '@core/engine/session';

/**
 * A session of its own for the question of which hole: it looks at the hull, the places and the grades, so that a boat that did not change
 * there is answered at once.
 */
let session: Session | null = null;

export function holesOf(boat: Boat, year: number): HoleRanking {
  if (session === null) session = new Session(boat);
  else if (session.boat !== boat) session.open(boat);
  return session.holes(year);
}
