import { z } from 'zod';
import { GRADES, name, point, text } from './quantities';

export const surveyPoint = z.looseObject({
  name: name.optional().describe('what the point is'),
  at: point.optional().describe('place, where it is known: it is held. Default: the readings give it'),
  of: z
    .array(z.string().min(1).max(300))
    .max(12)
    .optional()
    .describe(
      'what of the drawn boat stands at the point, by path: compartments.ID.outline[N], compartments.ID.rangeM[0 or 1], openings.ID.at, openings.ID.widthM or heightM (two points each), hull.stations.ID.points[N]. The drawn place starts the adjustment, and the adjusted place can be taken over',
    ),
});

export const datum = z.looseObject({
  name: name.optional().describe('what the datum is'),
  at: point,
  axis: z
    .enum(['x', 'y', 'z'])
    .optional()
    .describe('a plane square to this axis, from which offsets are taken; default a fixed point'),
  reversed: z
    .boolean()
    .optional()
    .describe(
      'offsets and heights from it count against the axis: aft, to starboard, down; default false: forward, to port, up',
    ),
});

export const reading = z.looseObject({
  from: name.describe(
    'point or datum, by its id or name, at which the tape begins. What is neither is taken as a point',
  ),
  to: name.describe('point or datum at which it ends'),
  kind: z
    .enum(['distance', 'height', 'offset', 'diagonal'])
    .describe(
      'distance, diagonal: straight from end to end, or square to a plane; height: how far `to` lies above `from`; offset: from a plane along its axis',
    ),
  valueM: z.number().finite().min(-1000).max(1000).describe('reading, metres'),
  grade: z.enum(GRADES).optional().describe('how it was taken; default measured'),
  typed: text.optional().describe('what was typed'),
});
