import * as portable from '../../../base/portable';
import { distanceToLeg } from '../../../base/segment';
import { distance, dot, norm, scale, subtract, type Vec3 } from '../../../base/vec';
import type { Panel, Portal } from '../../../shape/layout/types';
import type { Structure } from '../structure';
import { cutDomain, type Domain, nearestInDomain } from './domain';

/** A hole may be off its panel's plane or piece by this much, and is believed to be nearer its edge by as much. */
export const BESIDE_M = 0.001;
/** Rounding of outlines. */
const ON_EDGE_M = 1e-4;

/** Where the middle of a hose may pass an open panel or a cut inside a compartment: off the walls that its sides lie in. */
export const clearOfWalls = (whole: Domain, rim: Rim, radiusM: number): Domain | null =>
  inset(
    whole,
    rim.toWallM.map((off) => radiusM - off),
  );

/** Where a hole keeps its distance from the edges of its panel; the seams between its pieces are none. */
export const withinEdges = (whole: Domain, rim: Rim, away: number): Domain | null =>
  inset(
    whole,
    rim.isEdge.map((isEdge) => (isEdge ? away - BESIDE_M : 0)),
  );

/** The sides of a portal: how near each lies to one wall all along, and whether it is an edge of its panel. */
export interface Rim {
  readonly toWallM: readonly number[];
  readonly isEdge: readonly boolean[];
}

/** The rim of a portal's domain among the walls of both its cells and the edges of its panel. */
export function rimOf({ ring }: Domain, { cells }: Portal, panel: Panel | undefined, structure: Structure): Rim {
  const near = [...new Set(cells.flatMap((cell) => [...(structure.wallsOfCell[cell] as Int32Array)]))];
  const walls = near.map((k) => {
    const { polygon, normal, thicknessM } = structure.layout.walls[k] as Structure['layout']['walls'][number];
    return { plane: { ring: polygon, normal }, level: dot(normal, polygon[0] as Vec3), half: thicknessM / 2 };
  });
  const sides = ring.map((a, k) => [a, ring[(k + 1) % ring.length] as Vec3] as const);
  const toWall = (a: Vec3, b: Vec3): number => {
    let least = WALL_WITHIN_M;
    for (const { plane, level, half } of walls) {
      const [ha, hb] = [dot(plane.normal, a) - level, dot(plane.normal, b) - level];
      if (Math.abs(ha) - half > least || Math.abs(hb) - half > least) continue;
      // A plate is convex: what lies between two points that are near it is as near.
      const off = (p: Vec3, h: number): number => {
        const beside = distance(nearestInDomain(plane, p), p);
        return portable.hypot(Math.max(0, Math.abs(h) - half), Math.sqrt(Math.max(0, beside * beside - h * h)));
      };
      least = Math.min(least, Math.max(off(a, ha), off(b, hb)));
    }
    return least < WALL_WITHIN_M ? least : Number.POSITIVE_INFINITY;
  };
  const isDrilled = panel !== undefined && panel.rule !== 'open';
  return {
    toWallM: sides.map(([a, b]) => (isDrilled ? Number.POSITIVE_INFINITY : toWall(a, b))),
    isEdge: sides.map(
      ([a, b]) =>
        isDrilled &&
        panel.edges.some(([p, q]) => distanceToLeg(a, p, q) < ON_EDGE_M && distanceToLeg(b, p, q) < ON_EDGE_M),
    ),
  };
}
/** Walls farther away than any hose is thick. */
const WALL_WITHIN_M = 0.1;

/**
 * Each side moved inwards by its own amount. What is given up must lie that near the side itself and not only near its line: at an
 * obtuse corner the next side has to give up the wedge between.
 */
function inset(whole: Domain, amounts: readonly number[]): Domain | null {
  const { ring, normal } = whole;
  const count = ring.length;
  if (count < 3) return whole;
  const sides = ring.map((a, k) => {
    const b = ring[(k + 1) % count] as Vec3;
    const d = subtract(b, a);
    const length = norm(d);
    return { a, d: length > 0 ? scale(d, 1 / length) : d, length, amount: 0 };
  });
  sides.forEach((side, k) => {
    // Slivers of rounding are no sides.
    side.amount = side.length > ON_EDGE_M ? Math.max(0, amounts[k] as number) : 0;
  });
  for (let pass = 0; pass < count; pass++)
    for (let k = 0; k < count; k++) {
      const side = sides[k] as (typeof sides)[number];
      for (const by of [1, count - 1]) {
        const next = sides[(k + by) % count] as (typeof sides)[number];
        // Cosine of the outer angle: positive where the corner is obtuse.
        const cos = dot(side.d, next.d);
        if (cos < 1e-6 || side.amount === 0) continue;
        const sin = Math.sqrt(Math.max(0, 1 - cos * cos));
        side.amount = side.amount * sin > next.length ? 0 : Math.min(side.amount, next.amount / cos);
      }
    }
  let room: Domain | null = whole;
  for (const { a, d, amount } of sides) {
    if (!room || amount <= 0) continue;
    // The ring runs counter-clockwise about the normal: outwards is on the right hand.
    const out: Vec3 = [
      d[1] * normal[2] - d[2] * normal[1],
      d[2] * normal[0] - d[0] * normal[2],
      d[0] * normal[1] - d[1] * normal[0],
    ];
    room = cutDomain(room, out, dot(out, a) - amount);
  }
  return room;
}
