import { recommendedWeight } from '../base/formulas/lifting';
import * as portable from '../base/portable';
import type { Vec3 } from '../base/vec';
import type { StandingPlace } from '../boat/schema/boat';
import type { Facts } from './facts';

/** A part is carried to its place at the height of the knuckles, metres: where the equation recommends most. */
const CARRIED_M = 0.75;

/** Where people stand at the openings that a part comes in through; in a space where people stand, the places there. */
export function standingPlacesFor(id: string, facts: Facts): readonly StandingPlace[] {
  const compartment = facts.compartmentOf(id);
  const openings = facts.openings();
  const places = facts.standingPlaces();
  const last = facts.wayIn(id)?.at(-1);
  const through =
    last !== undefined ? [openings[last]] : Object.values(openings).filter((one) => one.compartment === compartment);
  const at = through.flatMap((opening) => {
    const place = opening?.standing === undefined ? undefined : places[opening.standing];
    return place ? [place] : [];
  });
  return at.length > 0 ? at : Object.values(places).filter((place) => place.compartment === compartment);
}

export interface Lifted {
  readonly index: number;
  readonly weightKg: number;
  readonly isBeyond: boolean;
  readonly outM: number;
  readonly upM: number;
  readonly travelM: number;
  readonly standing: string;
  readonly posture: string;
}

/** From where a person stands to the middle of the part in its place. */
export function liftedFrom(place: StandingPlace, at: Vec3, massKg: number): Lifted {
  const outM = portable.hypot(at[0] - place.at[0], at[1] - place.at[1]);
  const upM = at[2] - place.at[2];
  const travelM = Math.abs(upM - CARRIED_M);
  const { weightKg, isBeyond } = recommendedWeight({ outM, upM, travelM, turnDeg: 0, grip: 'poor' });
  const { name: standing, posture } = place;
  return { index: massKg / weightKg, weightKg, isBeyond, outM, upM, travelM, standing, posture };
}

/** The lift from the place where it asks least. */
export const leastLifted = (places: readonly StandingPlace[], at: Vec3, massKg: number): Lifted =>
  places.map((place) => liftedFrom(place, at, massKg)).reduce((least, one) => (one.index < least.index ? one : least));
