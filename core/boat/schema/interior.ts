import { z } from 'zod';
import {
  amount,
  angle,
  direction,
  fraction,
  grade,
  id,
  length,
  metres,
  name,
  point,
  point2,
  record,
  size,
  text,
} from './quantities';

/** What panels and mounting surfaces are made of. */
export const MATERIALS = ['ply', 'solidWood', 'grpSolid', 'grpCored', 'aluminium', 'steel', 'lining', 'other'] as const;

export const COMPARTMENT_KINDS = [
  'cabin',
  'locker',
  'void',
  'bilge',
  'engineSpace',
  'cockpitWell',
  'cockpitLocker',
  'lazarette',
  'chainLocker',
  'heads',
  'other',
] as const;

export const compartment = z.looseObject({
  name: name.describe('name aboard'),
  kind: z
    .enum(COMPARTMENT_KINDS)
    .default('locker')
    .describe('default locker; hoses keep out of cabin, cockpitWell and heads where there is another way'),
  view: z.enum(['plan', 'profile', 'section']).describe('view in which the outline is drawn'),
  outline: z
    .array(point2)
    .min(3)
    .max(64)
    .describe(
      'corners in order, metres, boat frame, closed by itself: [x, y] in plan, [x, z] in profile, [y, z] in section; concave is allowed, crossing itself is not. It may reach beyond the hull: the hull bounds it',
    ),
  rangeM: z
    .tuple([metres, metres])
    .describe(
      '[from, to] in metres in the third direction, the first below the second: z in plan, y in profile, x in section',
    ),
  yawDeg: angle
    .default(0)
    .describe('turn of the finished prism about the vertical through the centre of its bounds, degrees; default 0'),
  grade: grade.default('taped'),
  berth: z
    .boolean()
    .optional()
    .describe('somebody sleeps in or on it: noise of pumps and jets from pressure joints are judged; default no'),
  pillows: z
    .array(point)
    .max(12)
    .optional()
    .describe('of a berth: where heads lie; what sprays is judged by the distance to these, else to the compartment'),
  bilgePumped: z
    .boolean()
    .optional()
    .describe(
      'a bilge pump empties it; false: none does. Where no compartment says either and no bilge pump is drawn, nothing is told of what stays in a bilge',
    ),
  liningM: length
    .optional()
    .describe('lining inside this compartment, metres off the shell, where it differs from that of the hull'),
  ribs: z
    .looseObject({
      spacingM: size.describe('from one to the next, metres'),
      depthM: length.describe('off the shell, metres'),
    })
    .optional()
    .describe('frames in this compartment, where they differ from those of the hull'),
  permeability: fraction.optional().describe('share of it that water can fill, 0 to 1'),
  summerTemperatureC: z
    .number()
    .finite()
    .optional()
    .describe('air in it on a hot day while nothing runs in it, degrees Celsius; what runs there warms it from that'),
  ventAreaM2: amount
    .optional()
    .describe(
      'free area of its vents, m2, half of it low and half of it high; default 0: shut. Lets through 0.6 x (ventAreaM2 / 2) / sqrt 2 x sqrt(2 x 9.81 x h x dT / T) m3/s of air that is dT warmer than outside, h being ventHeightM, T kelvin outside',
    ),
  ventHeightM: length
    .optional()
    .describe('height between the low and the high vents, metres; default half the height of the compartment'),
  wallWK: amount
    .optional()
    .describe(
      'heat that its sides let through, watts per kelvin; default 3 W/m2K (thin plywood) times the area of its six sides: 9 W/K for a locker of 3 m2. What runs there in a shut space warms it by heatW / wallWK',
    ),
  measuredC: z
    .number()
    .finite()
    .optional()
    .describe('air in it measured on a hot day while the set runs, degrees Celsius: counts before any balance of heat'),
  measuredRiseK: amount
    .optional()
    .describe(
      'how much warmer it was measured to get while the set runs, kelvin: added to summerTemperatureC in place of a balance of heat',
    ),
  openToGas: z
    .boolean()
    .optional()
    .describe(
      'gas or petrol vapour can get into it: nothing in it may spark; so for what is open to it by an open panel, an opening that never shuts or a limber hole',
    ),
  gasBottles: z
    .boolean()
    .optional()
    .describe(
      'it is the gas locker itself: nothing in it may spark, and no hose, tube or cable may pass it but those that belong to the gas',
    ),
  bilgeWaterM: metres
    .optional()
    .describe(
      'height to which bilge water is expected to stand in it, z in metres from the floating waterline (below it negative): batteries stand above that',
    ),
  stowage: z.boolean().optional().describe('gear is thrown in and dragged out: hoses keep out of it where they can'),
  notes: text.optional().describe('free text'),
});

