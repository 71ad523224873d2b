import { inOrder } from '../../base/order';
import { distance, type Vec3 } from '../../base/vec';
import { sideWord } from '../../boat/interior/faces';
import type { Arrangement, Boat, PanelData } from '../../boat/schema/boat';
import type { Patch, SharedFace } from './panels';
import { nearestOnPolygon } from './polygon';
import type { Orphan, Panel, PanelHole } from './types';

/** A record further than this from every panel of its pair belongs to none of them. */
export const BIND_WITHIN_M = 0.3;
/** Thickness of a panel, and least distance of a hole from its edge, where the boat file is silent. Common practice, no source. */
export const DEFAULT_THICKNESS_M = 0.012;
const DEFAULT_EDGE_M = 0.015;
/** Outlines closer than this touch: what stands between them is not the panel's thickness. */
const TOUCHING = 0.001;

export interface BoundPanel {
  readonly panel: Panel;
  readonly patches: readonly Patch[];
}

interface Binding {
  readonly boat: Pick<Boat, 'compartments' | 'panels' | 'newHoleCostM'>;
  readonly newHoles: Arrangement['newHoles'];
}

/** One key for a pair of spaces, whichever is named first. */
export const pairKey = (a: string, b: string): string => (a < b ? `${a}|${b}` : `${b}|${a}`);

/** Gives every shared face its id and the record nearest to it. `pairs` holds the shared faces of each pair in order. */
export function bindPanels(
  pairs: ReadonlyMap<string, readonly SharedFace[]>,
  { boat, newHoles }: Binding,
): { readonly panels: readonly BoundPanel[]; readonly orphans: readonly Orphan[] } {
  const orphans: Orphan[] = [];
  const taken = new Map<SharedFace, { dataId: string; distanceM: number }>();
  for (const [dataId, { between, near, setAside }] of inOrder(boat.panels)) {
    if (setAside) {
      orphans.push({ dataId, what: 'panel', reason: 'setAside' });
      continue;
    }
    if (between.includes('skin') || between.includes('undrawn')) continue;
    const nearest = nearestOf(pairs.get(pairKey(...between)), near);
    const rival = nearest && taken.get(nearest.face);
    if (!nearest) orphans.push({ dataId, what: 'panel', reason: 'noSuchPair' });
    else if (nearest.distanceM > BIND_WITHIN_M) orphans.push({ dataId, what: 'panel', reason: 'tooFar' });
    else if (rival && rival.distanceM <= nearest.distanceM)
      orphans.push({ dataId, what: 'panel', reason: 'takenByNearer' });
    else {
      if (rival) orphans.push({ dataId: rival.dataId, what: 'panel', reason: 'takenByNearer' });
      taken.set(nearest.face, { dataId, distanceM: nearest.distanceM });
    }
  }
  const planned = new Map<SharedFace, string[]>();
  for (const [holeId, { between, at }] of inOrder(newHoles)) {
    // The hull bounds the compartment towards its skin: there is no face to bind to, and nothing is lost.
    if (between.includes('skin')) continue;
    const nearest = nearestOf(pairs.get(pairKey(...between)), at);
    if (!nearest) orphans.push({ dataId: holeId, what: 'newHole', reason: 'noSuchPair' });
    else if (nearest.distanceM > BIND_WITHIN_M) orphans.push({ dataId: holeId, what: 'newHole', reason: 'tooFar' });
    else if (boat.panels[taken.get(nearest.face)?.dataId ?? '']?.rule === 'open')
      orphans.push({ dataId: holeId, what: 'newHole', reason: 'openPanel' });
    else planned.set(nearest.face, [...(planned.get(nearest.face) ?? []), holeId]);
  }

  const panels: BoundPanel[] = [];
  for (const key of [...pairs.keys()].sort())
    (pairs.get(key) ?? []).forEach((face, n) => {
      const bound = taken.get(face);
      const dataId = bound?.dataId;
      const data = dataId === undefined ? undefined : boat.panels[dataId];
      const id = n === 0 ? key : `${key}#${n + 1}`;
      const material = data?.material;
      const panel: Panel = {
        id,
        name: data?.name ?? panelLabel(face, boat.compartments),
        between: face.between,
        faces: sidesOf(face),
        rule: data?.rule ?? 'drill',
        thicknessM: data?.thicknessM ?? (face.gapM >= TOUCHING ? face.gapM : DEFAULT_THICKNESS_M),
        newHoleCostM: data?.newHoleCostM ?? boat.newHoleCostM,
        edgeM: data?.edgeM ?? DEFAULT_EDGE_M,
        material: material ?? 'other',
        ...(bound === undefined ? {} : { dataId: bound.dataId, dataDistanceM: bound.distanceM }),
        normal: face.frame.normal,
        pieces: face.patches.map((p) => p.polygon),
        edges: face.edges,
        gapM: face.gapM,
        areaM2: face.areaM2,
        holes: [...existingHoles(face, data), ...plannedHoles(face, data, planned.get(face) ?? [], newHoles)],
      };
      panels.push({ panel, patches: face.patches });
    });
  orphans.sort((p, q) => (p.what === q.what ? (p.dataId < q.dataId ? -1 : 1) : p.what === 'panel' ? -1 : 1));
  return { panels, orphans };
}

