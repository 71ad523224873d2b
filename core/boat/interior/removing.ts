import type { Vec3 } from '../../base/vec';
import { type BoatRecipe, type Draft, freeId } from '../edits';
import type { Boat, Compartment } from '../schema/boat';
import { movePillows } from './carry';
import { dropOpening } from './merging';
import { shiftedAsDrawn } from './placing';

/**
 * Removes a compartment with its openings, mounting surfaces and readings of where a person is. Data of its panels are set
 * aside, never dropped: they can be bound to another panel or removed by hand.
 */
export const compartmentDeleted =
  (id: string): BoatRecipe =>
  (boat) => {
    delete boat.compartments[id];
    for (const panel of Object.values(boat.panels)) if (panel.between.includes(id)) panel.setAside = true;
    for (const [key, opening] of Object.entries(boat.openings)) {
      if (opening.to === id) opening.to = 'undrawn';
      if (opening.compartment !== id) continue;
      const other = boat.compartments[opening.to] ? opening.to : null;
      // A door to a neighbour stays with the neighbour.
      if (other === null) dropOpening(boat, key);
      else {
        opening.compartment = other;
        opening.to = 'undrawn';
        opening.normal = [-opening.normal[0], -opening.normal[1], -opening.normal[2]];
      }
    }
    for (const [key, surface] of Object.entries(boat.mountingSurfaces)) {
      if (surface.compartment === id) surfaceDeleted(key)(boat);
    }
    for (const place of Object.values(boat.standingPlaces)) if (place.compartment === id) delete place.compartment;
    for (const picture of Object.values(boat.pictures ?? {}))
      if (picture.compartment === id) delete picture.compartment;
    for (const [key, hole] of Object.entries(boat.flooding?.limberHoles ?? {})) {
      if (hole.between.includes(id)) delete boat.flooding?.limberHoles?.[key];
    }
    for (const arrangement of Object.values(boat.arrangements)) {
      for (const [key, hole] of Object.entries(arrangement.newHoles)) {
        const left = hole.between.find((name) => name !== id && boat.compartments[name]);
        if (!hole.between.includes(id)) continue;
        if (left === undefined) delete arrangement.newHoles[key];
        else hole.between = [left, 'undrawn'];
      }
      for (const [line, forbidden] of Object.entries(arrangement.forbidden ?? {})) {
        if (arrangement.forbidden && forbidden.includes(id))
          arrangement.forbidden[line] = forbidden.filter((name) => name !== id);
      }
    }
  };

/** Removes an opening; parts that came in through it find their way anew. */
export const openingDeleted =
  (id: string): BoatRecipe =>
  (boat) =>
    dropOpening(boat, id);

/** Removes a mounting surface; what was screwed to it stays where it is. */
export const surfaceDeleted =
  (id: string): BoatRecipe =>
  (boat) => {
    delete boat.mountingSurfaces[id];
    for (const arrangement of Object.values(boat.arrangements))
      for (const place of Object.values(arrangement.places)) if (place.mountedOn === id) delete place.mountedOn;
  };

/** Removes a standing place; openings that were worked from there say nothing of it any more. */
export const standingPlaceDeleted =
  (id: string): BoatRecipe =>
  (boat) => {
    delete boat.standingPlaces[id];
    for (const opening of Object.values(boat.openings)) if (opening.standing === id) delete opening.standing;
    for (const [key, demand] of Object.entries(boat.demands ?? {})) if (demand.place === id) delete boat.demands?.[key];
  };

/** A second compartment of the same shape, shifted, with copies of the openings and surfaces of the first. */
export const compartmentDuplicated =
  (id: string, newId: string, newName: string, by: Vec3): BoatRecipe =>
  (boat) => {
    const own = boat.compartments[id];
    if (!own) return;
    const copy: Compartment = JSON.parse(JSON.stringify(own));
    boat.compartments[newId] = {
      ...JSON.parse(JSON.stringify(copy)),
      ...JSON.parse(JSON.stringify(shiftedAsDrawn(copy, by))),
      name: newName,
    };
    const shifted = ([x, y, z]: Vec3): Vec3 => [x + by[0], y + by[1], z + by[2]];
    movePillows(boat.compartments[newId], shifted);
    copyWays(boat, id, newId, shifted);
  };

/** Copies of what hangs on one compartment for another; `turn` takes directions along. */
export function copyWays(
  boat: Draft<Boat>,
  id: string,
  newId: string,
  move: (p: Vec3) => Vec3,
  turn: (d: Vec3) => Vec3 = (d) => d,
  swung: (side: 'left' | 'right' | 'top' | 'bottom') => 'left' | 'right' | 'top' | 'bottom' = (side) => side,
): void {
  const point = (p: Vec3): [number, number, number] => [p[0] + 0, p[1] + 0, p[2] + 0];
  for (const [key, opening] of Object.entries(boat.openings)) {
    if (opening.compartment !== id) continue;
    const copy: typeof opening = JSON.parse(JSON.stringify(opening));
    copy.compartment = newId;
    copy.at = point(move(opening.at));
    copy.normal = point(turn(opening.normal));
    if (copy.up) copy.up = point(turn(copy.up));
    if (copy.swing) copy.swing.hingeAlong = swung(copy.swing.hingeAlong);
    delete copy.standing;
    boat.openings[freeId(boat.openings, key)] = copy;
  }
  for (const [key, surface] of Object.entries(boat.mountingSurfaces)) {
    if (surface.compartment !== id) continue;
    const copy: typeof surface = JSON.parse(JSON.stringify(surface));
    copy.compartment = newId;
    copy.at = point(move(surface.at));
    copy.normal = point(turn(surface.normal));
    boat.mountingSurfaces[freeId(boat.mountingSurfaces, key)] = copy;
  }
}
