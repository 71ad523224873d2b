import { z } from 'zod';
import { amount, id, length, name, point, record, size, text } from './quantities';
import { pose } from './things';

export const place = z.looseObject({
  ...pose.shape,
  wayIn: z
    .array(id)
    .optional()
    .describe('openings that the part comes in through, from where a person stands; default: the best way found'),
  mountedOn: id.optional().describe('a mounting surface'),
});

export const newHole = z.looseObject({
  between: z.tuple([id, name]),
  at: point,
  diameterM: size,
  for: z.array(id).default([]),
});

export const arrangement = z.looseObject({
  name,
  places: record(place)
    .default({})
    .describe('where each part is, by the id of the part; a part without a place is not placed'),
  clipPoints: record(record(z.looseObject({ at: point, order: z.number().finite() })))
    .default({})
    .describe('by line: points that its run must pass, in order'),
  forbidden: record(z.array(id)).optional().describe('by line: compartments that its run must not enter'),
  newHoles: record(newHole).default({}).describe('holes already decided on'),
  pins: record(z.looseObject({ points: z.array(point).min(2) }))
    .optional()
    .describe('by line: the run as built'),
  asBuilt: z.array(id).optional().describe('parts that are fitted as drawn'),
  operatingState: record(id).optional().describe('position of each valve, by the id of its thing'),
  notes: text.optional(),
});

export const operatingState = z.looseObject({
  name,
  valves: record(id).default({}).describe('position of each valve, by the id of its thing'),
  running: z.array(id).default([]).describe('pumps that run'),
});

export const demand = z.looseObject({
  kind: z.enum([
    'noHaulOut',
    'seenFrom',
    'notInBerthCompartment',
    'noDismantling',
    'noNewHoleBelowWaterline',
    'keepWithin',
  ]),
  subject: name.optional(),
  place: id.optional(),
  distanceM: length.optional(),
});

export const accepted = z.looseObject({
  by: name,
  why: text,
  on: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .describe('date, YYYY-MM-DD'),
});

export const stock = z.looseObject({ bought: amount.optional(), have: amount.optional(), fitted: amount.optional() });

export const reading = z.looseObject({
  from: name,
  to: name,
  kind: z.enum(['distance', 'height', 'offset', 'diagonal']),
  valueM: z.number().finite(),
  grade: z.enum(['measured', 'taped', 'scaled', 'guessed']).optional(),
  typed: text.optional(),
});

export const picture = z.looseObject({
  file: z.string().max(260).describe('file name beside the boat file; never a path'),
  of: name.optional(),
  view: z.enum(['plan', 'profile', 'section']).optional(),
  scalePoints: z.array(z.looseObject({ pixel: z.tuple([z.number(), z.number()]), at: point })).optional(),
  straightenPoints: z.array(z.tuple([z.number(), z.number()])).optional(),
});