function sidesOf({ patches }: SharedFace): readonly [string, string] {
  const faces = patches[0]?.faces;
  return [faces?.[0].key ?? '', faces?.[1].key ?? ''];
}

function nearestOf(
  faces: readonly SharedFace[] | undefined,
  p: Vec3,
): { readonly face: SharedFace; readonly distanceM: number } | null {
  let best: { face: SharedFace; distanceM: number } | null = null;
  for (const face of faces ?? []) {
    const distanceM = distance(p, nearestOnFace(face, p));
    if (!best || distanceM < best.distanceM) best = { face, distanceM };
  }
  return best;
}

function nearestOnFace(face: SharedFace, p: Vec3): Vec3 {
  let best: Vec3 = face.centre;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const { polygon } of face.patches) {
    const q = nearestOnPolygon(polygon, face.frame.normal, p);
    const d = distance(p, q);
    if (d < bestDistance) {
      bestDistance = d;
      best = q;
    }
  }
  return best;
}

const existingHoles = (face: SharedFace, data: PanelData | undefined): PanelHole[] =>
  Object.keys(data?.holes ?? {})
    .sort()
    .map((id) => {
      const hole = (data as PanelData).holes[id] as PanelData['holes'][string];
      return {
        id,
        at: nearestOnFace(face, hole.at),
        diameterM: hole.diameterM,
        carries: Object.keys(hole.carries)
          .sort()
          .map((key) => {
            const { name, diameterM } = hole.carries[key] as { name: string; diameterM: number };
            return { name, diameterM };
          }),
        ...(hole.sealed ? { sealed: true as const } : {}),
      };
    });

/** A planned hole whose id an existing hole of the panel has already is told apart by a suffix. */
const plannedHoles = (
  face: SharedFace,
  data: PanelData | undefined,
  ids: readonly string[],
  newHoles: Arrangement['newHoles'],
): PanelHole[] =>
  ids.map((id) => {
    const hole = newHoles[id] as Arrangement['newHoles'][string];
    return {
      id: data?.holes[id] === undefined ? id : `${id}-planned`,
      at: nearestOnFace(face, hole.at),
      diameterM: hole.diameterM,
      carries: [],
      planned: true,
      newHoleId: id,
      ...(hole.sealed ? { sealed: true as const } : {}),
      ...(hole.for.length > 0 ? { forLines: [...hole.for].sort() } : {}),
    };
  });

/** What people call the panel: "bulkhead between galley and engine space". */
function panelLabel(face: SharedFace, compartments: Boat['compartments']): string {
  const side = sideWord(face.frame.normal);
  const noun = side.endsWith('end') ? 'bulkhead' : side === 'top' || side === 'bottom' ? 'board' : 'partition';
  const [a, b] = face.between;
  return `${noun} between ${compartments[a]?.name ?? a} and ${compartments[b]?.name ?? b}`;
}
