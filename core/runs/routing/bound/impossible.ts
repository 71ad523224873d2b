import * as portable from '../../../base/portable';
import { along, cross, distance, dot, norm, scale, squareTo, subtract, type Vec3 } from '../../../base/vec';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout, Wall } from '../../../shape/layout/types';
import type { Solid } from '../../../shape/space/solids';
import { structureOf } from '../structure';
import type { BlockReason, RoutingLine, RoutingView } from '../types';
import { eventOf, intoCell, type Way } from './crossings';
import { nearestInDomain } from './domain';
import type { BoundEvent } from './dual';
import { ask, type Question } from './question';

/**
 * Proofs that a line has no run at all, and what is in the way. They rest on two facts of a curve of least radius R that leaves a
 * place in a given direction:
 *
 * - Until it has come a depth x < R forward it cannot have come more than R - sqrt(R^2 - x^2) aside, for its direction has turned by
 *   asin(x / R) at most. Where that whole disc is taken by one thing, or by the hull, there is no way on (`headOn`).
 * - To be turned by a right angle it must come R forward. A compartment that is left and entered through holes alone must be as deep
 *   (`needsDepth`).
 *
 * A run is a walk over crossings; when no walk is left from end to end, there is none. What is known too roughly counts as free.
 */
export function whyImpossible(line: RoutingLine, view: ProofView): BlockReason | null {
  const question = ask(line, view.layout);
  if (question.adrift) return null;
  return new Walks(line, view, question).firstGap();
}

/** The hull without its ribs: a line whose end stands among them is led as if there were none. */
type ProofView = Pick<RoutingView, 'layout' | 'hull' | 'skin' | 'thingsIn'>;

interface Gap {
  readonly at: Vec3;
  readonly blocker: string | null;
  readonly shortByM: number;
}

/** What is missing by less than this is not called missing. */
const SURE_M = 1e-4;
const DEPTHS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99, 0.999] as const;
/** A disc lies in the polygon of so many corners round it. */
const CORNERS = 12;

class Walks {
  private readonly tolls = new Map<number, Gap | null>();
  private readonly holeOnly = new Map<number, boolean>();
  private readonly hull: HullSurface | null;
  private readonly layout: Layout;

  constructor(
    private readonly line: RoutingLine,
    private readonly view: ProofView,
    private readonly question: Question,
  ) {
    this.hull = view.skin === undefined ? view.hull : view.skin;
    this.layout = view.layout;
  }

  /** The first thing in the way on the walk that lacks least in all; null when a walk lacks nothing. */
  firstGap(): BlockReason | null {
    const { start, goal, ways, leaving, startCells, goalCells } = this.question;
    const ends = [this.endGap(start, 1, this.line.from.at), this.endGap(goal, -1, this.line.to.at)];
    const atEnd = ends.find((gap) => gap !== null);
    if (atEnd) return reasonOf(atEnd);
    const cost = new Map<number, number>();
    const first = new Map<number, Gap | null>();
    const done = new Set<number>();
    const reach = (node: number, before: number, gaps: readonly (Gap | null)[], came: Gap | null): void => {
      const sum = gaps.reduce((total, gap) => total + (gap?.shortByM ?? 0), before);
      if (sum >= (cost.get(node) ?? Number.POSITIVE_INFINITY)) return;
      cost.set(node, sum);
      first.set(node, came ?? gaps.find((gap) => gap !== null) ?? null);
    };
    for (const room of startCells) {
      if (goalCells.has(room)) reach(GOAL, 0, [this.turnGap(room, start, goal)], null);
      for (const node of leaving.get(room) ?? [])
        reach(node, 0, [this.turnGap(room, start, eventOf(ways, node)), this.toll(node)], null);
    }
    for (;;) {
      let node: number | null = null;
      for (const [one, sum] of cost)
        if (!done.has(one) && (node === null || sum < (cost.get(node) as number))) node = one;
      // No chain of panels at all: that has another name.
      if (node === null) return null;
      const gap = first.get(node) ?? null;
      if (node === GOAL) return gap && reasonOf(gap);
      done.add(node);
      const room = intoCell(ways, node);
      const event = eventOf(ways, node);
      const sum = cost.get(node) as number;
      if (goalCells.has(room)) reach(GOAL, sum, [this.turnGap(room, event, goal)], gap);
      for (const next of leaving.get(room) ?? [])
        if (!done.has(next)) reach(next, sum, [this.turnGap(room, event, eventOf(ways, next)), this.toll(next)], gap);
    }
  }

