import type { Boat, KeepOut, Shape } from '@core/boat/schema/boat';
import { type Frame, type P2, type P3, type Region, times } from './geometry-oracle';
import { CrossSection, Manifold, Mesh, prismSolid, type Solid } from './manifold-oracle';
import type { Interior } from './run-oracle';
import { directionOf, type OraclePlace, pointOf } from './things-oracle';
import { arcAngle, type OraclePrim, pointAt, primLength, tangentAt } from './trace-oracle';

/** Hoses and what they must clear as closed meshes for manifold-3d, straight from the primitives and the boat file. */
const SIDES = 24;
/** What is not freed stays in the library's memory for good. */
const made: { delete(): void }[] = [];
const kept = <T extends { delete(): void }>(one: T): T => {
  made.push(one);
  return one;
};
/** Frees all solids that were made here. */
export function freeSolids(): void {
  for (const one of made.splice(0)) one.delete();
}
/** Volume of what is wanted for its volume only. */
export function volumeOf(solid: Solid): number {
  const volume = solid.volume();
  solid.delete();
  return volume;
}

/** Chords of an arc stay this near to it. */
const SAGITTA_M = 1e-4;

/**
 * The hose from `from` to `to` metres along its centre line: 24-gons, inscribed in circles of that radius, joined from place to
 * place. No point of it is farther from the centre line than the radius and the sagitta.
 */
export function tubeSolid(prims: readonly OraclePrim[], radiusM: number, from: number, to: number): Solid {
  const rings: { at: P3; along: P3 }[] = [];
  let start = 0;
  for (const prim of prims) {
    const length = primLength(prim);
    const [a, b] = [Math.max(0, from - start), Math.min(length, to - start)];
    start += length;
    if (b - a < 1e-6) continue;
    const step = prim.kind === 'arc' ? 2 * Math.acos(1 - SAGITTA_M / prim.radius) : 1;
    const count = prim.kind === 'arc' ? Math.ceil((arcAngle(prim) * ((b - a) / length)) / step) : 1;
    for (let k = rings.length === 0 ? 0 : 1; k <= count; k++) {
      const s = a + ((b - a) * k) / count;
      rings.push({ at: pointAt(prim, s), along: tangentAt(prim, s) });
    }
  }
  const places: number[] = [];
  let side: P3 = squareTo((rings[0] as (typeof rings)[number]).along);
  for (const { at, along } of rings) {
    // Carried from ring to ring, so that corners follow corners.
    const off = side[0] * along[0] + side[1] * along[1] + side[2] * along[2];
    const d: P3 = [side[0] - along[0] * off, side[1] - along[1] * off, side[2] - along[2] * off];
    side = times(d, 1 / Math.hypot(...d));
    const up: P3 = [
      along[1] * side[2] - along[2] * side[1],
      along[2] * side[0] - along[0] * side[2],
      along[0] * side[1] - along[1] * side[0],
    ];
    for (let k = 0; k < SIDES; k++) {
      const [c, s] = [radiusM * Math.cos((2 * Math.PI * k) / SIDES), radiusM * Math.sin((2 * Math.PI * k) / SIDES)];
      places.push(at[0] + side[0] * c + up[0] * s, at[1] + side[1] * c + up[1] * s, at[2] + side[2] * c + up[2] * s);
    }
  }
  const faces: number[] = [];
  for (let i = 0; i + 1 < rings.length; i++)
    for (let k = 0; k < SIDES; k++) {
      const [a, b] = [i * SIDES + k, i * SIDES + ((k + 1) % SIDES)];
      faces.push(a, b, a + SIDES, b, b + SIDES, a + SIDES);
    }
  const last = (rings.length - 1) * SIDES;
  for (let k = 1; k + 1 < SIDES; k++) faces.push(0, k + 1, k, last, last + k, last + k + 1);
  const mesh = new Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(places),
    triVerts: Uint32Array.from(faces),
  });
  return kept(new Manifold(mesh));
}

function squareTo([x, y, z]: P3): P3 {
  return Math.abs(z) < 0.9 ? times([-y, x, 0], 1 / Math.hypot(x, y)) : times([0, z, -y], 1 / Math.hypot(y, z));
}

/** Columns of the turn and the shift, as manifold-3d takes them. */
const placed = (solid: Solid, u: P3, v: P3, n: P3, at: P3): Solid =>
  kept(kept(solid).transform([...u, 0, ...v, 0, ...n, 0, ...at, 1]));

/** A plane area with a thickness, half of it on each side. */
function plateSolid({ frame, all, none }: Region, thicknessM: number): Solid {
  const flat = (polygon: readonly P2[]): InstanceType<typeof CrossSection> =>
    kept(new CrossSection([polygon.map(([a, b]): [number, number] => [a, b])], 'NonZero'));
  let area = flat(all[0] as readonly P2[]);
  for (const one of all.slice(1)) area = kept(area.intersect(flat(one)));
  for (const one of none) area = kept(area.subtract(flat(one)));
  return placed(Manifold.extrude(area, thicknessM, 0, 0, [1, 1], true), frame.u, frame.v, frame.n, frame.origin);
}

/**
 * A round hole through a panel, longer than the panel is thick by as much as pieces of one panel may lie apart. The polygon is
 * drawn about the circle.
 */
