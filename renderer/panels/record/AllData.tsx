import { schemaAt, valueAt } from '@core/boat/record/fields';
import { type Boat, boatSchema } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { Disclosure } from './Disclosure';
import type { Path } from './edit';
import { RecordEditor } from './RecordEditor';

/** At the foot of an inspector: every field of the record in the file, also what the panels above do not show. */
export function AllData({
  boat,
  path,
  of,
  title = 'All data',
}: {
  readonly boat: Boat;
  readonly path: Path;
  readonly of: string;
  readonly title?: string;
}): JSX.Element | null {
  const schema = schemaAt(boatSchema, boat, path);
  const value = valueAt(boat, path);
  if (!schema || value === undefined) return null;
  return (
    <div className="panel all-data">
      <Disclosure title={<h3>{title}</h3>}>
        <RecordEditor boat={boat} path={path} schema={schema} value={value} of={of} />
      </Disclosure>
    </div>
  );
}
