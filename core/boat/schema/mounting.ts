import { z } from 'zod';
import { angle, length } from './quantities';

/** How a part is fixed. */
export const mounting = z.looseObject({
  face: z
    .enum(['+x', '-x', '+y', '-y', '+z', '-z'])
    .optional()
    .describe(
      'local: face that is screwed on; it must lie on a mounting surface. Default: the face that looks at the surface',
    ),
  screwM: length
    .optional()
    .describe(
      'length of the screws, metres: less footM and the thickness of the surface, it is how far they come out behind',
    ),
  footM: length
    .optional()
    .describe('thickness of the foot or flange of the part that the screws pass first, metres; default 0'),
  screws: z.int().min(0).optional().describe('number of screws'),
  resilient: z.boolean().optional().describe('stands on rubber feet: what shakes is then heard less through the panel'),
  upright: z.boolean().optional().describe('must stand upright: its local z up, as it is fitted in an upright boat'),
  levelDeg: angle
    .optional()
    .describe('how far off upright it may be fitted, degrees (crankcase oil); default 5 of what must stand upright'),
  tiltDeg: angle
    .optional()
    .describe(
      'greatest angle of its local z off the vertical at which it may run, degrees: its own lean and the heel of the run states together',
    ),
});
