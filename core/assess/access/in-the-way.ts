import type { Vec3 } from '../../base/vec';
import { convexOf } from '../../shape/space/convex';
import type { Blocker } from '../../shape/space/free-depth';
import { boundsOf } from '../../shape/space/kernel';
import type { InTheWay } from '../../shape/space/sweep';
import type { Obstruction } from './reach/types';

export type Named = Pick<Obstruction, 'owner' | 'label'>;

/** What stops rays or a tool, and how many of them. */
export interface Met extends Named {
  readonly count: number;
}

/** Obstructions whose bounds meet a box. */
export function obstructionsIn(around: readonly Obstruction[], low: Vec3, high: Vec3): readonly Obstruction[] {
  return around.filter(({ solid }) => {
    const b = boundsOf(solid);
    return b[0] <= high[0] && b[1] <= high[1] && b[2] <= high[2] && b[3] >= low[0] && b[4] >= low[1] && b[5] >= low[2];
  });
}

/** An obstruction as sweeps meet it. */
export const inTheWay = ({ owner, label, solid }: Obstruction): InTheWay => ({
  name: { id: solid.id, owner, label, layer: solid.type === 'plate' ? 'wall' : solid.layer } satisfies Omit<
    Blocker,
    'at'
  >,
  body: convexOf(solid),
});

/** What stopped each of many tries, by how many of them it stopped: the most first, ties by owner, whatever the order of the obstructions. */
export function byCount(stops: readonly (readonly Named[])[]): Met[] {
  const met = new Map<string, Met>();
  for (const stop of stops) {
    const labels = new Map(stop.map(({ owner, label }) => [owner, label]));
    for (const [owner, label] of labels) {
      const known = met.get(owner);
      met.set(owner, {
        owner,
        label: known && known.label < label ? known.label : label,
        count: (known?.count ?? 0) + 1,
      });
    }
  }
  return [...met.values()].sort((a, b) => b.count - a.count || (a.owner < b.owner ? -1 : 1));
}
