import type { Boat, Compartment } from '@core/boat/schema/boat';
import { COMPARTMENT_KINDS } from '@core/boat/schema/interior';
import { GRADES } from '@core/boat/schema/quantities';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { compartmentName, markOf, thingOf } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { lengthUnit } from '../format';
import { GRADE_WORDS, plainWords, RULE_WORDS, sentence } from '../words';
import { Choice, Labelled, Link, Panel } from './parts';

/** Names of the two axes of an outline and of the direction of its range. */
const AXES_OF = {
  plan: ['x', 'y', 'z'],
  profile: ['x', 'z', 'y'],
  section: ['y', 'z', 'x'],
} as const;

export function CompartmentInspector({
  boat,
  id,
  compartment,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly compartment: Compartment;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const arrangementId = useApp((state) => state.arrangementId);
  const report = useApp((state) => state.report);
  const axes = AXES_OF[compartment.view];
  const within = Object.entries(report?.places ?? {}).filter(([, place]) => place.compartment === id);
  const panels = Object.values(layoutOf(boat, arrangementId).panels).filter((panel) => panel.between.includes(id));
  const openings = Object.entries(boat.openings).filter(
    ([, opening]) => opening.compartment === id || opening.to === id,
  );
  const change = (label: string, recipe: (draft: Writable<Compartment>) => void): boolean =>
    edit(`${label} of ${compartment.name}`, (draft) => {
      const own = draft.compartments[id];
      if (own) recipe(own as Writable<Compartment>);
    });

  return (
    <>
      <Panel title={<span className="place">{compartment.name}</span>} aside={`drawn in ${compartment.view}`}>
        <Labelled label="Kind">
          <Choice
            label="Kind of compartment"
            value={compartment.kind}
            options={COMPARTMENT_KINDS.map((kind) => [kind, sentence(plainWords(kind))] as const)}
            choose={(kind) =>
              change('Kind', (own) => {
                own.kind = kind;
              })
            }
          />
        </Labelled>
        <Labelled label="Taken">
          <Choice
            label="How it was measured"
            value={compartment.grade}
            options={GRADES.map((grade) => [grade, GRADE_WORDS[grade]] as const)}
            choose={(grade) =>
              change('Grade', (own) => {
                own.grade = grade;
              })
            }
          />
        </Labelled>
        {([0, 1] as const).map((end) => (
          <Labelled key={end} label={`${axes[2]} ${end === 0 ? 'from' : 'to'}`}>
            <LengthField
              label={`${axes[2]} ${end === 0 ? 'from' : 'to'}`}
              value={compartment.rangeM[end]}
              commit={(value) =>
                change('Range', (own) => {
                  own.rangeM[end] = value;
                })
              }
            />
          </Labelled>
        ))}
      </Panel>
      <Panel title="Corners" level={3} aside={lengthUnit(units)}>
        <table className="mini-table">
          <thead>
            <tr>
              <th scope="col">No.</th>
              <th scope="col">{axes[0]}</th>
              <th scope="col">{axes[1]}</th>
            </tr>
          </thead>
          <tbody>
            {compartment.outline.map((corner, index) => (
              <tr key={`${id} ${index.toString()}`}>
                <td>{index + 1}</td>
                {([0, 1] as const).map((axis) => (
                  <td key={axis}>
                    <LengthField
                      label={`${axes[axis]} of corner ${index + 1}`}
                      value={corner[axis]}
                      commit={(value) =>
                        change('Corner', (own) => {
                          const point = own.outline[index];
                          if (point) point[axis] = value;
                        })
                      }
                    />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Panel>
      <Panel title="Inside" level={3} aside={within.length === 0 ? 'nothing' : undefined}>
        <dl className="facts">
          {within.map(([thingId]) => {
            const thing = thingOf(boat, thingId);
            return (
              <div key={thingId}>
                <dt>
                  <Link go={() => select({ kind: 'thing', id: thingId })}>{thing?.name ?? thingId}</Link>
                </dt>
                <dd>{markOf(thingId, thing)}</dd>
              </div>
            );
          })}
        </dl>
      </Panel>
      <Panel title="Bounded by" level={3}>
        <dl className="facts">
          {panels.map((panel) => (
            <div key={panel.id}>
              <dt className="place">
                <Link go={() => select({ kind: 'panel', id: panel.id })}>
                  {compartmentName(boat, panel.between[0] === id ? panel.between[1] : panel.between[0])}
                </Link>
              </dt>
              <dd>{RULE_WORDS[panel.rule]}</dd>
            </div>
          ))}
          {openings.map(([openingId, opening]) => (
            <div key={openingId}>
              <dt>
                <Link go={() => select({ kind: 'opening', id: openingId })}>{opening.name}</Link>
              </dt>
              <dd>{sentence(plainWords(opening.how))}</dd>
            </div>
          ))}
        </dl>
      </Panel>
    </>
  );
}

type Writable<T> = T extends object ? { -readonly [K in keyof T]: Writable<T[K]> } : T;
