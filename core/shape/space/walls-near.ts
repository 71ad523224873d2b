import { Slices } from '../../base/slices';
import type { Vec3 } from '../../base/vec';
import { bounds } from '../layout/prism';
import type { Layout, Wall } from '../layout/types';
import { type Convex, wallBody } from './convex';

export interface NearWall {
  readonly wall: Wall;
  readonly body: Convex;
  readonly low: Vec3;
  readonly high: Vec3;
}

const KNOWN = new WeakMap<Layout, Slices<NearWall>>();

/** Walls of which the outline, or the plate that bounds room, may meet a box, in the layout's order. */
export function wallsNear(layout: Layout, low: Vec3, high: Vec3): readonly NearWall[] {
  let slices = KNOWN.get(layout);
  if (!slices) {
    slices = new Slices(
      layout.walls.map((wall) => {
        const body = wallBody(wall, layout.panels);
        const [low, high] = bounds([...wall.polygon, body.low, body.high]);
        return { wall, body, low, high };
      }),
    );
    KNOWN.set(layout, slices);
  }
  return slices.meeting({ low, high });
}
