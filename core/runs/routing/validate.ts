/**
 * The last word before a run is called routed: every primitive against everything near it, exactly; arcs by chords that are
 * halved until their sagitta no longer decides.
 */
import * as portable from '../../base/portable';
import { dot, type Vec3 } from '../../base/vec';
import type { Cell } from '../../shape/layout/types';
import type { Piece } from './fillet';
import type { End } from './leads';
import { holeCentre } from './polygon';
import { type Arc, pointOnArc } from './prims';
import type { RoutingLine } from './types';
import type { Obstacle, World } from './world';

export interface Flaw {
  readonly kind: 'clearance' | 'outside';
  readonly byM: number;
  readonly at: Vec3;
  readonly blocker: string | null;
}

/** Chords this close to their arc decide. */
const FINE_M = 1e-5;
/** Clearances beyond this are reported as this. */
export const FAR_CLEARANCE_M = 0.25;
const ROUNDING_M = 1e-9;
/** Places between cells that no wall stands in: rounding of outlines. */
const SEAM_M = 2e-5;
/** Straight chords of an arc for the question in which cell it lies. */
const CELL_CHORD_RAD = 0.12;

export interface Verdict {
  readonly flaw: Flaw | null;
  readonly minClearanceM: number;
}

/** A stretch of the run that is looked at as one chord, at most `bowM` from the hose's middle. */
interface Chord {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly bowM: number;
  /** Obstacles that may decide here. */
  readonly near: readonly number[];
  readonly closestM: number;
  readonly blocker: string | null;
  /** Of an arc: which one, and its angles. */
  readonly arc: { readonly prim: Arc; readonly start: number; readonly end: number } | null;
}

