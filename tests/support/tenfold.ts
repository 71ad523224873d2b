import type { Boat } from '@core/boat/schema/boat';

const COPIES = 10;
/** Free length between two copies. */
const GAP_M = 0.5;

/**
 * Ten of the same boat, stem to stern, as one: the hull runs through, everything else is there ten times over, each copy
 * with its own lines. Ids get the number of their copy.
 */
export function tenfold(boat: Boat, arrangementId: string): Boat {
  const stations = Object.values(boat.hull?.stations ?? {}).map(({ xM }) => xM);
  const aft = Math.min(0, ...stations);
  const pitch = Math.max(...stations, 1) - aft + GAP_M;
  const arrangement = boat.arrangements[arrangementId];
  if (!arrangement) throw new Error(`tenfold: expected an arrangement ${arrangementId}`);
  const copies = Array.from({ length: COPIES }, (_, copy) => copy);
  const idOf = (id: string, copy: number): string => `${id}-${copy}`;
  /** Every record of every copy, changed by `change`. */
  const all = <T>(records: Readonly<Record<string, T>>, change: (record: T, copy: number) => T) =>
    Object.fromEntries(
      copies.flatMap((copy) =>
        Object.entries(records).map(([id, record]) => [idOf(id, copy), change(record, copy)] as const),
      ),
    );
  const at = <P extends readonly [number, number, number]>(point: P, copy: number): [number, number, number] => [
    point[0] + pitch * copy,
    point[1],
    point[2],
  ];
  const compartmentId = (id: string, copy: number): string =>
    Object.hasOwn(boat.compartments, id) ? idOf(id, copy) : id;
  /** Outline in plan and profile lies along x, the range of a section too. */
  const shifted = (compartment: Boat['compartments'][string], copy: number): Boat['compartments'][string] =>
    compartment.view === 'section'
      ? { ...compartment, rangeM: [compartment.rangeM[0] + pitch * copy, compartment.rangeM[1] + pitch * copy] }
      : { ...compartment, outline: compartment.outline.map(([x, v]) => [x + pitch * copy, v]) };

  return {
    ...boat,
    name: `${boat.name}, tenfold`,
    ...(boat.hull
      ? {
          hull: {
            ...boat.hull,
            stations: Object.fromEntries(
              copies.flatMap((copy) =>
                Object.entries(boat.hull?.stations ?? {})
                  // Where two copies meet the hull runs on: an end without breadth would pinch it.
                  .filter(
                    ([, { points, xM }]) =>
                      points.some(([breadth]) => breadth > 0) ||
                      (copy === 0 && xM === Math.min(...stations)) ||
                      (copy === COPIES - 1 && xM === Math.max(...stations)),
                  )
                  .map(([id, station]) => [idOf(id, copy), { ...station, xM: station.xM + pitch * copy }] as const),
              ),
            ),
          },
        }
      : {}),
    reference: { freeboards: {}, levelMarks: {} },
    compartments: all(boat.compartments, shifted),
    panels: all(boat.panels, (panel, copy) => ({
      ...panel,
      between: [compartmentId(panel.between[0], copy), compartmentId(panel.between[1], copy)],
      near: at(panel.near, copy),
      holes: Object.fromEntries(
        Object.entries(panel.holes).map(([id, hole]) => [id, { ...hole, at: at(hole.at, copy) }]),
      ),
    })),
    openings: all(boat.openings, (opening, copy) => ({
      ...opening,
      at: at(opening.at, copy),
      compartment: idOf(opening.compartment, copy),
      to: compartmentId(opening.to, copy),
      ...(opening.standing === undefined ? {} : { standing: idOf(opening.standing, copy) }),
    })),
    mountingSurfaces: all(boat.mountingSurfaces, (surface, copy) => ({
      ...surface,
      at: at(surface.at, copy),
      compartment: idOf(surface.compartment, copy),
    })),
    standingPlaces: all(boat.standingPlaces, (place, copy) => ({
      ...place,
      at: at(place.at, copy),
      ...(place.compartment === undefined ? {} : { compartment: idOf(place.compartment, copy) }),
    })),
    fixtures: all(boat.fixtures, (fixture, copy) => ({
      ...fixture,
      pose: { ...fixture.pose, at: at(fixture.pose.at, copy) },
    })),
    parts: all(boat.parts, (part) => part),
    lines: all(boat.lines, (line, copy) => ({
      ...line,
      from: { ...line.from, thing: idOf(line.from.thing, copy) },
      to: { ...line.to, thing: idOf(line.to.thing, copy) },
    })),
    arrangements: {
      [arrangementId]: {
        name: arrangement.name,
        places: all(arrangement.places, ({ wayIn, mountedOn, ...place }, copy) => ({
          ...place,
          at: at(place.at, copy),
          ...(wayIn ? { wayIn: wayIn.map((id) => idOf(id, copy)) } : {}),
          ...(mountedOn === undefined ? {} : { mountedOn: idOf(mountedOn, copy) }),
        })),
        clipPoints: {},
        newHoles: {},
      },
    },
    currentArrangement: arrangementId,
    operatingStates: {},
    ...(boat.flooding
      ? {
          flooding: {
            ...boat.flooding,
            limberHoles: all(boat.flooding.limberHoles ?? {}, (hole, copy) => ({
              ...hole,
              between: [compartmentId(hole.between[0], copy), compartmentId(hole.between[1], copy)],
              at: at(hole.at, copy),
            })),
            cases: {},
          },
        }
      : {}),
    accepted: {},
  };
}
