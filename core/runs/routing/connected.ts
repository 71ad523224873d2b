import type { Panel } from '../../shape/layout/types';
import { type HoseClass, holeFits } from './nodes';
import { insetOutline, type Structure } from './structure';

/**
 * Whether any chain of panels could let the hose from one cell to another, whatever stands in the cells. Errs towards yes:
 * a no is a proof.
 */
export function mayConnect(
  structure: Structure,
  hose: HoseClass,
  from: number,
  to: number,
  isAllowed: (cell: number) => boolean,
): boolean {
  if (!isAllowed(from) || !isAllowed(to)) return false;
  const { layout } = structure;
  const neighbours: number[][] = layout.cells.map(() => []);
  const join = (a: number, b: number): void => {
    neighbours[a]?.push(b);
    neighbours[b]?.push(a);
  };
  for (const { panel, portal, outline } of structure.frames)
    if (!panel || mayPass(panel, outline, hose)) join(portal.cells[0], portal.cells[1]);
  for (const { between } of layout.overlaps)
    for (const a of layout.cellsOf[between[0]] ?? []) for (const b of layout.cellsOf[between[1]] ?? []) join(a, b);
  const seen = new Set([from]);
  const open = [from];
  for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
    if (cell === to) return true;
    for (const next of neighbours[cell] as number[])
      if (!seen.has(next) && isAllowed(next)) {
        seen.add(next);
        open.push(next);
      }
  }
  return false;
}

function mayPass(panel: Panel, outline: Parameters<typeof insetOutline>[0], hose: HoseClass): boolean {
  // Several patches make one sheet: a hole may lie across their seams, so their own widths say nothing.
  const isOnePiece = panel.pieces.length === 1;
  if (panel.rule === 'open') return !isOnePiece || insetOutline(outline, hose.radiusM * 0.999).length > 0;
  if (panel.holes.some((hole) => holeFits(hole, hose.holeRadiusM))) return true;
  if (panel.rule === 'noDrill') return false;
  return !isOnePiece || insetOutline(outline, (hose.holeRadiusM + panel.edgeM) * 0.999).length > 0;
}
