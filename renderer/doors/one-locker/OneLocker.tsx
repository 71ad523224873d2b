import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { lockerBoat } from '@core/engine/fit/locker';
import type { PartAnswer } from '@core/engine/fit/one-locker';
import { findingText } from '@core/output/text/finding-text';
import type { Finding } from '@core/rules/finding';
import { type JSX, useEffect, useMemo, useRef, useState } from 'react';
import { documentsNow } from '../../app/commands';
import { FindingMark } from '../../panels/findings/FindingMark';
import { figure } from '../../panels/format';
import { Panel } from '../../panels/inspector/parts';
import { StudyFault } from '../../panels/StudyFault';
import { type Column, Table } from '../../panels/Table';
import { sentence } from '../../panels/words';
import { useApp } from '../../store/app';
import { useDoor } from '../door';
import { useAnswers } from './answers';
import { ChosenPart } from './ChosenPart';
import { type Ghost, LockerDrawing } from './LockerDrawing';
import { Readings } from './Readings';
import { OWN, useLocker } from './state';
import { type CellWords, insideCell, insideSentence, listWords, passesCell, serviceCell, wayWords } from './words';

/** One measured locker, no hull: what passes its opening, stands inside and can be serviced. */
export function OneLocker(): JSX.Element {
  const { locker, parts, shown, show } = useLocker();
  const { study, problems } = useAnswers(locker, parts);
  const { gives: answers, isLong } = study;
  const isStale = study.isStale || problems.length > 0;
  const close = useDoor((state) => state.show);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const bare = useMemo(() => (problems.length === 0 ? lockerBoat(locker, {}, {}) : null), [locker, problems]);
  const chosen = shown === null ? undefined : parts[shown];
  const answer = shown === null ? undefined : answers?.parts[shown];
  const ghosts = useMemo((): readonly Ghost[] => {
    if (!answers) return [];
    if (shown !== null) {
      const own = answers.parts[shown];
      return own?.placed ? [{ id: shown, part: own.part, pose: own.placed.pose }] : [];
    }
    return Object.entries(answers.together.places).flatMap(([id, { pose }]) => {
      const part = answers.parts[id]?.part;
      return part ? [{ id, part, pose }] : [];
    });
  }, [answers, shown]);
  const turn = (): void => {
    if (!answers) return;
    close(null);
    void documentsNow()?.openNew(answers.boat);
  };
  return (
    <div className="door one-locker">
      <header>
        <h2 ref={heading} tabIndex={-1}>
          One locker
        </h2>
        <p>Measure the inside and the opening, choose parts: what passes, fits and can be serviced. No hull needed.</p>
        <output className="quiet">{isLong ? 'Being worked out.' : ''}</output>
        <button type="button" className="button" disabled={!answers || isStale} onClick={turn}>
          Turn it into a boat
        </button>
        <button type="button" className="button plain" onClick={() => close(null)}>
          Close
        </button>
      </header>
      <div className="locker-body">
        <div className="door-form">
          <Readings problems={problems} />
          <AddPart />
          {chosen && shown !== null ? <ChosenPart id={shown} part={chosen} /> : null}
        </div>
        <div className="locker-main">
          {bare ? (
            <LockerDrawing
              boat={bare}
              ghosts={ghosts}
              tight={answer && answer.inside.outcome !== 'cannot' ? answer.inside.tight : []}
              isShort={answer !== undefined && answer.inside.outcome !== 'fits'}
            />
          ) : (
            <p className="empty">The readings marked do not make a locker. What was entered stays.</p>
          )}
          <section className="locker-answers" aria-label="Answers" aria-busy={isStale}>
            <StudyFault study={study} />
            <AnswersTable answers={answers?.parts ?? {}} isStale={isStale} placed={answers?.together.places ?? {}} />
            {answers && Object.keys(parts).length > 1 ? (
              <TogetherLine
                names={(ids) => listWords(ids.map((id) => parts[id]?.tag ?? id))}
                together={answers.together}
                findings={answers.findings}
                isShown={shown === null}
                show={() => show(null)}
              />
            ) : null}
          </section>
          <section className="locker-said" aria-label="The answers in words">
            {answer && shown !== null && answers ? (
              <Details id={shown} answer={answer} boat={answers.boat} />
            ) : (
              <p className="empty">Pick a part in the table: what was found for it stands here.</p>
            )}
          </section>
        </div>
      </div>
    </div>
  );
}

