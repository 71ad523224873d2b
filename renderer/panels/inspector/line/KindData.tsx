import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import type { Draft } from '@core/boat/edits';
import type { Boat, LineKind } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { LengthField } from '../../fields/LengthField';
import { Choice, Labelled, Panel } from '../parts';

/** The hose, tube or cable itself, for all lines of its kind in this boat: what is typed overrules the typical sizes. */
export function KindData({ boat, kind: id }: { readonly boat: Boat; readonly kind: string }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const kind = lineKindOf(boat.lineKinds, id);
  if (!kind) return null;
  const isOwn = boat.lineKinds[id] !== undefined;
  const lines = Object.values(boat.lines).filter((line) => line.kind === id).length;
  const change = (label: string, recipe: (own: Draft<LineKind>) => void): boolean =>
    edit(`${label} of ${kind.name}`, (draft) => {
      const own = structuredClone(kind) as Draft<LineKind>;
      recipe(own);
      draft.lineKinds[id] = own;
    });
  return (
    <Panel title={kind.name} level={3} aside={lines === 1 ? '1 line' : `${lines} lines`}>
      <Labelled label="Outside">
        <LengthField
          label="Outside diameter"
          value={kind.outsideM}
          commit={(value) =>
            change('Outside diameter', (own) => {
              own.outsideM = value;
            })
          }
        />
      </Labelled>
      <Labelled label="Least bend radius">
        <LengthField
          label="Least bend radius"
          value={kind.bendRadiusM}
          commit={(value) =>
            change('Bend radius', (own) => {
              own.bendRadiusM = value;
            })
          }
        />
      </Labelled>
      <Labelled label="Measured to">
        <Choice<LineKind['radiusTo']>
          label="What the bend radius is measured to"
          value={kind.radiusTo}
          options={[
            ['inside', 'Inside of the bend'],
            ['centreline', 'Centre line'],
          ]}
          choose={(radiusTo) =>
            change('Bend radius', (own) => {
              own.radiusTo = radiusTo;
            })
          }
        />
      </Labelled>
      {(['straightM', 'supportM'] as const).map((key) => (
        <Labelled key={key} label={key === 'straightM' ? 'Straight at its ends' : 'Clip every'}>
          <LengthField
            label={key === 'straightM' ? 'Length that stays straight behind its fittings' : 'Greatest spacing of clips'}
            value={kind[key] ?? null}
            placeholder={key === 'straightM' ? 'none' : 'not said'}
            commit={(value) =>
              change(key === 'straightM' ? 'Straight length' : 'Clip spacing', (own) => {
                own[key] = value;
              })
            }
            clear={() =>
              change(key === 'straightM' ? 'Straight length' : 'Clip spacing', (own) => {
                delete own[key];
              })
            }
          />
        </Labelled>
      ))}
      <p className="quiet">
        {isOwn
          ? 'Kept with this boat.'
          : `Typical: ${kind.source ?? 'common practice'}. Type what your data sheet says; it is then kept with this boat.`}
      </p>
      {isOwn ? null : (
        <div className="actions">
          <button type="button" className="button plain" onClick={() => change('Data', () => undefined)}>
            Keep with this boat to edit all its data
          </button>
        </div>
      )}
    </Panel>
  );
}
