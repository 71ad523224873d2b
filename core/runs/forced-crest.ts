import { dot, norm, scale, type Vec3 } from '../base/vec';
import { leadStraightM } from './routing/straights';
import type { Lead, RoutingLine } from './routing/types';

/** Part of a trapped crest that the ports alone force on every run of a line. */
export interface ForcedCrest {
  /** No run traps less, metres. */
  readonly trappedM: number;
  /** The end whose port forces it. */
  readonly end: 'from' | 'to';
}

/**
 * Height that every run of a line traps because a port faces up, at a given up; null where none does.
 *
 * A hose leaves its port straight for l and then bends with radius R at least, so from a port whose direction has the upward part d > 0 it
 * rises by F(d) = l d + R (1 - sqrt(1 - d^2)) before it can turn down. What it traps is its height there less the higher of the lowest
 * points on both sides, and these are no higher than the two ports z:
 *   trapped >= max over both ends of (z + F(d)) - max over both ends of z
 * Derived; it leaves out everything that is in the way, and radii are those of the centre line.
 */
export function forcedCrest(
  line: Pick<RoutingLine, 'from' | 'to' | 'radiusM' | 'bendRadiusM'>,
  up: Vec3,
): ForcedCrest | null {
  const vertical = scale(up, 1 / norm(up));
  const heightM = (end: 'from' | 'to'): number => dot(line[end].at, vertical);
  const crestM = (end: 'from' | 'to'): number => heightM(end) + riseM(line[end], line, vertical);
  const end = crestM('to') > crestM('from') ? 'to' : 'from';
  const trappedM = crestM(end) - Math.max(heightM('from'), heightM('to'));
  return trappedM > ROUNDING_M ? { trappedM, end } : null;
}
const ROUNDING_M = 1e-9;

/** Of an elbow, in the direction that rises least. */
function riseM(lead: Lead, { radiusM, bendRadiusM }: Pick<RoutingLine, 'radiusM' | 'bendRadiusM'>, up: Vec3): number {
  const d = Math.min(1, ...(lead.turns ?? [lead.direction]).map((direction) => dot(direction, up)));
  const bendM = Math.max(bendRadiusM, radiusM);
  return d > 0 ? leadStraightM(lead, radiusM) * d + bendM * (1 - Math.sqrt(1 - d * d)) : 0;
}
