import { type Draft, freeId } from '@core/boat/edits';
import { panelChanged } from '@core/boat/interior/panel-data';
import type { PanelData } from '@core/boat/schema/boat';
import type { PanelHole as DerivedHole, Panel } from '@core/shape/layout/types';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { placeOfPanel } from '../../store/panel-place';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { TextField } from '../fields/TextField';
import { Place } from './Place';
import { Labelled } from './parts';

/** A loom of cables, metres: the usual thing that is in a hole already. */
const USUAL_CARRIED = { name: 'Cable loom', diameterM: 0.015 } as const;

/** One existing hole: how wide, where, and what runs through it already. */
export function PanelHole({
  panel,
  hole,
  number,
  words,
}: {
  readonly panel: Panel;
  readonly hole: DerivedHole;
  readonly number: number;
  readonly words: string;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const carries = useApp((state) =>
    panel.dataId === undefined ? undefined : state.boat?.panels[panel.dataId]?.holes[hole.id]?.carries,
  );
  const change = (label: string, recipe: (own: Draft<PanelData['holes'][string]>) => void): boolean =>
    edit(
      `${label} of a hole in ${words}`,
      panelChanged(placeOfPanel(panel), (record) => {
        const own = record.holes[hole.id];
        if (own) recipe(own);
      }),
    );
  return (
    <fieldset className="hole" aria-label={`Hole ${number}`}>
      <Labelled label={`${number}. Diameter`}>
        <div className="field-and-act">
          <LengthField
            label={`Diameter of hole ${number}`}
            value={hole.diameterM}
            commit={(diameterM) =>
              change('Diameter', (own) => {
                own.diameterM = diameterM;
              })
            }
          />
          <RemoveButton
            label={`Remove hole ${number}`}
            remove={() =>
              edit(
                `Remove a hole of ${words}`,
                panelChanged(placeOfPanel(panel), (record) => {
                  delete record.holes[hole.id];
                }),
              )
            }
          />
        </div>
      </Labelled>
      <Place
        at={hole.at}
        of={`hole ${number}`}
        commit={(at) =>
          change('Place', (own) => {
            own.at = at;
          })
        }
      />
      {Object.entries(carries ?? {}).map(([key, thing]) => (
        <div className="carried" key={key}>
          <TextField
            label={`What runs through hole ${number}`}
            value={thing.name}
            commit={(name) =>
              change('Contents', (own) => {
                const carried = own.carries[key];
                if (carried) carried.name = name;
              })
            }
          />
          <LengthField
            label={`Diameter of ${thing.name}`}
            value={thing.diameterM}
            commit={(diameterM) =>
              change('Contents', (own) => {
                const carried = own.carries[key];
                if (carried) carried.diameterM = diameterM;
              })
            }
          />
          <RemoveButton
            label={`Take ${thing.name} out of hole ${number}`}
            remove={() =>
              change('Contents', (own) => {
                delete own.carries[key];
              })
            }
          />
        </div>
      ))}
      <button
        type="button"
        className="button plain"
        onClick={() =>
          change('Contents', (own) => {
            own.carries[freeId(own.carries, 'loom')] = { ...USUAL_CARRIED };
          })
        }
      >
        Something runs through it
      </button>
    </fieldset>
  );
}
