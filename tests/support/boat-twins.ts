import type { BoatDraft, Draft } from './scene-interior';

/** Twins of a boat in which every run has its twin: mirrored, shifted, ends exchanged, ids given out the other way round. */
type Point = readonly [number, number, number];
type Moved = { readonly point: (p: Point) => [number, number, number] };

const each = <T, U>(
  record: Readonly<Record<string, T>> | undefined,
  change: (value: T, id: string) => U,
): Record<string, U> => Object.fromEntries(Object.entries(record ?? {}).map(([id, value]) => [id, change(value, id)]));

/** What stands in the boat frame other than the interior itself: panels' points and holes, clip points. */
function pointsMoved(boat: BoatDraft, { point }: Moved): Pick<BoatDraft, 'panels' | 'arrangements'> {
  return {
    panels: each(boat.panels, (panel) => ({
      ...panel,
      near: point(panel.near),
      holes: each(panel.holes, (hole) => ({ ...hole, at: point(hole.at) })),
    })),
    arrangements: each(boat.arrangements, (plan) => ({
      ...plan,
      clipPoints: each(plan.clipPoints, (clips) => each(clips, (clip) => ({ ...clip, at: point(clip.at) }))),
    })),
  };
}

/** Everything further forward. */
export function shifted(boat: BoatDraft, by: number): BoatDraft {
  const xOf = (x: number): number => x + by;
  const point = (p: Point): [number, number, number] => [xOf(p[0]), p[1], p[2]];
  return {
    ...boat,
    ...pointsMoved(boat, { point }),
    ...(boat.hull
      ? { hull: { ...boat.hull, stations: each(boat.hull.stations, (one) => ({ ...one, xM: xOf(one.xM) })) } }
      : {}),
    compartments: each(boat.compartments, (room) => ({
      ...room,
      outline: room.view === 'section' ? room.outline : room.outline.map(([a, b]): [number, number] => [xOf(a), b]),
      rangeM: room.view === 'section' ? [xOf(room.rangeM[0]), xOf(room.rangeM[1])] : room.rangeM,
    })),
    fixtures: each(boat.fixtures, (one) => ({ ...one, pose: { ...one.pose, at: point(one.pose.at) } })),
  };
}

const flip = (p: Point): [number, number, number] => [p[0], -p[1], p[2]];

/** Port for starboard: of a boat whose hull is the same on both sides, and whose things are turned about the vertical alone. */
export function mirrored(boat: BoatDraft): BoatDraft {
  return {
    ...boat,
    ...pointsMoved(boat, { point: flip }),
    compartments: each(boat.compartments, mirroredRoom),
    fixtures: each(boat.fixtures, (one) => ({
      ...one,
      pose: { ...one.pose, at: flip(one.pose.at), yawDeg: -(one.pose.yawDeg ?? 0) },
      ports: each(one.ports, (port) => ({ ...port, at: flip(port.at), direction: flip(port.direction) })),
      sweeps: each(one.sweeps, (sweep) =>
        sweep.type === 'sector'
          ? { ...sweep, at: flip(sweep.at), fromDeg: -sweep.toDeg, toDeg: -sweep.fromDeg }
          : { ...sweep, at: flip(sweep.at) },
      ),
    })),
  };
}

function mirroredRoom(room: Draft<'compartments'>[string]): Draft<'compartments'>[string] {
  const yawDeg = -(room.yawDeg ?? 0);
  if (room.view === 'profile') return { ...room, yawDeg, rangeM: [-room.rangeM[1], -room.rangeM[0]] };
  const outline = room.outline.map(([a, b]): [number, number] => (room.view === 'plan' ? [a, -b] : [-a, b])).reverse();
  return { ...room, yawDeg, outline };
}

/** Every line drawn from its other end. */
export const turnedRound = (boat: BoatDraft): BoatDraft => ({
  ...boat,
  lines: each(boat.lines, (line) => ({
    ...line,
    from: line.to,
    to: line.from,
    ends: { ...(line.ends?.to ? { from: line.ends.to } : {}), ...(line.ends?.from ? { to: line.ends.from } : {}) },
  })),
});

/** The id that stands as far from the end as this one from the beginning. */
export function otherWayRound(ids: readonly string[]): (id: string) => string {
  const sorted = [...ids].sort();
  return (id) => sorted[sorted.length - 1 - sorted.indexOf(id)] ?? id;
}

/** Compartments, things, panels and lines under each other's ids. */
export function renamed(boat: BoatDraft): BoatDraft {
  const room = otherWayRound(Object.keys(boat.compartments ?? {}));
  const thing = otherWayRound(Object.keys(boat.fixtures ?? {}));
  const panel = otherWayRound(Object.keys(boat.panels ?? {}));
  const line = otherWayRound(Object.keys(boat.lines ?? {}));
  const keyed = <T>(record: Readonly<Record<string, T>> | undefined, to: (id: string) => string): Record<string, T> =>
    Object.fromEntries(Object.entries(record ?? {}).map(([id, value]) => [to(id), value]));
  return {
    ...boat,
    compartments: keyed(boat.compartments, room),
    fixtures: keyed(boat.fixtures, thing),
    panels: keyed(
      each(boat.panels, (one) => ({
        ...one,
        between: [room(one.between[0]), room(one.between[1])] as [string, string],
      })),
      panel,
    ),
    lines: keyed(
      each(boat.lines, (one) => ({
        ...one,
        from: { ...one.from, thing: thing(one.from.thing) },
        to: { ...one.to, thing: thing(one.to.thing) },
      })),
      line,
    ),
    arrangements: each(boat.arrangements, (plan) => ({ ...plan, clipPoints: keyed(plan.clipPoints, line) })),
  };
}
