import { outOf, placeOnFace } from '@core/boat/catalogue/face-places';
import { recordAdded, recordRemoved, recordRenamed } from '@core/boat/record/edits';
import { schemaAt } from '@core/boat/record/fields';
import { freeRecordId } from '@core/boat/record/starters';
import { boatSchema, type Part } from '@core/boat/schema/boat';
import { id as idSchema } from '@core/boat/schema/quantities';
import { halfOf } from '@core/output/views/envelope';
import type { JSX } from 'react';
import { RemoveButton } from '../../fields/RemoveButton';
import { TextField } from '../../fields/TextField';
import { Labelled } from '../../inspector/parts';
import { Subject } from '../../record/edit';
import { RecordFields } from '../../record/RecordFields';
import type { SheetDraft } from './draft';
import { FacePlace } from './FacePlace';

/** Said by the face and its edges. */
const PLACED = new Set(['at', 'direction']);

/** Hoses, tubes and cables meet the part here; numbered as in the drawing. */
export function PortsOfSheet({ draft, part }: { readonly draft: SheetDraft; readonly part: Part }): JSX.Element {
  const { boat, path } = draft;
  const at = [...path, 'ports'];
  const ports = Object.entries(part.ports);
  const half = halfOf(part.shape);
  return (
    <>
      <h3>Ports</h3>
      {ports.length === 0 ? <p className="quiet">None yet: where its hoses, tubes and cables go on.</p> : null}
      {ports.map(([id, port], index) => {
        const schema = schemaAt(boatSchema, boat, [...at, id]);
        const of = `port ${id}`;
        return (
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
            <FacePlace
              shape={part.shape}
              at={port.at}
              direction={port.direction}
              of={of}
              put={(place, direction) =>
                draft.edit('Place of a port', (own) => {
                  const mine = own[path[0]][path[1]]?.ports[id];
                  if (mine) Object.assign(mine, { at: place, direction });
                })
              }
            />
            {schema ? (
              <Subject.Provider value={of}>
                <RecordFields boat={boat} path={[...at, id]} schema={schema} value={port} skip={PLACED} />
              </Subject.Provider>
            ) : null}
          </fieldset>
        );
      })}
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
