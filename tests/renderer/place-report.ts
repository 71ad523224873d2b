import type { Pose } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import type {
  CompartmentAnswer,
  PlaceOutcome,
  PlaceReport,
  PlaceTest,
  PlaceTestResult,
} from '@core/engine/placement/place-report';

/** Answers as the window gets them, made by hand: what is not named passes. */
export interface AnswerAs {
  readonly compartment: string;
  readonly verdict: CompartmentAnswer['verdict'];
  readonly outcomes?: Readonly<Partial<Record<PlaceTest, PlaceOutcome>>>;
  /** Where the parts would stand; none: no place. */
  readonly poses?: Readonly<Record<string, Pose>>;
  readonly isNow?: boolean;
  readonly moreHoseM?: number;
  readonly newHoles?: number;
  readonly stowageLostL?: number;
}

const TESTS: readonly PlaceTest[] = ['passes', 'fits', 'mounts', 'serves', 'dry', 'cool', 'reaches', 'spills', 'holes'];

export function placeReportOf(
  boat: Boat,
  parts: readonly string[],
  answers: readonly AnswerAs[],
  stage: PlaceReport['stage'] = 'settled',
): PlaceReport {
  const arrangement = boat.currentArrangement ?? Object.keys(boat.arrangements).sort()[0] ?? null;
  return {
    part: parts[0] ?? '',
    group: parts,
    arrangement,
    stage,
    compartments: answers.map((as): CompartmentAnswer => {
      const result = (test: PlaceTest): PlaceTestResult => ({
        outcome: as.outcomes?.[test] ?? 'pass',
        reason: null,
        measured: null,
        limit: null,
        about: [],
        enterNext: null,
        finding: null,
      });
      const decides = TESTS.find((test) => (as.outcomes?.[test] ?? 'pass') !== 'pass') ?? null;
      const poses = as.poses ?? null;
      return {
        compartment: as.compartment,
        name: boat.compartments[as.compartment]?.name ?? as.compartment,
        verdict: as.verdict,
        tests: Object.fromEntries(TESTS.map((test) => [test, result(test)])) as CompartmentAnswer['tests'],
        decides,
        isNow: as.isNow ?? false,
        best:
          poses === null
            ? null
            : {
                poses,
                mountedOn: null,
                moreHoseM: as.moreHoseM ?? 0,
                newHoles: as.newHoles ?? 0,
                patches: Object.entries(poses).map(([id, pose]) => ({
                  op: 'add' as const,
                  path: ['arrangements', arrangement ?? '', 'places', id],
                  value: pose,
                })),
              },
        stowageLostL: as.stowageLostL ?? null,
        breaks: [],
      };
    }),
  };
}
