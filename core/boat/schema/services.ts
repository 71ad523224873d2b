import { z } from 'zod';
import { amount, direction, grade, length, localPoint, name, size } from './quantities';

export const SERVICE_TASKS = [
  'bowlDrop',
  'elementWithdrawal',
  'impellerCover',
  'oilGlass',
  'oilFill',
  'oilDrain',
  'pumpHead',
  'basket',
  'lid',
  'caps',
  'handle',
  'breaker',
  'gauge',
  'panelFront',
  'panelBack',
  'tapCup',
  'liftOut',
  'air',
  'belt',
  'other',
] as const;

/** A service task asks for a clear prism: a face of the thing pushed out along a direction. */
export const service = z.looseObject({
  task: z.enum(SERVICE_TASKS).describe('what must be done'),
  name: name.optional().describe('words for it'),
  at: localPoint.describe('local: centre of the face from which the clear space starts'),
  direction: direction.describe('local: the way the bowl drops, the element comes out, the hand or the eye comes in'),
  acrossM: z.tuple([size, size]).describe('[width, height] of the space square to the direction, metres'),
  across: direction
    .optional()
    .describe(
      'local: direction of the width; default horizontal: local x for a space that goes up or down, else square to the direction and to local z',
    ),
  clearM: size.describe('how far the space must be clear along the direction, metres'),
  round: z.boolean().default(false).describe('the space is a cylinder of diameter acrossM[0]; default false: a box'),
  either: name.optional().describe('tasks of one thing that share this word are alternatives: one of them suffices'),
  needs: z
    .array(z.enum(['see', 'hand', 'twoHands', 'driver', 'spanner', 'strap', 'funnel', 'tray', 'cup', 'light']))
    .default([])
    .describe('what the person needs for it'),
  swingM: length.optional().describe('radius in which a tool or strap swings, metres'),
  spillL: amount
    .optional()
    .describe('liquid that runs out, litres; default: of the bowl of a filter or strainer what it holds (liquidL)'),
  intervalH: amount.optional().describe('running hours between'),
  intervalDays: amount.optional().describe('days between'),
  minutes: amount.optional().describe('how long it takes'),
  tools: z.array(name).default([]).describe('tools by name'),
  grade: grade.optional(),
});
