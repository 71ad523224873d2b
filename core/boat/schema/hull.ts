import { z } from 'zod';
import { amount, angle, fraction, grade, length, mass, metres, name, point, record, size, text } from './quantities';

export const station = z.looseObject({
  xM: metres.describe('distance forward of the aftmost point'),
  points: z
    .array(z.tuple([length, metres]))
    .min(2)
    .max(200)
    .describe(
      '[half-breadth, z] in metres from the keel to the sheer, z never falling; half-breadths are taken from the centre of the hull',
    ),
  knuckles: z.array(z.int().min(0)).optional().describe('indices of points where the section has a corner'),
  grade: grade.optional(),
});

export const hull = z.looseObject({
  stations: record(station).describe('sections by id, at least two; their order is that of xM'),
  grade: grade.default('taped'),
  measuredTo: z
    .enum(['outside', 'inside'])
    .default('outside')
    .describe('which skin the offsets describe; inside means that lining and shell are added outward'),
  shellM: length.default(0.012).describe('shell thickness'),
  liningM: length.default(0).describe('how far a lining stands off the shell'),
  ribs: z
    .looseObject({ spacingM: size, depthM: length, widthM: length.optional() })
    .optional()
    .describe('frames or stringers inside the shell'),
  offsetM: metres
    .default(0)
    .describe('centre of this hull off the centreline of the boat (a catamaran has it twice, mirrored)'),
  knuckleLines: record(z.looseObject({ name: name.optional(), points: z.array(point).min(2) })).optional(),
  sheerIsDeck: z.boolean().default(true).describe('whether the sheer is closed by a deck'),
  form: z.enum(['longKeel', 'finKeel', 'lightDisplacement', 'motorHull', 'catamaran']).optional(),
});

export const reference = z.looseObject({
  freeboards: record(
    z.looseObject({
      at: point.describe('the measured point of the deck edge, boat frame'),
      freeboardM: length.describe('height of that point above the water, measured afloat in cruising trim'),
      grade: grade.optional(),
    }),
  )
    .default({})
    .describe('measured freeboards; they override the computed float'),
  levelMarks: record(z.looseObject({ at: point, grade: grade.optional() }))
    .default({})
    .describe('points that are just at the water in cruising trim'),
});

export const weights = z.looseObject({
  displacementKg: mass.optional(),
  kgM: metres.optional().describe('height of the centre of gravity, z in the boat frame'),
  lcgM: metres.optional(),
  rollPeriodS: amount.optional().describe('measured roll period, from which GM may be estimated'),
  waterDensityKgM3: amount.default(1025),
});

export const runState = z.looseObject({
  name,
  use: z.enum(['anchored', 'motoring', 'sailing']),
  heelDeg: angle.default(0).describe('largest steady heel in which the set is run'),
  tacks: z.enum(['both', 'port', 'starboard']).default('both').describe('side that goes down'),
  trimDeg: angle.default(0),
  speedMS: amount.optional(),
});

export const floodCase = z.looseObject({
  kind: z.enum(['joint', 'siphon', 'greenWater', 'spill', 'poweredLine']),
  subject: name.optional(),
  pumpRunning: z.boolean().optional(),
  crew: z.enum(['aboard', 'asleep', 'away']).optional(),
  limbersBlocked: z.boolean().optional(),
  volumeL: amount.optional(),
  notes: text.optional(),
});

export const flooding = z.looseObject({
  permeability: fraction
    .optional()
    .describe('share of a compartment that water can fill, where the compartment says nothing'),
  limberHoles: record(z.looseObject({ between: z.tuple([name, name]), at: point, diameterM: size })).optional(),
  cases: record(floodCase).optional(),
});
