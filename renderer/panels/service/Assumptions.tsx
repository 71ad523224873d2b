import { assumptionsOf } from '@core/boat/catalogue/service-assumptions';
import { schemaAt, valueAt } from '@core/boat/record/fields';
import { type Boat, boatSchema } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { figure } from '../format';
import { type Path, Subject } from '../record/edit';
import { Hinted } from '../record/RecordEditor';
import { RecordFields } from '../record/RecordFields';

/** Fields of one record that the minutes rest on; an empty one is as usual. */
function FieldsOf({
  boat,
  path,
  only,
  of,
  hinted,
}: {
  readonly boat: Boat;
  readonly path: Path;
  readonly only: ReadonlySet<string>;
  readonly of: string;
  /** With a line below that says what the field in hand means: where there is room for it. */
  readonly hinted: boolean;
}): JSX.Element | null {
  const schema = schemaAt(boatSchema, boat, path);
  if (!schema) return null;
  const fields = (
    <RecordFields boat={boat} path={path} schema={schema} value={valueAt(boat, path) ?? {}} only={only} whole />
  );
  return (
    <Subject.Provider value={of}>
      {hinted ? (
        <Hinted label={of}>{fields}</Hinted>
      ) : (
        <fieldset className="record" aria-label={of}>
          {fields}
        </fieldset>
      )}
    </Subject.Provider>
  );
}

const OF_TASK: ReadonlySet<string> = new Set(['intervalH', 'intervalDays', 'minutes']);

/** How often a task is done and how long its work takes. */
export const TaskAssumptions = ({
  boat,
  thing,
  service,
}: {
  readonly boat: Boat;
  readonly thing: string;
  readonly service: string;
}): JSX.Element => (
  <FieldsOf
    boat={boat}
    path={[Object.hasOwn(boat.parts, thing) ? 'parts' : 'fixtures', thing, 'services', service]}
    only={OF_TASK}
    of="the task"
    hinted
  />
);

const OF_BOAT: ReadonlySet<string> = new Set([
  'setHoursYear',
  'daysYear',
  'engineHoursYear',
  'openMinutes',
  'unscrewMinutes',
  'moveMinutes',
  'takeOffMinutes',
]);

const plain = (minutes: number): string => figure(minutes, Number.isInteger(minutes) ? 0 : 1);

/** Running hours a year, and how long it takes to open, unscrew, move and take off: what is counted, and the fields that change it. */
export function YearAssumptions({ boat }: { readonly boat: Boat }): JSX.Element {
  const { setHoursYear, engineHoursYear, openMinutes, liftOutMinutes, unscrewMinutes, moveMinutes, takeOffMinutes } =
    assumptionsOf(boat);
  return (
    <div>
      <p className="quiet">
        {`Counted with: set ${figure(setHoursYear)} h and engine ${figure(engineHoursYear)} h a year; ${plain(openMinutes)} min a lid, ${plain(liftOutMinutes)} a board, ${plain(unscrewMinutes)} to unscrew a panel, ${plain(moveMinutes)} to clear one thing away, ${plain(takeOffMinutes)} to take one off. Unverified where no field below says otherwise.`}
      </p>
      <FieldsOf boat={boat} path={['serviceWork']} only={OF_BOAT} of="the year" hinted={false} />
    </div>
  );
}
