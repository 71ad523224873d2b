import { faceSize, halfOf, outOf, placeOnFace } from '@core/boat/catalogue/face-places';
import { recordAdded, recordRemoved } from '@core/boat/record/edits';
import { freeRecordId } from '@core/boat/record/starters';
import type { Part } from '@core/boat/schema/boat';
import { taskText } from '@core/output/text/schema-words';
import type { JSX } from 'react';
import { RemoveButton } from '../../fields/RemoveButton';
import { sentence } from '../../words';
import type { SheetDraft } from './draft';
import { PlacedRecord } from './PlacedRecord';

const USUAL_CLEAR_M = 0.2;

/** What must be done to it, and the room before the face where that is done; dashed in the drawing. */
export function ServicesOfSheet({ draft, part }: { readonly draft: SheetDraft; readonly part: Part }): JSX.Element {
  const { path } = draft;
  const at = [...path, 'services'];
  const half = halfOf(part.shape);
  return (
    <>
      <h3>Room for service</h3>
      {Object.entries(part.services).map(([id, task], index) => {
        const of = `task ${index + 1}`;
        return (
          <fieldset className="hole" key={id} aria-label={`Task ${index + 1}`}>
            <div className="crossing-head">
              <span>{`${index + 1}. ${sentence(task.name ?? taskText(task.task))}`}</span>
              <RemoveButton label={`Remove ${of}`} remove={() => draft.edit('Remove a task', recordRemoved(at, id))} />
            </div>
            <PlacedRecord draft={draft} part={part} list="services" id={id} of={of} step="Place of a task" />
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
