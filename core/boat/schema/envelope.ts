import { z } from 'zod';
import { angle, grade, localPoint, point, sides, size, text } from './quantities';

/** Outside of a thing, about its own origin. */
export const shape = z.discriminatedUnion('type', [
  z.looseObject({ type: z.literal('box'), sizeM: sides }),
  z.looseObject({
    type: z.literal('cylinder'),
    diameterM: size.describe('metres'),
    lengthM: size.describe('metres'),
    axis: z.enum(['x', 'y', 'z']).describe('local axis along which its length lies'),
  }),
]);

export const pose = z.looseObject({
  at: point.describe("centre of the thing's envelope, metres, boat frame"),
  yawDeg: angle
    .default(0)
    .describe('degrees about z, right-handed (90 points the forward end to port): the third turn; default 0'),
  pitchDeg: angle
    .default(0)
    .describe('degrees about y, right-handed (positive puts the forward end down): the second turn; default 0'),
  rollDeg: angle
    .default(0)
    .describe('degrees about x, right-handed (positive puts the port side up): the first turn; default 0'),
  grade: grade.optional(),
});

/** A space that something moves through or keeps free, in the frame of its thing. */
export const keepOut = z.discriminatedUnion('type', [
  z.looseObject({
    type: z.literal('box'),
    at: localPoint,
    sizeM: sides,
    why: text.optional().describe('what moves there'),
  }),
  z.looseObject({
    type: z.literal('cylinder'),
    at: localPoint,
    diameterM: size.describe('metres'),
    lengthM: size.describe('metres'),
    axis: z.enum(['x', 'y', 'z']).describe('local axis along which its length lies'),
    why: text.optional().describe('what moves there'),
  }),
  z.looseObject({
    type: z.literal('sector'),
    at: localPoint.describe('local: hub, at half thickness'),
    axis: z.enum(['x', 'y', 'z']).describe('local axis about which it swings'),
    radiusM: size.describe('from the axis, metres'),
    fromDeg: angle.describe(
      'degrees, right-handed about the axis: from x about z, from z about y, from y about x; below toDeg',
    ),
    toDeg: angle.describe('degrees, above fromDeg'),
    thicknessM: size.describe('along the axis, metres'),
    why: text.optional().describe('what moves there'),
  }),
]);

export const zone = z.looseObject({
  kind: z
    .enum(['magnetic', 'ignition', 'gas', 'hot', 'spray', 'clear'])
    .describe(
      'what the zone is about. magnetic: of a compass, how far magnets and cables keep off; of another thing, how far a compass keeps off it. gas and ignition: gas or petrol vapour may be about, nothing in it may spark. hot: gets that hot about it',
    ),
  radiusM: size.describe('from the envelope, metres: what is nearer with any part of its own envelope lies in it'),
  notes: text.optional().describe('free text'),
});
