import type { Vec3 } from '../../base/vec';
import { type BoatRecipe, type Draft, freeId } from '../edits';
import type { Boat, Compartment } from '../schema/boat';
import { carryWhole, movePillows } from './carry';
import { drawnBounds, type Prismatic } from './placing';
import { copyWays } from './removing';

/** Bounds this near to the mirrored ones are those of a twin, metres. */
const TWIN_M = 0.1;

const across = ([x, y, z]: Vec3): Vec3 => [x, 0 - y, z];
type Side = 'left' | 'right' | 'top' | 'bottom';
const otherHand = (side: Side): Side => (side === 'left' ? 'right' : side === 'right' ? 'left' : side);

/** The same shape on the other side of the centreline. */
function mirroredShape({ view, outline, rangeM, yawDeg }: Prismatic): Prismatic {
  return {
    view,
    outline: outline.map(([u, v]): [number, number] =>
      view === 'plan' ? [u, 0 - v] : view === 'section' ? [0 - u, v] : [u, v],
    ),
    rangeM: view === 'profile' ? [0 - rangeM[1], 0 - rangeM[0]] : [rangeM[0], rangeM[1]],
    yawDeg: 0 - yawDeg,
  };
}

/** Takes a compartment to the other side of the boat with its openings, mounting surfaces and the data of its panels. */
export const compartmentMirrored =
  (id: string): BoatRecipe =>
  (boat) => {
    const own = boat.compartments[id];
    if (!own) return;
    const before: Compartment = JSON.parse(JSON.stringify(own));
    carryWhole(boat, id, before, across, across);
    for (const opening of Object.values(boat.openings)) {
      if (opening.compartment === id && opening.swing) opening.swing.hingeAlong = otherHand(opening.swing.hingeAlong);
    }
    Object.assign(own, mirroredShape(before));
  };

/**
 * A twin on the other side: the same shape mirrored, with copies of openings, surfaces and of what is known of its panels.
 * A panel to a neighbour becomes one to that neighbour's own twin, or to itself where it reaches across the centreline.
 */
export const compartmentCopiedAcross =
  (id: string, newId: string, newName: string): BoatRecipe =>
  (boat) => {
    const own = boat.compartments[id];
    if (!own) return;
    const before: Compartment = JSON.parse(JSON.stringify(own));
    boat.compartments[newId] = {
      ...JSON.parse(JSON.stringify(before)),
      ...JSON.parse(JSON.stringify(mirroredShape(before))),
      name: newName,
    };
    movePillows(boat.compartments[newId], across);
    copyWays(boat, id, newId, across, across, otherHand);
    for (const opening of Object.values(boat.openings)) {
      if (opening.compartment === newId) opening.to = twinOf(boat, opening.to) ?? opening.to;
    }
    for (const [key, record] of Object.entries(boat.panels)) {
      if (record.setAside || !record.between.includes(id)) continue;
      const neighbour = record.between.find((name) => name !== id) ?? '';
      const twin = boat.compartments[neighbour] ? twinOf(boat, neighbour) : neighbour;
      if (twin === null) continue;
      const copy: typeof record = JSON.parse(JSON.stringify(record));
      copy.between = record.between[0] === id ? [newId, twin] : [twin, newId];
      copy.near = point(across(record.near));
      for (const hole of Object.values(copy.holes)) hole.at = point(across(hole.at));
      boat.panels[freeId(boat.panels, `${key}-across`)] = copy;
    }
  };

const point = (p: Vec3): [number, number, number] => [p[0], p[1], p[2]];

/** The compartment that lies where this one would lie mirrored; itself when it reaches across the centreline. */
function twinOf(boat: Draft<Boat>, id: string): string | null {
  const own = boat.compartments[id];
  if (!own) return null;
  const [low, high] = drawnBounds(own as Compartment);
  if (low[1] < 0 && high[1] > 0) return id;
  const wanted = [across(high), across(low)] as const;
  const isTwin = (other: Compartment): boolean => {
    const [a, b] = drawnBounds(other);
    const near = (p: number, q: number): boolean => Math.abs(p - q) < TWIN_M;
    return (
      near(a[0], low[0]) &&
      near(b[0], high[0]) &&
      near(a[2], low[2]) &&
      near(b[2], high[2]) &&
      near(a[1], wanted[0][1]) &&
      near(b[1], wanted[1][1])
    );
  };
  return (
    Object.keys(boat.compartments).find((key) => key !== id && isTwin(boat.compartments[key] as Compartment)) ?? null
  );
}
