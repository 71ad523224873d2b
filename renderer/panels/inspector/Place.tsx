import { AXES, type Vec3 } from '@core/base/vec';
import type { JSX } from 'react';
import { LengthField } from '../fields/LengthField';

/** Three coordinates of a place in the boat, side by side. */
export function Place({
  at,
  of,
  path,
  commit,
}: {
  readonly at: Vec3;
  /** What the place is of, for a screen reader. */
  readonly of: string;
  /** Where it stands in the boat, to show what was typed for it. */
  readonly path?: string;
  commit(at: [number, number, number]): void;
}): JSX.Element {
  return (
    <div className="position">
      {AXES.map((axis, index) => (
        <div className="axis" key={axis}>
          <span className="axis-name">{axis}</span>
          <LengthField
            label={`${axis} of ${of}`}
            value={at[index as 0 | 1 | 2]}
            {...(path === undefined ? {} : { path: `${path}[${index}]` })}
            commit={(value) => {
              const next: [number, number, number] = [at[0], at[1], at[2]];
              next[index] = value;
              commit(next);
            }}
          />
        </div>
      ))}
    </div>
  );
}