  /** What stands right before an end, whatever way is taken. */
  private endGap({ domain, tangent }: BoundEvent, sense: 1 | -1, at: Vec3): Gap | null {
    if (!tangent) return null;
    const gap = this.headOn(domain.centre, scale(tangent, sense), 0, -1);
    return gap && { at, ...gap };
  }

  /** What stands right before or behind a hole that is there; a hole to be drilled may be elsewhere. */
  private toll(node: number): Gap | null {
    const known = this.tolls.get(node >> 1);
    if (known !== undefined) return known;
    const way = this.question.ways[node >> 1] as Way;
    const { domain, tangent, stub } = eventOf(this.question.ways, node);
    let gap: Gap | null = null;
    if (way.isHole && tangent)
      for (const out of [tangent, scale(tangent, -1)]) {
        const found = this.headOn(along(domain.centre, out, stub), out, domain.size, way.portal);
        if (found && found.shortByM > (gap?.shortByM ?? 0)) gap = { at: domain.centre, ...found };
      }
    this.tolls.set(node >> 1, gap);
    return gap;
  }

  /** The least that must give way for a hose that goes on from `from`, which may lie `beside` of where it is said to. */
  private headOn(
    from: Vec3,
    out: Vec3,
    beside: number,
    portal: number,
  ): { readonly blocker: string; readonly shortByM: number } | null {
    const { radius } = this.question;
    const r = this.line.radiusM;
    const ends = [this.question.start, this.question.goal];
    const solids = this.solidsNear(from, 2 * radius + beside + r, portal);
    let worst: { readonly blocker: string; readonly shortByM: number } | null = null;
    const note = (blocker: string, shortByM: number): void => {
      if (shortByM > Math.max(SURE_M, worst?.shortByM ?? 0)) worst = { blocker, shortByM };
    };
    const rims: (readonly Vec3[])[] = [];
    for (const share of DEPTHS) {
      const depth = share * radius;
      const aside = radius - Math.sqrt(radius * radius - depth * depth) + beside;
      const reach = radius * portable.asin(share) + beside;
      // The run may end before it has come so far.
      const endsHere = ends.some(({ domain }) => {
        const far = distance(domain.centre, from);
        return far > 1e-9 && far <= reach + SURE_M;
      });
      if (endsHere) break;
      const middle = along(from, out, depth);
      if (this.hull) {
        const need = r - aside;
        const free = Math.max(0, this.hull.clearance(middle, middle, r + 0.5));
        // What is free at the middle of the disc is at most so much more elsewhere in it; outside the hull it counts as nothing.
        if (need > free) note('hull', need - free);
      }
      rims.push(rimOf(middle, out, aside));
    }
    for (const { owner, off } of solids) {
      const lacking = (back: number): number =>
        rims.reduce((most, rim) => Math.max(most, r - farthest(rim, (p) => off(along(p, out, -back)))), 0);
      const least = lacking(0);
      if (least <= SURE_M) continue;
      // What the hose lies along from the start lacks room aside, not ahead.
      note(owner, (off(from) < r ? null : recession(lacking, 2 * (radius + r))) ?? least);
    }
    return worst;
  }

  private solidsNear(
    p: Vec3,
    reach: number,
    portal: number,
  ): readonly { readonly owner: string; off(p: Vec3): number }[] {
    const found = new Map<string, { readonly owner: string; off(p: Vec3): number }>();
    const own = portal < 0 ? undefined : this.layout.portals[portal]?.panelId;
    this.layout.cells.forEach(({ low, high, index }) => {
      if (
        [0, 1, 2].some(
          (k) => (p[k] as number) + reach < (low[k] as number) || (p[k] as number) - reach > (high[k] as number),
        )
      )
        return;
      for (const solid of this.view.thingsIn(index))
        if (solid.layer !== 'serviceKeepOut' && solid.type === 'box')
          found.set(solid.id, { owner: solid.owner, off: (q) => offBox(solid, q) });
      for (const k of structureOf(this.layout).wallsOfCell[index] as Int32Array) {
        const wall = this.layout.walls[k] as Wall;
        const panel = wall.panelId === undefined ? undefined : this.layout.panels[wall.panelId];
        // A panel may be passed where it is open, drilled or has a hole.
        if (panel && (panel.id === own || panel.rule !== 'noDrill' || panel.holes.length > 0)) continue;
        found.set(wall.id, { owner: panel?.id ?? wall.id, off: (q) => offPlate(wall, q) });
      }
    });
    return [...found.values()];
  }

