import { z } from 'zod';
import { amount, angle, direction, grade, length, localPoint, mass, name, size } from './quantities';

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
  'carbon',
  'clamps',
  'nut',
  'seals',
  'anode',
  'stuffingBox',
  'oilFilter',
  'fuelFilter',
  'dipstick',
  'tankLid',
  'batteryPosts',
  'emergencyTiller',
  'keelBolts',
  'limbers',
  'other',
] as const;

const SERVICE_NEEDS = [
  'see',
  'hand',
  'twoHands',
  'driver',
  'spanner',
  'strap',
  'funnel',
  'tray',
  'cup',
  'light',
] as const;

/**
 * A service task: what must be seen, reached, turned, drawn out and caught at one place of a thing. It may ask for a clear prism, which is a
 * face of the thing pushed out along a direction. What is left out counts as usual for the task (catalogue/task-defaults.ts).
 */
export const service = z.looseObject({
  task: z.enum(SERVICE_TASKS).describe('what must be done; what the other fields do not say is as usual for it'),
  name: name.optional().describe('words for it'),
  at: localPoint.describe(
    'local: the place that is seen and worked at: centre of the face from which the clear space starts',
  ),
  direction: direction.describe(
    'local: out of the thing there: the way the bowl drops, the element comes out, the hand or the eye comes in from',
  ),
  acrossM: z
    .tuple([size, size])
    .default([0.1, 0.1])
    .describe(
      '[width, height] square to the direction of the clear space, and of what is drawn out, metres; default 0.1 x 0.1',
    ),
  across: direction
    .optional()
    .describe(
      'local: direction of the width; default horizontal: local x for a space that goes up or down, else square to the direction and to local z',
    ),
  clearM: length
    .default(0)
    .describe(
      'how far the space must be clear along the direction, metres; default 0: no room of its own, only what hand, eye and tool take',
    ),
  round: z.boolean().default(false).describe('the space is a cylinder of diameter acrossM[0]; default false: a box'),
  either: name.optional().describe('tasks of one thing that share this word are alternatives: one of them suffices'),
  needs: z
    .array(z.enum(SERVICE_NEEDS))
    .default([])
    .describe(
      'what the person needs for it: to see the place, one hand or two, a tool, what is held or stood there. Default: as usual for the task',
    ),
  see: z
    .looseObject({
      diameterM: size.optional().describe('of what must be seen, metres; default by task, an oil glass 0.02'),
      distanceM: size.optional().describe('from how far it can be read at most, metres; default by task'),
      angleDeg: angle
        .optional()
        .describe('greatest angle between line of sight and the direction, degrees; default by task, mostly 45'),
      mirrorOk: z
        .boolean()
        .optional()
        .describe('it can be read in a hand mirror: then that is told as a way of its own; default by task'),
    })
    .optional()
    .describe('how it must be seen; given, it must be seen even where needs does not say so'),
  secondAt: localPoint
    .optional()
    .describe(
      'local: where the second hand works, of a task for two hands; the first works at `at`. Default: both work 75 mm to either side of it, along the width',
    ),
  standOffM: length
    .optional()
    .describe('middle of the grip off the surface while the hand works, metres; default by task, mostly 0.06'),
  coneDeg: angle
    .optional()
    .describe('greatest angle of the hand off the direction, degrees; default by task, mostly 60'),
  tool: z
    .looseObject({
      lengthM: size
        .optional()
        .describe('length of the tool: of a driver along the direction, of a spanner or strap square to it, metres'),
      headM: size.optional().describe('height of its head along the direction, metres'),
      swingDeg: angle
        .optional()
        .describe('least angle that it must swing about the direction before it is set anew, degrees'),
    })
    .optional()
    .describe('the tool that needs names, where its sizes differ from the usual ones'),
  swingM: length.optional().describe('radius in which a spanner or strap swings, metres; default by task and tool'),
  withdrawM: size
    .optional()
    .describe(
      'of what is drawn out: how far it goes straight along the direction, metres; default clearM, of what may tilt as usual for the task',
    ),
  longM: size
    .optional()
    .describe('of what is drawn out: its own length along the direction, metres; default withdrawM, a bowl 0.25'),
  tiltOk: z
    .boolean()
    .optional()
    .describe(
      'of what is drawn out: once it has gone straight by tiltAfterM it may be tilted and taken out sideways; default by task',
    ),
  tiltAfterM: length
    .optional()
    .describe('of what may tilt: how far it goes straight before that, metres; default clearM, else by task'),
  below: z
    .looseObject({
      heightM: size.optional().describe('free height straight below (funnel: above) the place, metres'),
      acrossM: size.optional().describe('its width, metres'),
    })
    .optional()
    .describe('of tray, cup or funnel in needs: the room that it takes where that differs from the usual'),
  linesOff: z
    .boolean()
    .optional()
    .describe(
      'hoses, tubes and cables that end at the thing are taken off for it as part of the work, and so stand in no way; default by task: for end caps, elements, pump heads, battery posts and what is lifted out whole',
    ),
  massKg: mass
    .optional()
    .describe('what is then held in the hands, kilograms; default by task, of a lift-out the mass of the thing'),
  spillL: amount
    .optional()
    .describe('liquid that runs out, litres; default: of the bowl of a filter or strainer what it holds (liquidL)'),
  intervalH: amount
    .optional()
    .describe(
      'running hours between: of the engine for what belongs to it, else of the set; with intervalDays the one that comes first. Default by task',
    ),
  intervalDays: amount
    .optional()
    .describe('days between; 0 for both intervals: only when something is wrong. Default by task'),
  minutes: amount.optional().describe('work itself, without getting there and opening, minutes; default by task'),
  tools: z.array(name).default([]).describe('tools by name'),
  grade: grade.optional(),
});
