import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { GradeChoice } from '../../fields/GradeChoice';
import { LengthField } from '../../fields/LengthField';
import { Choice, Labelled, Panel } from '../../inspector/parts';

/** What lies between the offsets and the space inside. */
export function Skin({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const hull = boat.hull;
  if (!hull) return null;
  const set = (key: 'shellM' | 'liningM', value: number): boolean =>
    edit(key === 'shellM' ? 'Shell' : 'Lining', (draft) => {
      if (draft.hull) draft.hull[key] = value;
    });
  return (
    <Panel title="Skin" level={3}>
      <Labelled label="Shell">
        <LengthField label="Shell" value={hull.shellM} commit={(value) => set('shellM', value)} />
      </Labelled>
      <Labelled label="Lining stands off">
        <LengthField label="Lining stands off" value={hull.liningM} commit={(value) => set('liningM', value)} />
      </Labelled>
      <Labelled label="Offsets to the">
        <Choice
          label="Offsets are taken to"
          value={hull.measuredTo}
          options={[
            ['outside', 'Outside'],
            ['inside', 'Inside'],
          ]}
          choose={(value) =>
            edit('Side of the offsets', (draft) => {
              if (draft.hull) draft.hull.measuredTo = value;
            })
          }
        />
      </Labelled>
      <Labelled label="Taken">
        <GradeChoice
          label="How the hull was measured"
          value={hull.grade}
          choose={(grade) =>
            edit('Grade of the hull', (draft) => {
              if (draft.hull) draft.hull.grade = grade;
            })
          }
        />
      </Labelled>
    </Panel>
  );
}
