/**
 * Room for an end that is crimped on to come through a hole: it goes in square and comes out square, so on both sides of the panel a
 * cylinder of its rigid length and its own radius has to be free. Runs can be pushed aside meanwhile; nothing else can.
 */
import { cross, type Vec3 } from '../../base/vec';
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
const RIM_OUT = 1 / Math.cos(Math.PI / RIM_POINTS);
/** What stands near stays the same while the hole moves by this. */
const LIST_MARGIN_M = 0.05;

/** Obstacles that may stand in a cylinder, good while the hole stays near. */
interface Near {
  readonly at: Vec3;
  readonly ranks: readonly number[];
}

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
    const { n, u } = frame;
    const v = cross(n, u);
    const surface = this.panel.thicknessM / 2;
    const lengthM = feed.rigidM + spareM;
    const radiusM = feed.radiusM + spareM;
    const on = (along: number, x = 0, y = 0): Vec3 => [
      at[0] + side * n[0] * along + u[0] * x + v[0] * y,
      at[1] + side * n[1] * along + u[1] * x + v[1] * y,
      at[2] + side * n[2] * along + u[2] * x + v[2] * y,
    ];
    const a = on(surface + Math.min(radiusM, lengthM / 2));
    const b = on(surface + Math.max(lengthM - radiusM, lengthM / 2));
    const [root, tip] = [on(surface), on(surface + lengthM)];
    const outM = radiusM * RIM_OUT;
    const rim = Array.from({ length: RIM_POINTS }, (_, k): Vec3 => {
      const angle = (2 * Math.PI * (k + 0.5)) / RIM_POINTS;
      return on(surface + lengthM, outM * Math.cos(angle), outM * Math.sin(angle));
    });
    let worst: FeedShortage | null = null;
    const note = (blocker: string, byM: number): void => {
      if (byM > 1e-9 && (!worst || byM > worst.byM)) worst = { byM, blocker };
    };
    for (const rank of this.ranksNear(at)) {
      const obstacle = world.obstacles[rank] as Obstacle;
      // Nothing of the cylinder lies farther from its axis than the corners of its rim.
      if (world.distance(rank, ...root, ...tip, outM) >= outM) continue;
      note(obstacle.id, radiusM - world.distance(rank, ...a, ...b, radiusM));
      rim.forEach((p, k) => {
        const q = rim[(k + 1) % RIM_POINTS] as Vec3;
        note(obstacle.id, -world.distance(rank, ...p, ...q, 1e-6));
      });
    }
    if (world.hullClearance(...root, ...tip, outM) >= outM) return worst;
    note('hull', radiusM - world.hullClearance(...a, ...b, radiusM));
    rim.forEach((p, k) => {
      const q = rim[(k + 1) % RIM_POINTS] as Vec3;
      note('hull', -world.hullClearance(...p, ...q, 1e-6));
    });
    return worst;
  }

  private ranksNear(at: Vec3): readonly number[] {
    const { near, world, feed, panel, frame } = this;
    if (near && Math.hypot(at[0] - near.at[0], at[1] - near.at[1], at[2] - near.at[2]) < LIST_MARGIN_M)
      return near.ranks;
    const reach = panel.thicknessM / 2 + feed.rigidM + 2 * feed.radiusM + LIST_MARGIN_M;
    const ranks = world
      .near(at[0] - reach, at[1] - reach, at[2] - reach, at[0] + reach, at[1] + reach, at[2] + reach)
      .filter((rank) => {
        const { kind, panel: own } = world.obstacles[rank] as Obstacle;
        return kind !== 'run' && own !== frame.panelIndex;
      });
    this.near = { at, ranks };
    return ranks;
  }
}
