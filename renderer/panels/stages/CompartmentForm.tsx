import { AXES } from '@core/base/vec';
import { freeId } from '@core/boat/edits';
import { AXES_OF_VIEW, boxDrawn, drawnBounds } from '@core/boat/interior/placing';
import { compartmentAdded } from '@core/boat/interior/shaping';
import type { Boat, Compartment } from '@core/boat/schema/boat';
import { COMPARTMENT_KINDS } from '@core/boat/schema/interior';
import { type JSX, useEffect, useRef, useState } from 'react';
import { freeName } from '../../board/drawing/make';
import { useApp } from '../../store/app';
import { useCompartmentForm } from '../../store/interior';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { TextField } from '../fields/TextField';
import { Choice, Labelled, Panel, Segmented } from '../inspector/parts';
import { plainWords, sentence } from '../words';

type Triple = readonly [number, number, number];
type View = Compartment['view'];

const SIDES = {
  forward: [0, 1, 'Forward of it'],
  aft: [0, -1, 'Aft of it'],
  port: [1, 1, 'To port of it'],
  starboard: [1, -1, 'To starboard of it'],
  above: [2, 1, 'Above it'],
  below: [2, -1, 'Below it'],
} as const;
type Side = keyof typeof SIDES;

/** Length, breadth and height of a locker that nobody has measured, metres. */
const USUAL: Triple = [0.6, 0.6, 0.6];

interface Box {
  readonly low: Triple;
  readonly high: Triple;
}

const put = (triple: Triple, axis: number, value: number): Triple =>
  triple.map((old, k) => (k === axis ? value : old)) as unknown as Triple;

/** The box on one side of another compartment: as large across, of the given length along. */
function besideOf(own: Compartment, side: Side, alongM: number): Box {
  const [low, high] = drawnBounds(own);
  const [axis, sign] = SIDES[side];
  const from = sign > 0 ? high[axis] : low[axis] - alongM;
  return { low: put(low, axis, from), high: put(high, axis, from + alongM) };
}

/** A new compartment by its numbers: a box, beside another or anywhere, or an outline corner by corner. All by keyboard. */
export function CompartmentForm({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const { open, beside } = useCompartmentForm();
  if (!open) return null;
  return <Form key={beside ?? ''} boat={boat} beside={beside} />;
}

function Form({ boat, beside: first }: { readonly boat: Boat; readonly beside: string | null }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const sectionX = useApp((state) => state.sectionX);
  const [name, setName] = useState(() => freeName(boat, 'Locker'));
  const [kind, setKind] = useState<Compartment['kind']>('locker');
  const [how, setHow] = useState<'box' | 'corners'>('box');
  const [beside, setBeside] = useState<{ readonly id: string; readonly side: Side } | null>(
    first !== null && boat.compartments[first] ? { id: first, side: 'forward' } : null,
  );
  const [box, setBox] = useState<Box>(() => startingBox(boat, first, sectionX));
  const [view, setView] = useState<View>('plan');
  const [corners, setCorners] = useState<readonly (readonly [number, number])[]>([
    [0, 0],
    [0.6, 0],
    [0.6, 0.6],
  ]);
  const ref = useRef<HTMLElement>(null);
  useEffect(() => ref.current?.querySelector('input')?.focus(), []);

  const choose = (id: string, side: Side): void => {
    const own = boat.compartments[id];
    if (!own) {
      setBeside(null);
      return;
    }
    setBeside({ id, side });
    setBox(besideOf(own, side, box.high[SIDES[side][0]] - box.low[SIDES[side][0]]));
  };
  const close = (): void => useCompartmentForm.setState({ open: false });
  const make = (): void => {
    const id = freeId(boat.compartments, idOf(name));
    const axis = AXES_OF_VIEW[view][2];
    const shape =
      how === 'box'
        ? boxDrawn('plan', box.low, box.high)
        : {
            view,
            outline: corners.map(([u, v]): [number, number] => [u, v]),
            rangeM: [box.low[axis], box.high[axis]] as [number, number],
          };
    if (!edit(`New ${name}`, compartmentAdded(id, { name, kind, ...shape }))) return;
    close();
    select({ kind: 'compartment', id });
  };

  return (
    // A field takes the first Escape for what is typed in it; the next gives the form up.
    <section
      ref={ref}
      aria-label="New compartment by numbers"
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        close();
      }}
    >
      <Panel title="New compartment" aside="by numbers">
        <Labelled label="Name">
          <TextField label="Name of the new compartment" value={name} commit={setName} />
        </Labelled>
        <Labelled label="Kind">
          <Choice
            label="Kind of the new compartment"
            value={kind}
            options={COMPARTMENT_KINDS.map((key) => [key, sentence(plainWords(key))] as const)}
            choose={(picked) => setKind(picked)}
          />
        </Labelled>
        <Labelled label="Shape">
          <Segmented
            label="Shape of the new compartment"
            value={how}
            options={[
              ['box', 'Box'],
              ['corners', 'Corners'],
            ]}
            choose={(picked) => setHow(picked)}
          />
        </Labelled>
        {how === 'box' && Object.keys(boat.compartments).length > 0 ? (
          <>
            <Labelled label="Beside">
              <Choice
                label="Compartment that it stands beside"
                value={beside?.id ?? ''}
                options={[
                  ['', 'Nothing in particular'],
                  ...Object.entries(boat.compartments).map(([id, own]) => [id, own.name] as const),
                ]}
                choose={(id) => choose(id, beside?.side ?? 'forward')}
              />
            </Labelled>
            {beside ? (
              <Labelled label="Which side">
                <Choice
                  label="On which side of it"
                  value={beside.side}
                  options={(Object.keys(SIDES) as Side[]).map((side) => [side, SIDES[side][2]] as const)}
                  choose={(side) => choose(beside.id, side)}
                />
              </Labelled>
            ) : null}
          </>
        ) : null}
        {how === 'box' ? (
          AXES.map((axis, k) => <Ends key={axis} axis={k as 0 | 1 | 2} box={box} setBox={setBox} />)
        ) : (
          <>
            <Labelled label="Drawn in">
              <Choice
                label="View of the outline"
                value={view}
                options={[
                  ['plan', 'Plan: x and y'],
                  ['profile', 'Profile: x and z'],
                  ['section', 'Section: y and z'],
                ]}
                choose={(picked) => setView(picked)}
              />
            </Labelled>
            <CornerRows view={view} corners={corners} setCorners={setCorners} />
            <Ends axis={AXES_OF_VIEW[view][2]} box={box} setBox={setBox} />
          </>
        )}
        <div className="actions">
          <button type="button" className="button" onClick={make}>
            Make the compartment
          </button>
          <button type="button" className="button plain" onClick={close}>
            Cancel
          </button>
        </div>
      </Panel>
    </section>
  );
}

