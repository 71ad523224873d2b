import { dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import type { Layout, Wall } from '../../shape/layout/types';
import { openingAxes } from './opening-reach';

/** An opening lies in a wall when it is this near its plane and the two are this parallel. */
const IN_WALL_M = 0.06;
const PARALLEL = 0.98;

export interface PushedSection {
  readonly at: Vec3;
  readonly direction: Vec3;
  /** Radius of the circle round the cross-section. */
  readonly radiusM: number;
}

/**
 * The layout with the walls left out that a task works through an opening: the whole cross-section lies inside the clear area when it gets to
 * the wall. A lid is lifted before a basket is drawn through it.
 */
export function withOpeningsOpen(
  layout: Layout,
  openings: Readonly<Record<string, Opening>>,
  push: PushedSection,
): Layout {
  const lifted = Object.values(openings).filter((opening) => opening.how !== 'screwed' && passesThrough(opening, push));
  if (lifted.length === 0) return layout;
  const isOpen = (wall: Wall) => lifted.some((opening) => liesIn(opening, wall));
  return { ...layout, walls: layout.walls.filter((wall) => !isOpen(wall)) };
}

function passesThrough(opening: Opening, push: PushedSection): boolean {
  const { normal, up, across } = openingAxes(opening);
  const speed = dot(push.direction, normal);
  if (Math.abs(speed) < 0.2) return false;
  const t = dot(subtract(opening.at, push.at), normal) / speed;
  if (t < -1e-9) return false;
  const hit = subtract(subtract(push.at, scale(push.direction, -t)), opening.at);
  const [u, v] = [Math.abs(dot(hit, across)), Math.abs(dot(hit, up))];
  if (opening.shape === 'round') return Math.hypot(u, v) + push.radiusM <= opening.widthM / 2;
  return u + push.radiusM <= opening.widthM / 2 && v + push.radiusM <= opening.heightM / 2;
}

function liesIn(opening: Opening, wall: Wall): boolean {
  const { normal } = openingAxes(opening);
  const first = wall.polygon[0];
  if (!first || Math.abs(dot(normal, wall.normal)) < PARALLEL) return false;
  return Math.abs(dot(subtract(opening.at, first), wall.normal)) <= IN_WALL_M + wall.thicknessM / 2;
}
