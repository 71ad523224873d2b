import { z } from 'zod';
import { amount, fraction } from './quantities';

/** What the set is wanted for, and what the boat has for it. All of a day is an average over the time between two charges. */
export const needs = z.looseObject({
  waterLDay: amount
    .optional()
    .describe(
      'drinking water wanted a day by all aboard, litres, without what flushes drink. The set runs (waterLDay + flushL) / productLH hours a day for it, at the drawA of its pump module and of the feed pumps among the parts',
    ),
  flushL: amount
    .optional()
    .describe(
      'made water that flushing drinks a day, litres (one flush takes 15 to 40); it is made besides; default 0',
    ),
  runHoursDay: amount
    .max(24)
    .optional()
    .describe('hours a day for which the set may run: noise, harbour; default as many as it takes, up to 24'),
  chargeEveryDays: amount
    .positive()
    .optional()
    .describe(
      'days from one full charge by engine or shore to the next: the usable part of the bank is spread over them; default: never, so that sun and otherChargeAhDay must cover each day',
    ),
  otherAhDay: amount
    .optional()
    .describe('what everything else aboard draws a day, ampere-hours at the voltage of the bank; default 0'),
  sunHoursDay: amount
    .max(24)
    .optional()
    .describe('hours of full sun (1,000 W/m2) that a day amounts to; without it the solar panels count nothing'),
  solarW: amount.optional().describe('rated power of all solar panels, watts; default the sum of solarW of things'),
  solarShare: fraction
    .optional()
    .describe('share of rated power times hours of sun that gets into the bank: heat, shade, regulator; default 0.75'),
  otherChargeAhDay: amount
    .optional()
    .describe('charge a day by engine, wind or shore beside the full charges, ampere-hours; default 0'),
});

export type Needs = z.infer<typeof needs>;
