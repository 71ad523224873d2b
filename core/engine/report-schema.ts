import { z } from 'zod';
import { BIBLIOGRAPHY, type SourceKey } from '../base/bibliography';
import { GROUPS, SIDES } from '../output/takeoff/row';
import { HAZARDS } from '../rules/hazard';
import { hullTableSchema } from './hull-table-schema';
import type { Report } from './report';
import { surveyReportSchema } from './survey-report';

/**
 * The report as a schema, for whoever reads `check --json`. Written beside the types of report.ts: the last lines do not
 * compile when the two differ.
 */
const id = z.string();
const metres = z.number();
const point = z.tuple([metres, metres, metres]).describe('[x, y, z] in metres, boat frame');
const nullableMetres = metres.nullable();

const attitude = z
  .strictObject({
    up: point.describe('unit vector, up from the water, boat frame'),
    levelM: metres.describe('a point p is at the water where p . up = levelM'),
    source: z
      .enum(['frame', 'freeboards', 'levelMarks', 'weights'])
      .describe('what it rests on; weights: floated at the mass entered, nothing measured; frame: z = 0 is the water'),
    sinkageM: metres.describe(
      'how much deeper than z = 0 the boat lies at the middle of the measured points, or of the hull without any, metres',
    ),
    trimDeg: z.number().describe('degrees, positive bow down'),
    listDeg: z.number().describe('degrees, positive to starboard'),
    residualM: metres.describe('greatest misfit of a measured point, metres'),
    gradeM: metres.describe('two standard deviations of a height above the water, metres'),
  })
  .describe('how the boat floats in cruising trim');

const place = z.strictObject({
  at: point.describe('centre of the envelope, metres, boat frame'),
  yawDeg: z.number().describe('degrees about z'),
  pitchDeg: z.number().describe('degrees about y'),
  rollDeg: z.number().describe('degrees about x'),
  compartment: id.nullable().describe('compartment that holds the centre; null in undrawn space'),
});

const prim = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('line'), from: point, to: point }),
    z.strictObject({
      kind: z.literal('arc'),
      centre: point,
      radius: metres.describe('metres'),
      from: point,
      to: point,
      normal: point.describe('unit vector; the arc runs right-handed about it from `from` to `to`'),
    }),
  ])
  .describe('a piece of the centre line');

const hole = z.strictObject({
  panelId: id.describe('panel that it is in'),
  at: point.describe('centre, in the middle of the panel, metres, boat frame'),
  diameterM: metres.describe('metres'),
  existing: z.boolean().describe('there already; false: to be drilled'),
  fedFrom: z
    .enum(['from', 'to'])
    .exactOptional()
    .describe('of a line with a crimped end: the end that stays at its port while the other is drawn through'),
  newHoleId: id.exactOptional().describe("id among the arrangement's newHoles, of a hole that is decided on there"),
});

const blockReason = z.strictObject({
  kind: z
    .enum([
      'notPlaced',
      'noSuchPort',
      'portOutside',
      'disconnected',
      'clearance',
      'bend',
      'hole',
      'lead',
      'feed',
      'turn',
      'reach',
      'notFound',
    ])
    .describe('what prevents the run'),
  at: point.nullable().describe('where'),
  blocker: id.nullable().describe('thing, panel or hull in the way'),
  shortByM: nullableMetres.describe('how much is missing, metres'),
  neededM: metres
    .exactOptional()
    .describe('what would do, where it is one size (the diameter of a hole), metres; there is that less shortByM'),
  tries: z.number().describe('ways that were tried'),
});

const spare = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }).describe('next to nothing is to spare'),
    z
      .strictObject({
        kind: z.literal('cut'),
        toM: metres.describe('what to leave, metres'),
        offM: metres.describe('what comes off, metres'),
      })
      .describe('it may be cut'),
    z
      .strictObject({
        kind: z.enum(['bulge', 'coil', 'wider']).describe('wider: a bend of the run is led wider'),
        excessM: metres.describe('length that it takes up, metres'),
        at: point.describe('middle of the straight that it stands beside, or the corner that is led wider'),
        spanM: metres.describe('straight that it takes up, metres; 0 for wider'),
        heightM: metres.describe('how far the middle of the hose stands out, metres'),
        radiusM: metres.describe('tightest bend of its centre line, metres'),
        count: z.number().describe('bulges in a row, or turns of the coil'),
        prims: z.array(prim).describe('the centre line of the whole hose with the spare length in it'),
      })
      .describe('laid beside the run'),
    z.strictObject({ kind: z.literal('noPlace'), excessM: metres }).describe('no free place was found for it'),
  ])
  .describe('of a supplied hose: where the length goes that its run does not need');

