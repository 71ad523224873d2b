import type { Arrangement, Boat, KeepOut, Shape } from '@core/boat/schema/boat';
import {
  boxDistance,
  cylinderDistance,
  minus,
  type OracleSolid,
  type P3,
  plus,
  sectorDistance,
  size,
  turned,
} from './geometry-oracle';

/** Reads fixtures, parts and their sweeps straight from the boat file. */
export interface OraclePlace {
  readonly at: P3;
  readonly yawDeg: number;
  readonly pitchDeg: number;
  readonly rollDeg: number;
}

export const directionOf = (place: OraclePlace, v: P3): P3 => turned(v, place.yawDeg, place.pitchDeg, place.rollDeg);
export const pointOf = (place: OraclePlace, p: P3): P3 => plus(place.at, directionOf(place, p));

/** Coordinates of a boat point in the frame of the thing: against the images of the three axes. */
function localOf(place: OraclePlace): (p: P3) => P3 {
  const axes = (
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const
  ).map((v) => directionOf(place, v));
  return (p) => {
    const d = minus(p, place.at);
    return axes.map((a) => a[0] * d[0] + a[1] * d[1] + a[2] * d[2]) as unknown as P3;
  };
}

/** With the axis third, right-handed. */
const AXIS_LAST = { x: [1, 2, 0], y: [2, 0, 1], z: [0, 1, 2] } as const;
const axisLast = (p: P3, axis: 'x' | 'y' | 'z'): P3 => {
  const [i, j, k] = AXIS_LAST[axis];
  return [p[i], p[j], p[k]];
};

function boundsOf(centre: P3, reach: number): { low: P3; high: P3 } {
  const r: P3 = [reach, reach, reach];
  return { low: minus(centre, r), high: plus(centre, r) };
}

export function placesOf(boat: Boat, arrangement: Arrangement | undefined): Map<string, OraclePlace> {
  const places = new Map<string, OraclePlace>();
  for (const [id, fixture] of Object.entries(boat.fixtures)) places.set(id, fixture.pose);
  for (const [id, place] of Object.entries(arrangement?.places ?? {})) if (boat.parts[id]) places.set(id, place);
  return places;
}

export function solidsFrom(boat: Boat, places: ReadonlyMap<string, OraclePlace>): OracleSolid[] {
  const solids: OracleSolid[] = [];
  for (const [id, place] of places) {
    const fixture = boat.fixtures[id];
    const thing = fixture ?? boat.parts[id];
    if (!thing) continue;
    if (!fixture?.soft) solids.push(envelope(id, thing.shape, place));
    for (const [name, sweep] of Object.entries(thing.sweeps))
      solids.push(swept(id, `sweep ${name} of ${id}`, sweep, place));
  }
  return solids;
}

function envelope(owner: string, shape: Shape, place: OraclePlace): OracleSolid {
  const local = localOf(place);
  if (shape.type === 'box') {
    const half: P3 = [shape.sizeM[0] / 2, shape.sizeM[1] / 2, shape.sizeM[2] / 2];
    return { owner, label: owner, ...boundsOf(place.at, size(half)), distance: (p) => boxDistance(local(p), half) };
  }
  const [radius, half] = [shape.diameterM / 2, shape.lengthM / 2];
  return {
    owner,
    label: owner,
    ...boundsOf(place.at, Math.hypot(radius, half)),
    distance: (p) => {
      const [a, b, w] = axisLast(local(p), shape.axis);
      return cylinderDistance(w, Math.hypot(a, b), half, radius);
    },
  };
}

function swept(owner: string, label: string, sweep: KeepOut, place: OraclePlace): OracleSolid {
  const local = localOf(place);
  const centre = pointOf(place, sweep.at);
  const from = (p: P3): P3 => minus(local(p), sweep.at);
  switch (sweep.type) {
    case 'box': {
      const half: P3 = [sweep.sizeM[0] / 2, sweep.sizeM[1] / 2, sweep.sizeM[2] / 2];
      return { owner, label, ...boundsOf(centre, size(half)), distance: (p) => boxDistance(from(p), half) };
    }
    case 'cylinder': {
      const [radius, half] = [sweep.diameterM / 2, sweep.lengthM / 2];
      return {
        owner,
        label,
        ...boundsOf(centre, Math.hypot(radius, half)),
        distance: (p) => {
          const [a, b, w] = axisLast(from(p), sweep.axis);
          return cylinderDistance(w, Math.hypot(a, b), half, radius);
        },
      };
    }
    case 'sector': {
      const [a0, a1] = [(sweep.fromDeg * Math.PI) / 180, (sweep.toDeg * Math.PI) / 180];
      return {
        owner,
        label,
        ...boundsOf(centre, Math.hypot(sweep.radiusM, sweep.thicknessM / 2)),
        distance: (p) => sectorDistance(axisLast(from(p), sweep.axis), sweep.radiusM, a0, a1, sweep.thicknessM / 2),
      };
    }
  }
}
