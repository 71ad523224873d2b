import { z } from 'zod';
import type { HydrostaticRow } from '../shape/hull/hydrostatic-table';

/** What `hull --json` prints, as a schema; it stands under $defs.hull of the report's. The last line does not compile when it and the rows differ. */
const metres = z.number();

const row = z.strictObject({
  draughtM: metres.describe(
    'from the lowest point of the hull (in the trim of the reference attitude, no heel) to the water, measured on the centre plane square to the reference waterline; heeled, to where the water crosses the centre plane, along the same upright of the boat. Metres',
  ),
  heelDeg: z
    .number()
    .describe(
      'heel from the reference attitude (a list of that is not counted), degrees, positive starboard side down',
    ),
  displacementKg: z.number().describe('mass of the water displaced: volume times weights.waterDensityKgM3, kilograms'),
  volumeM3: z
    .number()
    .describe('volume of the hull under water, to the outer skin, m3; above the sheer the hull counts as closed flat'),
  waterplaneAreaM2: z.number().describe('area that the hull cuts out of the water plane, heeled as it is, m2'),
  lcbM: metres.describe('x of the centre of buoyancy, metres forward of the aftmost point, boat frame'),
  lcfM: metres.describe('x of the centre of the water plane, metres forward of the aftmost point, boat frame'),
  kbM: metres.describe(
    'height of the centre of buoyancy over the lowest point of the hull, along the same upright of the boat as the draught, metres',
  ),
  bmM: metres.describe(
    'transverse metacentre over centre of buoyancy: second moment of this water plane about its own longitudinal axis, by volume, metres',
  ),
  bmlM: metres.describe('longitudinal metacentre over centre of buoyancy: the same about its transverse axis, metres'),
  wettedSurfaceM2: z
    .number()
    .describe('outer skin under water, a transom included, appendages only as far as they are in the stations, m2'),
  immersionKgPerCm: z.number().describe('mass that sinks the hull by one centimetre, kilograms per centimetre'),
  momentToTrimNmPerCm: z
    .number()
    .describe(
      'moment that changes trim by one centimetre over the length L of this water plane: density x 9.80665 x second moment / (100 L), which takes the centre of gravity to be at the centre of buoyancy; N m per centimetre',
    ),
  sinkageM: metres.describe(
    'draughtM less that of the reference attitude: with displacement kept at heel, how far the water line moves on the centre plane; positive deeper, metres',
  ),
  yBM: metres.describe('y of the centre of buoyancy, boat frame: to port, along axes that heel with the boat, metres'),
  zBM: metres.describe(
    'z of the centre of buoyancy, boat frame: up from z = 0 of the file, along axes that heel with the boat, metres',
  ),
});

export const hullTableSchema = z
  .strictObject({ rows: z.array(row) })
  .describe(
    'Hydrostatics as `hull --json` prints them. Without flags: upright, by draught from keel to sheer, the draught of the reference attitude among them. --draught: that draught alone. --heel: displacement of the reference attitude kept. Both: the water crosses the centre plane at that draught, whatever is displaced. The reference attitude comes from measured freeboards or level marks, else from weights.displacementKg and lcgM, else it is z = 0. Heel turns the water about its line in the centre plane; the trim of the reference attitude is kept, the hull is not let free to trim as it heels.',
  );

type Agree<A extends B, B extends C, C = A> = [A, B, C];
export type HullTableAgrees = Agree<z.infer<typeof row>, { -readonly [K in keyof HydrostaticRow]: HydrostaticRow[K] }>;
