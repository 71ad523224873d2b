import { z } from 'zod';
import { angle, direction, id, length, localPoint } from './quantities';

/** Of a thing that can be shut or switched over. */
export const valve = z.looseObject({
  states: z
    .array(id)
    .min(1)
    .describe(
      'names of its positions; one called shut, closed, close or off lets nothing through, any other lets through what the passages say. Where there are none it joins all its ports, whatever they are called: of a three-way valve enter which ports each state joins. Where neither of two states is called any of these, nor open or on, the one in which it does not usually stand counts as shut',
    ),
  normally: id.optional().describe('state in which it usually stands'),
  handle: z
    .looseObject({
      at: localPoint,
      leverM: length.default(0).describe('length of the lever, metres; default 0: a wheel or knob'),
      swingDeg: angle.default(90).describe('how far it turns from open to shut, degrees; default 90'),
      direction: direction
        .optional()
        .describe(
          'local: the way the lever points when the valve is open; it is shut by a turn of swingDeg, right-handed about the axis. Default unknown: one free quarter anywhere round the axis is enough',
        ),
      axis: direction.optional().describe('local: axis about which the lever turns; default local z'),
    })
    .optional()
    .describe('what the hand turns'),
  kind: z
    .enum(['ball', 'gate', 'threeWay', 'check', 'needle', 'relief', 'plug', 'other'])
    .default('ball')
    .describe(
      'default ball. gate: on a through-hull it is to be replaced first. check: lets water through one way only, from its port of role in to that of role out, whatever its state; without roles as its lines are drawn, and what would be wrong by that alone is asked, not told. needle: regulates pressure and is never quite shut, as is any valve of a control station. relief: opens by itself under pressure and cannot be shut. Any other can be put by hand into each of its states',
    ),
  labelled: z
    .boolean()
    .optional()
    .describe(
      'a label at the valve and a step of the checklist say that it is opened before the set runs: accepted for the seacock of a brine outlet, also where that goes under while the set runs, not for a valve in mid-line; default false',
    ),
  reject: id
    .optional()
    .describe(
      'of a diverter of made water: state in which water that is not good yet is kept from the tank; default: the one that is called reject, tap, test, sample, dump, waste, drain or overboard, else the one that is not called tank, accept or good',
    ),
});
