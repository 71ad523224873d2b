import { z } from 'zod';
import { pose } from './envelope';
import { amount, fraction, id, length, name, point, record, size, text } from './quantities';
import { HOLE_CHECKS } from './sea-opening';

export const place = z.looseObject({
  ...pose.shape,
  wayIn: z
    .array(id)
    .optional()
    .describe('openings that the part comes in through, from where a person stands; default: the best way found'),
  mountedOn: id
    .optional()
    .describe('id of the mounting surface that it is screwed to; default: one that its mounting face really lies on'),
});

export const newHole = z.looseObject({
  between: z.tuple([id, name]).describe("two compartments, or a compartment and 'skin' (the hull) or 'undrawn'"),
  at: point,
  diameterM: size.describe('metres'),
  sealed: z
    .boolean()
    .optional()
    .describe(
      'what runs through it will be sealed in: no bilge water passes; default: water passes above its lower edge',
    ),
  checked: z
    .array(z.enum(HOLE_CHECKS))
    .optional()
    .describe(
      'of a hole through the skin: what was looked at there, inside and out; all of it wanted below the upright waterline',
    ),
  for: z
    .array(id)
    .default([])
    .describe(
      'lines that it is made for: they pass the panel through it and nowhere else; others share it while it has room for these',
    ),
});

export const arrangement = z.looseObject({
  name: name.describe('name of the arrangement'),
  places: record(place)
    .default({})
    .describe('where each part is, by the id of the part; a part without a place is not placed'),
  clipPoints: record(
    record(
      z.looseObject({
        at: point,
        order: z.number().finite().describe('clip points are passed from the lowest to the highest'),
      }),
    ),
  )
    .default({})
    .describe('by line: points that its run must pass, in order'),
  forbidden: record(z.array(id)).optional().describe('by line: compartments that its run must not enter'),
  newHoles: record(newHole).default({}).describe('holes already decided on, by id'),
  pins: record(
    z
      .looseObject({
        points: z
          .array(point)
          .min(2)
          .max(500)
          .describe(
            'of the centre line: its start at the port, the corners at which its straights would meet, its end at the other port',
          ),
        radiiM: z
          .array(length)
          .optional()
          .describe(
            'radius of the bend of the centre line at each corner, metres, 0 where straights meet; default the least of its kind',
          ),
      })
      .refine(({ points, radiiM }) => radiiM === undefined || radiiM.length === points.length - 2, {
        message: 'must have one radius for each point between the first and the last',
        path: ['radiiM'],
      }),
  )
    .optional()
    .describe('by line: the run as built; it is taken as it is and judged, and the router leads the others round it'),
  asBuilt: z.array(id).optional().describe('parts that are fitted as drawn'),
  operatingState: record(id).optional().describe('position of each valve, by the id of its thing'),
  notes: text.optional().describe('free text'),
});

export const operatingState = z.looseObject({
  name: name.describe('making water, flush, laid up ...'),
  valves: record(id)
    .default({})
    .describe(
      'position of each valve, by the id of its thing; a valve that is not named stands as normally says, else open, but a seacock or the valve of a through-hull: that is opened before a pump runs, and stands shut only where it is named so here. By hand every valve can be put otherwise at any time',
    ),
  running: z.array(id).default([]).describe('pumps that run'),
  product: z
    .enum(['tank', 'reject', 'none'])
    .optional()
    .describe(
      'where made water is meant to go in this state: into the tank; kept from it, to a tap, sink or overboard; or none is made. Default: reject where the state is called reject, test, sample, dump or discard, else nothing is asked of it',
    ),
});

export const demand = z.looseObject({
  kind: z
    .enum(['noHaulOut', 'seenFrom', 'notInBerthCompartment', 'noDismantling', 'noNewHoleBelowWaterline', 'keepWithin'])
    .describe(
      'what is demanded; noHaulOut: nothing may be done to a through-hull that needs the boat out of the water; noDismantling: every service task is done without taking off anything that is screwed, fitted or led there; seenFrom: what is read on the subject (its gauges and fronts) is seen from the place as it is in daily use: doors, lids and boards shut, what has no leaf, curtains and sliding ones open; notInBerthCompartment: the subject stands where nobody sleeps',
    ),
  subject: name.optional().describe('part or line that it is about; default all'),
  place: id.optional().describe('of seenFrom: standing place from which it must be seen'),
  distanceM: length.optional().describe('of seenFrom: from how far at most, metres; default as the task says'),
});

/** February has no thirtieth day: months count from 1, the year 2000 and every fourth are leap years but the full centuries. */
function isDay(text: string): boolean {
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number);
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  return day >= 1 && day <= days;
}

export const accepted = z.looseObject({
  by: name.describe('who accepted it'),
  why: text.describe('the reason'),
  on: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .refine(isDay, { message: 'is no day of the calendar' })
    .describe('date, YYYY-MM-DD'),
});

export const stock = z.looseObject({
  bought: amount.optional().describe('bought, in the unit of the row'),
  have: amount.optional().describe('already there, in the unit of the row'),
  fitted: amount.optional().describe('fitted, in the unit of the row'),
});

export const suppliedLength = z.looseObject({
  kind: id.describe("a record of lineKinds, or one of the catalogue's kinds"),
  lengthM: size.describe('length of it, in one piece, metres'),
  name: name.optional().describe('words for it: where it lies or what it came with'),
  notes: text.optional().describe('free text'),
});

export const takeoffSettings = z.looseObject({
  makingUpM: length
    .optional()
    .describe('length that is cut and trimmed away at each end of a hose, tube or cable, metres; default 0.05'),
  reserveShare: fraction
    .optional()
    .describe(
      'reserve on a length that is taken off the drawing, 0 to 1; default 0.1. Where the grades of the two ends leave more open, that counts in its place',
    ),
  shorteningShare: fraction
    .optional()
    .describe('share by which a hose with crimped ends may shorten under pressure, 0 to 1; default 0.04'),
});

export const picture = z.looseObject({
  file: z.string().max(260).describe('file name beside the boat file; never a path'),
  of: name.optional().describe('what it shows'),
  compartment: id.optional().describe('compartment that it was taken in'),
  view: z.enum(['plan', 'profile', 'section']).optional().describe('view that it is traced in'),
  scalePoints: z
    .array(
      z.looseObject({
        pixel: z.tuple([z.number(), z.number()]).describe('[right, down] in pixels of the picture'),
        at: point,
      }),
    )
    .optional()
    .describe('pixels whose place in the boat is known'),
  straightenPoints: z
    .array(z.tuple([z.number(), z.number()]))
    .optional()
    .describe('[right, down] in pixels: corners of what is a rectangle in truth'),
});
