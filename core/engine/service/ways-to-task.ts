import { inOrder } from '../../base/order';
import { along, distance, type Vec3 } from '../../base/vec';
import type { Boat, Opening, StandingPlace } from '../../boat/schema/boat';
import type { Layout } from '../../shape/layout/types';
import { openingFrame, waysIn } from '../../shape/space/ways-in';

/** How a person comes to work at a point: what is opened in what order, and where they are then. */
export interface WayToTask {
  /** In the order in which they are opened; empty where the thing stands in the space where the person is. */
  readonly openings: readonly string[];
  /** Opening that the person works through; null: beside the thing. */
  readonly through: string | null;
  /** Record of standing places; null: none is drawn there. */
  readonly standing: string | null;
}

/** Why there is no way at all, and what to enter next. */
export interface NoWay {
  readonly reason: 'nowhere' | 'noOpening' | 'intoNothing' | 'nowhereToStand';
  readonly subject: string;
  readonly enterNext: string;
}

interface Interior {
  readonly layout: Layout;
  readonly compartments: Boat['compartments'];
  readonly openings: Readonly<Record<string, Opening>>;
  readonly standingPlaces: Readonly<Record<string, StandingPlace>>;
}

/** Counted limits: ways, and places to stand for each of them. */
const MOST_WAYS = 8;
const MOST_STANDING = 2;
/** A place to stand serves an opening, or a thing in the open, no further away than this, metres: a step and a lean. */
const BESIDE_M = 1.6;
/** An opening leads into the space that lies one of these behind it, metres. */
const BEHIND_M = [0.01, 0.03, 0.06, 0.12] as const;

/** Ways to a point in a compartment, the fewest openings first. */
export function waysToTask(at: Vec3, compartment: string | null, interior: Interior): readonly WayToTask[] | NoWay {
  if (compartment === null) return { reason: 'nowhere', subject: '', enterNext: 'compartments' };
  const { layout, compartments, openings } = interior;
  const ways = new Map<string, WayToTask>();
  const put = (way: WayToTask): void => {
    const key = [way.openings.join(' '), way.through ?? '', way.standing ?? ''].join('|');
    if (ways.size < MOST_WAYS && !ways.has(key)) ways.set(key, way);
  };
  const found = waysIn(layout, { compartments, openings }, compartment);
  // Where people stand in the space itself, or in one that is open to it, nothing is opened.
  const open = found.filter((way) => way.openings.length === 0);
  if (open.length > 0) {
    const rooms = new Set(open.map(({ through }) => through[0] ?? compartment));
    const places = nearest(at, interior.standingPlaces, (id) => [...rooms].some((room) => inSpace(id, room, interior)));
    for (const standing of orNone(places)) put({ openings: [], through: null, standing });
    // A small space in which nobody is said to stand, such as the heads, is leaned into through its door as well.
    if (places.length === 0)
      for (const [id, opening] of inOrder(openings)) {
        const isDoor = rooms.has(opening.compartment) && levelDistance(opening.at, at) <= BESIDE_M;
        if (!isDoor || leadsElsewhere(opening, layout)) continue;
        for (const standing of placesFor(opening, interior)) put({ openings: [id], through: id, standing });
      }
  }
  for (const { openings: opened } of found) {
    for (const id of new Set([opened.at(-1), opened[0]])) {
      const opening = id === undefined ? undefined : openings[id];
      if (id === undefined || !opening || leadsElsewhere(opening, layout)) continue;
      for (const standing of orNone(placesFor(opening, interior))) put({ openings: opened, through: id, standing });
    }
  }
  return ways.size > 0 ? [...ways.values()] : noWay(compartment, interior);
}

const orNone = (places: readonly string[]): readonly (string | null)[] => (places.length > 0 ? places : [null]);

/** Where one stands for an opening: the place that it names, else those near it in the space on its other side. */
function placesFor(opening: Opening, interior: Interior): readonly string[] {
  const { standing, to } = opening;
  if (standing !== undefined && Object.hasOwn(interior.standingPlaces, standing)) return [standing];
  return nearest(opening.at, interior.standingPlaces, (id) => inSpace(id, to, interior));
}

function inSpace(standing: string, space: string, { layout, standingPlaces }: Interior): boolean {
  const place = standingPlaces[standing];
  if (!place) return false;
  const here = place.compartment ?? layout.compartmentAt(along(place.at, [0, 0, 1], FEET_M));
  return space === 'outside' ? here === null || here === undefined : here === space;
}
/** Feet stand on the floor of a space; what is this far above it lies in it. */
const FEET_M = 0.02;

const nearest = (
  at: Vec3,
  places: Readonly<Record<string, StandingPlace>>,
  serves: (id: string) => boolean,
): readonly string[] =>
  inOrder(places)
    .filter(([id]) => serves(id))
    .map(([id, place]) => ({ id, awayM: levelDistance(place.at, at) }))
    .filter(({ awayM }) => awayM <= BESIDE_M)
    .sort((a, b) => a.awayM - b.awayM)
    .slice(0, MOST_STANDING)
    .map(({ id }) => id);

const levelDistance = (a: Vec3, b: Vec3): number => distance([a[0], a[1], 0], [b[0], b[1], 0]);

function noWay(compartment: string, { layout, compartments, openings }: Interior): NoWay {
  const own = inOrder(openings).filter(
    ([, opening]) => opening.compartment === compartment || opening.to === compartment,
  );
  const [first] = own;
  if (!first) return { reason: 'noOpening', subject: compartment, enterNext: 'openings' };
  const nothing = own.find(([, { to }]) => to === 'undrawn' || (to !== 'outside' && !Object.hasOwn(compartments, to)));
  if (nothing) return { reason: 'intoNothing', subject: nothing[0], enterNext: `openings.${nothing[0]}.to` };
  const aside = own.find(([, opening]) => leadsElsewhere(opening, layout));
  if (aside) return { reason: 'intoNothing', subject: aside[0], enterNext: `openings.${aside[0]}.at` };
  return { reason: 'nowhereToStand', subject: first[0], enterNext: `openings.${first[0]}.to` };
}

/** Behind it there is another space than that which it says it opens, or none at all. */
function leadsElsewhere(opening: Opening, layout: Layout): boolean {
  const { out } = openingFrame(opening);
  return BEHIND_M.every((m) => layout.compartmentAt(along(opening.at, out, -m)) !== opening.compartment);
}
