import { type Gap, gapsBetween } from '@core/boat/interior/remedies';
import { boundsOf, project } from '@core/output/views/drawing';
import { intersectionOf, type Ring } from '@core/output/views/polygons';
import { convexHull } from '@core/shape/layout/outline';
import type { Layout } from '@core/shape/layout/types';
import { PerView } from '../per-view';
import type { Scene, View } from '../scene';
import { compartmentsDrawn } from '../shape';
import { rectOn } from './background';
import { type Ctx, hatch, trace } from './pen';

const gapsOf = new WeakMap<object, readonly Gap[]>();

/** Gaps of the interior, found once for the same compartments. */
function gapsKnown(compartments: Scene['boat']['compartments']): readonly Gap[] {
  const known = gapsOf.get(compartments);
  if (known) return known;
  const gaps = gapsBetween(compartments);
  gapsOf.set(compartments, gaps);
  return gaps;
}

const sharedRings = new PerView<Layout, readonly Ring[]>();

/** What does not fit together: space that two compartments share in crimson, gaps between them in brass. */
export function paintFaults(ctx: Ctx, scene: Scene, view: View): void {
  for (const ring of sharedIn(scene, view)) hatched(ctx, view, ring, scene.colours.bad);
  for (const gap of gapsKnown(scene.boat.compartments)) {
    const xs = gap.corners.map((p) => p[0]);
    if (view.cut && (view.cut.at < Math.min(...xs) || view.cut.at > Math.max(...xs))) continue;
    hatched(ctx, view, convexHull(gap.corners.map((p) => project(view.frame, p))), scene.colours.accl);
  }
}

function sharedIn({ layout, boat, hull, section }: Scene, view: View): readonly Ring[] {
  if (layout.overlaps.length === 0) return [];
  const key = view.cut ? `section ${view.cut.at}` : view.name;
  const known = sharedRings.get(layout, key);
  if (known) return known;
  const drawn = view.cut ? section.compartments : compartmentsDrawn(boat, layout, hull, view.frame);
  const ringsOf = (id: string): readonly Ring[] => drawn.find((one) => one.id === id)?.rings ?? [];
  return sharedRings.set(
    layout,
    key,
    layout.overlaps.flatMap(({ between: [a, b] }) => intersectionOf(ringsOf(a), ringsOf(b))),
  );
}

function hatched(ctx: Ctx, view: View, ring: Ring, colour: string): void {
  const bounds = boundsOf(ring);
  if (!bounds) return;
  ctx.save();
  ctx.beginPath();
  trace(ctx, view.t, ring, true);
  ctx.clip();
  hatch(ctx, rectOn(view, bounds.low, bounds.high), 4, colour, 1);
  ctx.restore();
  ctx.beginPath();
  trace(ctx, view.t, ring, true);
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colour;
  ctx.stroke();
}
