import { z } from 'zod';
import { localPoint, size } from './quantities';

/** What must be looked at before a hole is made through the skin: outside, and in the shell and behind it. */
export const HOLE_CHECKS = ['stringer', 'core', 'keel', 'tabbing', 'slingLine', 'strut', 'flangeRoom'] as const;

/** What may come out of a through-hull. */
export const DISCHARGES = ['head', 'sink', 'exhaust', 'cooling', 'bilge', 'brine', 'deck'] as const;

/** Of a through-hull: the hole in the hull. */
export const seaOpening = z.looseObject({
  at: localPoint.describe(
    'local: where it opens in the hull; its place and depth are those of this point, not of the middle of the thing',
  ),
  boreM: size.describe('bore, metres'),
  use: z.enum(['intake', 'outlet', 'spare']).default('intake').describe('default intake'),
  material: z
    .enum(['bronze', 'dzrBrass', 'brass', 'plastic', 'stainless', 'other'])
    .optional()
    .describe('what the fitting and its valve are made of; plain brass is to be replaced first'),
  fittedYear: z
    .int()
    .min(1900)
    .max(2200)
    .optional()
    .describe('year in which it was fitted; with plannedYear of the boat its age is judged'),
  backed: z
    .boolean()
    .optional()
    .describe('a pad inside spreads its load over the shell; false is a fault, absent: not judged'),
  checked: z
    .array(z.enum(HOLE_CHECKS))
    .optional()
    .describe(
      'of a part, whose hole is still to be made: what was looked at there, inside and out; all of it wanted below the upright waterline',
    ),
  discharges: z
    .array(z.enum(DISCHARGES))
    .optional()
    .describe(
      'what comes out of it, taken as coming out while the set runs; default: what its lines and the names in sharedBy tell',
    ),
});
