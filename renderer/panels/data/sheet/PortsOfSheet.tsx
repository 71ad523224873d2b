import { halfOf, outOf, placeOnFace } from '@core/boat/catalogue/face-places';
import { recordAdded, recordRemoved, recordRenamed } from '@core/boat/record/edits';
import { freeRecordId } from '@core/boat/record/starters';
import type { Part } from '@core/boat/schema/boat';
import { id as idSchema } from '@core/boat/schema/quantities';
import type { JSX } from 'react';
import { RemoveButton } from '../../fields/RemoveButton';
import { TextField } from '../../fields/TextField';
import { Labelled } from '../../inspector/parts';
import type { SheetDraft } from './draft';
import { PlacedRecord } from './PlacedRecord';

/** Hoses, tubes and cables meet the part here; numbered as in the drawing. */
export function PortsOfSheet({ draft, part }: { readonly draft: SheetDraft; readonly part: Part }): JSX.Element {
  const { path } = draft;
  const at = [...path, 'ports'];
  const ports = Object.keys(part.ports);
  const half = halfOf(part.shape);
  return (
    <>
      <h3>Ports</h3>
      {ports.length === 0 ? <p className="quiet">None yet: where its hoses, tubes and cables go on.</p> : null}
      {ports.map((id, index) => (
        // The number stays while the name is edited.
        <fieldset className="hole" key={String(index)} aria-label={`Port ${index + 1}, ${id}`}>
          <Labelled label={`${index + 1}. Name`}>
            <div className="field-and-act">
              <TextField
                label={`Name of port ${index + 1}`}
                value={id}
                judge={(next) =>
                  next !== id && Object.hasOwn(part.ports, next)
                    ? `${next} is taken`
                    : idSchema.safeParse(next).success
                      ? null
                      : 'One word of letters, digits, ".", "_" and "-"'
                }
                commit={(next) => draft.edit('Name of a port', recordRenamed(at, id, next))}
              />
              <RemoveButton
                label={`Remove port ${id}`}
                remove={() => draft.edit('Remove a port', recordRemoved(at, id))}
              />
            </div>
          </Labelled>
          <PlacedRecord draft={draft} part={part} list="ports" id={id} of={`port ${id}`} step="Place of a port" />
        </fieldset>
      ))}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() =>
            draft.edit(
              'Add a port',
              recordAdded(at, freeRecordId(part.ports, at), {
                at: placeOnFace(half, '-x', [half[1], half[2]]),
                direction: outOf('-x'),
              }),
            )
          }
        >
          Add a port
        </button>
      </div>
    </>
  );
}
