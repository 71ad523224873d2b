import { applied } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { remedyText } from '@core/output/text/remedy-text';
import type { Remedy } from '@core/rules/remedy';
import { type JSX, useEffect } from 'react';
import { useApp } from '../store/app';
import { judgedEdit } from '../store/judged-edit';
import { useRunQuestion } from '../store/run-question';
import { figure, lengthUnit, runFigure, runUnit, wholeLength } from './format';
import { Panel } from './inspector/parts';
import { StudyFault } from './StudyFault';
import { sentence } from './words';

/** What would give a line its run: each was routed before it is offered, and is looked at again before it is done. */
export function Remedies({
  boat,
  id,
  isAsked = false,
}: {
  readonly boat: Boat;
  readonly id: string;
  /** Looked for unasked: nothing else can be done about the line. */
  readonly isAsked?: boolean;
}): JSX.Element {
  const rests = useApp((state) => !state.stale && !state.searching);
  const isOurs = useRunQuestion(({ about, of }) => about === 'remedies' && of === id);
  const start = useRunQuestion((state) => state.start);
  useEffect(() => {
    if (isAsked && rests && !isOurs) start('remedies', id);
  }, [isAsked, rests, isOurs, id, start]);
  useEffect(() => () => useRunQuestion.getState().drop(), []);
  return (
    <Panel title="What would help" level={3} aside={isOurs || isAsked ? 'each was routed' : undefined}>
      <Offers
        boat={boat}
        about="remedies"
        of={id}
        isAsked={isAsked}
        line={id}
        none="Nothing small was found that helps. Move one of its ends, or pass another panel."
      />
    </Panel>
  );
}

/** What would mend a failed finding: each was applied to a copy of the boat and judged before it is offered. */
export function Mends({ boat, findingKey }: { readonly boat: Boat; readonly findingKey: string }): JSX.Element {
  useEffect(
    () => () => {
      const { about, of, drop } = useRunQuestion.getState();
      if (about === 'mends' && of === findingKey) drop();
    },
    [findingKey],
  );
  return (
    <Offers
      boat={boat}
      about="mends"
      of={findingKey}
      line={null}
      none="Nothing small was found that helps and harms nothing else: no move of the parts concerned up to 300 mm, no turn, no other value."
    />
  );
}

function Offers({
  boat,
  about,
  of,
  line,
  none,
  isAsked = false,
}: {
  readonly boat: Boat;
  readonly about: 'remedies' | 'mends';
  readonly of: string;
  /** The line that must have a run after it. */
  readonly line: string | null;
  readonly none: string;
  readonly isAsked?: boolean;
}): JSX.Element {
  const question = useRunQuestion();
  const isOurs = question.about === about && question.of === of;
  const { progress, answer, fault } = question;
  const found = isOurs && answer && answer.about !== 'alternatives' ? answer.remedies : null;
  if (!isAsked && !isOurs)
    return (
      <div className="actions">
        <button type="button" className="button plain" onClick={() => question.start(about, of)}>
          Look for what would help
        </button>
      </div>
    );
  if (isOurs && fault !== null) return <StudyFault study={{ fault }} />;
  if (found === null)
    return (
      <p className="quiet" aria-live="polite">
        {!isOurs || progress === null
          ? 'Looked for when the longer search is over.'
          : `Being tried: ${figure(progress.done)} of ${figure(progress.of)}.`}
      </p>
    );
  if (found.length === 0) return <p className="quiet">{none}</p>;
  return (
    <ul className="offers" onMouseLeave={() => question.light(null)}>
      {found.map((remedy) => (
        <Offer key={remedy.id} boat={boat} line={line} remedy={remedy} />
      ))}
    </ul>
  );
}

function Offer({
  boat,
  line,
  remedy,
}: {
  readonly boat: Boat;
  readonly line: string | null;
  readonly remedy: Remedy;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const edit = useApp((state) => state.edit);
  const light = useRunQuestion((state) => state.light);
  const isLit = useRunQuestion((state) => state.lit === remedy.id);
  const length = (metres: number): string => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const words = remedyText(remedy, boat, length);
  const apply = (): void => {
    light(null);
    // The offer goes away once it is done: the focus goes where the boat is.
    document.getElementById('board-list')?.focus({ preventScroll: true });
    const recipe = (draft: object): void => {
      applied(draft as Boat, remedy.patches);
    };
    if (line === null) edit(words.title, recipe);
    else judgedEdit({ label: words.title, line, recipe, mustRoute: true, refusal: `Not done: ${words.title}` });
  };
  return (
    <li
      className={isLit ? 'offer lit' : 'offer'}
      onMouseEnter={() => light(remedy.id)}
      onFocus={() => light(remedy.id)}
    >
      <p className="offer-title">{words.title}</p>
      <p className="offer-why">{words.why}</p>
      {words.cautions.map((caution) => (
        <p className="offer-caution" key={caution}>
          {sentence(caution)}
        </p>
      ))}
      <div className="offer-foot">
        <button type="button" className="button" aria-label={`Apply: ${words.title}`} onClick={apply}>
          Apply
        </button>
        {remedy.lengthM === null ? null : (
          <span className="figures">{`costs ${runFigure(remedy.costM, units)} ${runUnit(units)} of hose`}</span>
        )}
      </div>
    </li>
  );
}
