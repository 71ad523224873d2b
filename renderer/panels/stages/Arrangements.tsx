import { freeId } from '@core/boat/edits';
import { arrangementChosen, arrangementDuplicated, copyName, recordRemoved } from '@core/boat/record/edits';
import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { LongTextField } from '../fields/LongTextField';
import { TextField } from '../fields/TextField';
import { Choice, Labelled, Panel } from '../inspector/parts';

/** Complete choices of places: which one is judged, its name and notes, a copy to try something in, and away with it. */
export function Arrangements({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const now = useApp((state) => state.arrangementId);
  const all = Object.entries(boat.arrangements);
  const own = now === null ? undefined : boat.arrangements[now];
  const placedIn = (id: string): number => Object.keys(boat.arrangements[id]?.places ?? {}).length;
  return (
    <Panel
      title="Arrangement"
      level={3}
      aside={all.length === 0 ? 'none' : all.length === 1 ? '1' : `1 of ${all.length}`}
    >
      {now === null || !own ? (
        <p className="quiet">Parts are placed in an arrangement: several can be compared.</p>
      ) : (
        <>
          {all.length < 2 ? null : (
            <Labelled label="Judged now">
              <Choice
                label="Arrangement that is judged"
                value={now}
                options={all.map(([id, { name }]) => [id, `${name}, ${placedIn(id)} placed`] as const)}
                choose={(id) => edit('Current arrangement', arrangementChosen(id))}
              />
            </Labelled>
          )}
          <Labelled label="Name">
            <TextField
              label="Name of the arrangement"
              value={own.name}
              commit={(name) =>
                edit('Name of the arrangement', (draft) => {
                  const mine = draft.arrangements[now];
                  if (mine) mine.name = name;
                })
              }
            />
          </Labelled>
          <Labelled label="Notes" above>
            <LongTextField
              label="Notes on the arrangement"
              value={own.notes ?? ''}
              commit={(notes) =>
                edit('Notes on the arrangement', (draft) => {
                  const mine = draft.arrangements[now];
                  if (mine) mine.notes = notes;
                })
              }
              clear={() =>
                edit('Notes on the arrangement', (draft) => {
                  delete draft.arrangements[now]?.notes;
                })
              }
            />
          </Labelled>
        </>
      )}
      <div className="actions">
        {now === null || !own ? (
          <button
            type="button"
            className="button"
            onClick={() =>
              edit('Add an arrangement', (draft) => {
                draft.arrangements.first = { name: 'First arrangement', places: {}, clipPoints: {}, newHoles: {} };
              })
            }
          >
            Add an arrangement
          </button>
        ) : (
          <>
            <button
              type="button"
              className="button plain"
              onClick={() =>
                edit(
                  `Duplicate ${own.name}`,
                  arrangementDuplicated(now, freeId(boat.arrangements, now), copyName(own.name)),
                )
              }
            >
              Duplicate
            </button>
            <button
              type="button"
              className="button plain"
              disabled={all.length < 2}
              title={all.length < 2 ? 'The only arrangement stays' : undefined}
              onClick={() => edit(`Delete ${own.name}`, recordRemoved(['arrangements'], now))}
            >
              Delete
            </button>
          </>
        )}
      </div>
    </Panel>
  );
}
