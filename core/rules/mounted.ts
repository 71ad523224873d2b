import { type Seat, seatOn } from '../assess/access/seat';
import type { MountingSurface, Part } from '../boat/schema/boat';
import type { Facts } from './facts';

/** What is asked of a part and of surfaces. */
type MountedFacts = Pick<Facts, 'mountedOn' | 'thing' | 'pose' | 'mountingSurfaces'>;

/** A surface and how a placed part lies on it. */
export interface Mounted {
  readonly id: string;
  readonly surface: MountingSurface;
  readonly seat: Seat;
}

/** Further off than this, or more aslant, a surface is not the one that a part lies on. */
const LIES_WITHIN_M = 0.02;
const LIES_WITHIN_DEG = 20;

/** How a part is fixed, as far as its data say; nothing of a fixture. */
export function mountingOf(partId: string, facts: Pick<Facts, 'thing'>): Part['mounting'] {
  const thing = facts.thing(partId);
  return thing && 'mounting' in thing ? (thing.mounting as Part['mounting']) : undefined;
}

/** The surface that a part is said to be screwed to, else one that its mounting face really lies on; null where there is none. */
export function surfaceUnder(partId: string, facts: MountedFacts): Mounted | null {
  const said = facts.mountedOn(partId);
  if (said !== null) return seats(partId, facts, [said])[0] ?? null;
  const under = seats(partId, facts).filter(({ surface, seat }) => isUnder(surface, seat));
  return under.reduce<Mounted | null>(
    (best, one) => (!best || one.seat.overhangM < best.seat.overhangM - 1e-9 ? one : best),
    null,
  );
}

/** The surface that comes nearest to being one, among those that look into the compartment of the part. */
export function nearestSurface(partId: string, facts: Facts): Mounted | null {
  const compartment = facts.compartmentOf(partId);
  const miss = ({ seat }: Mounted): number => Math.max(Math.abs(seat.gapM), seat.overhangM);
  return seats(partId, facts)
    .filter(({ surface }) => surface.compartment === compartment)
    .reduce<Mounted | null>((best, one) => (!best || miss(one) < miss(best) - 1e-9 ? one : best), null);
}

/** How a part would lie on surfaces, by id: on all there are, or on some. */
export function seats(partId: string, facts: MountedFacts, some?: readonly string[]): readonly Mounted[] {
  const thing = facts.thing(partId);
  const pose = facts.pose(partId);
  if (!thing || !pose) return [];
  const face = mountingOf(partId, facts)?.face;
  const surfaces = facts.mountingSurfaces();
  return [...(some ?? Object.keys(surfaces))].sort().flatMap((id) => {
    const surface = surfaces[id];
    return surface ? [{ id, surface, seat: seatOn(thing.shape, pose, face, surface) }] : [];
  });
}

/** Part of the face of the part lies on the surface. */
const isUnder = ({ widthM, heightM }: MountingSurface, { gapM, overhangM, aslantDeg, halfM }: Seat): boolean =>
  Math.abs(gapM) <= LIES_WITHIN_M &&
  aslantDeg <= LIES_WITHIN_DEG &&
  overhangM < 2 * Math.max(...halfM) &&
  overhangM < Math.max(widthM, heightM);
