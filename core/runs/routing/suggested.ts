import { distance, dot, subtract } from '../../base/vec';
import { BOUND_STEPS, lengthBound } from './bound/bound';
import { type HoseClass, holeFits, stubOf } from './nodes';
import type { Stop } from './search';
import type { Structure } from './structure';
import type { RoutingLine, RoutingView } from './types';

/**
 * The way that the certified bound rests on, as stops to begin with: its crossings lie where the shortest bent string would have them, on the
 * axis of a port rather than on a grid beside it. Null without a finished sequence, with clip points (the bound knows none), or where a crossing
 * is no legal hole.
 */
export function suggestedStops(
  view: RoutingView,
  line: RoutingLine,
  structure: Structure,
  hose: HoseClass,
): readonly Stop[] | null {
  if (line.clipPoints.length > 0) return null;
  const { suggestion } = lengthBound(line, view, BOUND_STEPS.fast);
  if (!suggestion) return null;
  const stops: Stop[] = [];
  for (const { portal, at, direction } of suggestion) {
    const frame = structure.frames[portal];
    if (!frame) return null;
    const { panel } = frame;
    if (!panel || panel.rule === 'open' || !direction) {
      stops.push({ kind: 'free', at });
      continue;
    }
    const hole =
      panel.holes.find((one) => holeFits(one, hose.holeRadiusM) && distance(one.at, at) <= one.diameterM / 2) ?? null;
    if (!hole && panel.rule !== 'drill') return null;
    // an existing hole is passed at its centre, in the middle plane
    const place = hole?.at ?? at;
    const off = dot(subtract(place, frame.origin), frame.n);
    const inPlane = subtract(place, [frame.n[0] * off, frame.n[1] * off, frame.n[2] * off]);
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
