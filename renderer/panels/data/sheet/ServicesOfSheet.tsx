import { faceSize, outOf, placeOnFace } from '@core/boat/catalogue/face-places';
import { recordAdded, recordRemoved } from '@core/boat/record/edits';
import { schemaAt } from '@core/boat/record/fields';
import { freeRecordId } from '@core/boat/record/starters';
import { boatSchema, type Part } from '@core/boat/schema/boat';
import { halfOf } from '@core/output/views/envelope';
import type { JSX } from 'react';
import { RemoveButton } from '../../fields/RemoveButton';
import { Subject } from '../../record/edit';
import { RecordFields } from '../../record/RecordFields';
import { plainWords, sentence } from '../../words';
import type { SheetDraft } from './draft';
import { FacePlace } from './FacePlace';

/** Said by the face and its edges, or asked first. */
const PLACED = new Set(['at', 'direction']);
const USUAL_CLEAR_M = 0.2;

/** What must be done to it, and the room before the face where that is done; dashed in the drawing. */
export function ServicesOfSheet({ draft, part }: { readonly draft: SheetDraft; readonly part: Part }): JSX.Element {
  const { boat, path } = draft;
  const at = [...path, 'services'];
  const half = halfOf(part.shape);
  return (
    <>
      <h3>Room for service</h3>
      {Object.entries(part.services).map(([id, task], index) => {
        const schema = schemaAt(boatSchema, boat, [...at, id]);
        const of = `task ${index + 1}`;
        return (
          <fieldset className="hole" key={id} aria-label={`Task ${index + 1}`}>
            <div className="crossing-head">
              <span>{`${index + 1}. ${sentence(task.name ?? plainWords(task.task))}`}</span>
              <RemoveButton label={`Remove ${of}`} remove={() => draft.edit('Remove a task', recordRemoved(at, id))} />
            </div>
            <FacePlace
              shape={part.shape}
              at={task.at}
              direction={task.direction}
              of={of}
              put={(place, direction) =>
                draft.edit('Place of a task', (own) => {
                  const mine = own[path[0]][path[1]]?.services[id];
                  if (mine) Object.assign(mine, { at: place, direction });
                })
              }
            />
            {schema ? (
              <Subject.Provider value={of}>
                <RecordFields boat={boat} path={[...at, id]} schema={schema} value={task} skip={PLACED} />
              </Subject.Provider>
            ) : null}
          </fieldset>
        );
      })}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() => {
            const [wide, high] = faceSize(half, '+z');
            draft.edit(
              'Add a task',
              recordAdded(at, freeRecordId(part.services, [...path, 'tasks']), {
                task: 'other',
                at: placeOnFace(half, '+z', [wide / 2, high / 2]),
                direction: outOf('+z'),
                acrossM: [wide, high],
                clearM: USUAL_CLEAR_M,
              }),
            );
          }}
        >
          Add a task
        </button>
      </div>
    </>
  );
}
