/**
 * Room for an end that is crimped on to come through a hole: it goes in square and comes out square, so on both sides of the panel a
 * cylinder of its rigid length and its own radius has to be free. Runs can be pushed aside meanwhile; nothing else can.
 */
import * as portable from '../../base/portable';
import { along, cross, distance, type Vec3 } from '../../base/vec';
import type { Panel } from '../../shape/layout/types';
import type { PortalFrame } from './structure';
import type { Feed } from './types';
import type { Obstacle, World } from './world';

/** What is missing, and what stands there. */
export interface FeedShortage {
  readonly byM: number;
  readonly blocker: string;
}

const RIM_POINTS = 8;
/** The polygon of the rim is drawn round the disc. */
const RIM_OUT = 1 / portable.cos(Math.PI / RIM_POINTS);
/** What stands near stays the same while the hole moves by this. */
const LIST_MARGIN_M = 0.05;
/** Sides of the rim lie on a face at most. */
const RIM_CUTOFF_M = 1e-6;

/** Obstacles that may stand in a cylinder, good while the hole stays near. */
interface Near {
  readonly at: Vec3;
  readonly ranks: readonly number[];
  readonly isNearHull: boolean;
}

/** Looks at one way through a panel for one end; remembers what stands near it. */
export class FeedRoom {
  private near: Near | null = null;
  /** Most moves of a band leave its holes where they are. */
  private last: { readonly at: Vec3; readonly spareM: number; readonly worst: FeedShortage | null } | null = null;

  constructor(
    private readonly world: World,
    private readonly feed: Feed,
    private readonly frame: PortalFrame,
    private readonly panel: Panel,
  ) {}

  /** What the worse side lacks at a place of the hole; null where both are free. `spareM` is asked for besides. */
  shortage(at: Vec3, spareM = 0): FeedShortage | null {
    const { last } = this;
    if (last && last.spareM === spareM && last.at[0] === at[0] && last.at[1] === at[1] && last.at[2] === at[2])
      return last.worst;
    let worst: FeedShortage | null = null;
    for (const side of [-1, 1] as const) {
      const one = this.onSide(at, side, spareM);
      if (one && (!worst || one.byM > worst.byM)) worst = one;
    }
    this.last = { at, spareM, worst };
    return worst;
  }

  private onSide(at: Vec3, side: 1 | -1, spareM: number): FeedShortage | null {
    const { world, frame, feed } = this;
    const { ranks, isNearHull } = this.listAt(at);
    if (ranks.length === 0 && !isNearHull) return null;
    const surface = this.panel.thicknessM / 2;
    const lengthM = feed.rigidM + spareM;
    const radiusM = feed.radiusM + spareM;
    const { n } = frame;
    const root = along(at, n, side * surface);
    const tip = along(at, n, side * (surface + lengthM));
    const outM = radiusM * RIM_OUT;
    // Nothing of the cylinder lies farther from its axis than the corners of its rim.
    const close = ranks.filter((rank) => world.distance(rank, ...root, ...tip, outM) < outM);
    const isHull = isNearHull && world.hullClearance(...root, ...tip, outM) < outM;
    if (close.length === 0 && !isHull) return null;
    const a = along(at, n, side * (surface + Math.min(radiusM, lengthM / 2)));
    const b = along(at, n, side * (surface + Math.max(lengthM - radiusM, lengthM / 2)));
    const rim = this.rimAt(tip, outM);
    let worst: FeedShortage | null = null;
    const note = (blocker: string, measure: (p: Vec3, q: Vec3, cutoffM: number) => number): void => {
      let byM = radiusM - measure(a, b, radiusM);
      rim.forEach((p, k) => {
        byM = Math.max(byM, -measure(p, rim[(k + 1) % RIM_POINTS] as Vec3, RIM_CUTOFF_M));
      });
      if (byM > 1e-9 && byM > (worst?.byM ?? 0)) worst = { byM, blocker };
    };
    for (const rank of close)
      note((world.obstacles[rank] as Obstacle).id, (p, q, cutoffM) => world.distance(rank, ...p, ...q, cutoffM));
    if (isHull) note('hull', (p, q, cutoffM) => world.hullClearance(...p, ...q, cutoffM));
    return worst;
  }

  /** Corners of a polygon round the flat end. */
  private rimAt(centre: Vec3, outM: number): readonly Vec3[] {
    const { u, n } = this.frame;
    const v = cross(n, u);
    return Array.from({ length: RIM_POINTS }, (_, k) => {
      const angle = (2 * Math.PI * (k + 0.5)) / RIM_POINTS;
      return along(along(centre, u, outM * portable.cos(angle)), v, outM * portable.sin(angle));
    });
  }

  /** What may stand in the cylinders while the hole is near to where it is. */
  private listAt(at: Vec3): Near {
    const { near, world, feed, panel, frame } = this;
    if (near && distance(at, near.at) < LIST_MARGIN_M) return near;
    const lengthM = panel.thicknessM / 2 + feed.rigidM + LIST_MARGIN_M;
    const outM = feed.radiusM * RIM_OUT + LIST_MARGIN_M;
    const [a, b] = [along(at, frame.n, -lengthM), along(at, frame.n, lengthM)];
    const low = (k: 0 | 1 | 2): number => Math.min(a[k], b[k]) - outM;
    const high = (k: 0 | 1 | 2): number => Math.max(a[k], b[k]) + outM;
    const ranks = world.near(low(0), low(1), low(2), high(0), high(1), high(2)).filter((rank) => {
      const { kind, panel: own } = world.obstacles[rank] as Obstacle;
      return kind !== 'run' && own !== frame.panelIndex && world.distance(rank, ...a, ...b, outM) < outM;
    });
    this.near = { at, ranks, isNearHull: world.hullClearance(...a, ...b, outM) < outM };
    return this.near;
  }
}
