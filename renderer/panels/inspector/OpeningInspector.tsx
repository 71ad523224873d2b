import type { Boat, Opening } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { compartmentName } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { plainWords, sentence } from '../words';
import { Facts, Labelled, Link, Panel } from './parts';

export function OpeningInspector({
  boat,
  id,
  opening,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly opening: Opening;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  return (
    <Panel title={opening.name} aside="opening">
      {(['widthM', 'heightM'] as const).map((key) => (
        <Labelled key={key} label={key === 'widthM' ? 'Clear width' : 'Clear height'}>
          <LengthField
            label={key === 'widthM' ? 'Clear width' : 'Clear height'}
            value={opening[key]}
            commit={(value) =>
              edit(`Size of ${opening.name}`, (draft) => {
                const own = draft.openings[id];
                if (own) own[key] = value;
              })
            }
          />
        </Labelled>
      ))}
      <Facts
        rows={[
          [
            'Opens',
            <span key="compartment" className="place">
              <Link go={() => select({ kind: 'compartment', id: opening.compartment })}>
                {compartmentName(boat, opening.compartment)}
              </Link>
            </span>,
          ],
          [
            'To',
            <span key="to" className="place">
              {compartmentName(boat, opening.to)}
            </span>,
          ],
          ['How', sentence(plainWords(opening.how))],
          opening.moveFirst.length === 0 ? null : ['Move first', opening.moveFirst.join(', ')],
        ]}
      />
    </Panel>
  );
}
