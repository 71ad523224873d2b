import { z } from 'zod';
import { POSTURES } from '../../assess/access/reach/types';
import { BIBLIOGRAPHY, type SourceKey } from '../../base/bibliography';
import { SERVICE_TASKS } from '../../boat/schema/services';
import { closeCall } from '../report-schema';
import { type ServiceReport, TASK_VERDICTS } from './service-report';

/**
 * The service report as a schema, for whoever reads `service --json`. Written beside the types of service-report.ts: the last lines do not
 * compile when the two differ.
 */
const id = z.string();
const metres = z.number();
const minutes = z.number();

const source = z.strictObject({
  key: z.enum(Object.keys(BIBLIOGRAPHY) as [SourceKey, ...SourceKey[]]),
  clause: z.string().exactOptional(),
  standing: z
    .enum(['published', 'quoted', 'derived', 'commonPractice', 'fromMemory', 'boatFile'])
    .describe('fromMemory: an unverified default'),
});

const measure = z.strictObject({
  what: z
    .enum([
      'reach',
      'opening',
      'handRoom',
      'twoHands',
      'clearFront',
      'withdrawal',
      'swing',
      'seenShare',
      'seenDistance',
      'seenAngle',
      'below',
      'lift',
    ])
    .describe(
      'reach: shoulder to grip; opening: its narrower clear side against what passes it; handRoom: room to spare about arm and hand on their way; swing: of a tool, or of the lever of a valve; lift: index of the NIOSH equation; withdrawal, below: what is free, looked for past the limit as far as the tape may turn it; seenShare: of what must be seen, from the best place of the eye',
    ),
  value: z.number(),
  limit: z.number(),
  bound: z.enum(['atMost', 'atLeast']),
  unit: z.enum(['m', 'deg', 'share', 'kg', 'count']),
  met: z.boolean(),
  closeCall: closeCall.nullable(),
  sources: z.array(source),
});

const blocker = z.strictObject({
  owner: id.describe('thing, line, panel, compartment, opening or hull'),
  label: z.string(),
  shortByM: metres.nullable().describe('what is missing there, metres'),
});

const task = z.strictObject({
  key: id.describe('thing/service'),
  thing: id.describe('part or fixture'),
  isPart: z.boolean().describe('a part to be placed; false: a fixture, aboard already'),
  service: id.describe('id among the services of the thing'),
  task: z.enum(SERVICE_TASKS),
  verdict: z
    .enum(TASK_VERDICTS)
    .describe(
      'from best to worst. noWayFound: no way was found and none is disproved, what was tried stands in `tried`, what is missing in `shortByM` and `blockers`: nearer to no than to yes. notAsked: something is not drawn, enterNext names it',
    ),
  closeCall: closeCall.nullable().describe('the verdict hangs on the tape: present within 1.5 times its accuracy'),
  breaksDemand: z.enum(['noDismantling', 'seenFrom']).nullable().describe("a demand of the owner's that it breaks"),
  reason: z.string().describe('why, as a key'),
  enterNext: z.string().nullable().describe('path or record of the boat file to enter, where that would tell more'),
  posture: z
    .enum(POSTURES)
    .nullable()
    .describe(
      'free: beside the thing; lean: an arm through the opening; headIn: head and one shoulder in; climbIn: kneeling inside; lie: on the sole or a berth, an arm down',
    ),
  standing: id.nullable().describe('standing place; null: none is drawn there'),
  openings: z.array(id).describe('in the order in which they are opened'),
  hands: z.enum(['left', 'right', 'either', 'both']).nullable(),
  reach: z
    .strictObject({
      valueM: metres.describe('from the shoulder to the grip'),
      limitM: metres.describe('as long as the arm is'),
      marginM: metres,
    })
    .nullable(),
  measures: z.array(measure).describe('what it was measured against'),
  removals: z.array(
    z.strictObject({
      what: z.string().describe('record of openings, things or lines, or the words of moveFirst'),
      kind: z.enum(['opening', 'loose', 'thing', 'line']),
      minutes,
    }),
  ),
  blockers: z.array(blocker),
  shortByM: metres.nullable(),
  tried: z.number().describe('ways that were tried'),
  before: z.enum(TASK_VERDICTS).nullable().describe('of a fixture: on the boat as bought; null of a part'),
  isWorse: z.boolean().describe('the arrangement makes it worse'),
  alternatives: z
    .array(
      z.strictObject({
        service: id,
        task: z.enum(SERVICE_TASKS),
        verdict: z.enum(TASK_VERDICTS),
        reason: z.string(),
        blockers: z.array(blocker),
        shortByM: metres.nullable(),
      }),
    )
    .describe('tasks of which one is enough (`either`), and that go no better than this one'),
  lift: z
    .strictObject({
      massKg: z.number(),
      index: z.number().describe('mass over what the NIOSH equation recommends; over 3: two people or a tackle'),
      recommendedKg: z.number(),
      outM: metres.describe('level, from between the ankles to the hands'),
      upM: metres.describe('hands over the floor'),
      isBeyond: z.boolean().describe('out of the range of the equation: told as at its edge'),
    })
    .nullable()
    .describe(
      'what is lifted, from the standing place; it never stops the task. null: it is light, or nobody stands there',
    ),
  minutes: z.strictObject({
    access: minutes.describe('to open, to move away and to put back, each time'),
    work: minutes.describe('the work itself, each time'),
    timesAYear: z.number().nullable().describe('null: no interval is known'),
    aYear: minutes.nullable(),
  }),
  tools: z.array(z.string()),
  spillL: z.number().describe('litres that run out'),
  at: z.tuple([metres, metres, metres]).describe('where it is worked at, [x, y, z] in metres, boat frame'),
  sources: z.array(source),
  cannotSee: z.array(z.string()),
});

export const serviceReportSchema = z
  .strictObject({
    engineVersion: z.string(),
    boat: z.string(),
    arrangement: id.nullable(),
    person: z.strictObject({
      id: id.nullable().describe('record of people; null: a middling adult'),
      name: z.string(),
      isInterpolated: z.boolean().describe('sizes between the two rows that are tabulated'),
    }),
    tasks: z.array(task).describe('what the arrangement makes worse first, then from the worst verdict, then by key'),
    burden: z.strictObject({
      aYear: minutes,
      accessAYear: minutes,
      byThing: z.array(z.strictObject({ thing: id, aYear: minutes, accessAYear: minutes })),
      leftOut: z.number().describe('tasks without an interval, or that cannot be done: not in the sum'),
    }),
  })
  .describe('What the program says of every service task. Metres, minutes, boat frame.');

/** JSON Schema (draft 2020-12) of what `service --json` prints. */
export const serviceJsonSchema = (): Record<string, unknown> =>
  z.toJSONSchema(serviceReportSchema, { io: 'output', target: 'draft-2020-12' }) as Record<string, unknown>;

type Writable<T> = T extends object ? { -readonly [K in keyof T]: Writable<T[K]> } : T;
type Agree<A extends B, B extends C, C = A> = [A, B, C];
/** Schema and types agree in both directions. */
export type ServiceReportAgrees = Agree<z.infer<typeof serviceReportSchema>, Writable<ServiceReport>>;
