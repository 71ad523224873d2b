import type { Draft } from '@core/boat/edits';
import type { Arrangement, Boat } from '@core/boat/schema/boat';
import type { PanelHole as DerivedHole } from '@core/shape/layout/types';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { markOf } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { Place } from './Place';
import { Choice, Labelled, Link } from './parts';

type NewHole = Arrangement['newHoles'][string];

/** A hole that is decided on and still to be drilled: how wide, where, and for which lines. */
export function PlannedHole({
  boat,
  hole,
  number,
  words,
}: {
  readonly boat: Boat;
  readonly hole: DerivedHole;
  readonly number: number;
  readonly words: string;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const { edit, select } = useApp.getState();
  const key = hole.newHoleId ?? hole.id;
  const change = (label: string, recipe: (own: Draft<NewHole>) => void): boolean =>
    edit(`${label} of a hole in ${words}`, (draft) => {
      const own = draft.arrangements[arrangementId ?? '']?.newHoles[key];
      if (own) recipe(own);
    });
  const lines = hole.forLines ?? [];
  const others = Object.entries(boat.lines)
    .filter(([id]) => !lines.includes(id))
    .map(([id, line]) => [id, `${markOf(id, line)} ${line.name}`] as const);
  return (
    <fieldset className="hole" aria-label={`Hole ${number}, to drill`}>
      <Labelled label={`${number}. To drill`}>
        <div className="field-and-act">
          <LengthField
            label={`Diameter of hole ${number}, to drill`}
            value={hole.diameterM}
            commit={(diameterM) =>
              change('Diameter', (own) => {
                own.diameterM = diameterM;
              })
            }
          />
          <RemoveButton
            label={`Do not drill hole ${number}`}
            remove={() =>
              edit(`Do not drill a hole in ${words}`, (draft) => {
                delete draft.arrangements[arrangementId ?? '']?.newHoles[key];
              })
            }
          />
        </div>
      </Labelled>
      <Place
        at={hole.at}
        of={`hole ${number}`}
        commit={([x, y, z]) =>
          change('Place', (own) => {
            own.at = [x, y, z];
          })
        }
      />
      {lines.map((id) => (
        <Labelled key={id} label="Made for">
          <div className="field-and-act">
            <span>
              <Link go={() => select({ kind: 'line', id })}>
                {`${markOf(id, boat.lines[id] ?? null)} ${boat.lines[id]?.name ?? ''}`}
              </Link>
            </span>
            <RemoveButton
              label={`Hole ${number} is not for ${boat.lines[id]?.name ?? id}`}
              remove={() =>
                change('Lines', (own) => {
                  own.for = own.for.filter((other) => other !== id);
                })
              }
            />
          </div>
        </Labelled>
      ))}
      <Labelled label={lines.length === 0 ? 'Made for' : 'and for'}>
        <Choice
          label={`Another line that hole ${number} is made for`}
          value=""
          options={[['', lines.length === 0 ? 'Any line' : 'No other line'], ...others]}
          choose={(id) => {
            if (id !== '')
              change('Lines', (own) => {
                own.for.push(id);
              });
          }}
        />
      </Labelled>
    </fieldset>
  );
}
