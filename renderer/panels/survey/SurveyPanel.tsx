import type { Boat } from '@core/boat/schema/boat';
import { datumAdded, freeEndId, surveyEndRemoved } from '@core/boat/survey-ends';
import { surveyedRecords, surveyTakenOver } from '@core/boat/survey-links';
import { surveyName, surveyNotes, suspectText } from '@core/output/text/survey-text';
import type { PointResult } from '@core/shape/survey/survey';
import type { JSX } from 'react';
import { printWholeSurvey } from '../../app/sheets/orders';
import { useApp } from '../../store/app';
import { surveyOf } from '../../store/survey';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { FindingMark } from '../findings/FindingMark';
import { figure, lengthUnit, wholeLength } from '../format';
import { Choice, Link, Panel } from '../inspector/parts';
import { EndField } from './EndField';
import { useEntryWish } from './entry-wish';

/** The survey as a whole: what does not belong, what is loose, where each point is and how well it is known. */
export function SurveyPanel({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const ask = useEntryWish((state) => state.ask);
  const { select } = useApp.getState();
  const survey = boat.survey ?? {};
  const result = surveyOf(boat);
  const count = Object.keys(survey.readings ?? {}).length;
  const fixed = Object.fromEntries(Object.entries(result?.points ?? {}).filter(([, { isHeld }]) => !isHeld));
  const records = surveyedRecords(boat, fixed);
  return (
    <>
      <Panel
        title="Survey"
        level={3}
        aside={count === 0 ? undefined : `${count} ${count === 1 ? 'reading' : 'readings'}`}
      >
        {count === 0 ? (
          <p className="sub">
            Tape between named points, in any order, and more than is needed: the readings then check each other, and a
            slip is named.
          </p>
        ) : null}
        {result && result.suspects.length > 0 ? (
          <ul className="survey-suspects">
            {result.suspects.map((suspect) => (
              <li key={suspect.reading}>
                <FindingMark mark="fault" />
                <span>
                  <Link go={() => select({ kind: 'reading', id: suspect.reading })}>
                    {suspectText(suspect, survey)}
                  </Link>
                </span>
              </li>
            ))}
          </ul>
        ) : null}
        {result ? (
          <ul className="survey-notes">
            {surveyNotes(result, survey).map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        ) : null}
        <div className="actions">
          <button type="button" className="button" onClick={ask}>
            Enter readings
          </button>
          <button type="button" className="button plain" onClick={() => void printWholeSurvey(boat)}>
            Print the sheet
          </button>
          {records === 0 ? null : (
            <button
              type="button"
              className="button"
              onClick={() => edit('Take over the surveyed places', surveyTakenOver(fixed))}
            >
              Take over into {records} {records === 1 ? 'record' : 'records'}
            </button>
          )}
        </div>
      </Panel>
      {result && Object.keys(result.points).length > 0 ? <Points boat={boat} points={result.points} /> : null}
      <Datums boat={boat} />
    </>
  );
}

function Points({
  boat,
  points,
}: {
  readonly boat: Boat;
  readonly points: Readonly<Record<string, PointResult>>;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const { select, setHover } = useApp.getState();
  const survey = boat.survey ?? {};
  return (
    <Panel title="Surveyed points" level={3} aside={lengthUnit(units)}>
      <table className="mini-table">
        <thead>
          <tr>
            {['Point', 'x', 'y', 'z', '\u00b1'].map((title) => (
              <th key={title} scope="col">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {Object.entries(points).map(([id, { at, sdM, isHeld }]) => (
            <tr key={id} onMouseEnter={() => setHover({ kind: 'surveyPoint', id })} onMouseLeave={() => setHover(null)}>
              <td>
                <Link go={() => select({ kind: 'surveyPoint', id })}>{surveyName(survey, id)}</Link>
              </td>
              {at.map((part, axis) => (
                <td key={'xyz'.charAt(axis)}>{sdM[axis] === null ? '\u2013' : wholeLength(part, units)}</td>
              ))}
              <td>{isHeld ? 'held' : accuracyText(sdM)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Panel>
  );
}

/** Two standard deviations of the worst coordinate, millimetres; a dash where one is loose. */
export const accuracyText = (sdM: PointResult['sdM']): string =>
  sdM.includes(null) ? '\u2013' : figure(Math.max(1, 2000 * Math.max(...sdM.map(Number))), 0);

const AXES = [
  ['all', 'Point'],
  ['x', 'x'],
  ['y', 'y'],
  ['z', 'z'],
] as const;

/** What readings start from: fixed points, and planes such as a bulkhead or the sole. */
function Datums({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const survey = boat.survey ?? {};
  const datums = Object.entries(survey.datums ?? {});
  type Datum = NonNullable<typeof survey.datums>[string];
  const change = (id: string, recipe: (own: { -readonly [K in keyof Datum]: Datum[K] }) => void): boolean =>
    edit(`Datum ${surveyName(survey, id)}`, (draft) => {
      const own = draft.survey?.datums?.[id];
      if (own) recipe(own);
    });
  return (
    <Panel title="Datums" level={3} aside={datums.length === 0 ? 'none' : undefined}>
      {datums.map(([id, datum]) => (
        <div key={id} className="datum">
          <div className="datum-head">
            <EndField
              label={`Name of datum ${id}`}
              value={datum.name ?? id}
              commit={(name) =>
                change(id, (own) => {
                  own.name = name;
                })
              }
            />
            <Choice
              label={`${datum.name ?? id}: point or plane`}
              value={datum.axis ?? 'all'}
              options={AXES.map(([key, words]) => [key, key === 'all' ? words : `Plane, ${words}`] as const)}
              choose={(axis) =>
                change(id, (own) => {
                  if (axis === 'all') {
                    delete own.axis;
                    delete own.reversed;
                  } else own.axis = axis;
                })
              }
            />
            <RemoveButton
              label={`Remove datum ${datum.name ?? id} and its readings`}
              remove={() => edit(`Remove ${datum.name ?? id}`, surveyEndRemoved({ kind: 'datum', id }))}
            />
          </div>
          <div className="position">
            {([0, 1, 2] as const)
              .filter((axis) => datum.axis === undefined || 'xyz'.charAt(axis) === datum.axis)
              .map((axis) => (
                <div className="axis" key={axis}>
                  <span className="label" aria-hidden="true">
                    {'xyz'.charAt(axis)}
                  </span>
                  <LengthField
                    label={`${'xyz'.charAt(axis)} of ${datum.name ?? id}`}
                    value={datum.at[axis]}
                    commit={(value) =>
                      change(id, (own) => {
                        const at: [number, number, number] = [...datum.at];
                        at[axis] = value;
                        own.at = at;
                      })
                    }
                  />
                </div>
              ))}
            {datum.axis === undefined ? null : (
              <div className="with-way">
                <Choice
                  label={`${datum.name ?? id}: which way counts as positive`}
                  value={datum.reversed ? 'against' : 'along'}
                  options={WAYS[datum.axis]}
                  choose={(way) =>
                    change(id, (own) => {
                      if (way === 'against') own.reversed = true;
                      else delete own.reversed;
                    })
                  }
                />
              </div>
            )}
          </div>
        </div>
      ))}
      <div className="actions">
        {PRESETS.map(({ words, name, axis, reversed }) => (
          <button
            key={name}
            type="button"
            className="button plain"
            onClick={() =>
              edit(
                `Datum ${name}`,
                datumAdded(freeEndId(boat.survey, name), {
                  name,
                  at: [0, 0, 0],
                  ...(axis ? { axis } : {}),
                  ...(reversed ? { reversed } : {}),
                }),
              )
            }
          >
            {words}
          </button>
        ))}
      </div>
    </Panel>
  );
}

/** Which way a reading from a plane runs, in the words of the boat. */
const WAYS = {
  x: [
    ['along', 'forward'],
    ['against', 'aft'],
  ],
  y: [
    ['along', 'to port'],
    ['against', 'to starboard'],
  ],
  z: [
    ['along', 'up'],
    ['against', 'down'],
  ],
} as const satisfies Record<'x' | 'y' | 'z', readonly (readonly ['along' | 'against', string])[]>;

/** What boats are measured from. Places are the owner's to enter. */
const PRESETS: readonly {
  readonly words: string;
  readonly name: string;
  readonly axis?: 'x' | 'y' | 'z';
  readonly reversed?: true;
}[] = [
  { words: 'Add a bulkhead', name: 'Main bulkhead', axis: 'x', reversed: true },
  { words: 'Add the centreline', name: 'Centreline', axis: 'y' },
  { words: 'Add the sole', name: 'Sole', axis: 'z' },
  { words: 'Add a fixed point', name: 'Fixed point' },
];
