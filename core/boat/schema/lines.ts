import { z } from 'zod';
import { medium } from './ports';
import { amount, angle, id, length, name, size, text } from './quantities';

/** Fitting at the end of a hose, tube or cable. */
export const end = z.looseObject({
  diameterM: size.optional().describe('largest diameter of the end fitting, metres: a crimped end must pass the holes'),
  rigidM: length
    .optional()
    .describe('length from the port, of an elbow from its corner, that does not bend, metres; nothing bends there'),
  dropM: length
    .optional()
    .describe(
      'of an elbow: from the port to the axis of the hose, along the port, metres; default rigidM. The length of the hose counts from there',
    ),
  angleDeg: angle
    .default(0)
    .describe(
      'degrees: 0 straight (default), 45 or 90 for an elbow end; of eight ways to turn it the one with the better run is taken',
    ),
  swivel: z.boolean().default(false).describe('its nut turns freely; default false'),
  clamps: z
    .int()
    .min(0)
    .max(4)
    .optional()
    .describe(
      'of a hose on a barb: clamps that hold it, a count; judged below the heeled waterline, absent: not judged. The list buys two',
    ),
  clampsStainless: z
    .boolean()
    .optional()
    .describe('clamps are stainless all through, screw and housing too; false is a fault below the heeled waterline'),
  shielded: z
    .boolean()
    .optional()
    .describe('a cover stops a jet from this joint: then it may be near a pillow; default false'),
  crimped: z
    .boolean()
    .default(false)
    .describe(
      'fitted on before the hose is laid; default false: put on after. Of two crimped ends the smaller leads through the holes, and needs its rigid length free on both sides of them',
    ),
  name: name.optional().describe('words for it'),
});

/** A hose, tube or cable by the metre. */
export const lineKind = z.looseObject({
  name: name.describe('name in the list'),
  what: z.enum(['hose', 'tube', 'cable']).describe('group in the list'),
  outsideM: size.describe('outside diameter, metres; of a pair of cables, of the bundle'),
  boreM: size.optional().describe('bore, metres'),
  bendRadiusM: length.describe('least bend radius, metres, measured as radiusTo says'),
  radiusTo: z
    .enum(['inside', 'centreline'])
    .default('inside')
    .describe(
      'how the standard of the hose measures its radius: to the inside of the bend (default; the centre line then bends to bendRadiusM + outsideM / 2) or to the centre line',
    ),
  crimpedEnds: z.boolean().default(false).describe('made up with ends that are crimped on; default false'),
  end: end.optional().describe('usual end fitting, at both ends'),
  straightM: length
    .optional()
    .describe(
      'of tube that is pushed into its fittings: length that must stay straight behind them, metres; default: its run is led without, and five outside diameters are asked for behind a straight fitting',
    ),
  pressureBar: amount
    .optional()
    .describe(
      'working pressure for which it is made, bar: less than the set works at is a danger, less than its relief opens at a fault. Default: made for no pressure side',
    ),
  areaMm2: amount
    .optional()
    .describe(
      'of a cable: copper area of one conductor, mm2. What it may carry is that of the largest gauge of Table 5 of 33 CFR 183.425 whose area is no larger (2 % allowed): 10 mm2 counts as gauge 8, 16 and 20 as gauge 6',
    ),
  conductors: z
    .int()
    .min(1)
    .max(8)
    .optional()
    .describe(
      'number of conductors; default 1. Of a power cable two or more carry the current there and back: the middles of a pair lie half of outsideM apart, and little of its field is left at a compass',
    ),
  supportM: size.optional().describe('greatest spacing of clips, metres; a line may say a closer one, see clipM'),
  sheathed: z
    .boolean()
    .optional()
    .describe('of a cable: its conductors lie in a common sheath the whole way; default false'),
  soldByM: length.optional().describe('sold in multiples of this, metres'),
  soldLengthsM: z.array(size).optional().describe('sold in these lengths, metres'),
  pricePerM: amount.optional().describe('price of one metre, in whatever money'),
  temperatureC: z
    .number()
    .finite()
    .optional()
    .describe(
      'hottest that it stands, degrees Celsius; of a cable the rating of its insulation (60, 75, 80, 90, 105, 125 or 200), which decides what it may carry',
    ),
  suction: z
    .boolean()
    .optional()
    .describe(
      'may be used on suction: it does not collapse; default: so is what bears 20 bar, of anything else it is not known',
    ),
  potable: z
    .boolean()
    .optional()
    .describe('may carry drinking water; default not known: of a line with made water it must be said'),
  material: z
    .enum(['rubber', 'plastic', 'copper', 'brass', 'galvanised', 'carbonSteel', 'stainless316', 'stainless', 'other'])
    .optional()
    .describe(
      'what the water touches: brass, copper, galvanised and carbon steel do not belong on feed or made water; default not known, and not judged',
    ),
  source: text.optional().describe('where the values come from'),
});

export const lineEnd = z.looseObject({
  thing: id.describe('id of a fixture or part'),
  port: id.describe('id of one of its ports'),
});

/** The wish for a run from one port to another. */
export const line = z.looseObject({
  name: name.describe('name in the list'),
  kind: id.describe("a record of lineKinds, or one of the catalogue's kinds"),
  medium: medium.describe('what flows in it'),
  from: lineEnd.describe('port at which it begins; the flow goes from here'),
  to: lineEnd.describe('port at which it ends'),
  ends: z
    .looseObject({
      from: end.optional().describe('end fitting at from'),
      to: end.optional().describe('end fitting at to'),
    })
    .default({})
    .describe('end fittings, where they differ from those of the kind'),
  suction: z
    .boolean()
    .optional()
    .describe('the water in it is drawn, not pushed; default: sea water on the way to the first pump'),
  supplied: z
    .looseObject({
      lengthM: size.describe('over the ends of its fittings, metres'),
      spareM: length.default(0.05).describe('reserve that must be left, metres; default 0.05'),
      mayCut: z.boolean().default(false).describe('may be cut shorter to fit; default false'),
    })
    .optional()
    .describe(
      'the hose comes in this length, over the ends of its fittings: its run must not be longer than that less the spare',
    ),
  currentA: amount
    .optional()
    .describe(
      'of a power cable: greatest steady current in it, amperes; default what the motors behind it draw together',
    ),
  sheathed: z
    .boolean()
    .optional()
    .describe(
      'of a power cable: led in a sheath, conduit or enclosure the whole way; default what its kind says. Decides how far a fuse may be from its source',
    ),
  bundle: name
    .optional()
    .describe(
      'of a power cable: cables with the same word are tied together in one bundle. Of three conductors that carry current (a pair has two) each may carry 0.7 of what it may alone, of 4 to 6 0.6, of 7 to 24 0.5; default: cables whose runs lie within 10 mm of one another over more than 0.61 m (24 in) are one bundle',
    ),
  clipM: size
    .optional()
    .describe(
      'spacing at which it is clipped, metres: who enters it says that there is something to clip it to. Default supportM of its kind, where walls or large things are within 0.2 m. Of a power cable at most 0.45; at a battery 0.3, where it is given here',
    ),
  drains: z
    .boolean()
    .optional()
    .describe('it empties by falling all the way; default: waste from a sink, a fridge or a gas locker'),
  riseToM: z
    .number()
    .finite()
    .min(-10)
    .max(30)
    .optional()
    .describe(
      'it must rise to this height somewhere, metres above the floating waterline: a loop against siphoning; default: it need not',
    ),
  existing: z.boolean().default(false).describe('aboard already; default false'),
  tag: z.string().max(12).optional().describe('short mark on the drawing'),
  notes: text.optional().describe('free text'),
});
