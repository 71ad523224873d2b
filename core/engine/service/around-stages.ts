import { byId } from '../../base/order';
import { meets } from '../../base/slices';
import type { Vec3 } from '../../base/vec';
import { type Obstruction, openedWalls } from '../../shape/space/opened-walls';
import type { CapsuleSolid } from '../../shape/space/solids';
import { solidBounds } from '../../shape/space/things';
import { laidAtRest } from '../final-run';
import { layout } from '../shape-stages';
import { boxKey, boxOf, solidsInBox } from '../solid-stages';
import { lineIds, openings } from '../source';
import { type ComputedStage, sameItems } from '../store';

/** Nothing further from the point of a task meets an arm that works there, metres: an arm from the shoulder, and a hand's breadth. */
const ABOUT_M = 1.05;
/** Boxes for walls are widened to whole steps, so that tasks beside one another share their walls. */
const SNAP_M = 0.35;

export const boxAbout = (at: Vec3): { readonly low: Vec3; readonly high: Vec3 } => ({
  low: [at[0] - ABOUT_M, at[1] - ABOUT_M, at[2] - ABOUT_M],
  high: [at[0] + ABOUT_M, at[1] + ABOUT_M, at[2] + ABOUT_M],
});

/** Pieces of runs at rest that come into a box, ends and all, sorted by id. Key: `boxKey`. */
const runsAboutBox: ComputedStage<readonly CapsuleSolid[]> = {
  id: 'runsAboutBox',
  compute: (key, read) => {
    const { low, high } = boxOf(key);
    return read(lineIds)
      .flatMap((id) => {
        const laid = read(laidAtRest, id);
        return laid && meets(laid, low, high)
          ? laid.capsules.filter((capsule) => meets(solidBounds(capsule), low, high))
          : [];
      })
      .sort(byId);
  },
  same: sameItems,
};

/** Things and runs about a place that an arm, an eye or what is drawn out may meet. Gear that moves stands still while it is serviced. */
export interface About {
  readonly things: readonly Obstruction[];
  /** Their owners are their lines. */
  readonly runs: readonly Obstruction[];
}

/** Key: `boxKey`. */
export const aboutBox: ComputedStage<About> = {
  id: 'aboutBox',
  compute: (box, read) => ({
    things: read(solidsInBox, box)
      .filter(({ layer }) => layer === 'furnishing')
      .map((solid) => ({ owner: solid.owner, label: solid.label, solid })),
    runs: read(runsAboutBox, box).map((solid) => ({
      owner: solid.id.slice(0, solid.id.lastIndexOf('/')),
      label: solid.label,
      solid,
    })),
  }),
  same: (a, b) => sameSolids(a.things, b.things) && sameSolids(a.runs, b.runs),
};

const sameSolids = (a: readonly Obstruction[], b: readonly Obstruction[]): boolean =>
  a.length === b.length && a.every(({ solid }, k) => solid === b[k]?.solid);

/** The box whose walls are looked at for one: widened, so that neighbours share it. */
export const wallsKey = (opened: readonly string[], low: Vec3, high: Vec3): string => {
  const snap = (p: Vec3, to: (x: number) => number): Vec3 =>
    [to(p[0] / SNAP_M) * SNAP_M, to(p[1] / SNAP_M) * SNAP_M, to(p[2] / SNAP_M) * SNAP_M] as const;
  return `${[...opened].sort().join(' ')}|${boxKey(snap(low, Math.floor), snap(high, Math.ceil))}`;
};

/** Walls about a box with some openings opened. Key: `wallsKey`. */
export const wallsAbout: ComputedStage<readonly Obstruction[]> = {
  id: 'wallsAbout',
  compute: (key, read) => {
    const cut = key.indexOf('|');
    const opened = key.slice(0, cut).split(' ');
    const { low, high } = boxOf(key.slice(cut + 1));
    const all = read(openings);
    return openedWalls(
      read(layout),
      Object.fromEntries(opened.flatMap((id) => (all[id] ? [[id, all[id]] as const] : []))),
      low,
      high,
    );
  },
  same: (a, b) => sameSolids(a, b),
};