function holeSolid(frame: Frame, at: P3, diameterM: number, thicknessM: number): Solid {
  const about = diameterM / 2 / Math.cos(Math.PI / HOLE_SIDES);
  const rod = Manifold.cylinder(thicknessM + 2 * PIECES_APART_M, about, about, HOLE_SIDES, true);
  return placed(rod, frame.u, frame.v, frame.n, at);
}
const HOLE_SIDES = 96;
const PIECES_APART_M = 0.002;

/** With the axis third, right-handed: which of a thing's own axes the solid's x, y and z are. */
const AXES = { x: [1, 2, 0], y: [2, 0, 1], z: [0, 1, 2] } as const;
const UNIT: readonly P3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** A thing's envelope. Round sides are polygons drawn in the circle: nothing is in the way that is not there. */
function shapeSolid(shape: Shape, place: OraclePlace): Solid {
  return inThing(bodyOf(shape), shape.type === 'cylinder' ? shape.axis : 'z', place, [0, 0, 0]);
}

const keepOutSolid = (keepOut: KeepOut, place: OraclePlace): Solid =>
  inThing(bodyOf(keepOut), keepOut.type === 'box' ? 'z' : keepOut.axis, place, keepOut.at);

function inThing(body: Solid, axis: 'x' | 'y' | 'z', place: OraclePlace, at: P3): Solid {
  const [u, v, n] = AXES[axis].map((k) => directionOf(place, UNIT[k] as P3)) as [P3, P3, P3];
  return placed(body, u, v, n, pointOf(place, at));
}

function bodyOf(shape: Shape | KeepOut): Solid {
  if (shape.type === 'box') return Manifold.cube([...shape.sizeM] as [number, number, number], true);
  if (shape.type === 'cylinder')
    return Manifold.cylinder(shape.lengthM, shape.diameterM / 2, shape.diameterM / 2, 64, true);
  const { fromDeg, radiusM, thicknessM } = shape;
  const spanDeg = shape.toDeg >= fromDeg ? shape.toDeg - fromDeg : ((shape.toDeg - fromDeg) % 360) + 360;
  const rim = Array.from({ length: 65 }, (_, k): [number, number] => {
    const angle = ((fromDeg + (spanDeg * k) / 64) * Math.PI) / 180;
    return [radiusM * Math.cos(angle), radiusM * Math.sin(angle)];
  });
  return Manifold.extrude(kept(new CrossSection([[[0, 0], ...rim]], 'NonZero')), thicknessM, 0, 0, [1, 1], true);
}

/** What a run must clear besides other runs, each with its name and, of things, whose it is. */
export interface Standing {
  readonly name: string;
  readonly owner: string | null;
  readonly solid: Solid;
}

export interface Pierced {
  readonly at: P3;
  readonly diameterM: number;
}

/** Things and their sweeps, and the closed panels with their holes. */
export function standing(boat: Boat, { panels, places }: Interior, holes: readonly Pierced[]): Standing[] {
  const found: Standing[] = [];
  for (const [id, place] of places) {
    const fixture = boat.fixtures[id];
    const thing = fixture ?? boat.parts[id];
    if (!thing) continue;
    if (!fixture?.soft) found.push({ name: id, owner: id, solid: shapeSolid(thing.shape, place) });
    for (const [name, sweep] of Object.entries(thing.sweeps))
      found.push({ name: `sweep ${name} of ${id}`, owner: id, solid: keepOutSolid(sweep, place) });
  }
  for (const panel of panels) {
    if (panel.rule === 'open') continue;
    const through = [...holes, ...panel.holes].map(({ at, diameterM }) =>
      holeSolid(panel.frame, at, diameterM, panel.thicknessM),
    );
    for (const region of panel.regions) {
      let solid = plateSolid(region, panel.thicknessM);
      for (const one of through) if (touches(solid, one)) solid = kept(solid.subtract(one));
      found.push({ name: `panel ${panel.between.join('/')}`, owner: null, solid });
    }
  }
  return found;
}

/** Where a hose may be: compartments, the gaps of open panels between them, and holes. */
export function roomFor(boat: Boat, { panels }: Interior, holes: readonly Pierced[]): Solid[] {
  const rooms = Object.values(boat.compartments).map((one) => kept(prismSolid(one)));
  for (const { rule, frame, regions, gapM, thicknessM, holes: there } of panels) {
    // A hair into the rooms on both sides, so that nothing is left between.
    const deep = Math.max(0, gapM) + 1e-4;
    if (rule === 'open') rooms.push(...regions.map((region) => plateSolid(region, deep)));
    else
      for (const { at, diameterM } of [...there, ...holes.filter((one) => isOn(frame, one.at, thicknessM + deep))])
        rooms.push(holeSolid(frame, at, diameterM, Math.max(deep, thicknessM)));
  }
  return rooms;
}

const isOn = ({ origin, n }: Frame, p: P3, withinM: number): boolean =>
  Math.abs((p[0] - origin[0]) * n[0] + (p[1] - origin[1]) * n[1] + (p[2] - origin[2]) * n[2]) <= withinM;

/** False when the bounds of two solids are apart. */
export function touches(a: Solid, b: Solid): boolean {
  const [one, other] = [a.boundingBox(), b.boundingBox()];
  return [0, 1, 2].every(
    (k) => (one.min[k] as number) <= (other.max[k] as number) && (other.min[k] as number) <= (one.max[k] as number),
  );
}