export const panelHole = z.looseObject({
  at: point.describe('centre; the nearest point of the panel counts'),
  diameterM: size.describe('diameter of the hole, metres'),
  carries: record(
    z.looseObject({ name: name.describe('what it is'), diameterM: size.describe('its diameter, metres') }),
  )
    .default({})
    .describe('what already runs through it: side by side with the lines that pass, it must fit the hole'),
  sealed: z
    .boolean()
    .optional()
    .describe('what runs through it is sealed in: no bilge water passes; default: water passes above its lower edge'),
  bushed: z
    .boolean()
    .optional()
    .describe('its edge is rounded or has a grommet; false: what passes it chafes, absent: not judged'),
  grade: grade.optional(),
});

export const panel = z.looseObject({
  name: name.optional().describe('name aboard: bulkhead, sole board, locker side'),
  between: z.tuple([id, name]).describe("two compartments, or a compartment and 'skin' (the hull) or 'undrawn'"),
  near: point.describe('a point on or near the panel: the nearest derived panel of that pair gets this record'),
  rule: z
    .enum(['open', 'drill', 'noDrill'])
    .default('drill')
    .describe(
      'open: nothing is there, runs pass freely; drill (default): holes may be made at a cost; noDrill: only existing holes serve',
    ),
  thicknessM: length.optional().describe('metres; default: the gap between the two outlines, else 0.012'),
  material: z.enum(MATERIALS).optional().describe('what it is made of'),
  newHoleCostM: length
    .optional()
    .describe('cost of drilling one hole here, in metres of hose; default boat.newHoleCostM'),
  edgeM: length
    .optional()
    .describe('least distance from the edge of a hole to the edge of the panel, metres; default 0.015'),
  holes: record(panelHole).default({}).describe('holes that exist, by id'),
  setAside: z
    .boolean()
    .optional()
    .describe(
      'kept without a panel since its compartments were merged or deleted: it binds to nothing, and its names may be gone',
    ),
  grade: grade.optional(),
});

export const opening = z.looseObject({
  name: name.describe('name aboard'),
  compartment: id.describe('the compartment that it opens'),
  to: name
    .default('outside')
    .describe(
      "the compartment on the other side, or 'outside' (deck or cockpit, where a person can stand), or 'undrawn'; default 'outside'",
    ),
  at: point.describe('centre of the clear opening'),
  normal: direction.describe('out of the compartment, square to the opening'),
  up: direction
    .optional()
    .describe(
      'direction along which the height is measured; default the most upright direction in the plane of the opening, or forward for a flat lid',
    ),
  widthM: size.describe(
    'clear width, metres, square to up and normal. Who works behind it leans at it with an arm or both in; from 0.35 x 0.45 on with the head and one shoulder in; from 0.45 x 0.55 on climbs in, where 0.45 x 0.60 x 0.80 m are free to kneel. How far a hand comes is tried with jointed arms; of the handle of a seacock the straight way counts as well: 0.56 m from the opening, of who goes in 0.70 m from the shoulder',
  ),
  heightM: size.describe('clear height, metres, along up'),
  shape: z
    .enum(['rectangle', 'round'])
    .default('rectangle')
    .describe('default rectangle; round: an ellipse of that width and height'),
  how: z
    .enum(['hinged', 'liftOut', 'sliding', 'curtain', 'screwed', 'open'])
    .default('liftOut')
    .describe(
      'how it is opened; default liftOut; screwed needs a tool; seenFrom is judged with hinged, lift-out and screwed ones shut, and the others open',
    ),
  swing: z
    .looseObject({
      hingeAlong: z
        .enum(['left', 'right', 'top', 'bottom'])
        .describe('side of the hinge, seen from outside the compartment'),
      angleDeg: angle.describe('how far it opens, degrees'),
    })
    .optional()
    .describe('of a hinged door or lid'),
  moveFirst: z
    .array(name)
    .default([])
    .describe(
      'what must be moved before it opens; default nothing. A seacock should not lie behind such an opening alone',
    ),
  standing: id
    .optional()
    .describe(
      'where the person stands, a record of standingPlaces: who works through it is there, and heavy parts that come in here are lifted from there; absent: service is reached from the nearest places on its other side, no more than 1.6 m off, and what is lifted through it cannot be told; where no standing places are drawn at all lifting is not judged',
    ),
  minutes: amount
    .optional()
    .describe('to open and to shut it again, minutes; default by how it opens (boat.serviceWork)'),
  weatherDeck: z
    .boolean()
    .optional()
    .describe(
      'in the weather: green water can come down through it and spreads 45 degrees from its edge, counted from the middle of its height; electrics any part of whose upright bounds stands in that stand in its way, unless a thing or a shut panel is between; default: it does not',
    ),
  watertight: z
    .boolean()
    .optional()
    .describe('shut, it keeps bilge water in or out; default: water passes above its lower edge'),
  grade: grade.default('measured'),
});

