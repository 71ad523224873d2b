/**
 * A found run may stick on the places of its holes: no single corner can move, though all together could. The bound's problem
 * for the same sequence of holes has no such corners to stick on, so its places and directions are a second start for the band.
 */
import * as portable from '../../base/portable';
import { dot, scale, subtract, type Vec3 } from '../../base/vec';
import { elementsOfRun, relaxed, type Task } from './attempt';
import type { Violation } from './band';
import { SPARE_M } from './band-clearance';
import { domainOf } from './bound/domain';
import { type BoundEvent, type Dual, leastLeg, optimiseDual } from './bound/dual';
import { type Element, holeCentre, unfold } from './polygon';
import { insetOutline, pointOnPortal } from './structure';
import type { Routed } from './types';

const ROUNDS = 40;
/** Turns at a hole or a port are made by one corner up to here; `unfold` and the words do the sharper ones. */
const LARGEST_TURN_RAD = 1.75;

/**
 * The run of the same holes from the start that the bound suggests, or what is wrong with it. Null where that could gain less
 * than `share` of the cost.
 */
export function* polished(
  task: Task,
  run: Routed,
  sweeps: number,
  share: number,
  price: (run: Routed) => number,
): Generator<number, Routed | Violation | null> {
  const elements = elementsOfRun(task, run);
  if (!elements) return null;
  const R = task.line.bendRadiusM;
  const taut = elements.filter(({ kind }) => kind !== 'free');
  let best: Routed | Violation | null = null;
  for (const kept of taut.length < elements.length ? [taut, elements] : [taut]) {
    const known = best && 'status' in best ? price(best) : price(run);
    const dual = dualOf(task, kept);
    if (!dual) continue;
    const leads = task.ends[0].leadM + task.ends[1].leadM;
    const costs = price(run) - run.lengthM;
    if (dual.value + leads + costs > (1 - share) * known) break;
    const next: Routed | Violation = yield* relaxed(task, unfold(placed(kept, dual, R), R), sweeps, true);
    if (!best || ('status' in next && (!('status' in best) || price(next) < price(best)))) best = next;
  }
  return best;
}

/** Places and directions of the shortest bent string through the elements, free corners as places to pass. */
function dualOf(task: Task, elements: readonly Element[]): Dual | null {
  const events: BoundEvent[] = [];
  for (const element of elements) {
    const event = eventOf(task, element, events.length === 0);
    if (!event) return null;
    events.push(event);
  }
  const R = task.line.bendRadiusM;
  const leastLegs = events.slice(1).map((event, k) => leastLeg(events[k] as BoundEvent, event, R));
  const start = elements.map((element, k) =>
    element.kind === 'hole' ? holeCentre(element) : (events[k] as BoundEvent).domain.centre,
  );
  return optimiseDual({ events, leastLegs }, R, ROUNDS, start);
}

function eventOf(task: Task, element: Element, isFirst: boolean): BoundEvent | null {
  switch (element.kind) {
    case 'lead': {
      const { tip } = task.ends[isFirst ? 0 : 1];
      return { domain: domainOf([tip], element.out), tangent: isFirst ? element.out : scale(element.out, -1), stub: 0 };
    }
    case 'free':
      return { domain: domainOf([element.params as unknown as Vec3], [0, 0, 1]), tangent: null, stub: 0 };
    case 'clip':
      return { domain: domainOf([element.at], [0, 0, 1]), tangent: null, stub: 0 };
    case 'hole': {
      const { frame, panel, hole, forward } = element;
      const tangent = forward ? frame.n : scale(frame.n, -1);
      const stub = element.stubM + SPARE_M;
      if (hole) return { domain: domainOf([holeCentre(element)], frame.n), tangent, stub };
      const ring = insetOutline(frame.outline, task.hose.holeRadiusM + panel.edgeM + SPARE_M);
      if (ring.length === 0) return null;
      return {
        domain: domainOf(
          ring.map(([x, y]) => pointOnPortal(frame, x, y)),
          frame.n,
        ),
        tangent,
        stub,
      };
    }
  }
}

/** The tangent polygon of that string: corners on the axes of ports and holes, as far out as their bends ask. */
function placed(elements: readonly Element[], { places, directions }: Dual, bendRadiusM: number): Element[] {
  return elements.map((element, k): Element => {
    const into = directions[k - 1];
    const out = directions[k];
    const reach = (axis: Vec3, way: Vec3 | undefined): number => {
      const angle = portable.acos(Math.max(-1, Math.min(1, way ? dot(axis, way) : 1)));
      return bendRadiusM * portable.tan(Math.min(angle, LARGEST_TURN_RAD) / 2);
    };
    if (element.kind === 'lead')
      return { ...element, params: [element.leadM + reach(element.out, k === 0 ? out : into && scale(into, -1))] };
    if (element.kind !== 'hole') return { ...element, params: [...element.params] };
    const { frame, forward, stubM } = element;
    const along = forward ? frame.n : scale(frame.n, -1);
    const from = subtract(places[k] as Vec3, frame.origin);
    const straight = stubM + SPARE_M;
    return {
      ...element,
      params: [dot(from, frame.u), dot(from, frame.v), straight + reach(along, into), straight + reach(along, out)],
    };
  });
}
