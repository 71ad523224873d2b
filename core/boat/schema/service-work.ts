import { z } from 'zod';
import { amount } from './quantities';

/** Assumptions of the minutes that service takes a year. */
export const serviceWork = z.looseObject({
  setHoursYear: amount
    .optional()
    .describe(
      'hours that the set runs a year; default (needs.waterLDay + needs.flushL) / productLH of its pump module, for daysYear days, else 100',
    ),
  daysYear: amount.max(366).optional().describe('days a year on which the boat is lived on; default 60'),
  engineHoursYear: amount.optional().describe('hours that the engine runs a year; default 100'),
  openMinutes: amount
    .optional()
    .describe('to open and shut one door, lid, slide or curtain, minutes; default 0.5, of a board that lifts out 1'),
  unscrewMinutes: amount.optional().describe('to unscrew one panel and screw it back, minutes; default 8'),
  moveMinutes: amount
    .optional()
    .describe('to clear away and put back one thing that lies before an opening, minutes; default 3'),
  takeOffMinutes: amount
    .optional()
    .describe('to take off one thing or line that is in the way, and put it back, minutes; default 20'),
});
