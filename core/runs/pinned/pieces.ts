import { along, distance, dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { PanelHole } from '../../shape/layout/types';
import type { Piece } from '../routing/fillet';
import { type HoseClass, stubOf } from '../routing/nodes';
import type { Element } from '../routing/polygon';
import { primLength } from '../routing/prims';
import { depthInOutline, type PortalFrame, type Structure } from '../routing/structure';
import type { Crossing, Prim } from '../routing/types';

type HoleElement = Extract<Element, { kind: 'hole' }>;

/** Cosine between a hose and the axis of the hole that it passes: less is no passing, but a cut through the panel. */
const SQUARE_COS = 0.996;

/** A run in pieces as the last look at a run wants them: each crossing of a panel that is not open on a straight of its own. */
export function piecesOf(prims: readonly Prim[], structure: Structure, hose: HoseClass): readonly Piece[] {
  return prims.flatMap((prim): Piece[] => {
    const lengthM = primLength(prim);
    if (prim.kind === 'arc') return [{ prim, lengthM, angle: lengthM / prim.radius, element: null }];
    const passed = crossed(prim, structure, hose);
    if (passed.length < 2) return [{ prim, lengthM, angle: 0, element: passed[0]?.element ?? null }];
    const cuts = passed.slice(1).map(({ share }, k) => ((passed[k] as Passed).share + share) / 2);
    const at = (share: number): Vec3 => along(prim.from, subtract(prim.to, prim.from), share);
    return passed.map(({ element }, k) => {
      const part: Prim = { kind: 'line', from: at(cuts[k - 1] ?? 0), to: at(cuts[k] ?? 1) };
      return { prim: part, lengthM: primLength(part), angle: 0, element };
    });
  });
}

interface Passed {
  /** Of the straight, from its start. */
  readonly share: number;
  readonly element: HoleElement;
}

function crossed(line: Extract<Prim, { kind: 'line' }>, structure: Structure, hose: HoseClass): readonly Passed[] {
  const lengthM = distance(line.from, line.to);
  if (lengthM === 0) return [];
  const way = scale(subtract(line.to, line.from), 1 / lengthM);
  const found: Passed[] = [];
  for (const frame of structure.frames) {
    const { panel } = frame;
    if (!panel || panel.rule === 'open') continue;
    const square = dot(way, frame.n);
    if (Math.abs(square) < SQUARE_COS) continue;
    const alongM = dot(subtract(frame.origin, line.from), frame.n) / square;
    if (alongM < 0 || alongM > lengthM) continue;
    const off = subtract(along(line.from, way, alongM), frame.origin);
    const place: [number, number] = [dot(off, frame.u), dot(off, frame.v)];
    if (depthInOutline(frame.outline, ...place) < 0) continue;
    // Pieces of one panel share their seams.
    if (found.some(({ element }) => element.panel === panel)) continue;
    const stubM = stubOf(panel, hose);
    const element: HoleElement = {
      kind: 'hole',
      frame,
      panel,
      hole: holeAt(frame, along(line.from, way, alongM)),
      forward: square > 0,
      stubM,
      params: [...place, stubM, stubM],
    };
    found.push({ share: alongM / lengthM, element });
  }
  return found.sort((a, b) => a.share - b.share);
}

/** The hole of the panel that a place in its middle plane lies in, else null. */
function holeAt({ panel, n }: PortalFrame, at: Vec3): PanelHole | null {
  const holes = (panel?.holes ?? []).map((hole) => {
    const off = subtract(at, hole.at);
    return { hole, offM: distance(off, scale(n, dot(off, n))) };
  });
  const nearest = holes.sort((a, b) => a.offM - b.offM)[0];
  return nearest && nearest.offM <= nearest.hole.diameterM / 2 ? nearest.hole : null;
}

/** Crossings of a run in pieces; a hole that is not there is to be drilled as wide as the hose asks for. */
export function crossingsOf(pieces: readonly Piece[], hose: HoseClass): readonly Crossing[] {
  return pieces.flatMap(({ element }) => {
    if (element?.kind !== 'hole') return [];
    const { frame, panel, hole, forward } = element;
    const [a = 0, b = 0] = element.params;
    return [
      {
        panelId: panel.id,
        at: along(along(frame.origin, frame.u, a), frame.v, b),
        diameterM: hole ? hole.diameterM : 2 * hose.holeRadiusM,
        holeId: hole ? hole.id : null,
        along: forward ? frame.n : scale(frame.n, -1),
        alongM: panel.thicknessM / 2,
      },
    ];
  });
}

/** How far the nearest bend is too near to a hole: metres lacking of the straight that it asks for on its worse side, 0 when none. */
export function holeStraightLacking({ prim, element }: Piece): number {
  if (element?.kind !== 'hole' || prim.kind !== 'line') return 0;
  const { frame, params, stubM } = element;
  const centre = along(along(frame.origin, frame.u, params[0] ?? 0), frame.v, params[1] ?? 0);
  return Math.max(0, stubM - Math.min(distance(centre, prim.from), distance(centre, prim.to)));
}
