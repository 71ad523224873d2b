import type { Boat } from '@core/boat/schema/boat';
import { type NetVolume, netVolume } from '@core/shape/space/net-volume';
import { useEffect, useState } from 'react';
import { hullOf, layoutOf } from './derived';

/**
 * Volumes of compartments, each worked out once for its own record, the hull and the fixtures, one after the other while
 * the window has nothing better to do.
 */
interface Known {
  readonly hull: Boat['hull'];
  readonly fixtures: Boat['fixtures'];
  readonly volume: NetVolume;
}
const known = new WeakMap<object, Known>();

const volumeKnown = (boat: Boat, id: string): NetVolume | null => {
  const own = boat.compartments[id];
  const found = own ? known.get(own) : undefined;
  return found && found.hull === boat.hull && found.fixtures === boat.fixtures ? found.volume : null;
};

function workOut(boat: Boat, arrangementId: string | null, id: string): void {
  const own = boat.compartments[id];
  if (!own) return;
  const volume = netVolume(boat, layoutOf(boat, arrangementId), hullOf(boat), id);
  known.set(own, { hull: boat.hull, fixtures: boat.fixtures, volume });
}

/** Volumes of the named compartments; null until they are known. */
export function useVolumes(
  boat: Boat,
  arrangementId: string | null,
  ids: readonly string[],
): readonly (NetVolume | null)[] {
  const [, setCount] = useState(0);
  const missing = ids.find((id) => volumeKnown(boat, id) === null);
  useEffect(() => {
    if (missing === undefined) return;
    const timer = setTimeout(() => {
      workOut(boat, arrangementId, missing);
      setCount((count) => count + 1);
    }, 30);
    return () => clearTimeout(timer);
  });
  return ids.map((id) => volumeKnown(boat, id));
}