const costs = z
  .strictObject({
    lengthM: metres.describe('length'),
    holesM: metres.describe('holes to be drilled'),
    suctionM: metres.describe('crests of a suction hose'),
    electricsM: metres.describe('water above or beside open electrics'),
    heatM: metres.describe('near heat'),
    compassM: metres.describe('near the compass'),
    apartM: metres.describe('power beside signal'),
    surfaceM: metres.describe('stretches that no clip can hold'),
    fallM: metres.describe('drains that do not fall enough'),
    riseM: metres.describe('height that a run must rise to and does not'),
    stowageM: metres.describe('through stowage'),
    feetM: metres.describe('where feet tread'),
    serviceM: metres.describe('in room that service needs'),
  })
  .describe('what costM is made of, in metres of hose');

const run = z.strictObject({
  lineId: id,
  status: z.enum(['routed', 'blocked']),
  proved: z.boolean().exactOptional().describe('of a blocked line: proved that no run exists, not only none found'),
  proof: z
    .enum(['noPassage', 'noRoomAtEnd', 'tooFar', 'noPort'])
    .exactOptional()
    .describe(
      'of a blocked line: what the proof rests on; noPassage: no chain of panels and holes joins the ends at this diameter, or none has room for the bends at them (reason turn); tooFar: no run is as short as the supplied hose',
    ),
  effort: z.enum(['fast', 'deep']).exactOptional().describe('of a blocked line without proof: how hard it was tried'),
  lengthM: nullableMetres.describe('along the centre line from port to port, metres; null when blocked'),
  lowerBoundM: metres.describe(
    'no run of this line is shorter, metres; asked deeper, bends and what stands in the compartments count too',
  ),
  costM: metres.exactOptional().describe('length plus what holes and preferences cost, in metres of hose'),
  costs: costs.exactOptional(),
  costBoundM: metres.exactOptional().describe('no run costs less, in metres of hose'),
  prims: z.array(prim).describe('the centre line from `from` to `to`, piece by piece'),
  holes: z.array(hole).describe('crossings of panels that are not open, in order'),
  minClearanceM: nullableMetres.describe('least distance from the surface of the hose to what it must clear, metres'),
  bends: z.number().exactOptional().describe('number of bends'),
  leastRadiusM: nullableMetres.exactOptional().describe('least radius of the centre line, metres; null without a bend'),
  reason: blockReason.exactOptional().describe('of a blocked line'),
  pinned: z.literal(true).exactOptional().describe('the run lies as built, not as routed'),
  spare: spare.exactOptional(),
  crestM: metres.exactOptional().describe('highest point of the centre line above the water, metres'),
  forcedCrest: z
    .strictObject({
      trappedM: metres.describe('no run traps less, metres'),
      end: z.enum(['from', 'to']).describe('the end whose port faces up'),
    })
    .exactOptional()
    .describe(
      'of a suction line: height of a trapped crest that its ports force on every run, in the reference attitude',
    ),
});

const measured = z.strictObject({
  value: z.number(),
  unit: z.enum([
    'm',
    'm2',
    'mm2',
    'L',
    'LMin',
    'LDay',
    'V',
    'A',
    'Ah',
    'Wh',
    'bar',
    'kg',
    'deg',
    'C',
    'K',
    'count',
    'share',
  ]),
});
const limit = measured.extend({ bound: z.enum(['atMost', 'atLeast']) });
const gradeFrom = z
  .array(
    z.strictObject({
      path: z.string().describe('path of the value in the boat file, or of its record'),
      gradeM: z.number().describe('two standard deviations that it adds, in the unit of `measured`'),
    }),
  )
  .describe('what the accuracy of the verdict is made of')
  .exactOptional();
export const closeCall = z
  .strictObject({
    gradeM: z
      .number()
      .describe('two standard deviations of what the verdict hangs on: mostly measured minus limit, in their unit'),
    unit: measured.shape.unit
      .describe('unit of the grade, where it is not that of the limit: whether there is a run at all hangs on metres')
      .exactOptional(),
    hangsOn: z
      .literal('run')
      .describe('set where what is in doubt is whether the run can lie as drawn, wherever its ends really are')
      .exactOptional(),
    passProbability: z.tuple([z.number(), z.number()]).describe('chance that the limit is met, from least to greatest'),
  })
  .describe('present when the margin is less than 1.5 times the accuracy of the measurement');

const findingBase = {
  key: z.string().describe('rule|subject|instance'),
  rule: z.string(),
  subject: z.string().describe('thing, line, opening or other record that it is about'),
  related: z.array(z.string()).describe('what else is involved'),
  at: point.nullable(),
  cause: z.enum(['existing', 'arrangement']).describe('existing: stands without the plan'),
  profile: z.enum(['isoSmallCraft', 'usVoluntary']).describe('practice profile'),
  sources: z.array(
    z.strictObject({
      key: z.enum(Object.keys(BIBLIOGRAPHY) as [SourceKey, ...SourceKey[]]),
      clause: z.string().exactOptional(),
      standing: z.enum(['published', 'quoted', 'derived', 'commonPractice', 'fromMemory', 'boatFile']),
    }),
  ),
  cannotSee: z.array(z.string()).describe('what the check leaves out'),
  hazards: z.array(z.enum(HAZARDS)).describe('dangers for whoever acts on it'),
  data: z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null()])),
  accepted: z.strictObject({ by: z.string(), why: z.string(), on: z.string() }).exactOptional(),
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
    gradeFrom,
  }),
  z.strictObject({
    ...findingBase,
    outcome: z.literal('pass'),
    measured,
    limit,
    closeCall: closeCall.exactOptional(),
    gradeFrom,
  }),
  z.strictObject({
    ...findingBase,
    outcome: z.literal('cannotTell'),
    reason: z.string(),
    enterNext: z.string(),
    missing: z
      .strictObject({ path: z.string(), unit: z.enum(['A', 'mm2', 'micron', 'LMin']) })
      .describe('the one value that is lacking, where it is one')
      .exactOptional(),
  }),
  z.strictObject({ ...findingBase, outcome: z.literal('notApplicable'), reason: z.string() }),
]);

