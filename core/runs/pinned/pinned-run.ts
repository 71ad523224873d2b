/**
 * A run that was pinned as built: it lies where the pin says, whatever the router would have done. It is judged as any run is;
 * what it breaks is told with it.
 */
import * as portable from '../../base/portable';
import { along, distance, dot, scale, subtract, type Vec3 } from '../../base/vec';
import { asLaid } from '../routing/end-variants';
import { type End, endOf } from '../routing/leads';
import type { HoseClass } from '../routing/nodes';
import { bendsOf, lengthOf } from '../routing/prims';
import { structureOf } from '../routing/structure';
import type { Lead, PinFault, Prim, Routed, RoutingLine, RoutingView } from '../routing/types';
import { validate } from '../routing/validate';
import { WishPrices } from '../routing/wishes/prices';
import { costOf, NO_WISHES } from '../routing/wishes/wishes';
import { RUN_GAP_M, World } from '../routing/world';
import { crossingsOf, piecesOf } from './pieces';
import { type Pin, primsOfPin } from './pin';

/** What a pin is kept to: less than this is no fault. */
const PINNED_TO_M = 2e-5;
/** Hoses that lie there may touch: the gap that new ones keep, and the margin of the chords that stand for bends, are no fault. */
const BESIDE_RUN_M = RUN_GAP_M + 0.001;
/** An end this far from its port, or turned this far from the way that it looks, no longer meets it. */
const END_WITHIN_M = 0.001;
const END_WITHIN_COS = portable.cos((2 * Math.PI) / 180);

/** The run of a pin, with what is wrong with it. It is bound to nothing: no bound is told of it. */
export function pinnedRun(view: RoutingView, asked: RoutingLine, pin: Pin): Routed {
  const turns = turnsOf(asked, pin);
  const line = turns ? asLaid(asked, { turns }) : asked;
  const world = new World(view, line);
  const hose: HoseClass = {
    radiusM: line.radiusM,
    bendRadiusM: line.bendRadiusM,
    holeRadiusM: Math.max(line.holeRadiusM, line.radiusM),
  };
  const prims = primsOfPin(pin, line.bendRadiusM);
  const pieces = piecesOf(prims, structureOf(view.layout), hose);
  const crossings = crossingsOf(pieces, hose);
  const faults: PinFault[] = [...endFaults(line, pin), ...bendFaults(line, prims)];
  const ends = [endAt(world, line, 'from', pin, prims), endAt(world, line, 'to', pin, prims)] as const;
  let minClearanceM = 0;
  for (const one of ends) if ('fault' in one) faults.push(one.fault);
  const [from, to] = ends;
  if (!('fault' in from) && !('fault' in to)) {
    const { flaw, minClearanceM: least } = validate(world, line, pieces, [from, to]);
    minClearanceM = least;
    const isByRun = world.obstacles.some(({ kind, id }) => kind === 'run' && id === flaw?.blocker);
    if (flaw && flaw.byM > (isByRun ? BESIDE_RUN_M : PINNED_TO_M))
      faults.push({ kind: flaw.kind, at: flaw.at, byM: flaw.byM, blocker: flaw.blocker });
  }
  for (const { element } of pieces) {
    if (element?.kind !== 'hole') continue;
    const { panel, hole, frame, params } = element;
    const at = along(along(frame.origin, frame.u, params[0] ?? 0), frame.v, params[1] ?? 0);
    if (!hole) {
      if (panel.rule === 'noDrill') faults.push({ kind: 'noDrill', at, byM: null, blocker: panel.id });
      continue;
    }
    const offM = distance(at, along(hole.at, frame.n, dot(subtract(at, hole.at), frame.n)));
    const missingM = offM + line.radiusM - hole.diameterM / 2;
    if (missingM > PINNED_TO_M) faults.push({ kind: 'hole', at, byM: missingM, blocker: panel.id });
  }
  const lengthM = lengthOf(prims);
  const holesM = pieces.reduce(
    (sum, { element }) => sum + (element?.kind === 'hole' && !element.hole ? element.panel.newHoleCostM : 0),
    0,
  );
  const prices = new WishPrices(world, line.wishes ?? NO_WISHES);
  const costs = { lengthM, holesM, suctionM: 0, ...prices.bill(prims, view.waterLevelM ?? 0) };
  return {
    status: 'routed',
    prims,
    crossings,
    lengthM,
    costM: costOf(costs),
    costs,
    lowerBoundM: 0,
    costBoundM: 0,
    minClearanceM,
    ...bendsOf(prims),
    seed: null,
    ...(turns ? { turns } : {}),
    pinned: faults,
  };
}

