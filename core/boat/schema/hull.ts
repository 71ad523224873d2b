import { z } from 'zod';
import { amount, angle, fraction, grade, length, mass, metres, name, point, record, size, text } from './quantities';

/** How the points of a station were come by; the grade says how good they are. */
export const STATION_TAKEN = ['tape', 'traced', 'table', 'interpolated', 'form'] as const;

export const station = z.looseObject({
  xM: metres.describe('distance forward of the aftmost point, metres'),
  points: z
    .array(z.tuple([length, metres]))
    .min(2)
    .max(200)
    .describe(
      '[half-breadth, z] in metres from the keel to the sheer, z never falling; half-breadths are taken from the centre of the hull',
    ),
  knuckles: z
    .array(z.int().min(0))
    .optional()
    .describe('indices, from 0, of points where the section has a corner; elsewhere it is faired'),
  grade: grade.optional(),
  taken: z
    .enum(STATION_TAKEN)
    .optional()
    .describe(
      'how its points were come by: with a tape, from a picture, from a table, between neighbours, from a form',
    ),
  acceptedUnfair: z
    .array(z.tuple([length, metres]))
    .optional()
    .describe(
      'points, as [half-breadth, z], whose unfairness was looked at and is the boat; holds while they stand there',
    ),
});

export const hull = z.looseObject({
  stations: record(station).describe('sections by id, at least two; their order is that of xM'),
  grade: grade.default('taped'),
  measuredTo: z
    .enum(['outside', 'inside'])
    .default('outside')
    .describe('which skin the offsets describe; inside means that lining and shell are added outward'),
  shellM: length.default(0.012).describe('shell thickness, metres; default 0.012'),
  liningM: length.default(0).describe('how far a lining stands off the shell, metres; default 0'),
  ribs: z
    .looseObject({
      spacingM: size.describe('from one to the next, metres'),
      depthM: length.describe('how far they stand off the shell, metres'),
      widthM: length.optional().describe('width of one, metres'),
    })
    .optional()
    .describe('frames or stringers inside the shell'),
  offsetM: metres
    .default(0)
    .describe(
      'centre of this hull off the centreline of the boat, metres (a catamaran has it twice, mirrored); default 0',
    ),
  knuckleLines: record(
    z.looseObject({
      name: name.optional().describe('name of the line'),
      points: z.array(point).min(2).describe('points of the line, boat frame, metres'),
    }),
  )
    .optional()
    .describe('chines and other corners that run along the hull, by id'),
  sheerIsDeck: z.boolean().default(true).describe('whether the sheer is closed by a deck; default true'),
  form: z
    .enum(['longKeel', 'finKeel', 'lightDisplacement', 'motorHull', 'catamaran'])
    .optional()
    .describe('kind of hull'),
});

export const reference = z.looseObject({
  freeboards: record(
    z.looseObject({
      at: point.describe('the measured point of the deck edge, boat frame'),
      freeboardM: length.describe('height of that point above the water, metres, measured afloat in cruising trim'),
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
  displacementKg: mass.optional().describe('mass in cruising trim, kilograms'),
  kgM: metres.optional().describe('height of the centre of gravity, z in the boat frame, metres'),
  lcgM: metres.optional().describe('centre of gravity forward of the aftmost point, metres'),
  rollPeriodS: amount.optional().describe('measured roll period, seconds, from which GM may be estimated'),
  waterDensityKgM3: amount.positive().default(1025).describe('density of the water, kg/m3; default 1025'),
});

export const runState = z.looseObject({
  name: name.describe('name of the state'),
  use: z.enum(['anchored', 'motoring', 'sailing']).describe('what the boat does while the set runs'),
  heelDeg: angle.default(0).describe('largest steady heel in which the set is run, degrees; default 0'),
  sideDown: z
    .enum(['both', 'port', 'starboard'])
    .default('both')
    .describe('side of the hull that goes down (on port tack that is starboard); default both in turn'),
  trimDeg: angle
    .default(0)
    .describe(
      'bow down beyond the reference attitude, degrees; default 0. A drawn hull displaces as much as before; without one the water turns about the middle of what is drawn: half-way between the aftmost and the foremost corner of the compartments, on the centreline at its level. The heel comes on top of it',
    ),
  speedMS: amount.optional().describe('speed through the water, m/s'),
});

export const floodCase = z.looseObject({
  kind: z
    .enum(['joint', 'siphon', 'greenWater', 'spill', 'poweredLine'])
    .describe(
      'where the water comes from; joint (a joint lets go, no pump runs) and poweredLine (a pump empties itself into the boat) are judged, the others are kept in the file',
    ),
  subject: name.optional().describe('id of the line, through-hull or pump that lets it in; default: each in turn'),
  pumpRunning: z.boolean().optional().describe('whether the set runs meanwhile'),
  crew: z
    .enum(['aboard', 'asleep', 'away'])
    .optional()
    .describe('who could notice: asleep or away, only pumps that start by themselves count; default aboard'),
  limbersBlocked: z
    .boolean()
    .optional()
    .describe('whether limber holes are clogged: then no water passes them; default: they are clear'),
  bilgePumpDead: z.boolean().optional().describe('whether no bilge pump works; default: they work'),
  volumeL: amount.optional().describe('water that comes in, litres'),
  notes: text.optional().describe('free text'),
});

export const flooding = z.looseObject({
  permeability: fraction
    .optional()
    .describe(
      'share of a compartment that water can fill, 0 to 1, where the compartment says nothing; decides how fast it fills; default 0.85',
    ),
  limberHoles: record(
    z.looseObject({
      between: z.tuple([name, name]).describe('the two compartments'),
      at: point,
      diameterM: size.describe('diameter, metres'),
    }),
  )
    .optional()
    .describe('holes that let bilge water through above their lower edge, by id'),
  cases: record(floodCase)
    .optional()
    .describe('what else is judged beside the usual case (crew aboard, limber holes clear, pumps alive), by id'),
});