export function validate(
  world: World,
  line: RoutingLine,
  pieces: readonly Piece[],
  ends: readonly [End, End],
): Verdict {
  let flaw: Flaw | null = null;
  let least = FAR_CLEARANCE_M;
  const note = (next: Flaw): void => {
    if (!flaw || next.byM > flaw.byM) flaw = next;
  };
  const r = line.radiusM;
  const total = pieces.reduce((sum, piece) => sum + piece.lengthM, 0);

  const look = (a: Vec3, b: Vec3, bowM: number, near: readonly number[], arc: Chord['arc']): Chord => {
    const kept: number[] = [];
    let closestM = FAR_CLEARANCE_M;
    let blocker: string | null = null;
    for (const rank of near) {
      const obstacle = world.obstacles[rank] as Obstacle;
      const cutoff = r + bowM + Math.max(least, obstacle.gapM) + 1e-6;
      const measured = world.distance(rank, a[0], a[1], a[2], b[0], b[1], b[2], cutoff);
      if (measured >= cutoff) continue;
      kept.push(rank);
      const d = measured - bowM - r;
      // A run keeps its gap: what is left beyond it decides, what there is is reported.
      const surfaceM = d < obstacle.gapM - ROUNDING_M ? Math.min(d, d - obstacle.gapM) : d;
      if (surfaceM < closestM) {
        closestM = surfaceM;
        blocker = obstacle.id;
      }
    }
    if (world.hull) {
      const cutoff = r + bowM + least + 1e-6;
      const measured = world.hullClearance(a[0], a[1], a[2], b[0], b[1], b[2], cutoff);
      if (measured < cutoff && measured - bowM - r < closestM) {
        closestM = measured - bowM - r;
        blocker = 'hull';
      }
    }
    return { from: a, to: b, bowM, near: kept, closestM, blocker, arc };
  };
  const nearChord = (a: Vec3, b: Vec3, bowM: number, skip: (obstacle: Obstacle) => boolean): number[] => {
    const reach = r + least + bowM + 0.003;
    const near = world.near(
      Math.min(a[0], b[0]) - reach,
      Math.min(a[1], b[1]) - reach,
      Math.min(a[2], b[2]) - reach,
      Math.max(a[0], b[0]) + reach,
      Math.max(a[1], b[1]) + reach,
      Math.max(a[2], b[2]) + reach,
    );
    return near.filter((rank) => !skip(world.obstacles[rank] as Obstacle));
  };
  const settle = ({ from: a, to: b, closestM, blocker }: Chord): void => {
    if (closestM < -ROUNDING_M)
      note({
        kind: 'clearance',
        byM: -closestM,
        at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2],
        blocker,
      });
    least = Math.min(least, Math.max(0, closestM));
  };

  // Straights first: they are exact at once. Of the arcs, what seems nearest is looked at more closely first, for then most of
  // the others need no closer look.
  const open: Chord[] = [];
  let start = 0;
  const stretches = pieces.map((piece) => {
    const stop = start + piece.lengthM;
    const [from, to] = [start, total - stop];
    start = stop;
    return (obstacle: Obstacle): boolean =>
      obstacle.kind === 'run' &&
      ((obstacle.owner === ends[0].shared && from < sharedStretch(ends[0], line)) ||
        (obstacle.owner === ends[1].shared && to < sharedStretch(ends[1], line)));
  });
  pieces.forEach(({ prim, element }, k) => {
    if (prim.kind !== 'line') return;
    const isShared = stretches[k] as (obstacle: Obstacle) => boolean;
    const panel = element?.kind === 'hole' ? element.frame.panelIndex : -2;
    // The leads were judged at the start, without their own things.
    const a = k === 0 ? ends[0].tip : prim.from;
    const b = k === pieces.length - 1 ? ends[1].tip : prim.to;
    const near = nearChord(a, b, 0, (obstacle) => obstacle.panel === panel || isShared(obstacle));
    settle(look(a, b, 0, near, null));
  });
  pieces.forEach(({ prim, angle }, k) => {
    if (prim.kind !== 'arc') return;
    const parts = Math.max(1, Math.ceil(angle / 0.4));
    const bowM = prim.radius * (1 - portable.cos(angle / parts / 2));
    for (let part = 0; part < parts; part += 1) {
      const arc = { prim, start: (angle * part) / parts, end: (angle * (part + 1)) / parts };
      const [a, b] = [pointOnArc(prim, arc.start), pointOnArc(prim, arc.end)];
      open.push(look(a, b, bowM, nearChord(a, b, bowM, stretches[k] as (obstacle: Obstacle) => boolean), arc));
    }
  });
  for (;;) {
    let nearest = -1;
    open.forEach((chord, k) => {
      if (nearest < 0 || chord.closestM < (open[nearest] as Chord).closestM) nearest = k;
    });
    const chord = open[nearest];
    // What is left is farther than the least found, and no worse than the worst.
    if (!chord || chord.closestM >= least || (flaw && chord.closestM >= -(flaw as Flaw).byM)) break;
    open.splice(nearest, 1);
    if (!chord.arc || chord.bowM <= FINE_M) {
      settle(chord);
      continue;
    }
    const { prim, start: from, end: to } = chord.arc;
    const middle = (from + to) / 2;
    const bowM = prim.radius * (1 - portable.cos((to - from) / 4));
    const at = pointOnArc(prim, middle);
    open.push(
      look(chord.from, at, bowM, chord.near, { prim, start: from, end: middle }),
      look(at, chord.to, bowM, chord.near, { prim, start: middle, end: to }),
    );
  }

  const outside = outsideAt(world, line, pieces, ends);
  if (outside) note({ kind: 'outside', byM: 0.001, at: outside, blocker: null });
  return { flaw, minClearanceM: least };
}

/** Two hoses on one port lie on each other until their bends have parted them. */
export const sharedStretch = (end: { readonly leadM: number }, line: RoutingLine): number =>
  end.leadM + 6 * line.radiusM + 1.5 * line.bendRadiusM;

