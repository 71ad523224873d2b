import type { Draft } from '@core/boat/edits';
import type { Line } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { markOf } from '../../../store/select';
import { LengthField } from '../../fields/LengthField';
import { Tick } from '../../fields/Tick';
import { Labelled } from '../parts';

type SuppliedLength = NonNullable<Line['supplied']>;
const USUAL = { spareM: 0.05, mayCut: false } as const;

/** The length that the hose comes in, and what may be done with it. */
export function Supplied({ id, line }: { readonly id: string; readonly line: Line }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const { supplied } = line;
  const label = `Supplied length of ${markOf(id, line)}`;
  const set = (values: Partial<SuppliedLength> & Pick<SuppliedLength, 'lengthM'>): boolean =>
    edit(label, (draft) => {
      const own: Draft<Line> | undefined = draft.lines[id];
      if (own) own.supplied = { ...USUAL, ...own.supplied, ...values };
    });
  return (
    <>
      <Labelled label="Comes in">
        <LengthField
          label="Supplied length"
          value={supplied?.lengthM ?? null}
          placeholder="any length"
          commit={(lengthM) => set({ lengthM })}
          clear={() =>
            edit(label, (draft) => {
              delete draft.lines[id]?.supplied;
            })
          }
        />
      </Labelled>
      {supplied === undefined ? null : (
        <>
          <Labelled label="Spare to leave">
            <LengthField
              label="Spare length that must be left"
              value={supplied.spareM}
              commit={(spareM) => set({ lengthM: supplied.lengthM, spareM })}
            />
          </Labelled>
          <Tick
            label="It may be cut shorter"
            checked={supplied.mayCut}
            turn={(mayCut) => set({ lengthM: supplied.lengthM, mayCut })}
          />
        </>
      )}
    </>
  );
}