/** Beside what was selected, else where the section is. */
function startingBox(boat: Boat, beside: string | null, sectionX: number): Box {
  const own = beside === null ? undefined : boat.compartments[beside];
  if (own) return besideOf(own, 'forward', USUAL[0]);
  const from = Math.round(sectionX * 10) / 10;
  return { low: [from, 0, -USUAL[2] / 2], high: [from + USUAL[0], USUAL[1], USUAL[2] / 2] };
}

const idOf = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'compartment';

/** From, to and length along one axis of the boat; the length moves the far end. */
function Ends({
  axis,
  box,
  setBox,
}: {
  readonly axis: 0 | 1 | 2;
  readonly box: Box;
  setBox(box: Box): void;
}): JSX.Element {
  const name = AXES[axis];
  const [low, high] = [box.low[axis], box.high[axis]];
  return (
    <div className="ends">
      <span className="axis-name">{name}</span>
      <LengthField
        label={`${name} from`}
        value={low}
        commit={(value) =>
          // The compartment keeps its length when its near end is moved beyond the far one.
          setBox({
            low: put(box.low, axis, value),
            high: put(box.high, axis, value < high ? high : value + (high - low)),
          })
        }
      />
      <span className="quiet">to</span>
      <LengthField
        label={`${name} to`}
        value={high}
        commit={(value) => {
          if (value > low) setBox({ ...box, high: put(box.high, axis, value) });
          else useApp.getState().notify(`${name} to must be more than ${name} from`);
        }}
      />
      <span className="quiet">long</span>
      <LengthField
        label={`Length along ${name}`}
        value={high - low}
        commit={(value) => {
          if (value > 0) setBox({ ...box, high: put(box.high, axis, low + value) });
        }}
      />
    </div>
  );
}

type Corner = readonly [number, number];

function CornerRows({
  view,
  corners,
  setCorners,
}: {
  readonly view: View;
  readonly corners: readonly Corner[];
  setCorners(corners: readonly Corner[]): void;
}): JSX.Element {
  const [u, v] = AXES_OF_VIEW[view];
  const last = corners[corners.length - 1] ?? [0, 0];
  return (
    <>
      <table className="mini-table">
        <thead>
          <tr>
            <th scope="col">Corner</th>
            <th scope="col">{AXES[u]}</th>
            <th scope="col">{AXES[v]}</th>
            <th scope="col">
              <span className="spoken">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {corners.map((corner, index) => (
            <tr key={index.toString()}>
              <td>{index + 1}</td>
              {([0, 1] as const).map((k) => (
                <td key={k}>
                  <LengthField
                    label={`${AXES[k === 0 ? u : v]} of new corner ${index + 1}`}
                    value={corner[k]}
                    commit={(value) =>
                      setCorners(
                        corners.map((old, i) => (i !== index ? old : k === 0 ? [value, old[1]] : [old[0], value])),
                      )
                    }
                  />
                </td>
              ))}
              <td className="row-acts">
                <RemoveButton
                  label={`Remove new corner ${index + 1}`}
                  disabled={corners.length <= 3}
                  remove={() => setCorners(corners.filter((_, i) => i !== index))}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <button type="button" className="button plain" onClick={() => setCorners([...corners, [last[0], last[1] + 0.1]])}>
        Add a corner
      </button>
    </>
  );
}
