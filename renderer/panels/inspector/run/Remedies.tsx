import { applied } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { remedyText } from '@core/output/text/remedy-text';
import type { Remedy } from '@core/rules/remedy';
import { type JSX, useEffect } from 'react';
import { useApp } from '../../../store/app';
import { judgedEdit } from '../../../store/judged-edit';
import { useRunQuestion } from '../../../store/run-question';
import { figure, lengthUnit, runFigure, runUnit, wholeLength } from '../../format';
import { StudyFault } from '../../StudyFault';
import { sentence } from '../../words';
import { Panel } from '../parts';

/** What would give a line a run: each was routed before it is offered, and is looked at again before it is done. */
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
  const { about, line, progress, answer, fault, start, light } = useRunQuestion();
  const isOurs = about === 'remedies' && line === id;
  useEffect(() => {
    if (isAsked && rests && !isOurs) start('remedies', id);
  }, [isAsked, rests, isOurs, id, start]);
  useEffect(() => () => useRunQuestion.getState().drop(), []);
  const found = isOurs && answer?.about === 'remedies' ? answer.remedies : null;
  return (
    <Panel title="What would help" level={3} aside={found && found.length > 0 ? 'each was routed' : undefined}>
      {!isAsked && !isOurs ? (
        <div className="actions">
          <button type="button" className="button plain" onClick={() => start('remedies', id)}>
            Look for what would help
          </button>
        </div>
      ) : isOurs && fault !== null ? (
        <StudyFault study={{ fault }} />
      ) : found === null ? (
        <p className="quiet" aria-live="polite">
          {!isOurs || progress === null
            ? 'Looked for when the longer search is over.'
            : `Being tried: ${figure(progress.done)} of ${figure(progress.of)}.`}
        </p>
      ) : found.length === 0 ? (
        <p className="quiet">Nothing small was found that helps. Move one of its ends, or pass another panel.</p>
      ) : (
        <ul className="offers" onMouseLeave={() => light(null)}>
          {found.map((remedy) => (
            <Offer key={remedy.id} boat={boat} id={id} remedy={remedy} />
          ))}
        </ul>
      )}
    </Panel>
  );
}

function Offer({
  boat,
  id,
  remedy,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly remedy: Remedy;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const light = useRunQuestion((state) => state.light);
  const isLit = useRunQuestion((state) => state.lit === remedy.id);
  const length = (metres: number): string => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const words = remedyText(remedy, boat, length);
  const apply = (): void => {
    light(null);
    // The offer goes away once it is done: the focus goes where the run is.
    document.getElementById('board-list')?.focus({ preventScroll: true });
    judgedEdit({
      label: words.title,
      line: id,
      recipe: (draft) => {
        applied(draft as Boat, remedy.patches);
      },
      mustRoute: true,
      refusal: `Not done: ${words.title}`,
    });
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
        <span className="figures">{`costs ${runFigure(remedy.costM, units)} ${runUnit(units)} of hose`}</span>
      </div>
    </li>
  );
}
