import { schemaAt } from '@core/boat/record/fields';
import { boatSchema, type Part } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { Subject } from '../../record/edit';
import { RecordFields } from '../../record/RecordFields';
import type { SheetDraft } from './draft';
import { FacePlace } from './FacePlace';

/** Said by the face and its edges. */
const PLACED = new Set(['at', 'direction']);

/** A port or task of the part on the form: the face that it is on, then all else that the schema has of it. */
export function PlacedRecord({
  draft,
  part,
  list,
  id,
  of,
  step,
}: {
  readonly draft: SheetDraft;
  readonly part: Part;
  readonly list: 'ports' | 'services';
  readonly id: string;
  /** What it is called, for a screen reader. */
  readonly of: string;
  /** Name of the edit that moves it. */
  readonly step: string;
}): JSX.Element | null {
  const { boat, path } = draft;
  const record = part[list][id];
  const at = [...path, list, id];
  const schema = schemaAt(boatSchema, boat, at);
  if (!record) return null;
  return (
    <>
      <FacePlace
        shape={part.shape}
        at={record.at}
        direction={record.direction}
        of={of}
        put={(place, direction) =>
          draft.edit(step, (own) => {
            const mine = own[path[0]][path[1]]?.[list][id];
            if (mine) Object.assign(mine, { at: place, direction });
          })
        }
      />
      {schema ? (
        <Subject.Provider value={of}>
          <RecordFields boat={boat} path={at} schema={schema} value={record} skip={PLACED} />
        </Subject.Provider>
      ) : null}
    </>
  );
}
