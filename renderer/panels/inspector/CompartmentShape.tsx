import { AXES } from '@core/base/vec';
import { type DrawnFace, facesAgainst, facesOf, sideWord } from '@core/boat/interior/faces';
import { AXES_OF_VIEW } from '@core/boat/interior/placing';
import { compartmentTurned, cornerAdded, cornerRemoved, facesMoved } from '@core/boat/interior/shaping';
import type { Boat, Compartment } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { ICONS } from '../../app/icons';
import { withPartners } from '../../board/drawing/hold';
import { makeMarked, middleOf } from '../../board/drawing/marking';
import { useApp } from '../../store/app';
import { useDrawing } from '../../store/drawing';
import { compartmentName } from '../../store/select';
import { AngleField, LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { lengthUnit } from '../format';
import { Labelled, Panel } from './parts';

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly compartment: Compartment;
}

/** Faces with their places: moved by number, taken in hand for the arrow keys, given openings and mounting surfaces. */
export function Faces({ boat, id, compartment }: Props): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  return (
    <Panel title="Faces" level={3} aside={lengthUnit(units)}>
      <table className="mini-table faces">
        <thead>
          <tr>
            <th scope="col">Face</th>
            <th scope="col">at</th>
            <th scope="col">
              <span className="spoken">What to do with it</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {namedFaces(compartment).map(({ face, words }) => (
            <FaceRow key={face.key} boat={boat} id={id} face={face} words={words} />
          ))}
        </tbody>
      </table>
    </Panel>
  );
}

/** Names by the way that faces look; several of one name are numbered. */
function namedFaces(compartment: Compartment): readonly { readonly face: DrawnFace; readonly words: string }[] {
  const faces = facesOf(compartment);
  const words = faces.map((face) => sideWord(face.normal));
  return faces.map((face, index) => {
    const word = words[index] ?? '';
    const before = words.slice(0, index).filter((other) => other === word).length;
    const isAlone = words.filter((other) => other === word).length === 1;
    return { face, words: isAlone ? word : `${word} ${before + 1}` };
  });
}

function FaceRow({
  boat,
  id,
  face,
  words,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly face: DrawnFace;
  readonly words: string;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const arrangementId = useApp((state) => state.arrangementId);
  const inHand = useDrawing((state) => state.grip?.kind === 'face' && state.grip.key === face.key);
  const axis = ([0, 1, 2] as const).find((k) => Math.abs(face.normal[k]) > 1 - 1e-9);
  const name = boat.compartments[id]?.name ?? id;
  const others = facesAgainst(boat.compartments, id, face.key).map((other) => compartmentName(boat, other.id));
  const move = (by: number): boolean =>
    edit(`Move the ${words} of ${name}`, facesMoved(withPartners(boat, { id, key: face.key, by })));
  const hang = (what: 'opening' | 'surface'): void => {
    makeMarked(boat, arrangementId, middleOf(face, id, what));
  };
  return (
    <tr>
      <td>
        <button
          type="button"
          className="link face-name"
          aria-pressed={inHand}
          title="Take it in hand: arrow keys move it on the drawing"
          onClick={() => {
            useDrawing.setState({ grip: inHand ? null : { kind: 'face', compartment: id, key: face.key } });
            document.getElementById('board-list')?.focus({ preventScroll: true });
          }}
        >
          {words}
        </button>
        {others.length === 0 ? null : <div className="against place">{others.join(', ')}</div>}
      </td>
      <td>
        {axis === undefined ? (
          <LengthField label={`Move the ${words} outwards by`} value={0} commit={move} />
        ) : (
          <LengthField
            label={`${AXES[axis]} of the ${words}`}
            value={face.centre[axis]}
            commit={(value) => move((value - face.centre[axis]) * Math.sign(face.normal[axis]))}
          />
        )}
      </td>
      <td className="row-acts">
        <button
          type="button"
          className="icon-button small"
          aria-label={`Opening in the ${words}`}
          title={`Opening in the ${words}`}
          onClick={() => hang('opening')}
        >
          {ICONS.opening}
        </button>
        <button
          type="button"
          className="icon-button small"
          aria-label={`Mounting surface on the ${words}`}
          title={`Mounting surface on the ${words}`}
          onClick={() => hang('surface')}
        >
          {ICONS.surface}
        </button>
      </td>
    </tr>
  );
}

/** Corners of the outline, its range and its turn, as numbers. */
export function Corners({ id, compartment }: Omit<Props, 'boat'>): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const edit = useApp((state) => state.edit);
  const axes = AXES_OF_VIEW[compartment.view];
  const { name, outline } = compartment;
  return (
    <Panel title="Corners" level={3} aside={`${compartment.view}, ${lengthUnit(units)}`}>
      <table className="mini-table">
        <thead>
          <tr>
            <th scope="col">No.</th>
            <th scope="col">{AXES[axes[0]]}</th>
            <th scope="col">{AXES[axes[1]]}</th>
            <th scope="col">
              <span className="spoken">Add or remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {outline.map((corner, index) => (
            <tr key={`${id} ${index.toString()}`}>
              <td>{index + 1}</td>
              {([0, 1] as const).map((axis) => (
                <td key={axis}>
                  <LengthField
                    label={`${AXES[axes[axis]]} of corner ${index + 1}`}
                    value={corner[axis]}
                    commit={(value) =>
                      edit(`Corner of ${name}`, (draft) => {
                        const point = draft.compartments[id]?.outline[index];
                        if (point) point[axis] = value;
                      })
                    }
                  />
                </td>
              ))}
              <td className="row-acts">
                <button
                  type="button"
                  className="icon-button small"
                  aria-label={`Add a corner after corner ${index + 1}`}
                  title="Add a corner in the middle of the next side"
                  onClick={() => edit(`Add a corner to ${name}`, cornerAdded(id, index))}
                >
                  +
                </button>
                <RemoveButton
                  label={`Remove corner ${index + 1}`}
                  disabled={outline.length <= 3}
                  remove={() => edit(`Remove a corner of ${name}`, cornerRemoved(id, index))}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <Labelled label="Turned">
        <AngleField
          label="Turned about the vertical"
          value={compartment.yawDeg}
          commit={(value) => edit(`Turn ${name}`, compartmentTurned(id, value))}
        />
      </Labelled>
    </Panel>
  );
}
