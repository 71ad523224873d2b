import type { Boat } from '@core/boat/schema/boat';
import type { NetVolume } from '@core/shape/space/net-volume';
import { useEffect, useSyncExternalStore } from 'react';
import { useApp } from './app';
import { studiesNow } from './connections';
import { layoutInputOf } from './derived';

/** Volumes of compartments, each kept for as long as its own record, the hull and the fixtures stay as they are. */
interface Known {
  readonly hull: Boat['hull'];
  readonly fixtures: Boat['fixtures'];
  readonly volume: NetVolume;
}
const known = new WeakMap<object, Known>();
/** Compartments, hull and fixtures that were asked about last. */
let asked: Pick<Boat, 'compartments' | 'hull' | 'fixtures'> | null = null;
let answers = 0;
const listeners = new Set<() => void>();

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};
const answersNow = (): number => answers;

const volumeKnown = (boat: Boat, id: string): NetVolume | null => {
  const own = boat.compartments[id];
  const found = own ? known.get(own) : undefined;
  return found && found.hull === boat.hull && found.fixtures === boat.fixtures ? found.volume : null;
};

/** Whoever misses one asks for all that are missing: of two that ask, neither takes back the other. */
function ask(boat: Boat, arrangementId: string | null): void {
  const { compartments, hull, fixtures } = boat;
  if (asked?.compartments === compartments && asked.hull === hull && asked.fixtures === fixtures) return;
  asked = { compartments, hull, fixtures };
  const ids = Object.keys(compartments).filter((id) => volumeKnown(boat, id) === null);
  const from = { ids, interior: layoutInputOf(boat, arrangementId), hull, fixtures };
  studiesNow().study('volumes', from, (told) => {
    if (!told.ok) {
      useApp.getState().showProblem({
        title: 'Volumes could not be worked out: a fault of the program. The boat is safe.',
        lines: [told.message],
      });
      return;
    }
    for (const [id, volume] of Object.entries(told.gives)) {
      const own = compartments[id];
      if (own) known.set(own, { hull, fixtures, volume });
    }
    answers += 1;
    for (const listener of listeners) listener();
  });
}

/** Volumes of the named compartments; null until they are known. */
export function useVolumes(
  boat: Boat,
  arrangementId: string | null,
  ids: readonly string[],
): readonly (NetVolume | null)[] {
  useSyncExternalStore(subscribe, answersNow);
  const volumes = ids.map((id) => volumeKnown(boat, id));
  const isMissing = volumes.includes(null);
  useEffect(() => {
    if (isMissing) ask(boat, arrangementId);
  }, [isMissing, boat, arrangementId]);
  return volumes;
}
