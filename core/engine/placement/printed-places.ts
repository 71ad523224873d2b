import { z } from 'zod';
import type { Boat } from '../../boat/schema/boat';
import { PLACE_TEST_TITLE, placeText } from '../../output/text/place-text';
import { closeCall } from '../report-schema';
import type { CompartmentAnswer, PlaceReport, PlaceTestResult } from './place-report';
import { PLACE_TESTS } from './place-report';

/** What `place --json` prints: the report with its reasons in words. Findings go by their rule; `check` on the boat after the edit prints them. */
const metres = z.number();
const id = z.string();
const pose = z.strictObject({
  at: z.tuple([metres, metres, metres]).describe('[x, y, z] in metres, boat frame'),
  yawDeg: z.number(),
  pitchDeg: z.number(),
  rollDeg: z.number(),
});

const test = z.strictObject({
  outcome: z
    .enum(['pass', 'close', 'fail', 'cannotTell', 'notJudged'])
    .describe(
      'close: it passes, within what the tape gives; cannotTell: something is lacking in the drawing, enterNext says what; notJudged: an earlier test failed',
    ),
  reason: z.string().nullable().describe('key; of a check its rule and its reason, RULE/REASON'),
  says: z.string().describe('the same in words; empty where nothing needs saying'),
  measured: z.strictObject({ value: z.number(), unit: z.string().describe('m, C, L, kg, deg, count ...') }).nullable(),
  limit: z.strictObject({ value: z.number(), bound: z.enum(['atMost', 'atLeast']) }).nullable(),
  closeCall: closeCall.nullable(),
  about: z.array(id).describe('records that it hangs on'),
  enterNext: z.string().nullable(),
});

const tests = z.strictObject(
  Object.fromEntries(PLACE_TESTS.map((name) => [name, test.describe(PLACE_TEST_TITLE[name])])) as Record<
    (typeof PLACE_TESTS)[number],
    typeof test
  >,
);

const compartment = z.strictObject({
  compartment: id,
  name: z.string(),
  verdict: z
    .enum(['goes', 'goesClose', 'open', 'no', 'notYet'])
    .describe(
      'goes: every test passes; goesClose: within what the tape gives; open: something cannot be told; no: a test fails, a demand is broken or no way was found; notYet: not judged',
    ),
  reasons: z
    .array(z.string())
    .describe('what decides first, then every other test that does not plainly pass, then demands that are broken'),
  decides: z.enum(PLACE_TESTS).nullable(),
  isNow: z.boolean().describe('the part stands there now'),
  tests,
  best: z
    .strictObject({
      poses: z.record(id, pose).describe('by part'),
      mountedOn: id.nullable().describe('surface that the part is screwed to'),
      moreHoseM: metres.nullable().describe('hose, tube and cable beyond what is needed now; null: not known'),
      newHoles: z.number().nullable(),
      patches: z
        .array(
          z.strictObject({
            op: z.enum(['replace', 'remove', 'add']),
            path: z.array(z.union([z.string(), z.number()])),
            value: z.unknown().optional(),
          }),
        )
        .describe('edit of the boat file that puts it there; empty: it stands so already'),
    })
    .nullable()
    .describe('the place that was found and judged; null: none'),
  stowageLostL: z.number().nullable().describe('litres that parts and runs take there'),
  breaks: z.array(id).describe('records of demands that it breaks'),
});

export const placesSchema = z
  .strictObject({
    part: id,
    group: z.array(id).describe('parts that move together, the first among them'),
    arrangement: id.nullable(),
    stage: z.enum(['first', 'settled']).describe('first: from bounds alone; settled: routed and judged'),
    compartments: z.array(compartment).describe('the best first; those where it cannot go last'),
  })
  .describe('Where a part can go, compartment by compartment. Metres, degrees, boat frame.');

export type PrintedPlaces = z.infer<typeof placesSchema>;

/** JSON Schema (draft 2020-12) of what `place --json` prints. */
export const placesJsonSchema = (): Record<string, unknown> =>
  z.toJSONSchema(placesSchema, { io: 'output', target: 'draft-2020-12' }) as Record<string, unknown>;

export function printedPlaces(report: PlaceReport, boat: Boat): PrintedPlaces {
  const { part, group, arrangement, stage, compartments } = report;
  return { part, group: [...group], arrangement, stage, compartments: compartments.map((one) => printed(one, boat)) };
}

function printed(answer: CompartmentAnswer, boat: Boat): PrintedPlaces['compartments'][number] {
  const words = placeText(answer, boat);
  const { best } = answer;
  return {
    compartment: answer.compartment,
    name: answer.name,
    verdict: answer.verdict,
    reasons: reasonsOf(answer, boat),
    decides: answer.decides,
    isNow: answer.isNow,
    tests: Object.fromEntries(
      PLACE_TESTS.map((name) => [name, printedTest(answer.tests[name], words.tests[name])]),
    ) as PrintedPlaces['compartments'][number]['tests'],
    best: best && {
      ...best,
      poses: Object.fromEntries(
        Object.entries(best.poses).map(([part, { at, yawDeg, pitchDeg, rollDeg }]) => [
          part,
          { at: [...at] as [number, number, number], yawDeg, pitchDeg, rollDeg },
        ]),
      ),
      patches: best.patches.map(({ op, path, value }) => ({
        op,
        path: [...path],
        ...(value === undefined ? {} : { value }),
      })),
    },
    stowageLostL: answer.stowageLostL,
    breaks: [...answer.breaks],
  };
}

function printedTest(result: PlaceTestResult, says: string): z.infer<typeof test> {
  const { outcome, reason, measured, limit, about, enterNext, finding } = result;
  const close = finding && 'closeCall' in finding ? (finding.closeCall ?? null) : null;
  return {
    outcome,
    reason,
    says,
    measured: measured && { value: measured.value, unit: measured.unit },
    limit: limit && { value: limit.value, bound: limit.bound },
    closeCall: close && { ...close, passProbability: [...close.passProbability] },
    about: [...about],
    enterNext,
  };
}

/** In words: what decides, what else does not plainly pass, what demands it breaks. */
export function reasonsOf(answer: CompartmentAnswer, boat: Boat): string[] {
  const words = placeText(answer, boat);
  const others = PLACE_TESTS.filter((name) => {
    const { outcome } = answer.tests[name];
    return name !== answer.decides && (outcome === 'fail' || outcome === 'cannotTell' || outcome === 'close');
  });
  return [
    ...(words.decides === '' ? [] : [words.decides]),
    ...others.flatMap((name) => (words.tests[name] === '' ? [] : [`${PLACE_TEST_TITLE[name]}: ${words.tests[name]}.`])),
    ...words.breaks.slice(answer.decides === null ? 1 : 0).map((demand) => `Against a demand: ${demand}.`),
  ];
}