/** The way that each elbow end is turned in the run as built; null for a line without any. */
function turnsOf({ from, to }: RoutingLine, { points }: Pin): readonly [number, number] | null {
  if (!from.turns && !to.turns) return null;
  const turned = ({ turns = [] }: Lead, at: Vec3 | undefined, next: Vec3 | undefined): number => {
    if (!at || !next) return 0;
    const along = turns.map((way) => dot(subtract(next, at), way));
    return Math.max(0, along.indexOf(Math.max(...along)));
  };
  return [turned(from, points[0], points[1]), turned(to, points.at(-1), points.at(-2))];
}

/** Whether the ends still meet their ports: by place, and by the way that they look. */
function endFaults(line: RoutingLine, { points }: Pin): readonly PinFault[] {
  return (['from', 'to'] as const).flatMap((end): PinFault[] => {
    const port = line[end];
    const [at, next] = end === 'from' ? [points[0], points[1]] : [points.at(-1), points.at(-2)];
    if (!at || !next) return [];
    const offM = distance(at, port.at);
    if (offM > END_WITHIN_M) return [{ kind: 'endOff', at, byM: offM, blocker: port.thing, end }];
    const legM = Math.max(distance(at, next), 1e-9);
    const cos = dot(scale(subtract(next, at), 1 / legM), port.direction);
    // How far the hose is aside of where it should be, at the end of its rigid part.
    const asideM = Math.max(port.rigidM, line.radiusM) * Math.sqrt(Math.max(0, 1 - cos * cos));
    return cos < END_WITHIN_COS ? [{ kind: 'endTurned', at, byM: asideM, blocker: port.thing, end }] : [];
  });
}

function bendFaults({ bendRadiusM }: RoutingLine, prims: readonly Prim[]): readonly PinFault[] {
  let worst: PinFault | null = null;
  prims.forEach((prim, k) => {
    const isKink = prim.kind === 'line' && prims[k - 1]?.kind === 'line' && turned(prims[k - 1] as Prim, prim);
    const byM = prim.kind === 'arc' ? bendRadiusM - prim.radius : isKink ? bendRadiusM : 0;
    if (byM > PINNED_TO_M && byM > (worst?.byM ?? 0))
      worst = { kind: 'bend', at: prim.from, byM, builtM: bendRadiusM - byM, blocker: null };
  });
  return worst ? [worst] : [];
}

/** Two straights that do not go on in one line. */
function turned(a: Prim, b: Prim): boolean {
  const [p, q] = [subtract(a.to, a.from), subtract(b.to, b.from)];
  return dot(p, q) < (1 - 1e-6) * portable.hypot(...p) * portable.hypot(...q);
}

/** An end as the run has it: where its port was when it was built. */
function endAt(
  world: World,
  line: RoutingLine,
  end: 'from' | 'to',
  { points }: Pin,
  prims: readonly Prim[],
): End | { readonly fault: PinFault } {
  const [at, next] = (end === 'from' ? [points[0], points[1]] : [points.at(-1), points.at(-2)]) as [Vec3, Vec3];
  const first = end === 'from' ? prims[0] : prims.at(-1);
  const straightM = first?.kind === 'line' ? distance(first.from, first.to) : 0;
  const legM = distance(at, next);
  const direction = legM > 1e-9 ? scale(subtract(next, at), 1 / legM) : line[end].direction;
  const lead: Lead = { ...line[end], at, direction };
  const found = endOf(world, line, lead);
  if ('reason' in found) {
    const { kind, blocker, shortByM } = found.reason;
    return { fault: { kind: kind === 'portOutside' ? 'outside' : 'clearance', at, byM: shortByM, blocker, end } };
  }
  if (found.leadM <= straightM + PINNED_TO_M) return found;
  return {
    fault: { kind: 'lead', at, byM: found.leadM - straightM, builtM: straightM, blocker: line[end].thing, end },
  };
}
