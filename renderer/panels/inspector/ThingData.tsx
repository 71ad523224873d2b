import { AXES } from '@core/base/vec';
import { type BoatRecipe, type Draft, freeId } from '@core/boat/edits';
import type { Boat, KeepOut, Thing } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { isPart } from '../../store/select';
import { readMass, readWatts } from '../fields/entries';
import { AngleField, LengthField } from '../fields/LengthField';
import { QuantityField } from '../fields/QuantityField';
import { RemoveButton } from '../fields/RemoveButton';
import { TextField } from '../fields/TextField';
import { figure } from '../format';
import { envelopeOf } from './envelope';
import { Place } from './Place';
import { Choice, Labelled, Panel } from './parts';

type AxisName = (typeof AXES)[number];

export interface ThingProps {
  readonly boat: Boat;
  readonly id: string;
  readonly thing: Thing;
}

export type Change = (label: string, recipe: (own: Draft<Thing>) => void) => boolean;

/** Edits of the thing, each one undo step that names it. */
export function useChange({ boat, id, thing }: ThingProps): Change {
  const edit = useApp((state) => state.edit);
  return (label, recipe) => {
    const change: BoatRecipe = (draft) => {
      const own = isPart(boat, id) ? draft.parts[id] : draft.fixtures[id];
      if (own) recipe(own);
    };
    return edit(`${label} of ${thing.name}`, change);
  };
}

/** Name, envelope, mass and heat: what a data sheet or a tape says of the thing itself. */
export function ThingData(props: ThingProps): JSX.Element {
  const { thing } = props;
  const change = useChange(props);
  return (
    <Panel title="The thing itself" level={3}>
      <Labelled label="Name">
        <TextField
          label="Name of the thing"
          value={thing.name}
          commit={(name) =>
            change('Name', (own) => {
              own.name = name;
            })
          }
        />
      </Labelled>
      <Labelled label="Mark">
        <TextField
          label="Mark on the drawing"
          value={thing.tag ?? ''}
          commit={(tag) =>
            change('Mark', (own) => {
              own.tag = tag;
            })
          }
          clear={() =>
            change('Mark', (own) => {
              delete own.tag;
            })
          }
        />
      </Labelled>
      <Envelope
        thing={thing}
        change={change}
        head={`${isPart(props.boat, props.id) ? 'parts' : 'fixtures'}.${props.id}`}
      />
      <Labelled label="Mass">
        <QuantityField
          label="Mass"
          unit="kg"
          value={thing.massKg}
          show={(value) => figure(value, Number.isInteger(value) ? 0 : 1)}
          read={readMass}
          commit={(massKg) =>
            change('Mass', (own) => {
              own.massKg = massKg;
            })
          }
        />
      </Labelled>
      <Labelled label="Heat">
        <QuantityField
          label="Heat that it gives off while it runs"
          unit="W"
          value={thing.heatW ?? null}
          placeholder="not said"
          show={(value) => figure(value)}
          read={readWatts}
          commit={(heatW) =>
            change('Heat', (own) => {
              own.heatW = heatW;
            })
          }
          clear={() =>
            change('Heat', (own) => {
              delete own.heatW;
            })
          }
        />
      </Labelled>
    </Panel>
  );
}

function Envelope({
  thing,
  change,
  head,
}: {
  readonly thing: Thing;
  readonly change: Change;
  /** Path of its record. */
  readonly head: string;
}): JSX.Element {
  const { shape } = thing;
  const size = envelopeOf(thing);
  return (
    <>
      <Labelled label="Envelope">
        <Choice
          label="Shape of the envelope"
          value={shape.type}
          options={[
            ['box', 'Box'],
            ['cylinder', 'Cylinder'],
          ]}
          choose={(type) =>
            change('Envelope', (own) => {
              if (type === own.shape.type) return;
              const across = Math.min(size[0], size[1]);
              own.shape =
                type === 'box'
                  ? { type, sizeM: [size[0], size[1], size[2]] }
                  : { type, diameterM: across, lengthM: size[2], axis: 'z' };
            })
          }
        />
      </Labelled>
      {shape.type === 'box' ? (
        <div className="position">
          {AXES.map((axis, k) => (
            <div className="axis" key={axis}>
              <span className="axis-name">{axis}</span>
              <LengthField
                label={`Size along its own ${axis}`}
                path={`${head}.shape.sizeM[${k}]`}
                value={shape.sizeM[k as 0 | 1 | 2]}
                commit={(value) =>
                  change('Size', (own) => {
                    if (own.shape.type === 'box') own.shape.sizeM[k as 0 | 1 | 2] = value;
                  })
                }
              />
            </div>
          ))}
        </div>
      ) : (
        <>
          {(['diameterM', 'lengthM'] as const).map((key) => (
            <Labelled key={key} label={key === 'diameterM' ? 'Diameter' : 'Length'}>
              <LengthField
                label={key === 'diameterM' ? 'Diameter of the envelope' : 'Length of the envelope'}
                path={`${head}.shape.${key}`}
                value={shape[key]}
                commit={(value) =>
                  change('Size', (own) => {
                    if (own.shape.type === 'cylinder') own.shape[key] = value;
                  })
                }
              />
            </Labelled>
          ))}
          <Labelled label="Lies along">
            <Choice
              label="Axis of the cylinder"
              value={shape.axis}
              options={AXES.map((axis) => [axis, `its own ${axis}`] as const)}
              choose={(axis) =>
                change('Axis', (own) => {
                  if (own.shape.type === 'cylinder') own.shape.axis = axis;
                })
              }
            />
          </Labelled>
        </>
      )}
    </>
  );
}

