import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useService } from '../../store/service';

const MIDDLING = 'Middling adult';

/** Whose reach counts: the people of the boat, or without any of them a middling adult. */
export function PersonChoice({ boat }: { readonly boat: Boat }): JSX.Element {
  // Until somebody chooses, the engine says whose reach it took.
  const person = useService((state) => state.person ?? state.report?.person.id ?? null);
  const setPerson = useService((state) => state.setPerson);
  const people = Object.entries(boat.people ?? {});
  return (
    <select
      aria-label="Whose reach counts"
      title={people.length === 0 ? 'Enter people of the boat to judge the tasks by their reach' : undefined}
      value={person ?? ''}
      disabled={people.length === 0}
      onChange={(event) => setPerson(event.target.value)}
    >
      {people.length === 0 ? <option value="">{MIDDLING}</option> : null}
      {people.map(([id, { name, percentile }]) => (
        <option key={id} value={id}>
          {`${name}, ${percentile} %`}
        </option>
      ))}
    </select>
  );
}