export const mountingSurface = z.looseObject({
  name: name.optional().describe('name aboard'),
  compartment: id.describe('compartment that the face looks into'),
  at: point.describe('centre of the face'),
  normal: direction.describe('from the face into the compartment'),
  widthM: size.describe('width of the face, metres, horizontal; of a face that looks up or down: across the boat'),
  heightM: size.describe('height of the face, metres; of a face that looks up or down: along the boat'),
  material: z.enum(MATERIALS).describe('what the screws bite into'),
  thicknessM: length.describe('metres'),
  behind: z
    .enum(['air', 'hull', 'tank', 'loom', 'compartment', 'unknown'])
    .default('unknown')
    .describe(
      'what a screw that is too long would hit: hull, tank and loom are a danger; default unknown: what is drawn behind counts, else it cannot be told',
    ),
  behindM: length
    .optional()
    .describe(
      'depth that is free behind its back (beyond thicknessM) up to what `behind` names, metres; default 0 for hull, tank and loom: right behind',
    ),
  partOf: z
    .enum(['bulkhead', 'pad', 'shelf', 'furniture', 'lining', 'tank', 'skin', 'other'])
    .optional()
    .describe(
      'what the face belongs to: lining, tank and skin (the bare hull) hold nothing heavy; default lining where that is the material, skin where metal or GRP has the hull right behind it, else something that holds',
    ),
  fixing: z
    .enum(['tabbed', 'bolted', 'screwed', 'glued'])
    .optional()
    .describe(
      'how a pad, shelf or board is itself held: what is heavy wants tabbed or bolted; default: taken as held well',
    ),
  capacityKg: amount
    .optional()
    .describe(
      'what it can carry in any direction, kilograms: all parts on it twice (a knockdown); absent: judged by material and thickness',
    ),
  grade: grade.optional(),
});

export const standingPlace = z.looseObject({
  name: name.describe('name of the place'),
  at: point.describe(
    'where the feet, knees or hips are: service tasks are reached from here, lifts are measured from here, level and upward, to the middle of the part, which is carried there at a height of 0.75 m',
  ),
  posture: z.enum(['stand', 'kneel', 'sit', 'lie']).default('stand').describe('default stand'),
  headroomM: length.optional().describe('clear height above the place, metres'),
  compartment: id.optional().describe('compartment in which the person is; default that in which the place lies'),
});

export const person = z.looseObject({
  name: name.describe('who'),
  percentile: amount
    .max(100)
    .default(50)
    .describe(
      'reach and size among those of their sex, without one among all adults, percent; default 50. Two rows are tabulated, the 5th of women and the 95th of men: what is between is interpolated and marked',
    ),
  sex: z.enum(['female', 'male']).optional().describe('whose percentile it is; default of all adults'),
  armM: size
    .optional()
    .describe(
      'straight arm as measured, from the shoulder joint to the middle of the grip, metres; default by percentile, 0.70 of a middling adult',
    ),
  oneArm: z
    .boolean()
    .optional()
    .describe('has the use of one arm only: tasks for two hands then do not go; default false'),
  arm: z.enum(['left', 'right']).optional().describe('of one arm: which; default either, whichever serves better'),
  notes: text.optional().describe('free text'),
});

export const stowageBox = z.looseObject({
  name: name.describe('what is stowed'),
  sizeM: z.tuple([size, size, size]).describe('length, width, height, metres, in any order'),
  massKg: amount.default(0).describe('kilograms; default 0'),
  near: name.optional().describe('compartment or thing that it should be near'),
  notes: text.optional().describe('free text'),
});
