import { applied } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { alternativeText } from '@core/output/text/alternative-text';
import type { Alternative } from '@core/runs/alternative';
import { type JSX, type KeyboardEvent, useEffect, useRef } from 'react';
import { useApp } from '../../../store/app';
import { judgedEdit } from '../../../store/judged-edit';
import { askOtherWays, useRunQuestion } from '../../../store/run-question';
import { markOf } from '../../../store/select';
import { figure, lengthUnit, runFigure, runUnit, wholeLength } from '../../format';
import { costRows } from '../../run-words';
import { StudyFault } from '../../StudyFault';
import { Panel } from '../parts';

/** Costs below this are not told, metres of hose. */
const LEAST_M = 0.005;

/** Truly different runs for the line, as ghosts on the drawing; choosing one writes what makes it lie so. */
export function OtherWays({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const { about, of, progress, answer, fault, light } = useRunQuestion();
  const list = useRef<HTMLUListElement>(null);
  const isOurs = about === 'alternatives' && of === id;
  const found = isOurs && answer?.about === 'alternatives' ? answer.alternatives : null;
  useEffect(() => () => useRunQuestion.getState().drop(), []);
  useEffect(() => {
    if (found) list.current?.querySelector('button')?.focus({ preventScroll: true });
  }, [found]);
  const onKeyDown = (event: KeyboardEvent<HTMLUListElement>): void => {
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (event.key === 'Escape') leaveToBoard();
    else if (step !== 0) {
      const buttons = [...(list.current?.querySelectorAll('button') ?? [])];
      const now = buttons.indexOf(document.activeElement as HTMLButtonElement);
      buttons[(now + step + buttons.length) % buttons.length]?.focus();
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const others = found?.filter(({ isCurrent }) => !isCurrent) ?? [];
  return (
    <Panel title="Other ways" level={3} aside={found && others.length > 0 ? 'Enter chooses, Esc leaves' : undefined}>
      {!isOurs ? (
        <div className="actions">
          <button type="button" className="button plain" title="Key A" onClick={() => askOtherWays(id)}>
            Show other ways
          </button>
        </div>
      ) : fault !== null ? (
        <StudyFault study={{ fault }} />
      ) : found === null ? (
        <p className="quiet" aria-live="polite">
          {`Being looked for${progress ? `: ${figure(progress.done)} of ${figure(progress.of)}` : ''}.`}
        </p>
      ) : others.length === 0 ? (
        <p className="quiet">No truly different way was found.</p>
      ) : (
        <ul className="offers" ref={list} onKeyDown={onKeyDown} onMouseLeave={() => light(null)}>
          {found.map((one) => (
            <Way key={one.id} boat={boat} id={id} one={one} />
          ))}
        </ul>
      )}
    </Panel>
  );
}

/** The list goes away with the answer: the focus goes where the run is. */
const toBoard = (): void => document.getElementById('board-list')?.focus({ preventScroll: true });

function leaveToBoard(): void {
  useRunQuestion.getState().drop();
  toBoard();
}

function holeWords(count: number, toDrill: number): string {
  if (count === 0) return 'no hole';
  const holes = `${count} ${count === 1 ? 'hole' : 'holes'}`;
  return toDrill === 0 ? holes : toDrill === count ? `${holes} to drill` : `${holes}, ${toDrill} to drill`;
}

function Way({ boat, id, one }: { readonly boat: Boat; readonly id: string; readonly one: Alternative }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const { lit, light } = useRunQuestion();
  const words = alternativeText(one, boat, (metres) => `${wholeLength(metres, units)} ${lengthUnit(units)}`);
  const mark = markOf(id, boat.lines[id] ?? null);
  const drilled = one.holes.filter(({ existing }) => !existing).length;
  const paid = costRows(one)
    .filter(({ key, metres }) => key !== 'holesM' && metres >= LEAST_M)
    .sort((a, b) => b.metres - a.metres)
    .slice(0, 2)
    .map(({ words: what, metres }) => `${what.toLowerCase()} ${runFigure(metres, units)}`);
  const choose = (): void => {
    if (one.isCurrent) {
      leaveToBoard();
      return;
    }
    toBoard();
    judgedEdit({
      label: `Lead ${mark} another way`,
      line: id,
      recipe: (draft) => {
        applied(draft as Boat, one.patches);
      },
      mustRoute: true,
      refusal: `${mark} not led another way`,
    });
  };
  return (
    <li className={lit === one.id ? 'offer lit' : 'offer'} onMouseEnter={() => light(one.id)}>
      <button type="button" className="way" aria-current={one.isCurrent} onFocus={() => light(one.id)} onClick={choose}>
        <span className="offer-title">{words.title}</span>
        <span className="way-figures">
          {`${runFigure(one.lengthM, units)} ${runUnit(units)}, ${holeWords(one.holes.length, drilled)}`}
          <span>{`costs ${runFigure(one.costM, units)} ${runUnit(units)} of hose`}</span>
        </span>
        {words.why === '' ? null : <span className="offer-why">{words.why}</span>}
        {paid.length === 0 ? null : <span className="offer-why">{`Of that, ${paid.join(', ')}.`}</span>}
      </button>
    </li>
  );
}
