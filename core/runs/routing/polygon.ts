/**
 * The tangent polygon of a hose: corners that fillets of the bend radius round off. Its elements know what may move: a lead's
 * corner slides on its port's ray, a hole slides in its panel with a corner on each side on the panel's normal, a clip point
 * holds the straight between two corners, everything else is free.
 */
import * as portable from '../../base/portable';
import { squareTo, type Vec3 } from '../../base/vec';
import type { Panel, PanelHole } from '../../shape/layout/types';
import type { PortalFrame } from './structure';

export type Element =
  | { readonly kind: 'lead'; readonly at: Vec3; readonly out: Vec3; readonly leadM: number; params: number[] }
  | { readonly kind: 'free'; params: number[] }
  | {
      readonly kind: 'hole';
      readonly frame: PortalFrame;
      readonly panel: Panel;
      readonly hole: PanelHole | null;
      readonly forward: boolean;
      readonly stubM: number;
      /** u, v of the hole in the frame; distances of the corners before and behind. */
      params: number[];
    }
  | { readonly kind: 'clip'; readonly at: Vec3; params: number[] };

/** Straight hose on both sides of a clip point. */
export const CLIP_STRAIGHT_M = 0.004;

export const cornersOf = (element: Element): number => (element.kind === 'hole' || element.kind === 'clip' ? 2 : 1);

/** Writes the element's corners into the coordinate arrays from index k on. */
export function placeCorners(element: Element, k: number, x: number[], y: number[], z: number[]): void {
  const p = element.params;
  switch (element.kind) {
    case 'lead': {
      const a = p[0] as number;
      x[k] = element.at[0] + element.out[0] * a;
      y[k] = element.at[1] + element.out[1] * a;
      z[k] = element.at[2] + element.out[2] * a;
      return;
    }
    case 'free':
      x[k] = p[0] as number;
      y[k] = p[1] as number;
      z[k] = p[2] as number;
      return;
    case 'hole': {
      const { origin, u, v, n } = element.frame;
      const side = element.forward ? 1 : -1;
      const before = -side * (p[2] as number);
      const behind = side * (p[3] as number);
      const cx = origin[0] + u[0] * (p[0] as number) + v[0] * (p[1] as number);
      const cy = origin[1] + u[1] * (p[0] as number) + v[1] * (p[1] as number);
      const cz = origin[2] + u[2] * (p[0] as number) + v[2] * (p[1] as number);
      x[k] = cx + n[0] * before;
      y[k] = cy + n[1] * before;
      z[k] = cz + n[2] * before;
      x[k + 1] = cx + n[0] * behind;
      y[k + 1] = cy + n[1] * behind;
      z[k + 1] = cz + n[2] * behind;
      return;
    }
    case 'clip': {
      const [ax, ay, az] = [p[0] as number, p[1] as number, p[2] as number];
      const dx = element.at[0] - ax;
      const dy = element.at[1] - ay;
      const dz = element.at[2] - az;
      const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
      const beyond = length > 1e-9 ? (p[3] as number) / length : 0;
      x[k] = ax;
      y[k] = ay;
      z[k] = az;
      x[k + 1] = element.at[0] + dx * beyond;
      y[k + 1] = element.at[1] + dy * beyond;
      z[k + 1] = element.at[2] + dz * beyond;
    }
  }
}

/** Centre of a hole in the middle plane. */
export function holeCentre(element: Extract<Element, { kind: 'hole' }>): Vec3 {
  const { origin, u, v } = element.frame;
  const a = element.params[0] as number;
  const b = element.params[1] as number;
  return [origin[0] + u[0] * a + v[0] * b, origin[1] + u[1] * a + v[1] * b, origin[2] + u[2] * a + v[2] * b];
}

/** Beyond this turn one corner lies too far out: two corners make the bend. */
const SHARP_RAD = 1.8;

/**
 * Splits turns that one fillet does badly. A hose that leaves a port or a hole backwards gets the two right angles of a U.
 */
export function unfold(elements: readonly Element[], bendRadiusM: number): Element[] {
  const out: Element[] = [];
  const corners = elements.map((element) => {
    const x: number[] = [];
    const y: number[] = [];
    const z: number[] = [];
    placeCorners(element, 0, x, y, z);
    return x.map((_, i): Vec3 => [x[i] as number, y[i] as number, z[i] as number]);
  });
  const first = (k: number): Vec3 | null => corners[k]?.[0] ?? null;
  const last = (k: number): Vec3 | null => corners[k]?.at(-1) ?? null;
  elements.forEach((element, k) => {
    const entry = entryDirection(element);
    const before = k > 0 ? last(k - 1) : null;
    if (entry && before && k > 0) {
      const here = first(k) as Vec3;
      const bend = sharpTurn([here[0] - before[0], here[1] - before[1], here[2] - before[2]], entry);
      // Seen backwards: the hose leaves the corner against its entry, towards where it comes from.
      if (bend) out.push(freeAt(here, bend, -2 * bendRadiusM));
    }
    const exit = exitDirection(element);
    const after = first(k + 1);
    if (element.kind === 'free' && before && after) {
      const here = first(k) as Vec3;
      const bend = sharpTurn(
        [after[0] - here[0], after[1] - here[1], after[2] - here[2]],
        [here[0] - before[0], here[1] - before[1], here[2] - before[2]],
      );
      if (bend) {
        out.push(freeAt(here, bend, -bendRadiusM), freeAt(here, bend, bendRadiusM));
        return;
      }
    }
    out.push(element);
    if (exit && after && k + 1 < elements.length) {
      const here = last(k) as Vec3;
      const bend = sharpTurn([after[0] - here[0], after[1] - here[1], after[2] - here[2]], exit);
      if (bend) out.push(freeAt(here, bend, 2 * bendRadiusM));
    }
  });
  return out;
}

const freeAt = (p: Vec3, d: Vec3, k: number): Element => ({
  kind: 'free',
  params: [p[0] + d[0] * k, p[1] + d[1] * k, p[2] + d[2] * k],
});

function entryDirection(element: Element): Vec3 | null {
  if (element.kind === 'lead') return [-element.out[0], -element.out[1], -element.out[2]];
  if (element.kind !== 'hole') return null;
  const { n } = element.frame;
  return element.forward ? n : [-n[0], -n[1], -n[2]];
}

function exitDirection(element: Element): Vec3 | null {
  return element.kind === 'lead' ? element.out : element.kind === 'hole' ? entryDirection(element) : null;
}

/** Unit direction square to `along` on the side of `way` when the turn between them is too sharp for one fillet, else null. */
function sharpTurn(way: Vec3, along: Vec3): Vec3 | null {
  const length = portable.hypot(...way);
  const straight = portable.hypot(...along);
  if (length < 1e-9 || straight < 1e-9) return null;
  const a: Vec3 = [along[0] / straight, along[1] / straight, along[2] / straight];
  const cos = (way[0] * a[0] + way[1] * a[1] + way[2] * a[2]) / length;
  if (cos > portable.cos(SHARP_RAD)) return null;
  const side: Vec3 = [way[0] / length - a[0] * cos, way[1] / length - a[1] * cos, way[2] / length - a[2] * cos];
  const size = portable.hypot(...side);
  return size > 1e-3 ? [side[0] / size, side[1] / size, side[2] / size] : squareTo(a);
}
