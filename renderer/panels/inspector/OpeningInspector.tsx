import type { Draft } from '@core/boat/edits';
import type { Boat, Opening } from '@core/boat/schema/boat';
import { opening as openingSchema } from '@core/boat/schema/interior';
import type { JSX } from 'react';
import { addStanding } from '../../board/drawing/marking';
import { useApp } from '../../store/app';
import { deleteSelected } from '../../store/interior';
import { compartmentName } from '../../store/select';
import { GradeChoice } from '../fields/GradeChoice';
import { AngleField, LengthField } from '../fields/LengthField';
import { TextField } from '../fields/TextField';
import { plainWords, sentence } from '../words';
import { Place } from './Place';
import { Choice, Labelled, Link, Panel } from './parts';

const HOWS = openingSchema.shape.how.unwrap().options;
const HINGES = ['left', 'right', 'top', 'bottom'] as const;
/** A leaf opens so far where nobody has said otherwise, degrees. */
const USUAL_SWING_DEG = 90;
/** Someone kneels so far in front of an opening, metres. */
const BEFORE_M = 0.4;

/** A way in: its size and place, how it opens, what is in the way, and from where a person works through it. */
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
  const change = (label: string, recipe: (own: Draft<Opening>) => void): boolean =>
    edit(`${label} of ${opening.name}`, (draft) => {
      const own = draft.openings[id];
      if (own) recipe(own);
    });
  const set = (label: string, values: Partial<Draft<Opening>>): boolean =>
    change(label, (own) => {
      Object.assign(own, values);
    });
  const sides = Object.keys(boat.compartments).filter((other) => other !== opening.compartment);
  return (
    <>
      <Panel title={opening.name} aside="opening">
        <Labelled label="Name">
          <TextField label="Name of the opening" value={opening.name} commit={(name) => set('Name', { name })} />
        </Labelled>
        {(['widthM', 'heightM'] as const).map((key) => (
          <Labelled key={key} label={key === 'widthM' ? 'Clear width' : 'Clear height'}>
            <LengthField
              label={key === 'widthM' ? 'Clear width' : 'Clear height'}
              path={`openings.${id}.${key}`}
              value={opening[key]}
              commit={(value) => set('Size', { [key]: value })}
            />
          </Labelled>
        ))}
        <Labelled label="Shape">
          <Choice
            label="Shape of the opening"
            value={opening.shape}
            options={[
              ['rectangle', 'Rectangle'],
              ['round', 'Round'],
            ]}
            choose={(shape) => set('Shape', { shape })}
          />
        </Labelled>
        <Place
          at={opening.at}
          path={`openings.${id}.at`}
          of="the opening"
          commit={(at) =>
            change('Place', (own) => {
              own.at = at;
            })
          }
        />
        <Labelled label="Opens">
          <span className="place">
            <Link go={() => select({ kind: 'compartment', id: opening.compartment })}>
              {compartmentName(boat, opening.compartment)}
            </Link>
          </span>
        </Labelled>
        <Labelled label="Leads to">
          <Choice
            label="What the opening leads to"
            value={opening.to}
            options={[
              ['outside', 'Outside, where one stands'],
              ['undrawn', 'Undrawn space'],
              ...sides.map((other) => [other, compartmentName(boat, other)] as const),
            ]}
            choose={(to) => set('Other side', { to })}
          />
        </Labelled>
        <Labelled label="Taken">
          <GradeChoice
            label="How the opening was measured"
            value={opening.grade}
            choose={(grade) => set('Grade', { grade })}
          />
        </Labelled>
      </Panel>
      <Panel title="How it opens" level={3}>
        <Labelled label="Closed by">
          <Choice
            label="How it opens"
            value={opening.how}
            options={HOWS.map((how) => [how, how === 'hinged' ? 'Hinged leaf' : sentence(plainWords(how))] as const)}
            choose={(how) =>
              change('How', (own) => {
                own.how = how;
                if (how === 'hinged') own.swing ??= { hingeAlong: 'left', angleDeg: USUAL_SWING_DEG };
                else delete own.swing;
              })
            }
          />
        </Labelled>
        {opening.how === 'hinged' ? <Swing opening={opening} change={change} /> : null}
        <Labelled label="Move first">
          <TextField
            label="What must be moved first, with commas between"
            value={opening.moveFirst.join(', ')}
            placeholder="nothing"
            commit={(text) => set('What to move first', { moveFirst: wordsOf(text) })}
            clear={() => set('What to move first', { moveFirst: [] })}
          />
        </Labelled>
        <Labelled label="Weather deck">
          <Choice
            label="Water can come down through it"
            value={opening.weatherDeck ? 'yes' : 'no'}
            options={[
              ['no', 'No'],
              ['yes', 'Yes: water can come down'],
            ]}
            choose={(answer) => set('Weather deck', { weatherDeck: answer === 'yes' })}
          />
        </Labelled>
        <Standing boat={boat} opening={opening} change={change} />
      </Panel>
    </>
  );
}

const wordsOf = (text: string): string[] =>
  text
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');

type Change = (label: string, recipe: (own: Draft<Opening>) => void) => boolean;

function Swing({ opening, change }: { readonly opening: Opening; readonly change: Change }): JSX.Element {
  const swing = opening.swing ?? { hingeAlong: 'left' as const, angleDeg: USUAL_SWING_DEG };
  const set = (values: Partial<typeof swing>): boolean =>
    change('Swing', (own) => {
      own.swing = { ...swing, ...values };
    });
  return (
    <>
      <Labelled label="Hinge">
        <Choice
          label="Side of the hinge, seen from outside"
          value={swing.hingeAlong}
          options={HINGES.map((side) => [side, sentence(side)] as const)}
          choose={(hingeAlong) => set({ hingeAlong })}
        />
      </Labelled>
      <Labelled label="Swings">
        <AngleField label="How far it swings" value={swing.angleDeg} commit={(angleDeg) => set({ angleDeg })} />
      </Labelled>
    </>
  );
}

/** From where a person works through it. */
function Standing({
  boat,
  opening,
  change,
}: {
  readonly boat: Boat;
  readonly opening: Opening;
  readonly change: Change;
}): JSX.Element {
  const select = useApp((state) => state.select);
  const places = Object.entries(boat.standingPlaces);
  const add = (): void => {
    const at = opening.at.map((value, k) => value + (opening.normal[k] ?? 0) * BEFORE_M) as [number, number, number];
    addStanding(boat, at, boat.compartments[opening.to] ? opening.to : null);
    const { selection } = useApp.getState();
    if (selection?.kind !== 'standingPlace') return;
    const standing = selection.id;
    change('Standing place', (own) => {
      own.standing = standing;
    });
  };
  return (
    <>
      <Labelled label="Worked from">
        <Choice
          label="Where the person stands"
          value={opening.standing ?? ''}
          options={[['', 'Not said'], ...places.map(([key, place]) => [key, place.name] as const)]}
          choose={(standing) =>
            change('Standing place', (own) => {
              if (standing === '') delete own.standing;
              else own.standing = standing;
            })
          }
        />
      </Labelled>
      <div className="actions">
        {opening.standing === undefined ? null : (
          <button
            type="button"
            className="button plain"
            onClick={() => select({ kind: 'standingPlace', id: opening.standing ?? '' })}
          >
            Show the standing place
          </button>
        )}
        <button type="button" className="button plain" onClick={add}>
          New standing place before it
        </button>
        <button type="button" className="button plain" onClick={() => deleteSelected()}>
          Delete the opening
        </button>
      </div>
    </>
  );
}