function AddPart(): JSX.Element {
  const addPart = useLocker((state) => state.addPart);
  const [picked, setPicked] = useState('pump-module-12v');
  return (
    <Panel title="Parts" aside="typical sizes, to be edited">
      <div className="add-row">
        <div className="field">
          <select aria-label="Part to try" value={picked} onChange={(event) => setPicked(event.target.value)}>
            <optgroup label="Own sizes">
              {OWN.map(([id, name]) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </optgroup>
            <optgroup label="Typical parts">
              {PART_TEMPLATES.map(({ id, draft }) => (
                <option key={id} value={id}>
                  {draft.name}
                </option>
              ))}
            </optgroup>
          </select>
        </div>
        <button type="button" className="button" onClick={() => addPart(picked)}>
          Try it
        </button>
      </div>
    </Panel>
  );
}

interface Row {
  readonly id: string;
  readonly answer: PartAnswer;
  readonly isPlaced: boolean;
}

function AnswersTable({
  answers,
  isStale,
  placed,
}: {
  readonly answers: Readonly<Record<string, PartAnswer>>;
  readonly isStale: boolean;
  readonly placed: Readonly<Record<string, unknown>>;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const shown = useLocker((state) => state.shown);
  const show = useLocker((state) => state.show);
  const cell = ({ mark, words }: CellWords): JSX.Element => (
    <span className={isStale ? 'verdict stale' : 'verdict'}>
      <FindingMark mark={mark} />
      {words}
    </span>
  );
  const rows: readonly Row[] = Object.entries(answers)
    .sort(([, a], [, b]) => (a.part.tag ?? '').localeCompare(b.part.tag ?? '', 'en', { numeric: true }))
    .map(([id, answer]) => ({
      id,
      answer,
      isPlaced: Object.hasOwn(placed, id),
    }));
  const columns: readonly Column<Row>[] = [
    { key: 'part', title: 'Part', cell: ({ answer }) => `${answer.part.tag ?? ''} ${answer.part.name}`.trim() },
    { key: 'passes', title: 'Passes the opening', cell: ({ answer }) => cell(passesCell(answer, units)) },
    { key: 'inside', title: 'Stands inside', cell: ({ answer }) => cell(insideCell(answer.inside, units)) },
    {
      key: 'service',
      title: 'Service tasks with room',
      cell: ({ id, answer }) => cell(serviceCell(answer, id, units)),
    },
    ...(rows.length > 1
      ? [
          {
            key: 'together',
            title: 'With the others',
            second: true,
            cell: ({ isPlaced }: Row) => (isPlaced ? 'Placed' : 'Left out'),
          },
        ]
      : []),
  ];
  return (
    <Table
      label="Parts and answers"
      rows={rows}
      columns={columns}
      idOf={({ id }) => id}
      selectedId={shown}
      hoveredId={null}
      select={({ id }) => show(id)}
      empty="Choose a part to try in this locker."
    />
  );
}

function TogetherLine({
  names,
  together,
  findings,
  isShown,
  show,
}: {
  names(ids: readonly string[]): string;
  readonly together: {
    readonly places: Readonly<Record<string, unknown>>;
    readonly left: readonly string[];
    readonly tried: { readonly places: number; readonly layouts: number };
  };
  /** The engine's word on the layout. */
  readonly findings: readonly Finding[];
  readonly isShown: boolean;
  show(): void;
}): JSX.Element {
  const { places, layouts } = together.tried;
  const tasks = findings.filter(({ rule, outcome }) => rule === 'access/service-space' && outcome !== 'notApplicable');
  const met = tasks.filter(({ outcome }) => outcome === 'pass').length;
  const served = tasks.length === 0 ? '' : ` ${met} of ${tasks.length} service tasks have room.`;
  const effort = `Tried ${figure(places)} places in ${figure(layouts)} layouts.`;
  return (
    <p className="together">
      <button type="button" className="button" aria-pressed={isShown} onClick={show}>
        Draw all together
      </button>
      <span>
        {together.left.length === 0
          ? `All ${Object.keys(together.places).length} stand together without overlap.${served} ${effort}`
          : `${names(together.left)} left out: no place found beside the others, no proof that there is none.${served} ${effort}`}
      </span>
    </p>
  );
}

/** What was found for one part that has the locker to itself, in sentences. */
function Details({
  id,
  answer,
  boat,
}: {
  readonly id: string;
  readonly answer: PartAnswer;
  readonly boat: Parameters<typeof findingText>[1];
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const side = useLocker((state) => state.locker.side);
  const spoken = [...answer.findings]
    .sort((a, b) => Number(b.rule === 'access/way-in') - Number(a.rule === 'access/way-in'))
    .filter(
      ({ rule, subject, outcome }) =>
        subject === id &&
        outcome !== 'notApplicable' &&
        (rule === 'access/way-in' || (rule === 'access/service-space' && answer.inside.outcome === 'fits')),
    );
  return (
    <Panel title={`${answer.part.tag ?? ''} ${answer.part.name}, alone in the locker`.trim()} level={3}>
      <dl className="locker-details">
        <div>
          <dt>Stands inside</dt>
          <dd>{insideSentence(answer, units)}</dd>
        </div>
        {answer.placed && answer.inside.outcome === 'fits' ? (
          <div>
            <dt>Way round</dt>
            <dd>
              {`${sentence(wayWords(answer.part.shape, answer.placed.pose, answer.placed.way.isTilted, side))}. Best of ${figure(answer.triedPlaces)} places tried.`}
            </dd>
          </div>
        ) : null}
        {spoken.map((finding) => {
          const words = findingText(finding, boat);
          return (
            <div key={finding.key}>
              <dt>{finding.rule === 'access/way-in' ? 'Way in' : 'Service'}</dt>
              <dd>{said([words.title, words.measured, words.why, words.closeCall])}</dd>
            </div>
          );
        })}
        <div>
          <dt>Cannot see</dt>
          <dd>Turning it inside on the way to its place; hoses, handles and brackets; anything not entered.</dd>
        </div>
      </dl>
    </Panel>
  );
}

/** Sentences in a row, each with its full stop. */
const said = (texts: readonly string[]): string =>
  texts
    .filter((text) => text !== '')
    .map((text) => (/[.?]$/.test(text) ? text : `${text}.`))
    .join(' ');
