import type { Vec3 } from '@core/base/vec';
import { lengthBound } from '@core/runs/routing/bound/bound';
import { routeLine } from '@core/runs/routing/route';
import type { RoutingLine, RoutingView } from '@core/runs/routing/types';
import type { BoxSolid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { hall } from './dubins-poses';

/**
 * Derived: the shortest way of a thin, supple hose round one box. The box stands square in the way, far taller than wide, so
 * the way round its side lies in one plane: from A to the two near edges and on to B, along the box's width between them.
 * A hose keeps its own radius r off the box, and bends no tighter than R; as both get small its length tends to the string's.
 */
const HALF: Vec3 = [0.3, 0.4, 5];
const box: BoxSolid = {
  type: 'box',
  id: 'box',
  owner: 'box',
  label: 'box',
  layer: 'furnishing',
  centre: [0, 0, 0],
  half: HALF,
  axes: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
};
const view: RoutingView = { ...hall, thingsIn: () => [box] };

const A: Vec3 = [-1.5, 0.1, 0];
const B: Vec3 = [1.2, 0.2, 0];
const string = Math.hypot(-HALF[0] - A[0], HALF[1] - A[1]) + 2 * HALF[0] + Math.hypot(B[0] - HALF[0], HALF[1] - B[1]);
/** Rounded by a disc of radius q about each edge: tangents, arcs on the edges, and the straight between them. */
function around(q: number): number {
  const side = (x: number, y: number): { tangent: number; angle: number } => {
    const far = Math.hypot(x, y);
    // Angle between the line to the edge and the box's side, and between that line and the tangent.
    return { tangent: Math.sqrt(far * far - q * q), angle: Math.atan2(y, x) + Math.asin(q / far) };
  };
  const a = side(-HALF[0] - A[0], HALF[1] - A[1]);
  const b = side(B[0] - HALF[0], HALF[1] - B[1]);
  return a.tangent + a.angle * q + 2 * HALF[0] + b.tangent + b.angle * q;
}

const toward = (from: Vec3, edge: Vec3): Vec3 => {
  const d: Vec3 = [edge[0] - from[0], edge[1] - from[1], edge[2] - from[2]];
  const l = Math.hypot(...d);
  return [d[0] / l, d[1] / l, d[2] / l];
};
function hose(radiusM: number, bendRadiusM: number): RoutingLine {
  const lead = (at: Vec3, edge: Vec3, thing: string): RoutingLine['from'] => ({
    thing,
    port: 'p',
    at,
    direction: toward(at, edge),
    rigidM: 0,
    fittingRadiusM: radiusM,
    swivel: false,
    crimped: false,
  });
  return {
    id: 'l',
    label: 'l',
    radiusM,
    bendRadiusM,
    from: lead(A, [-HALF[0], HALF[1] + radiusM, 0], 'a'),
    to: lead(B, [HALF[0], HALF[1] + radiusM, 0], 'b'),
    holeRadiusM: radiusM,
    suction: false,
    clipPoints: [],
    forbiddenCompartments: [],
  };
}

describe('one box in the way', () => {
  it('has a rounded way that tends to the taut string', () => {
    expect(around(1e-9)).toBeCloseTo(string, 8);
    expect(around(0.02)).toBeGreaterThan(string);
  });

  it.each([
    [0.02, 0.025],
    [0.01, 0.0125],
    [0.005, 0.006],
    [0.002, 0.0025],
  ])('is passed within 1 %% of the shortest way by a hose of radius %f m', (r, bend) => {
    const outcome = routeLine(view, hose(r, bend), 'deep');
    expect(outcome.status).toBe('routed');
    if (outcome.status !== 'routed') return;
    // No hose of that radius is shorter than the string round the edges grown by r.
    expect(outcome.lengthM).toBeGreaterThanOrEqual(around(r) - 1e-6);
    expect(outcome.lengthM).toBeLessThan(around(r) * 1.01);
    // The bound knows nothing of the box: it may not exceed the straight way's length by more than bends ask for.
    expect(lengthBound(hose(r, bend), view, 30).lengthM).toBeLessThanOrEqual(outcome.lengthM);
  });
});
