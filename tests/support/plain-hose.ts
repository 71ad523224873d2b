import type { Vec3 } from '@core/base/vec';
import type { Lead, RoutingLine } from '@core/runs/routing/types';
import type { BoxSolid } from '@core/shape/space/solids';

/** Ends, lines and boxes with nothing to them but their geometry. Metres. */

/** A bare end: no fitting, nothing rigid. `direction` is a unit vector out of its thing. */
export const plainLead = (at: Vec3, direction: Vec3, radiusM: number, more: Partial<Lead> = {}): Lead => ({
  thing: 't',
  port: 'p',
  at,
  direction,
  rigidM: 0,
  fittingRadiusM: radiusM,
  swivel: false,
  crimped: false,
  ...more,
});

/** A hose that passes any hole of its own width, and is asked for nothing. */
export const plainLine = (
  from: Lead,
  to: Lead,
  size: Pick<RoutingLine, 'radiusM' | 'bendRadiusM'>,
  more: Partial<RoutingLine> = {},
): RoutingLine => ({
  id: 'l',
  label: 'l',
  ...size,
  from,
  to,
  holeRadiusM: size.radiusM,
  suction: false,
  clipPoints: [],
  forbiddenCompartments: [],
  ...more,
});

/** A furnishing along the axes of the boat. */
export const plainBox = (id: string, centre: Vec3, half: Vec3): BoxSolid => ({
  type: 'box',
  id,
  owner: id,
  label: id,
  layer: 'furnishing',
  centre,
  half,
  axes: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
});
