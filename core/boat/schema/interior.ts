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
  name,
  kind: z.enum(COMPARTMENT_KINDS).default('locker'),
  view: z.enum(['plan', 'profile', 'section']).describe('view in which the outline is drawn'),
  outline: z
    .array(point2)
    .min(3)
    .max(64)
    .describe(
      'corners in order, closed by itself: [x, y] in plan, [x, z] in profile, [y, z] in section; concave is allowed, crossing itself is not. It may reach beyond the hull: the hull bounds it',
    ),
  rangeM: z
    .tuple([metres, metres])
    .describe('[from, to] in the third direction: z in plan, y in profile, x in section'),
  yawDeg: angle.default(0).describe('turn of the finished prism about the vertical through the centre of its bounds'),
  grade: grade.default('taped'),
  berth: z.boolean().optional().describe('somebody sleeps in or on it'),
  bilgePumped: z.boolean().optional(),
  liningM: length.optional().describe('lining inside this compartment, where it differs from that of the hull'),
  ribs: z.looseObject({ spacingM: size, depthM: length }).optional(),
  permeability: fraction.optional(),
  summerTemperatureC: z.number().finite().optional(),
  ventAreaM2: amount.optional(),
  openToGas: z.boolean().optional().describe('open to a space with gas bottles or petrol'),
  notes: text.optional(),
});

export const panelHole = z.looseObject({
  at: point.describe('centre; the nearest point of the panel counts'),
  diameterM: size,
  carries: record(z.looseObject({ name, diameterM: size }))
    .default({})
    .describe('what already runs through it'),
  grade: grade.optional(),
});

export const panel = z.looseObject({
  name: name.optional(),
  between: z.tuple([id, name]).describe("two compartments, or a compartment and 'skin' (the hull) or 'undrawn'"),
  near: point.describe('a point on or near the panel: the nearest derived panel of that pair gets this record'),
  rule: z
    .enum(['open', 'drill', 'noDrill'])
    .default('drill')
    .describe(
      'open: nothing is there, runs pass freely; drill: holes may be made at a cost; noDrill: only existing holes serve',
    ),
  thicknessM: length.optional().describe('default: the gap between the two outlines, else 0.012'),
  material: z.enum(['ply', 'solidWood', 'grpSolid', 'grpCored', 'aluminium', 'steel', 'lining', 'other']).optional(),
  newHoleCostM: length
    .optional()
    .describe('cost of drilling one hole here, in metres of hose; default boat.newHoleCostM'),
  edgeM: length.optional().describe('least distance from the edge of a hole to the edge of the panel; default 0.015'),
  holes: record(panelHole).default({}).describe('holes that exist'),
  grade: grade.optional(),
});

export const opening = z.looseObject({
  name,
  compartment: id.describe('the compartment that it opens'),
  to: name
    .default('outside')
    .describe("the compartment on the other side, or 'outside' (deck or cockpit, where a person can stand)"),
  at: point.describe('centre of the clear opening'),
  normal: direction.describe('out of the compartment, square to the opening'),
  up: direction
    .optional()
    .describe(
      'direction along which the height is measured; default the most upright direction in the plane of the opening, or forward for a flat lid',
    ),
  widthM: size.describe('clear width'),
  heightM: size.describe('clear height, along up'),
  shape: z.enum(['rectangle', 'round']).default('rectangle'),
  how: z.enum(['hinged', 'liftOut', 'sliding', 'curtain', 'screwed', 'open']).default('liftOut'),
  swing: z.looseObject({ hingeAlong: z.enum(['left', 'right', 'top', 'bottom']), angleDeg: angle }).optional(),
  moveFirst: z.array(name).default([]).describe('what must be moved before it opens'),
  standing: id.optional().describe('where the person stands, a record of standingPlaces'),
  weatherDeck: z.boolean().optional().describe('water can come down through it'),
  grade: grade.default('measured'),
});

export const mountingSurface = z.looseObject({
  name: name.optional(),
  compartment: id,
  at: point.describe('centre of the face'),
  normal: direction.describe('from the face into the compartment'),
  widthM: size,
  heightM: size,
  material: z.enum(['ply', 'solidWood', 'grpSolid', 'grpCored', 'aluminium', 'steel', 'lining', 'other']),
  thicknessM: length,
  behind: z.enum(['air', 'hull', 'tank', 'loom', 'compartment', 'unknown']).default('unknown'),
  behindM: length.optional().describe('depth that is free behind the face'),
  capacityKg: amount.optional(),
  grade: grade.optional(),
});

export const standingPlace = z.looseObject({
  name,
  at: point.describe('where the feet, knees or hips are'),
  posture: z.enum(['stand', 'kneel', 'sit', 'lie']).default('stand'),
  headroomM: length.optional(),
  compartment: id.optional(),
});

export const person = z.looseObject({
  name,
  percentile: amount.max(100).default(50),
  sex: z.enum(['female', 'male']).optional(),
  oneArm: z.boolean().optional(),
  notes: text.optional(),
});

export const stowageBox = z.looseObject({
  name,
  sizeM: z.tuple([size, size, size]),
  massKg: amount.default(0),
  near: name.optional(),
  notes: text.optional(),
});
