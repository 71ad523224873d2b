import { scale, type Vec3 } from '../../base/vec';
import type { Portal } from './types';

type Loose = Omit<Portal, 'index'>;

/** Coordinates this near are one. */
const SAME_M = 1e-6;

/**
 * Portals in the order of their places and looking forward, those athwart up or outboard: whoever goes through them finds the same whatever
 * the compartments are called, and on the other side of a mirrored boat.
 */
export function inPlaceOrder(portals: readonly Loose[]): Portal[] {
  return portals
    .map((portal) => {
      const middle = middleOf(portal.polygon);
      return { middle, portal: looksBack(portal.normal, middle) ? turned(portal) : portal };
    })
    .sort((a, b) => compare(a.middle, b.middle))
    .map(({ portal }, index) => ({ index, ...portal }));
}

const turned = ({ cells, normal, polygon, ...rest }: Loose): Loose => ({
  ...rest,
  cells: [cells[1], cells[0]],
  normal: scale(normal, -1),
  polygon: [...polygon].reverse(),
});

function looksBack([x, y, z]: Vec3, middle: Vec3): boolean {
  if (Math.abs(x) > SAME_M) return x < 0;
  if (Math.abs(z) > SAME_M) return z < 0;
  return Math.abs(middle[1]) > SAME_M ? y * middle[1] < 0 : y < 0;
}

function middleOf(polygon: readonly Vec3[]): Vec3 {
  const [x, y, z] = [0, 1, 2].map((axis) => polygon.reduce((sum, p) => sum + (p[axis] as number), 0) / polygon.length);
  return [x as number, y as number, z as number];
}

/** Forward, then up, then outboard, then to port. */
function compare(a: Vec3, b: Vec3): number {
  const [one, other] = [keyOf(a), keyOf(b)];
  for (const [k, value] of one.entries()) {
    const by = value - (other[k] as number);
    if (Math.abs(by) > SAME_M) return by;
  }
  return 0;
}

const keyOf = ([x, y, z]: Vec3): readonly number[] => [x, z, Math.abs(y), y];
