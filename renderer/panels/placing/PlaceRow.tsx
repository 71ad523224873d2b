import type { Boat } from '@core/boat/schema/boat';
import { type CompartmentAnswer, PLACE_TESTS } from '@core/engine/placement/place-report';
import { type JSX, memo, useEffect, useRef } from 'react';
import type { DisplayUnits } from '../../store/types';
import { type PlaceWords, placeWords } from './say-place';
import { OutcomeBar, TestBars } from './TestBars';
import { OUTCOME_WORDS, TEST_WORDS, TINT_WORDS } from './words';

export const rowId = (compartment: string): string => `place-${compartment}`;

/** One compartment: its rank, what it costs, a bar for each test, what decides; the chosen one says every test in words. */
export const PlaceRow = memo(function PlaceRow({
  boat,
  units,
  answer,
  rank,
  isChosen,
  isHovered,
  isOld,
}: {
  readonly boat: Boat;
  readonly units: DisplayUnits;
  readonly answer: CompartmentAnswer;
  /** Null: it cannot go there, or is not judged yet. */
  readonly rank: number | null;
  readonly isChosen: boolean;
  readonly isHovered: boolean;
  readonly isOld: boolean;
}): JSX.Element {
  const words = placeWords(answer, boat, units);
  const own = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isChosen) own.current?.scrollIntoView?.({ block: 'nearest' });
  }, [isChosen]);
  return (
    <div
      ref={own}
      id={rowId(answer.compartment)}
      role="option"
      tabIndex={-1}
      aria-selected={isChosen}
      aria-label={spoken(answer, words, rank)}
      className={`place-row${isChosen ? ' chosen' : ''}${isHovered ? ' hovered' : ''}${isOld ? ' old' : ''}`}
      data-compartment={answer.compartment}
    >
      <span className="rank">{rank ?? ''}</span>
      <span className="place">{answer.name}</span>
      <span className="differs">{answer.isNow ? 'now here' : words.differs}</span>
      <TestBars outcomes={answer.tests} />
      {words.decides === '' ? null : <span className="decides">{words.decides}</span>}
      {words.breaks.map((one) => (
        <span className="decides" key={one}>
          {one}
        </span>
      ))}
      {isChosen ? <Tests answer={answer} words={words} /> : null}
    </div>
  );
});

/** Tests of a compartment in words: what was measured, and whatever does not simply pass. */
function Tests({
  answer,
  words,
}: {
  readonly answer: CompartmentAnswer;
  readonly words: PlaceWords;
}): JSX.Element | null {
  const told = PLACE_TESTS.filter(
    (test) => words.tests[test] !== '' || !['pass', 'notJudged'].includes(answer.tests[test].outcome),
  );
  if (told.length === 0) return null;
  return (
    <span className="place-tests">
      {told.map((test) => (
        <span className="place-test" key={test}>
          <OutcomeBar outcome={answer.tests[test].outcome} />
          <span>{TEST_WORDS[test]}</span>
          <span className="figures">{words.tests[test] || OUTCOME_WORDS[answer.tests[test].outcome]}</span>
        </span>
      ))}
    </span>
  );
}

/** The row for whoever does not see it: what is not a plain pass is named. */
function spoken(answer: CompartmentAnswer, words: PlaceWords, rank: number | null): string {
  const open = PLACE_TESTS.filter((test) => !['pass', 'notJudged'].includes(answer.tests[test].outcome)).map(
    (test) => `${TEST_WORDS[test]}: ${OUTCOME_WORDS[answer.tests[test].outcome]}`,
  );
  return [
    rank === null ? answer.name : `${rank}, ${answer.name}`,
    answer.isNow ? 'now here' : '',
    TINT_WORDS[answer.verdict].replace(', with its reason', ''),
    words.differs,
    ...open,
    words.decides,
    ...words.breaks,
  ]
    .filter((part) => part !== '')
    .map((part) => part.replace(/\.$/, ''))
    .join('. ');
}
