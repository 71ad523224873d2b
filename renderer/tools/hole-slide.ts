import { footOnLeg } from '@core/base/segment';
import { along, cross, distance, dot, norm, ORIGIN, scale, subtract, type Vec2, type Vec3 } from '@core/base/vec';
import { project, type ViewFrame } from '@core/output/views/drawing';
import { BETWEEN_HOLES_M } from '@core/runs/routing/nodes';
import { frameOf, nearestOnPolygon } from '@core/shape/layout/polygon';
import type { Panel } from '@core/shape/layout/types';

type Board = Pick<Panel, 'normal' | 'pieces' | 'edges' | 'edgeM' | 'holes'>;

export interface Slid {
  readonly at: Vec3;
  readonly stoppedBy: 'edge' | 'hole' | null;
}

/** Rounds in which a hole is pushed off edges and off other holes. */
const ROUNDS = 12;
const CLOSE_ENOUGH_M = 1e-5;

/**
 * The place of a hole of a diameter in its panel nearest to a wished one: off the edges by what the panel asks, and off other
 * holes. `own`: the hole that moves, by its place. Null where the panel has no such place near by.
 */
export function slidTo(panel: Board, wish: Vec3, diameterM: number, own: Vec3): Slid | null {
  const others = othersIn(panel, own);
  let at = insideOf(panel, wish);
  let stoppedBy: Slid['stoppedBy'] = distance(at, onPanel(panel, wish)) > CLOSE_ENOUGH_M ? 'edge' : null;
  const fromEdge = diameterM / 2 + panel.edgeM;
  for (let round = 0; round < ROUNDS; round += 1) {
    let isClear = true;
    for (const [a, b] of panel.edges) {
      const foot = footOnLeg(at, a, b);
      const away = distance(at, foot);
      if (away >= fromEdge - CLOSE_ENOUGH_M) continue;
      isClear = false;
      stoppedBy = 'edge';
      at = pushed(at, away > CLOSE_ENOUGH_M ? subtract(at, foot) : inwards(panel, a, b), fromEdge - away);
    }
    for (const hole of others) {
      const need = (diameterM + hole.diameterM) / 2 + BETWEEN_HOLES_M;
      const away = distance(at, hole.at);
      if (away >= need - CLOSE_ENOUGH_M) continue;
      isClear = false;
      stoppedBy = 'hole';
      at = pushed(at, away > CLOSE_ENOUGH_M ? subtract(at, hole.at) : subtract(own, hole.at), need - away);
    }
    if (isClear) return { at, stoppedBy };
    at = insideOf(panel, at);
  }
  return null;
}

/** Wood that is left from the rim of a hole to the nearest edge of its panel, metres. */
export const edgeLeft = (panel: Board, at: Vec3, diameterM: number): number =>
  Math.min(...panel.edges.map(([a, b]) => distance(at, footOnLeg(at, a, b)))) - diameterM / 2;

/** Wood that is left to the nearest other hole, metres; null without any. `own`: where the hole itself is drilled or planned. */
export function holeLeft(panel: Board, at: Vec3, diameterM: number, own: Vec3): number | null {
  const gaps = othersIn(panel, own).map((hole) => distance(hole.at, at) - (diameterM + hole.diameterM) / 2);
  return gaps.length === 0 ? null : Math.min(...gaps);
}

const othersIn = ({ holes }: Board, own: Vec3): Board['holes'] =>
  holes.filter(({ at, diameterM }) => distance(at, own) > diameterM / 2);

/** The move within a panel that a view shows as the given one; seen edge on, a panel leaves one way only. */
export function inPanel(panel: Board, frame: ViewFrame, by: Vec2): Vec3 {
  const { u, v } = frameOf(panel.normal, ORIGIN);
  const [pu, pv] = [project(frame, u), project(frame, v)];
  // The least move whose picture comes nearest: the normal equations of two unknowns, slightly damped for the edge-on view.
  const damp = 1e-6;
  const a = pu[0] * pu[0] + pu[1] * pu[1] + damp;
  const b = pu[0] * pv[0] + pu[1] * pv[1];
  const c = pv[0] * pv[0] + pv[1] * pv[1] + damp;
  const p = pu[0] * by[0] + pu[1] * by[1];
  const q = pv[0] * by[0] + pv[1] * by[1];
  const size = a * c - b * b;
  return along(scale(u, (p * c - q * b) / size), v, (q * a - p * b) / size);
}

const onPanel = ({ normal, pieces }: Board, p: Vec3): Vec3 => {
  const level = dot(normal, pieces[0]?.[0] ?? p);
  return along(p, normal, level - dot(normal, p));
};

/** The point of the panel's outline that is nearest. */
function insideOf({ pieces, normal }: Board, p: Vec3): Vec3 {
  let best: Vec3 = p;
  let least = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    const near = nearestOnPolygon(piece, normal, p);
    const off = distance(near, p);
    if (off < least) [best, least] = [near, off];
  }
  return best;
}

/** Square to an edge in the plane of the panel, towards the middle of the piece that it bounds. */
function inwards({ pieces, normal }: Board, a: Vec3, b: Vec3): Vec3 {
  const foot: Vec3 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
  const middles = pieces.map((piece) =>
    scale(
      piece.reduce((sum, p): Vec3 => [sum[0] + p[0], sum[1] + p[1], sum[2] + p[2]], ORIGIN),
      1 / piece.length,
    ),
  );
  const middle = middles.reduce((best, one) => (distance(one, foot) < distance(best, foot) ? one : best));
  const square = cross(normal, subtract(b, a));
  return dot(square, subtract(middle, foot)) < 0 ? scale(square, -1) : square;
}

function pushed(p: Vec3, way: Vec3, by: number): Vec3 {
  const size = norm(way);
  return size > 0 ? along(p, way, by / size) : p;
}