/** First place where the centre line is in no cell, no open panel and no hole of its own; null when there is none. */
function outsideAt(world: World, line: RoutingLine, pieces: readonly Piece[], ends: readonly [End, End]): Vec3 | null {
  const { layout } = world.view;
  const forbidden = new Set(line.forbiddenCompartments);
  const isOpen = (cell: Cell): boolean => !forbidden.has(cell.compartment);
  let last: Cell | null = null;
  const covered = (a: Vec3, b: Vec3, piece: Piece): Vec3 | null => {
    // Cells are convex: what begins and ends in one stays there.
    if (last && holds(last, a) && holds(last, b)) return null;
    const spans: [number, number][] = [];
    const length = portable.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) || 1e-9;
    const slack = SEAM_M / length;
    for (const cell of layout.cells) {
      if (misses(cell, a, b)) continue;
      if (!isOpen(cell)) continue;
      const span = spanIn(cell.planes, a, b);
      if (!span) continue;
      spans.push(span);
      if (span[1] === 1) last = cell;
    }
    for (const doorway of world.structure.doorways) {
      if (misses(doorway, a, b)) continue;
      const span = spanIn(doorway.planes, a, b);
      if (span) spans.push(span);
    }
    if (piece.element?.kind === 'hole' && piece.prim.kind === 'line') {
      const centre = holeCentre(piece.element);
      const t = portable.hypot(centre[0] - a[0], centre[1] - a[1], centre[2] - a[2]) / length;
      const half = (piece.element.stubM + 1e-5) / length;
      spans.push([t - half, t + half]);
    }
    spans.sort((p, q) => p[0] - q[0]);
    let done = 0;
    for (const [from, to] of spans) {
      if (from > done + slack) break;
      done = Math.max(done, to);
    }
    if (done >= 1 - slack) return null;
    return [a[0] + (b[0] - a[0]) * done, a[1] + (b[1] - a[1]) * done, a[2] + (b[2] - a[2]) * done];
  };
  for (let k = 0; k < pieces.length; k += 1) {
    const piece = pieces[k] as Piece;
    const { prim } = piece;
    if (prim.kind === 'line') {
      const a = k === 0 ? ends[0].tip : prim.from;
      const b = k === pieces.length - 1 ? ends[1].tip : prim.to;
      const out = covered(a, b, piece);
      if (out) return out;
      continue;
    }
    const parts = Math.max(1, Math.ceil(piece.angle / CELL_CHORD_RAD));
    for (let part = 0; part < parts; part += 1) {
      const out = covered(
        pointOnArc(prim, (piece.angle * part) / parts),
        pointOnArc(prim, (piece.angle * (part + 1)) / parts),
        piece,
      );
      if (out) return out;
    }
  }
  return null;
}

const misses = ({ low, high }: { readonly low: Vec3; readonly high: Vec3 }, a: Vec3, b: Vec3): boolean =>
  Math.max(a[0], b[0]) < low[0] ||
  Math.min(a[0], b[0]) > high[0] ||
  Math.max(a[1], b[1]) < low[1] ||
  Math.min(a[1], b[1]) > high[1] ||
  Math.max(a[2], b[2]) < low[2] ||
  Math.min(a[2], b[2]) > high[2];

const holds = ({ planes }: Cell, p: Vec3): boolean => {
  for (const { normal, offset } of planes)
    if (normal[0] * p[0] + normal[1] * p[1] + normal[2] * p[2] > offset + 1e-6) return false;
  return true;
};

/** Part of the segment inside all planes, or null. */
function spanIn(
  planes: readonly { readonly normal: Vec3; readonly offset: number }[],
  a: Vec3,
  b: Vec3,
): [number, number] | null {
  let from = 0;
  let to = 1;
  for (const { normal, offset } of planes) {
    const out = dot(normal, a) - offset - 1e-6;
    const rise = dot(normal, b) - offset - 1e-6 - out;
    if (rise === 0) {
      if (out > 0) return null;
    } else if (rise > 0) to = Math.min(to, -out / rise);
    else from = Math.max(from, -out / rise);
    if (from > to) return null;
  }
  return [from, to];
}