const takeoffRow = z.strictObject({
  key: z.string().describe('stays the same from edit to edit'),
  group: z.enum(GROUPS),
  item: z.string(),
  kind: z.string(),
  quantity: z.number().describe('pieces, or metres of run with the making-up allowance'),
  unit: z.enum(['piece', 'm']),
  buy: z.number().describe('quantity rounded up to what is sold, less what is supplied'),
  leastM: metres.exactOptional().describe('as short as the accuracy of the ends may make it, metres'),
  greatestM: metres.exactOptional().describe('as long as that, or the reserve, may make it, metres'),
  place: z.string(),
  from: z.array(id).describe('parts or lines that the row comes from'),
  note: z.string(),
  spread: z
    .array(z.strictObject({ place: z.string(), quantity: z.number(), from: id, what: z.string() }))
    .describe('where its pieces go, by the name of the compartment'),
  cuts: z
    .array(
      z.strictObject({
        lengthM: metres,
        supplied: z.boolean().describe('there already, not bought'),
        name: z.string(),
        pieces: z.array(
          z.strictObject({ lineId: id, name: z.string(), lengthM: metres.describe('run and making-up allowance') }),
        ),
        wasteM: metres.describe('what the pieces leave of it'),
      }),
    )
    .exactOptional()
    .describe('lengths that its pieces are cut from'),
  gapM: metres.exactOptional().describe('metres that may be bought too much at most, where the least is not proved'),
  hole: z
    .strictObject({
      panelId: z.string(),
      panel: z.string(),
      diameterM: metres,
      thicknessM: metres.nullable(),
      at: point,
      drillFrom: z.string().nullable().describe('name of the compartment from which it is drilled'),
      edges: z
        .array(z.strictObject({ side: z.enum(SIDES), distanceM: metres }))
        .describe('distances of its centre from sides of that compartment'),
    })
    .exactOptional(),
  unitPrice: z.number().exactOptional().describe('of one piece or one metre'),
  price: z.number().exactOptional().describe('of all that is to be bought'),
});

const summary = z.strictObject({
  danger: z.number(),
  fault: z.number(),
  advice: z.number(),
  cannotTell: z.number(),
  pass: z.number(),
  closeCalls: z.number(),
  routed: z.number(),
  blocked: z.number(),
  hoseM: metres.describe('length of all runs together, metres'),
  newHoles: z.number().describe('holes to be drilled'),
});

export const reportSchema = z
  .strictObject({
    engineVersion: z.string(),
    boat: z.string().describe('name of the boat'),
    arrangement: id.nullable().describe('arrangement that was judged'),
    attitude,
    places: z.record(z.string(), place).describe('fixtures, and parts that are placed, by id'),
    runs: z.array(run).describe('one for each line, sorted by id'),
    findings: z.array(finding).describe('every verdict: failures first, then what cannot be told, then passes'),
    takeoff: z.array(takeoffRow).describe('the parts-and-lengths list'),
    summary: summary.describe('counts of findings by outcome and severity, and totals'),
  })
  .describe('What the program says of one arrangement of a boat. Metres, degrees, boat frame unless said otherwise.');

const asJson = (schema: z.ZodType): Record<string, unknown> =>
  z.toJSONSchema(schema, { io: 'output', target: 'draft-2020-12' }) as Record<string, unknown>;

/** JSON Schema (draft 2020-12) of the report that `check --json` prints; what `hull --json` and `survey --json` print stands under $defs. */
export const reportJsonSchema = (): Record<string, unknown> => {
  const report = asJson(reportSchema);
  const { $schema: _, ...hull } = asJson(hullTableSchema);
  const { $schema: __, ...survey } = asJson(surveyReportSchema);
  return { ...report, $defs: { ...(report.$defs as object | undefined), hull, survey } };
};

type Writable<T> = T extends object ? { -readonly [K in keyof T]: Writable<T[K]> } : T;
type Agree<A extends B, B extends C, C = A> = [A, B, C];
/** Schema and types agree in both directions. */
export type ReportAgrees = Agree<z.infer<typeof reportSchema>, Writable<Report>>;
