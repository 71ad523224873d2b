import type { Boat } from '@core/boat/schema/boat';
import { endNames, surveyEndRemoved } from '@core/boat/survey-ends';
import { surveyLinkOf } from '@core/boat/survey-links';
import { readingName, residualText, surveyName } from '@core/output/text/survey-text';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { surveyOf } from '../../store/survey';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { lengthFigure, lengthUnit, wholeLength } from '../format';
import { Choice, Facts, Labelled, Link, Panel } from '../inspector/parts';
import { EndField } from './EndField';
import { accuracyText } from './SurveyPanel';

/** A surveyed point: where it is, how well it is known, what of the drawn boat stands there, which readings touch it. */
export function SurveyPointInspector({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const units = useApp((state) => state.displayUnits);
  const { select } = useApp.getState();
  const survey = boat.survey ?? {};
  const result = surveyOf(boat);
  const found = result?.points[id];
  const record = survey.points?.[id];
  const name = surveyName(survey, id);
  const names = endNames(survey);
  const touching = Object.entries(survey.readings ?? {}).filter(([, { from, to }]) =>
    [from, to].some((end) => (names.get(end)?.id ?? end) === id),
  );
  const residuals = new Map(result?.residuals.map((one) => [one.reading, one]));
  const change = (label: string, recipe: (own: PointDraft) => void): boolean =>
    edit(`${label} of ${name}`, (draft) => {
      draft.survey ??= {};
      draft.survey.points ??= {};
      draft.survey.points[id] ??= {};
      recipe(draft.survey.points[id]);
    });
  return (
    <>
      <Panel title={name} aside="surveyed point">
        <Labelled label="Name">
          <EndField
            label="Name of the point"
            value={name}
            commit={(typed) =>
              change('Name', (own) => {
                own.name = typed;
              })
            }
          />
        </Labelled>
        {found ? (
          <Facts
            rows={[
              ...([0, 1, 2] as const).map(
                (axis) =>
                  [
                    'xyz'.charAt(axis),
                    found.sdM[axis] === null
                      ? 'not fixed'
                      : `${wholeLength(found.at[axis], units)} ${lengthUnit(units)}`,
                  ] as const,
              ),
              ['Known to', found.isHeld ? 'held' : `\u00b1${accuracyText(found.sdM)} mm`],
              found.mirror && !found.sdM.includes(null)
                ? ['Could as well lie at', found.mirror.map((part) => wholeLength(part, units)).join(', ')]
                : null,
            ]}
          />
        ) : null}
        <Labelled label="Held at" above>
          <div className="position">
            {([0, 1, 2] as const).map((axis) => (
              <div className="axis" key={axis}>
                <span className="label" aria-hidden="true">
                  {'xyz'.charAt(axis)}
                </span>
                <LengthField
                  label={`Held ${'xyz'.charAt(axis)} of ${name}`}
                  value={record?.at?.[axis] ?? null}
                  placeholder="free"
                  clear={() =>
                    change('Place', (own) => {
                      delete own.at;
                    })
                  }
                  commit={(value) =>
                    change('Place', (own) => {
                      const at: [number, number, number] = [...(record?.at ?? found?.at ?? ([0, 0, 0] as const))];
                      at[axis] = value;
                      own.at = at;
                    })
                  }
                />
              </div>
            ))}
          </div>
        </Labelled>
        <div className="actions">
          <button
            type="button"
            className="button plain"
            onClick={() => edit(`Remove ${name}`, surveyEndRemoved({ kind: 'point', id }))}
          >
            Remove the point and its readings
          </button>
        </div>
      </Panel>
      <Links boat={boat} paths={record?.of ?? []} change={change} />
      <Panel title="Readings" level={3} aside={touching.length === 0 ? 'none' : undefined}>
        <dl className="facts">
          {touching.map(([reading, { from, to, valueM }]) => {
            const residual = residuals.get(reading);
            const other = (names.get(from)?.id ?? from) === id ? to : from;
            return (
              <div key={reading}>
                <dt>
                  <Link go={() => select({ kind: 'reading', id: reading })}>
                    {reading}: {surveyName(survey, other)}
                  </Link>
                </dt>
                <dd>{residual?.isSuspect ? residualText(residual) : lengthFigure(valueM, units)}</dd>
              </div>
            );
          })}
        </dl>
      </Panel>
    </>
  );
}

interface PointDraft {
  name?: string | undefined;
  at?: [number, number, number] | undefined;
  of?: string[] | undefined;
}

/** What of the drawn boat stands at the point, so that the adjusted place can be taken over. */
function Links({
  boat,
  paths,
  change,
}: {
  readonly boat: Boat;
  readonly paths: readonly string[];
  change(label: string, recipe: (own: PointDraft) => void): boolean;
}): JSX.Element {
  const [record, setRecord] = useState('');
  const records = recordsOf(boat);
  const parts = record === '' ? [] : partsOf(boat, record);
  return (
    <Panel title="Stands at" level={3} aside={paths.length === 0 ? 'nothing drawn' : undefined}>
      <dl className="facts">
        {paths.map((path) => (
          <div key={path}>
            <dt>{linkWords(boat, path)}</dt>
            <dd>
              <RemoveButton
                label={`Not at ${linkWords(boat, path)}`}
                remove={() =>
                  change('Links', (own) => {
                    own.of = (own.of ?? []).filter((one) => one !== path);
                    if (own.of.length === 0) delete own.of;
                  })
                }
              />
            </dd>
          </div>
        ))}
      </dl>
      <Labelled label="Of">
        <Choice
          label="Record that the point stands at"
          value={record}
          options={[['', 'Choose'], ...records]}
          choose={(picked) => setRecord(picked)}
        />
      </Labelled>
      {parts.length === 0 ? null : (
        <Labelled label="Which part">
          <Choice
            label="Part of the record"
            value=""
            options={[['', 'Choose'], ...parts.filter(([path]) => !paths.includes(path))]}
            choose={(path) => {
              if (path === '') return;
              change('Links', (own) => {
                own.of = [...(own.of ?? []), path];
              });
            }}
          />
        </Labelled>
      )}
    </Panel>
  );
}

type Options = readonly (readonly [string, string])[];

const recordsOf = (boat: Boat): Options => [
  ...Object.entries(boat.compartments)
    .filter(([, { yawDeg }]) => yawDeg === 0)
    .map(([id, { name }]) => [`compartments.${id}`, name] as const),
  ...Object.entries(boat.openings).map(([id, { name }]) => [`openings.${id}`, name] as const),
  ...Object.keys(boat.hull?.stations ?? {}).map((id) => [`hull.stations.${id}`, `Station ${id}`] as const),
];

function partsOf(boat: Boat, record: string): Options {
  const paths = record.startsWith('openings.')
    ? ['at', 'widthM', 'heightM'].map((key) => `${record}.${key}`)
    : record.startsWith('compartments.')
      ? [
          ...(boat.compartments[record.slice('compartments.'.length)]?.outline ?? []).map(
            (_, corner) => `${record}.outline[${corner}]`,
          ),
          ...[0, 1].map((end) => `${record}.rangeM[${end}]`),
        ]
      : (boat.hull?.stations[record.slice('hull.stations.'.length)]?.points ?? []).map(
          (_, index) => `${record}.points[${index}]`,
        );
  return paths.map((path) => [path, linkWords(boat, path)] as const);
}

const RANGE_WORDS = {
  plan: ['underside', 'top'],
  profile: ['starboard side', 'port side'],
  section: ['aft end', 'forward end'],
} as const;

/** `Port locker, corner 3`; what is there no more is named as it was. */
function linkWords(boat: Boat, path: string): string {
  const link = surveyLinkOf(boat, path);
  switch (link?.kind) {
    case 'corner':
      return `${boat.compartments[link.compartment]?.name ?? link.compartment}, corner ${link.corner + 1}`;
    case 'range': {
      const compartment = boat.compartments[link.compartment];
      return `${compartment?.name ?? link.compartment}, ${compartment ? RANGE_WORDS[compartment.view][link.end] : ''}`;
    }
    case 'opening': {
      const what = { at: 'centre', widthM: 'clear width', heightM: 'clear height' }[link.what];
      return `${boat.openings[link.opening]?.name ?? link.opening}, ${what}`;
    }
    case 'station':
      return `Station ${link.station}, point ${link.index + 1}`;
    default:
      return `${path}, which is not there`;
  }
}

/** One reading by its ends, with what the others say of it. */
export function ReadingInspector({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const { select } = useApp.getState();
  const survey = boat.survey ?? {};
  const reading = survey.readings?.[id];
  const found = surveyOf(boat)?.residuals.find((one) => one.reading === id);
  const names = endNames(survey);
  const ends = reading
    ? ([
        ['From', reading.from],
        ['To', reading.to],
      ] as const)
    : [];
  return (
    <Panel title={`Reading ${id}`} aside={reading?.kind}>
      <p className="sub">{found ? residualText(found) : readingName(survey, id)}</p>
      <Facts
        rows={[
          ...ends.map(
            ([word, end]) =>
              [
                word,
                names.get(end)?.kind === 'datum' ? (
                  surveyName(survey, end)
                ) : (
                  <Link key={word} go={() => select({ kind: 'surveyPoint', id: names.get(end)?.id ?? end })}>
                    {surveyName(survey, end)}
                  </Link>
                ),
              ] as const,
          ),
          reading ? ['Read', `${lengthFigure(reading.valueM, units)} ${lengthUnit(units)}`] : null,
          reading?.typed ? ['Typed', reading.typed] : null,
          found ? ['Share of an error that shows', `${Math.round(found.redundancy * 100)} %`] : null,
        ]}
      />
    </Panel>
  );
}
