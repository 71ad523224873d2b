import { facesOf } from '@core/boat/interior/faces';
import type { Compartment } from '@core/boat/schema/boat';
import { hullCut } from '@core/output/views/cuts';
import { depthAxis, type ViewFrame } from '@core/output/views/drawing';
import type { Ring } from '@core/output/views/polygons';
import type { HullSurface } from '@core/shape/hull/types';
import { snapLinesOf } from '../../tools/grips';
import { type Pull, type SnapField, stepFor } from '../../tools/point-snap';
import { PULL_PX } from '../../tools/snap';
import type { Scene } from '../scene';

type Place = 0 | 1 | 2;

/** Bounds of a compartment along one axis of the boat, turned as it is. */
export function boundsAlong(compartment: Compartment, axis: Place): readonly [number, number] {
  const values = facesOf(compartment).flatMap((face) => face.polygon.map((p) => p[axis]));
  return [Math.min(...values), Math.max(...values)];
}

/** How far from its plane a section still takes notice of a compartment, metres. */
const NEAR_CUT_M = 0.03;

let lastField: { key: readonly unknown[]; field: SnapField } | null = null;

/**
 * Faces of the other compartments that a view shows edge on, and the inner face of the hull at a place across the view. A
 * section takes the compartments that it cuts.
 */
export function snapFieldOf(
  scene: Pick<Scene, 'boat' | 'hull' | 'sectionX'>,
  frame: ViewFrame,
  except: string | null,
  acrossM: number,
): SnapField {
  const across = frame.name === 'section' ? scene.sectionX : Math.round(acrossM * 50) / 50;
  const key = [scene.boat.compartments, scene.hull, frame, except, across];
  if (lastField?.key.every((k, i) => k === key[i])) return lastField.field;
  const axis = depthAxis(frame);
  const lines = Object.entries(scene.boat.compartments).flatMap(([id, compartment]) => {
    if (id === except) return [];
    if (frame.name === 'section') {
      const [low, high] = boundsAlong(compartment, axis);
      if (across < low - NEAR_CUT_M || across > high + NEAR_CUT_M) return [];
    }
    return snapLinesOf(compartment, frame, id);
  });
  const field = { lines, curves: scene.hull ? innerFaces(scene.hull, frame, across) : [] };
  lastField = { key, field };
  return field;
}

/** Inside of the hull in a plane; without lining and shell the skin itself. */
function innerFaces(hull: HullSurface, frame: ViewFrame, at: number): readonly Ring[] {
  const { inner, outer } = hullCut(hull, { frame, at });
  return inner.length > 0 ? inner : outer;
}

/** Alt held: no pull, and to the millimetre. */
export const pullOf = (scale: number, free: boolean): Pull =>
  free ? { pullM: 0, stepM: 0.001 } : { pullM: PULL_PX / scale, stepM: stepFor(scale) };
