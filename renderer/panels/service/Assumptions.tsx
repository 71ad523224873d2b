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
}: {
  readonly boat: Boat;
  readonly path: Path;
  readonly only: ReadonlySet<string>;
  readonly of: string;
}): JSX.Element | null {
  const schema = schemaAt(boatSchema, boat, path);
  if (!schema) return null;
  return (
    <Subject.Provider value={of}>
      <Hinted label={of}>
        <RecordFields boat={boat} path={path} schema={schema} value={valueAt(boat, path) ?? {}} only={only} whole />
      </Hinted>
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
    of="what the minutes rest on"
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

/** Running hours a year, and how long it takes to open, unscrew, move and take off: what is counted, and the fields that change it. */
export function YearAssumptions({ boat }: { readonly boat: Boat }): JSX.Element {
  const { setHoursYear, engineHoursYear, openMinutes, liftOutMinutes, unscrewMinutes, moveMinutes, takeOffMinutes } =
    assumptionsOf(boat);
  return (
    <div>
      <p className="quiet">
        {`Counted with: set ${figure(setHoursYear)} h and engine ${figure(engineHoursYear)} h a year; ${figure(openMinutes, 1)} min a lid, ${figure(liftOutMinutes, 1)} a board, ${figure(unscrewMinutes, 1)} to unscrew a panel, ${figure(moveMinutes, 1)} to clear one thing away, ${figure(takeOffMinutes, 1)} to take one off. Unverified where no field below says otherwise.`}
      </p>
      <FieldsOf boat={boat} path={['serviceWork']} only={OF_BOAT} of="what the year rests on" />
    </div>
  );
}
