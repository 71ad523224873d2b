import { z } from 'zod';
import { amount, length, localPoint } from './quantities';

/** A relief valve or pressure switch that is built in. */
export const relief = z.looseObject({
  opensBar: amount.optional().describe('pressure at which it opens or switches off, bar; default not known'),
});

/** Of a water tank: how it is vented and where it runs over. */
export const waterTank = z.looseObject({
  ventBoreM: length
    .optional()
    .describe(
      'of a tank in which a line of medium product ends: bore of its vent, metres, 0 for none: must be that of the tube with made water at least; default that of its port that serves as vent',
    ),
  overflowTo: z
    .enum(['overboard', 'deck', 'cockpit', 'sink', 'bilge', 'locker', 'cabin'])
    .optional()
    .describe(
      'where the water goes when it is too full: a locker or a cabin is a fault; default: where the line from its overflow, else from its vent, ends',
    ),
  overflowAt: localPoint
    .optional()
    .describe(
      'local: where it runs over, as high as the entry of made water at most, as drawn upright; default its port that serves as overflow, else as vent',
    ),
  entryAt: localPoint
    .optional()
    .describe('local: where made water enters; default the port at which the line with it ends'),
});

/** Pressure that the water loses in a thing. */
export const pressureLoss = z.looseObject({
  atLMin: amount.positive().describe('flow at which the losses were read, litres a minute'),
  cleanBar: amount.describe('loss when clean, bar'),
  dirtyBar: amount.optional().describe('loss when it is due to be cleaned or changed, bar; default that when clean'),
  law: z
    .enum(['linear', 'quadratic'])
    .optional()
    .describe('how it grows with the flow; default linear for a filter cartridge, quadratic for anything else'),
});
