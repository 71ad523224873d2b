import type { Boat } from '@core/boat/schema/boat';
import { type CompartmentAnswer, PLACE_TESTS } from '@core/engine/placement/place-report';
import { PLACE_TEST_TITLE, type PlaceWords } from '@core/output/text/place-text';
import { type JSX, memo, useEffect, useRef } from 'react';
import type { DisplayUnits } from '../../store/types';
import { costWords, placeWords } from './say-place';
import { OutcomeBar, TestBars } from './TestBars';
import { OUTCOME_WORDS, SPOKEN_VERDICT } from './words';

export const rowId = (compartment: string): string => `place-${compartment}`;

/** One compartment: its rank, what it costs, a bar for each test, what decides; the chosen one says in words whatever does not simply pass. */
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
  const cost = costWords(answer, units);
  const own = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isChosen) own.current?.scrollIntoView?.({ block: 'nearest' });
  }, [isChosen]);
  // That every test passes its bars say.
  const isPlain = answer.verdict === 'goes' && answer.decides === null;
  const against = words.breaks.filter((one) => !words.decides.includes(one));
  return (
    <div
      ref={own}
      id={rowId(answer.compartment)}
      role="option"
      tabIndex={-1}
      aria-selected={isChosen}
      className={`place-row${isChosen ? ' chosen' : ''}${isHovered ? ' hovered' : ''}${isOld ? ' old' : ''}`}
      data-compartment={answer.compartment}
    >
      <span className="rank">{rank ?? ''}</span>
      <span className="place">{answer.name}</span>
      <span className="spoken">{spoken(answer, words)}</span>
      <span className="differs">
        {answer.isNow ? <span className="now-here">now here</span> : null}
        <span aria-hidden="true">{answer.isNow && cost !== '' ? `, ${cost}` : cost}</span>
      </span>
      <TestBars outcomes={answer.tests} />
      {words.decides === '' || isPlain ? null : <span className="decides">{words.decides}</span>}
      {against.map((one) => (
        <span className="decides" key={one}>{`Against a demand: ${one}.`}</span>
      ))}
      {isChosen ? <Tests answer={answer} words={words} /> : null}
    </div>
  );
});

/** Tests that do not simply pass, each in words; what decides is said already. */
function Tests({
  answer,
  words,
}: {
  readonly answer: CompartmentAnswer;
  readonly words: PlaceWords;
}): JSX.Element | null {
  const told = PLACE_TESTS.filter((test) => test !== answer.decides && isOpen(answer, test));
  if (told.length === 0) return null;
  return (
    <span className="place-tests">
      {told.map((test) => (
        <span className="place-test" key={test}>
          <OutcomeBar outcome={answer.tests[test].outcome} />
          <span>{`${PLACE_TEST_TITLE[test]}: ${words.tests[test] || OUTCOME_WORDS[answer.tests[test].outcome]}`}</span>
        </span>
      ))}
    </span>
  );
}

const isOpen = ({ tests }: CompartmentAnswer, test: (typeof PLACE_TESTS)[number]): boolean =>
  tests[test].outcome !== 'pass' && tests[test].outcome !== 'notJudged';

/** What the bars say, for whoever does not see them: the verdict, what it costs, and each test that is not a plain pass. */
function spoken(answer: CompartmentAnswer, words: PlaceWords): string {
  const open = PLACE_TESTS.filter((test) => isOpen(answer, test)).map(
    (test) => `${PLACE_TEST_TITLE[test]}: ${OUTCOME_WORDS[answer.tests[test].outcome]}`,
  );
  const parts = [SPOKEN_VERDICT[answer.verdict], words.differs, ...open].filter((part) => part !== '');
  return `: ${parts.join('. ')}. `;
}
