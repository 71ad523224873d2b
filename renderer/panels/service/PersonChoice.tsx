import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useService } from '../../store/service';

const MIDDLING = 'Middling adult';

/** Whose reach counts: the people of the boat, or nobody in particular. */
export function PersonChoice({ boat }: { readonly boat: Boat }): JSX.Element {
  const person = useService((state) => state.person);
  const setPerson = useService((state) => state.setPerson);
  const people = Object.entries(boat.people ?? {});
  return (
    <select
      aria-label="Whose reach counts"
      title={people.length === 0 ? 'Enter people of the boat to judge the tasks by their reach' : undefined}
      value={person ?? ''}
      onChange={(event) => setPerson(event.target.value === '' ? null : event.target.value)}
    >
      <option value="">{MIDDLING}</option>
      {people.map(([id, { name, percentile }]) => (
        <option key={id} value={id}>
          {`${name}, ${percentile} %`}
        </option>
      ))}
    </select>
  );
}
