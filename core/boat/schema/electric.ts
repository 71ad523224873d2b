import { z } from 'zod';
import { amount, fraction, length } from './quantities';

/** Electrical data: of a source, a consumer, or what protects a cable. */
export const electric = z.looseObject({
  sourceV: amount
    .optional()
    .describe(
      'this thing is a source of that voltage, volts, under load; of 50 V or more it counts as mains, which only an electrician may judge',
    ),
  shortCircuitA: amount
    .optional()
    .describe(
      'of a source: short-circuit current of the whole bank, amperes; fuses and breakers behind it must interrupt it. Without it a lithium bank counts as 20 kA, and no other is judged',
    ),
  chemistry: z
    .enum(['floodedLead', 'sealedLead', 'lithium'])
    .optional()
    .describe(
      'of a battery: decides the usable share, and the short-circuit current where it is not given; flooded lead gives off gas and needs a vent',
    ),
  capacityAh: amount
    .optional()
    .describe(
      "of a battery: rated capacity of the whole bank, ampere-hours (of lead over 20 hours); for the day's budget",
    ),
  usableShare: fraction
    .optional()
    .describe(
      'of a battery: share of capacityAh that is drawn before it is charged again; default 0.5 of lead, 0.8 of lithium',
    ),
  solarW: amount
    .optional()
    .describe("of a solar panel (kind other): rated power, watts; for the day's budget, see needs"),
  drivenBy: z
    .enum(['dc', 'ac', 'engine'])
    .optional()
    .describe(
      'what turns its motor: direct current (default), alternating current of a generator, inverter or the shore, or a belt or clutch on the engine; the last two are for an electrician or a mechanic to judge',
    ),
  isolates: z
    .boolean()
    .optional()
    .describe(
      'cuts off by hand what is behind it; default: a breaker, a d.c. panel and a fuse (it can be pulled) do, nothing else does',
    ),
  ignitionProtected: z
    .boolean()
    .optional()
    .describe('built not to ignite gas or petrol vapour around it; default false'),
  drawA: amount.optional().describe('current that this thing draws while it runs, amperes'),
  leastV: amount
    .optional()
    .describe(
      'least voltage at its terminals, volts; default 90 % of the source, or 97 % where the practice asks for it',
    ),
  dropShare: fraction
    .optional()
    .describe(
      'share of the source voltage that may be lost on the way, both conductors, 0 to 1; each conductor of each line is 0.1 m longer than its run, for making up its ends',
    ),
  ratingA: amount
    .optional()
    .describe(
      'of a fuse or breaker, amperes: at most 150 % of the ampacity of the smallest conductor that it protects, and no less than the current in it',
    ),
  interruptsA: amount
    .optional()
    .describe(
      'of a fuse or breaker: current that it can interrupt, amperes; no less than the short-circuit current of the bank',
    ),
  dripProof: z
    .enum(['open', 'dripProof', 'sealed'])
    .optional()
    .describe(
      'how well it stands water: open is harmed by drips from above, open and dripProof by standing under water, sealed by neither; default: batteries, inverters, panels, fuses, breakers, busbars and brushed motors are open, of others that draw current it must be entered',
    ),
  wetM: length
    .optional()
    .describe(
      'how far water must stand above the lowest point of its envelope to reach what it harms (terminals, windings), metres; default 0: the lowest point counts',
    ),
  brushed: z
    .boolean()
    .optional()
    .describe(
      'of a motor or relay: makes sparks, so no gas or petrol vapour may reach it; its magnets count for a compass',
    ),
  leakOhm: amount.optional().describe('resistance of its own, such as a fuse or contact, in the path, ohm'),
});
