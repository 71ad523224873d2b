import type { Boat } from '../../boat/schema/boat';
import type { CompartmentAnswer, PlaceTest, PlaceTestResult } from './place-report';
import { PLACE_TESTS } from './place-report';
import { deciding } from './place-tests';

type Tests = CompartmentAnswer['tests'];

/** The verdict of the tests together, and the one that decides it. Until a compartment is done only a failure is told. */
export function verdictOf(
  tests: Tests,
  breaks: readonly string[],
  isDone: boolean,
): Pick<CompartmentAnswer, 'verdict' | 'decides'> {
  const first = (outcome: PlaceTestResult['outcome']): PlaceTest | undefined =>
    PLACE_TESTS.find((test) => tests[test].outcome === outcome);
  const failed = first('fail');
  if (failed !== undefined) return { verdict: 'no', decides: failed };
  if (breaks.length > 0) return { verdict: 'no', decides: null };
  if (!isDone) return { verdict: 'notYet', decides: null };
  const open = first('cannotTell');
  if (open !== undefined) return { verdict: 'open', decides: open };
  const verdict = first('close') === undefined ? 'goes' : 'goesClose';
  const tightest = PLACE_TESTS.filter((test) => tests[test].measured !== null).reduce<PlaceTest | null>(
    (best, test) => (best === null || deciding(tests[best], tests[test]) === tests[test] ? test : best),
    null,
  );
  return { verdict, decides: tightest };
}

const ORDER: Readonly<Record<CompartmentAnswer['verdict'], number>> = {
  goes: 0,
  goesClose: 1,
  open: 2,
  notYet: 3,
  no: 4,
};
/** A litre of stowage in metres of hose. Project judgement, no source. */
const LITRE_M = 0.02;

/** Best first: by verdict, then by what it costs; those where it cannot go by how far they came. */
export function rankedAnswers(answers: readonly CompartmentAnswer[], boat: Boat): readonly CompartmentAnswer[] {
  const costM = ({ best, stowageLostL }: CompartmentAnswer): number =>
    (best?.moreHoseM ?? 0) + (best?.newHoles ?? 0) * boat.newHoleCostM + (stowageLostL ?? 0) * LITRE_M;
  const passedTests = ({ tests }: CompartmentAnswer): number =>
    PLACE_TESTS.filter((test) => tests[test].outcome === 'pass' || tests[test].outcome === 'close').length;
  return [...answers].sort(
    (a, b) =>
      ORDER[a.verdict] - ORDER[b.verdict] ||
      (a.verdict === 'no' ? a.breaks.length - b.breaks.length || passedTests(b) - passedTests(a) : 0) ||
      Number(Math.abs(costM(a) - costM(b)) > 1e-9) * (costM(a) - costM(b)) ||
      (a.compartment < b.compartment ? -1 : 1),
  );
}
