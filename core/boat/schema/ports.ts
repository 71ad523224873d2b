import { z } from 'zod';
import { amount, direction, id, length, localPoint, name, size } from './quantities';

export const MEDIA = [
  'seaWater',
  'brine',
  'freshWater',
  'product',
  'gauge',
  'dcPower',
  'signal',
  'fuel',
  'waste',
  'air',
] as const;
export const medium = z.enum(MEDIA);

/** Where a hose, tube or cable meets a thing. */
export const port = z.looseObject({
  at: localPoint.describe('local: where the fitting meets the thing, on or outside its envelope, metres'),
  direction: direction.describe('local: out of the thing, the way a hose leaves'),
  medium: medium.optional().describe('what flows; default that of the line on it'),
  fitting: name.optional().describe('thread or barb'),
  boreM: size.optional().describe('bore, metres'),
  straightM: length
    .default(0)
    .describe('length that must stay straight from the port, beyond the rigid end of the hose, metres; default 0'),
  role: z.enum(['in', 'out', 'both']).default('both').describe('way of the flow through the port; default both'),
  serves: z
    .enum(['fill', 'draw', 'vent', 'overflow', 'drain'])
    .optional()
    .describe(
      'of a tank: what the port is for. A vent lets air out while it fills, an overflow lets water out when it is full; default: a port of air is the vent, and without an overflow the vent is the overflow too',
    ),
  openEnd: z
    .boolean()
    .optional()
    .describe(
      'water that comes back through it runs into the boat: a basin, a vent, an overflow, a loose end. A line from there to a through-hull under the heeled water must rise high enough above that, by its run or a vented loop, unless this port stays above it; default: so at sinks, heads, tanks, bilge pumps and taps, at nothing else',
    ),
});

/**
 * Which ports are joined inside the thing, and when. Without it all ports of one medium are joined, of a valve in each state that is not
 * shut: what its states and ports are called says nothing of its ways.
 */
export const passage = z.looseObject({
  ports: z.tuple([id, id]).describe('joined ports; with oneWay the flow goes from the first to the second'),
  oneWay: z
    .boolean()
    .default(false)
    .describe(
      'holds back what would flow from the second to the first, as a check valve or an air gap does; default false',
    ),
  when: z.array(id).optional().describe('names of the valve states in which it is open; default always'),
  opensBar: amount
    .optional()
    .describe(
      'it is a relief: opens by itself at that pressure, bar, whatever the valve, and is no way for the water otherwise; default: it is a plain passage',
    ),
});