/** Space that it moves through: nothing may be there. */
export function Sweeps(props: ThingProps): JSX.Element {
  const { thing } = props;
  const change = useChange(props);
  const sweeps = Object.entries<KeepOut>(thing.sweeps);
  const add = (sweep: Draft<KeepOut>): boolean =>
    change('Add a sweep', (own) => {
      own.sweeps[freeId(own.sweeps, 'sweep')] = sweep;
    });
  const [x, y, z] = envelopeOf(thing);
  return (
    <Panel title="Sweeps" level={3} aside={sweeps.length === 0 ? 'none' : 'from its own middle'}>
      {sweeps.map(([key, sweep], index) => (
        <Sweep key={key} sweep={sweep} id={key} number={index + 1} change={change} />
      ))}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() => add({ type: 'box', at: [0, 0, z / 2 + 0.1], sizeM: [x, y, 0.2] })}
        >
          Add a box
        </button>
        <button
          type="button"
          className="button plain"
          onClick={() =>
            add({
              type: 'sector',
              at: [0, 0, 0],
              axis: 'z',
              radiusM: Math.max(x, y) / 2 + 0.1,
              fromDeg: -35,
              toDeg: 35,
              thicknessM: 0.1,
            })
          }
        >
          Add a swing
        </button>
      </div>
    </Panel>
  );
}

function Sweep({
  sweep,
  id,
  number,
  change,
}: {
  readonly sweep: KeepOut;
  readonly id: string;
  readonly number: number;
  readonly change: Change;
}): JSX.Element {
  const set = (label: string, values: object): boolean =>
    change(label, (own) => {
      const mine = own.sweeps[id];
      if (mine) Object.assign(mine, values);
    });
  const length = (key: string, words: string, value: number): JSX.Element => (
    <Labelled key={key} label={words}>
      <LengthField
        label={`${words} of sweep ${number}`}
        value={value}
        commit={(entered) => set('Sweep', { [key]: entered })}
      />
    </Labelled>
  );
  return (
    <fieldset className="hole" aria-label={`Sweep ${number}`}>
      <Labelled label={`${number}. What moves`}>
        <div className="field-and-act">
          <TextField
            label={`What moves in sweep ${number}`}
            value={sweep.why ?? ''}
            placeholder="arm, lid, quadrant ..."
            commit={(why) => set('Sweep', { why })}
          />
          <RemoveButton
            label={`Remove sweep ${number}`}
            remove={() =>
              change('Remove a sweep', (own) => {
                delete own.sweeps[id];
              })
            }
          />
        </div>
      </Labelled>
      <Place at={sweep.at} of={`sweep ${number}`} commit={(at) => set('Sweep', { at })} />
      {sweep.type === 'box' ? (
        <Labelled label="Sizes" above>
          <div className="position">
            {AXES.map((axis, k) => (
              <LengthField
                key={axis}
                label={`Size of sweep ${number} along ${axis}`}
                value={sweep.sizeM[k as 0 | 1 | 2]}
                commit={(value) => set('Sweep', { sizeM: sweep.sizeM.map((old, i) => (i === k ? value : old)) })}
              />
            ))}
          </div>
        </Labelled>
      ) : (
        <Labelled label="About">
          <Choice<AxisName>
            label={`Axis of sweep ${number}`}
            value={sweep.axis}
            options={AXES.map((axis) => [axis, `its own ${axis}`] as const)}
            choose={(axis) => set('Sweep', { axis })}
          />
        </Labelled>
      )}
      {sweep.type === 'cylinder' ? (
        <>
          {length('diameterM', 'Diameter', sweep.diameterM)}
          {length('lengthM', 'Length', sweep.lengthM)}
        </>
      ) : null}
      {sweep.type === 'sector' ? (
        <>
          {length('radiusM', 'Radius', sweep.radiusM)}
          {length('thicknessM', 'Thickness', sweep.thicknessM)}
          {(['fromDeg', 'toDeg'] as const).map((key) => (
            <Labelled key={key} label={key === 'fromDeg' ? 'From' : 'To'}>
              <AngleField
                label={`${key === 'fromDeg' ? 'From' : 'To'} angle of sweep ${number}`}
                value={sweep[key]}
                commit={(value) => set('Sweep', { [key]: value })}
              />
            </Labelled>
          ))}
        </>
      ) : null}
    </fieldset>
  );
}
