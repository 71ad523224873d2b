import { inOrder } from '../../base/order';
import { signedArea } from '../../base/ring';
import { distance, type Vec2, type Vec3 } from '../../base/vec';
import { sideWord } from '../../boat/interior/faces';
import type { Boat } from '../../boat/schema/boat';
import { BIND_WITHIN_M, type BoundPanel, DEFAULT_THICKNESS_M } from './bind';
import type { Patch } from './panels';
import { frameOf, fromPlane, nearestOnPolygon, onPlane, type PlaneFrame, subtractConvex } from './polygon';
import type { Face, Prism } from './prism';
import type { Orphan, Wall } from './types';

type CellOf = (compartment: string, piece: number) => number;

interface WallInput {
  readonly prisms: readonly Prism[];
  readonly panels: readonly BoundPanel[];
  readonly cellOf: CellOf;
  readonly boat: Pick<Boat, 'compartments' | 'panels'>;
}

/**
 * Solid plates: every panel that is not open, in its middle plane, and what is left of every face. A face towards undrawn
 * space gets a plate that stands outside the compartment, so that it takes nothing of its room.
 */
export function wallsOf(input: WallInput): { readonly walls: readonly Wall[]; readonly orphans: readonly Orphan[] } {
  const { prisms, panels, cellOf, boat } = input;
  const walls: Wall[] = [];
  const patchesOn = new Map<Face, Patch[]>();
  for (const { panel, patches } of panels) {
    patches.forEach((patch, k) => {
      for (const face of patch.faces) patchesOn.set(face, [...(patchesOn.get(face) ?? []), patch]);
      if (panel.rule === 'open') return;
      walls.push({
        id: `${panel.id}/${k}`,
        polygon: patch.polygon,
        normal: panel.normal,
        thicknessM: panel.thicknessM,
        cells: [cellOf(panel.between[0], patch.pieces[0]), cellOf(panel.between[1], patch.pieces[1])],
        panelId: panel.id,
        label: panel.name,
      });
    });
  }

  const { dataOf, orphans } = bindOuterData(prisms, patchesOn, boat);
  for (const prism of prisms)
    for (const face of prism.faces) {
      const dataId = dataOf.get(face);
      const data = dataId === undefined ? undefined : boat.panels[dataId];
      const thicknessM = data?.thicknessM ?? DEFAULT_THICKNESS_M;
      const label =
        data?.name ??
        `${sideWord(face.plane.normal)} of ${boat.compartments[prism.compartment]?.name ?? prism.compartment}`;
      leftOver(face, patchesOn.get(face) ?? []).forEach(({ polygon, piece }, k) => {
        walls.push({
          id: `${prism.compartment}/${face.key}/${k}`,
          polygon: polygon.map((p) => outwards(p, face.plane.normal, thicknessM / 2)),
          normal: face.plane.normal,
          thicknessM,
          cells: [cellOf(prism.compartment, piece)],
          ...(dataId === undefined ? {} : { dataId }),
          label,
        });
      });
    }
  return { walls, orphans };
}

const outwards = (p: Vec3, n: Vec3, by: number): Vec3 => [p[0] + n[0] * by, p[1] + n[1] * by, p[2] + n[2] * by];

/** The parts of a face that no panel covers, as convex polygons in the face. */
function leftOver(face: Face, patches: readonly Patch[]): { polygon: readonly Vec3[]; piece: number }[] {
  const frame: PlaneFrame = frameOf(
    face.plane.normal,
    (face.pieces[0] as { polygon: readonly Vec3[] }).polygon[0] as Vec3,
  );
  const flatten = (polygon: readonly Vec3[]): Vec2[] => polygon.map((p) => onPlane(frame, p));
  return face.pieces.flatMap(({ piece, polygon }) => {
    let rest: Vec2[][] = [flatten(polygon)];
    for (const patch of patches) {
      const flat = flatten(patch.polygon);
      const hole = signedArea(flat) < 0 ? flat.reverse() : flat;
      rest = rest.flatMap((r) => subtractConvex(r, hole));
    }
    return rest.filter((r) => signedArea(r) > 1e-7).map((r) => ({ polygon: r.map((q) => fromPlane(frame, q)), piece }));
  });
}

/** Records of a compartment's face towards undrawn space: the nearest face that is not wholly a panel takes it. */
function bindOuterData(
  prisms: readonly Prism[],
  patchesOn: ReadonlyMap<Face, readonly Patch[]>,
  boat: Pick<Boat, 'compartments' | 'panels'>,
): { readonly dataOf: ReadonlyMap<Face, string>; readonly orphans: readonly Orphan[] } {
  const taken = new Map<Face, { dataId: string; distanceM: number }>();
  const orphans: Orphan[] = [];
  for (const [dataId, { between, near, setAside }] of inOrder(boat.panels)) {
    if (setAside) continue;
    const isOuter = between.includes('undrawn');
    if (!isOuter && !between.includes('skin')) continue;
    const prism = prisms.find((p) => between.includes(p.compartment));
    if (!prism) {
      orphans.push({ dataId, what: 'panel', reason: 'noSuchPair' });
      continue;
    }
    // The hull bounds the compartment towards its skin: there is no face to bind to, and nothing is lost.
    if (!isOuter) continue;
    let best: { face: Face; distanceM: number } | null = null;
    for (const face of prism.faces)
      for (const { polygon } of leftOver(face, patchesOn.get(face) ?? [])) {
        const distanceM = distance(near, nearestOnPolygon(polygon, face.plane.normal, near));
        if (!best || distanceM < best.distanceM) best = { face, distanceM };
      }
    const rival = best && taken.get(best.face);
    if (!best || best.distanceM > BIND_WITHIN_M) orphans.push({ dataId, what: 'panel', reason: 'tooFar' });
    else if (rival && rival.distanceM <= best.distanceM)
      orphans.push({ dataId, what: 'panel', reason: 'takenByNearer' });
    else {
      if (rival) orphans.push({ dataId: rival.dataId, what: 'panel', reason: 'takenByNearer' });
      taken.set(best.face, { dataId, distanceM: best.distanceM });
    }
  }
  return { dataOf: new Map([...taken].map(([face, { dataId }]) => [face, dataId])), orphans };
}
