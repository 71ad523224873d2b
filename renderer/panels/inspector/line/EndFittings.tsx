import { endFittingsFor } from '@core/boat/catalogue/end-fittings';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import type { Draft } from '@core/boat/edits';
import type { Boat, Line } from '@core/boat/schema/boat';
import { sameValue } from '@core/boat/schema-walk';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { markOf, thingOf } from '../../../store/select';
import { AngleField, LengthField } from '../../fields/LengthField';
import { Tick } from '../../fields/Tick';
import { sentence } from '../../words';
import { Choice, Labelled, Panel } from '../parts';

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly line: Line;
}

type End = NonNullable<Line['ends']['from']>;
type EndName = 'from' | 'to';

/** What sits on the two ends: those of the kind, until one is said to be another. */
export function EndFittings({ boat, id, line }: Props): JSX.Element {
  return (
    <Panel title="End fittings" level={3}>
      <EndFitting boat={boat} id={id} line={line} end="from" />
      <EndFitting boat={boat} id={id} line={line} end="to" />
    </Panel>
  );
}

function EndFitting({ boat, id, line, end }: Props & { readonly end: EndName }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const kind = lineKindOf(boat.lineKinds, line.kind);
  const usual = kind?.end;
  const own = line.ends[end];
  const shown = own ?? usual;
  const thing = line[end].thing;
  const at = `the end at ${markOf(thing, thingOf(boat, thing))}`;
  const label = `Fitting of ${markOf(id, line)}, ${at}`;
  const change = (recipe: (fitting: Draft<End>) => void): boolean =>
    edit(label, (draft) => {
      const wish = draft.lines[id];
      if (!wish) return;
      // What is changed of an end that is as its kind has it begins from there.
      const fitting: Draft<End> = wish.ends[end] ?? {
        angleDeg: 0,
        swivel: false,
        crimped: kind?.crimpedEnds ?? false,
        ...(usual ?? {}),
      };
      recipe(fitting);
      wish.ends[end] = fitting;
    });
  const length = (key: 'rigidM' | 'dropM' | 'diameterM', words: string, spoken: string, none: string): JSX.Element => (
    <Labelled label={words}>
      <LengthField
        label={`${spoken}, ${at}`}
        value={own?.[key] ?? (own && key === 'dropM' ? null : (usual?.[key] ?? null))}
        placeholder={none}
        commit={(value) =>
          change((fitting) => {
            fitting[key] = value;
          })
        }
        clear={() =>
          change((fitting) => {
            delete fitting[key];
          })
        }
      />
    </Labelled>
  );
  const angle = shown?.angleDeg ?? 0;
  const choices = kind ? endFittingsFor(kind) : [];
  const chosen = own && choices.find(({ end: typical }) => sameValue(typical, own));
  return (
    <fieldset className="hole" aria-label={`Fitting of ${at}`}>
      <div className="crossing-head">
        <span>{`At ${markOf(thing, thingOf(boat, thing))}`}</span>
        <span className="figures">{own ? (own.name ?? 'its own') : (usual?.name ?? 'as the kind')}</span>
      </div>
      <Labelled label="Fitting">
        <Choice
          label={`Fitting of the catalogue, typical sizes, ${at}`}
          value={chosen?.id ?? ''}
          options={[
            ['', own ? 'Its own' : 'As its kind'],
            ...choices.map(({ id: choice, name }) => [choice, sentence(name)] as const),
          ]}
          choose={(choice) => {
            const found = choices.find((one) => one.id === choice);
            edit(label, (draft) => {
              const ends = draft.lines[id]?.ends;
              if (!ends) return;
              if (found) ends[end] = { ...found.end };
              else delete ends[end];
            });
          }}
        />
      </Labelled>
      <Labelled label="Angle">
        <AngleField
          label={`Angle of the fitting, 0 straight, ${at}`}
          value={angle}
          commit={(angleDeg) =>
            change((fitting) => {
              fitting.angleDeg = angleDeg;
            })
          }
        />
      </Labelled>
      {length('rigidM', 'Rigid length', 'Length that does not bend', 'none')}
      {angle === 0 ? null : length('dropM', 'Port to hose axis', 'Height of the elbow', 'as rigid')}
      {length('diameterM', 'Diameter', 'Largest diameter of the fitting', 'as the hose')}
      <div className="two-ticks">
        <Tick
          label={`Its nut swivels, ${at}`}
          words="Nut swivels"
          checked={shown?.swivel ?? false}
          turn={(swivel) =>
            change((fitting) => {
              fitting.swivel = swivel;
            })
          }
        />
        {kind?.crimpedEnds ? (
          <span className="quiet">Crimped on, as its kind</span>
        ) : (
          <Tick
            label={`Crimped on before the hose is laid, ${at}`}
            words="Crimped on"
            checked={shown?.crimped ?? false}
            turn={(crimped) =>
              change((fitting) => {
                fitting.crimped = crimped;
              })
            }
          />
        )}
      </div>
      {own === undefined ? null : (
        <button
          type="button"
          className="button plain"
          aria-label={`As its kind again, ${at}`}
          onClick={() =>
            edit(label, (draft) => {
              delete draft.lines[id]?.ends[end];
            })
          }
        >
          As its kind again
        </button>
      )}
    </fieldset>
  );
}
