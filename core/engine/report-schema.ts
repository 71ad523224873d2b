import { z } from 'zod';
import type { Report } from './report';

/**
 * The shape of a report, for whoever reads `check --json`. Written beside the types of report.ts: the last lines of this
 * file don't compile when the two differ.
 */
const number = z.number();
const metres = (what: string) => number.describe(`${what}, metres`);
const point = z.tuple([number, number, number]).describe('[x, y, z] in boat coordinates, metres');
const direction = z.tuple([number, number, number]).describe('unit vector in boat coordinates');
const id = z.string();

const attitude = z.strictObject({
  up: direction.describe('up of the water plane, in boat coordinates'),
  levelM: metres('points p with dot(p, up) equal to this are at the water'),
  source: z.enum(['frame', 'freeboards', 'levelMarks']),
  sinkageM: metres('deeper than the z = 0 of the frame, positive downward'),
  trimDeg: number.describe('positive bow down'),
  listDeg: number.describe('positive to starboard'),
  residualM: metres('greatest residual of the measured points'),
  gradeM: metres('two standard deviations of a height above this water'),
});

const place = z.strictObject({
  at: point.describe("centre of the part's envelope"),
  yawDeg: number,
  pitchDeg: number,
  rollDeg: number,
  compartment: id.nullable(),
});

const prim = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('line'), from: point, to: point }),
  z.strictObject({
    kind: z.literal('arc'),
    centre: point,
    radius: metres('of the centre line'),
    from: point,
    to: point,
    normal: direction,
  }),
]);

const hole = z.strictObject({
  panelId: id,
  at: point.describe('in the middle plane of the panel'),
  diameterM: metres('diameter'),
  existing: z.boolean().describe('whether the hole is there already'),
});

const blockReason = z.strictObject({
  kind: z.enum([
    'notPlaced',
    'noSuchPort',
    'portOutside',
    'disconnected',
    'clearance',
    'bend',
    'hole',
    'lead',
    'reach',
    'notFound',
  ]),
  at: point.nullable(),
  blocker: id.nullable().describe('thing, panel or hull in the way'),
  shortByM: metres('how much is missing').nullable(),
  tries: number,
});

const run = z.strictObject({
  lineId: id,
  status: z.enum(['routed', 'blocked']),
  proved: z.boolean().exactOptional().describe('blocked for certain'),
  lengthM: metres('along the centre line, from port to port').nullable(),
  lowerBoundM: metres('no run of this line is shorter'),
  costM: number.exactOptional().describe('length plus costs of holes and preferences, metres of hose'),
  costBoundM: number.exactOptional().describe('bound of length plus costs of holes, metres of hose'),
  prims: z.array(prim).describe('the centre line, end to end'),
  holes: z.array(hole),
  minClearanceM: metres('least distance of its surface to what it must clear').nullable(),
  bends: number.exactOptional(),
  leastRadiusM: metres('least bend radius used').nullable().exactOptional(),
  reason: blockReason.exactOptional(),
  crestM: metres('height of its highest point above the water').exactOptional(),
});

const measured = z.strictObject({
  value: number,
  unit: z.enum(['m', 'm2', 'L', 'V', 'A', 'kg', 'deg', 'K', 'count', 'share']),
});
const limit = z.strictObject({ ...measured.shape, bound: z.enum(['atMost', 'atLeast']) });
const closeCall = z.strictObject({
  gradeM: metres('two standard deviations of measured minus limit'),
  passProbability: z.tuple([number, number]).describe('least and greatest chance that the limit is really met'),
});
const source = z.strictObject({
  key: z.string(),
  clause: z.string().exactOptional(),
  standing: z.enum(['published', 'quoted', 'derived', 'commonPractice', 'fromMemory', 'boatFile']),
});
const findingBase = {
  key: z.string().describe('rule|subject|instance'),
  rule: z.string(),
  subject: id,
  related: z.array(id),
  at: point.nullable(),
  cause: z.enum(['existing', 'arrangement']),
  profile: z.enum(['isoSmallCraft', 'usVoluntary']),
  sources: z.array(source),
  cannotSee: z.array(z.string()),
  accepted: z.strictObject({ by: z.string(), why: z.string(), on: z.string() }).exactOptional(),
  data: z.record(z.string(), z.union([z.string(), number, z.boolean(), z.null()])),
};
const finding = z.discriminatedUnion('outcome', [
  z.strictObject({
    ...findingBase,
    outcome: z.literal('fail'),
    severity: z.enum(['danger', 'fault', 'advice']),
    reason: z.string(),
    measured,
    limit,
    closeCall: closeCall.exactOptional(),
    remedies: z.array(z.strictObject({ label: z.string(), edit: z.unknown() })).exactOptional(),
  }),
  z.strictObject({
    ...findingBase,
    outcome: z.literal('pass'),
    measured,
    limit,
    closeCall: closeCall.exactOptional(),
  }),
  z.strictObject({ ...findingBase, outcome: z.literal('cannotTell'), reason: z.string(), enterNext: z.string() }),
  z.strictObject({ ...findingBase, outcome: z.literal('notApplicable'), reason: z.string() }),
]);

const takeoffRow = z.strictObject({
  key: z.string(),
  group: z.enum(['part', 'hose', 'tube', 'cable', 'end', 'clip', 'hole', 'grommet', 'label', 'notPlaced']),
  item: z.string(),
  kind: z.string(),
  quantity: number.describe('what the drawing asks for: pieces or metres'),
  unit: z.enum(['piece', 'm']),
  buy: number.describe('the quantity rounded up to what is sold'),
  leastM: metres('the bare runs').exactOptional(),
  greatestM: metres('with reserve').exactOptional(),
  place: z.string(),
  from: z.array(id).describe('ids of what the row comes from'),
  note: z.string(),
});

export const reportSchema = z
  .strictObject({
    engineVersion: z.string(),
    boat: z.string().describe('name of the boat'),
    arrangement: id.nullable().describe('the arrangement judged'),
    attitude,
    places: z.record(id, place).describe('by part'),
    runs: z.array(run),
    findings: z.array(finding),
    takeoff: z.array(takeoffRow),
    summary: z.strictObject({
      danger: number,
      fault: number,
      advice: number,
      cannotTell: number,
      pass: number,
      closeCalls: number,
      routed: number,
      blocked: number,
      hoseM: metres('all runs together'),
      newHoles: number,
    }),
  })
  .describe(
    'The report on one arrangement of a boat. Lengths in metres, angles in degrees; x forward, y to port, z up.',
  );

/** JSON Schema (draft 2020-12) of a report. */
export const reportJsonSchema = (): Record<string, unknown> =>
  z.toJSONSchema(reportSchema, { target: 'draft-2020-12' }) as Record<string, unknown>;

type Writable<T> = T extends object ? { -readonly [K in keyof T]: Writable<T[K]> } : T;
type Agree<A extends B, B extends C, C = A> = [A, B, C];
/** Schema and types agree in both directions. */
export type ReportAgrees = Agree<z.infer<typeof reportSchema>, Writable<Report>>;
