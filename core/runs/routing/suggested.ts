import { distance, dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { Panel, PanelHole } from '../../shape/layout/types';
import type { Task } from './attempt';
import { BOUND_STEPS, lengthBound, type SuggestedCrossing } from './bound/bound';
import { domainOf, nearestInDomain } from './bound/domain';
import { holeInPlane, holesFor, placesBeside, pointInHole } from './hole-room';
import { stubOf } from './nodes';
import { inHoleSeen } from './seats';
import type { Stop } from './stretch';
import { insetOutline, type PortalFrame, pointOnPortal, type Structure } from './structure';

/**
 * The ways that the certified bound rests on, the cheapest first, as stops of each stretch to begin with: their crossings lie where the
 * shortest bent string would have them, on the axis of a port rather than on a grid beside it. None without a finished sequence, where holes
 * are planned for the line, or where a crossing is no legal hole.
 */
export function suggestedWays(task: Task, steps: number): readonly (readonly (readonly Stop[])[])[] {
  const { line, world } = task;
  if (hasOwnHoles(world.structure, line.id)) return [];
  const { view } = world;
  // What stands in the way is looked at where there is time.
  const isDeep = steps > BOUND_STEPS.fast;
  const { suggestionsByStretch } = lengthBound(line, isDeep ? view : { layout: view.layout }, steps);
  const most = Math.max(...suggestionsByStretch.map((ways) => ways.length));
  const found: (readonly (readonly Stop[])[])[] = [];
  for (let rank = 0; rank < most; rank += 1) {
    // A stretch with fewer ways keeps to its last one.
    const stretches = suggestionsByStretch.map((ways) => {
      const way = ways[Math.min(rank, ways.length - 1)];
      return way ? stopsOf(task, way) : null;
    });
    if (stretches.every((stops) => stops !== null)) found.push(stretches);
  }
  return found;
}

function stopsOf(task: Task, crossings: readonly SuggestedCrossing[]): readonly Stop[] | null {
  const { world, hose } = task;
  const stops: Stop[] = [];
  for (const { portal, at, direction } of crossings) {
    // Beside a thing.
    if (portal === null) {
      stops.push({ kind: 'free', at });
      continue;
    }
    const frame = world.structure.frames[portal];
    if (!frame) return null;
    const { panel } = frame;
    if (!panel || panel.rule === 'open' || !direction) {
      stops.push({ kind: 'free', at: clearOfFrame(frame, at, hose.radiusM) });
      continue;
    }
    const hole = panel.holes.find((one) => distance(one.at, at) <= one.diameterM / 2) ?? null;
    if ((!hole && panel.rule !== 'drill') || holesFor(panel, task.line.id).length > 0) return null;
    const place = hole ? seatIn(task, hole, frame, at) : at;
    if (!place) return null;
    const off = dot(subtract(place, frame.origin), frame.n);
    const inPlane = subtract(place, scale(frame.n, off));
    const passage = {
      frame: portal,
      panel,
      hole,
      at: inPlane,
      stubM: stubOf(panel, hose),
      costM: hole ? 0 : panel.newHoleCostM,
    };
    stops.push({ kind: 'passage', passage, forward: dot(direction, frame.n) > 0 });
  }
  return stops;
}

/** The bound's string lies on the frame of an open panel; a hose keeps its radius off. */
function clearOfFrame(frame: PortalFrame, at: Vec3, radiusM: number): Vec3 {
  const ring = insetOutline(frame.outline, radiusM + FRAME_SPARE_M);
  if (ring.length === 0) return at;
  const domain = domainOf(
    ring.map(([x, y]) => pointOnPortal(frame, x, y)),
    frame.n,
  );
  return nearestInDomain(domain, at);
}
const FRAME_SPARE_M = 0.001;

/** Place beside what lies in the hole already, the nearest to the one wished for; null when it is full. */
function seatIn({ world, line, hose }: Task, hole: PanelHole, frame: PortalFrame, wished: Vec3): Vec3 | null {
  const centre = holeInPlane(hole, frame);
  const places = placesBeside(hole.diameterM, hose, inHoleSeen(world.view, line, hole, frame)).map((one) =>
    pointInHole(centre, frame, one),
  );
  return places.reduce<Vec3 | null>(
    (best, one) => (best && distance(best, wished) <= distance(one, wished) ? best : one),
    null,
  );
}

/** Whether holes are planned for the line: it passes those, whatever the bound would choose. */
const hasOwnHoles = ({ layout, panelIds }: Structure, lineId: string): boolean =>
  panelIds.some((id) => holesFor(layout.panels[id] as Panel, lineId).length > 0);
