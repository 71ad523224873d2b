import type { Compartment } from '@core/boat/schema/boat';
import Module, { type Manifold as Solid } from 'manifold-3d';

/**
 * Solids by a general library for boolean operations on meshes (manifold-3d): hulls from their triangles, compartments from the boat
 * file, each made into a closed mesh in its own way.
 */
const wasm = await Module();
wasm.setup();
export const { Manifold, CrossSection, Mesh } = wasm;

export type { Solid };

interface OpenMesh {
  readonly vertices: ArrayLike<number>;
  readonly triangles: ArrayLike<number>;
}

/** The skin closed far above its open top by upright walls: what a hull without a deck bounds. */
export function hullSolid({ vertices, triangles }: OpenMesh, topM: number): Solid {
  const at = (k: number): [number, number, number] => [
    vertices[3 * k] as number,
    vertices[3 * k + 1] as number,
    vertices[3 * k + 2] as number,
  ];
  const places: number[] = [];
  const placeOf = new Map<string, number>();
  const put = (p: readonly number[]): number => {
    const key = p.map((v) => Math.fround(v)).join(' ');
    const known = placeOf.get(key);
    if (known !== undefined) return known;
    places.push(...p);
    placeOf.set(key, places.length / 3 - 1);
    return places.length / 3 - 1;
  };
  const faces: number[] = [];
  const open = new Map<string, readonly [number, number]>();
  for (let t = 0; t < triangles.length; t += 3) {
    const three = [0, 1, 2].map((k) => put(at(triangles[t + k] as number))) as [number, number, number];
    if (new Set(three).size < 3) continue;
    faces.push(...three);
    three.forEach((a, k) => {
      const b = three[(k + 1) % 3] as number;
      if (!open.delete(`${b} ${a}`)) open.set(`${a} ${b}`, [a, b]);
    });
  }
  const raised = (k: number): number => put([places[3 * k] as number, places[3 * k + 1] as number, topM]);
  const around: (readonly [number, number])[] = [...open.values()].map(([a, b]) => [raised(b), raised(a)]);
  for (const [a, b] of open.values()) {
    faces.push(b, a, raised(a), b, raised(a), raised(b));
  }
  // The lid: a fan about a point of its middle is closed whatever its form, and all of it lies in one plane.
  const middle = put([around.reduce((sum, [a]) => sum + (places[3 * a] as number), 0) / around.length, 0, topM]);
  for (const [a, b] of around) if (a !== b) faces.push(a, b, middle);
  const mesh = new Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(places),
    triVerts: Uint32Array.from(faces),
  });
  mesh.merge();
  return new Manifold(mesh);
}

/** The prism of a record, straight from the outline. */
export function prismSolid({ outline, rangeM, view, yawDeg }: Compartment): Solid {
  const [from, to] = rangeM;
  const prism = Manifold.extrude(
    new CrossSection([outline.map(([a, b]): [number, number] => [a, b])], 'NonZero'),
    to - from,
  ).translate(0, 0, from);
  // Columns of the turn: where outline and range go in the boat. Of profile the outline is [x, z] and the range y: a mirror image.
  const placed =
    view === 'plan'
      ? prism
      : prism.transform(
          view === 'section'
            ? [0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0, 1]
            : [1, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0, 0, 0, 0, 1],
        );
  if (yawDeg === 0) return placed;
  const { min, max } = placed.boundingBox();
  const [cx, cy] = [((min[0] as number) + (max[0] as number)) / 2, ((min[1] as number) + (max[1] as number)) / 2];
  return placed.translate(-cx, -cy, 0).rotate(0, 0, yawDeg).translate(cx, cy, 0);
}