  /** How much deeper a room would have to be for the turn between two events in it that are at least a right angle apart. */
  private turnGap(room: number, from: BoundEvent, to: BoundEvent): Gap | null {
    if (!from.tangent || !to.tangent || dot(from.tangent, to.tangent) > 0 || !this.isLeftByHolesOnly(room)) return null;
    const cell = this.layout.cells[room] as Layout['cells'][number];
    const gaps = [[from, from.tangent] as const, [to, scale(to.tangent, -1)] as const].map(
      ([{ domain, stub }, out]): Gap => {
        const depth = cell.corners.reduce((most, p) => Math.max(most, dot(p, out)), Number.NEGATIVE_INFINITY);
        const nearest = domain.ring.reduce((least, p) => Math.min(least, dot(p, out)), Number.POSITIVE_INFINITY);
        const needed = stub + this.question.radius + this.line.radiusM;
        return {
          at: domain.centre,
          blocker: cell.compartment,
          shortByM: needed - (depth - nearest) - WALL_IN_M,
        };
      },
    );
    const worst = (gaps[0] as Gap).shortByM >= (gaps[1] as Gap).shortByM ? (gaps[0] as Gap) : (gaps[1] as Gap);
    return worst.shortByM > SURE_M ? worst : null;
  }

  /** True for a room that is one cell, and that no open panel and no cut joins to another. */
  private isLeftByHolesOnly(room: number): boolean {
    const known = this.holeOnly.get(room);
    if (known !== undefined) return known;
    const { portals, cells, overlaps } = this.layout;
    const compartment = cells[room]?.compartment;
    const found =
      !overlaps.some(({ between }) => between.some((id) => id === compartment)) &&
      portals.every(
        ({ cells: [a, b], kind, panelId }) =>
          (a !== room && b !== room) || (kind === 'panel' && this.layout.panels[panelId]?.rule !== 'open'),
      );
    this.holeOnly.set(room, found);
    return found;
  }
}
const GOAL = -1;
/** The space between two outlines, and rounding, may add this much to the depth of a compartment. */
const WALL_IN_M = 0.04;

const farthest = (rim: readonly Vec3[], off: (p: Vec3) => number): number =>
  rim.reduce((most, p) => Math.max(most, off(p)), Number.NEGATIVE_INFINITY);

/** How far a thing must stand back so that nothing lacks: to a tenth of a millimetre, null beyond `mostM`. */
function recession(lacking: (back: number) => number, mostM: number): number | null {
  let back = RECESSION_STEP_M;
  while (lacking(back) > 0) {
    back += RECESSION_STEP_M;
    if (back > mostM) return null;
  }
  let from = back - RECESSION_STEP_M;
  while (back - from > SURE_M / 2) {
    const middle = (from + back) / 2;
    if (lacking(middle) > 0) from = middle;
    else back = middle;
  }
  // What is surely missing.
  return from;
}
const RECESSION_STEP_M = 2e-3;

const reasonOf = (gap: Gap): BlockReason => ({ kind: 'turn', ...gap, tries: 0 });

function rimOf(middle: Vec3, out: Vec3, radius: number): readonly Vec3[] {
  const u = squareTo(out);
  const v = cross(out, u);
  const far = radius / portable.cos(Math.PI / CORNERS);
  return Array.from({ length: CORNERS }, (_, k) => {
    const turn = (2 * Math.PI * k) / CORNERS;
    return along(along(middle, u, far * portable.cos(turn)), v, far * portable.sin(turn));
  });
}

/** Signed distance to a box, negative inside: a convex function, greatest over a disc on its rim. */
function offBox({ centre, half, axes }: Extract<Solid, { type: 'box' }>, p: Vec3): number {
  const d = subtract(p, centre);
  const [x, y, z] = [0, 1, 2].map((k) => Math.abs(dot(d, axes[k] as Vec3)) - (half[k] as number)) as [
    number,
    number,
    number,
  ];
  return norm([Math.max(0, x), Math.max(0, y), Math.max(0, z)]) + Math.min(0, Math.max(x, y, z));
}

/** Distance to a plate; inside it, how far from the nearer face, negative. */
function offPlate({ polygon, normal, thicknessM }: Wall, p: Vec3): number {
  const height = Math.abs(dot(normal, p) - dot(normal, polygon[0] as Vec3));
  const far = distance(nearestInDomain({ ring: polygon, normal }, p), p);
  const beside = Math.sqrt(Math.max(0, far * far - height * height));
  return beside > 1e-9 ? portable.hypot(Math.max(0, height - thicknessM / 2), beside) : height - thicknessM / 2;
}
