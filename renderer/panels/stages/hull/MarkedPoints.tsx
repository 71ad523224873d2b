import { freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { sightingResiduals } from '@core/shape/hull/sightings';
import type { HullSurface } from '@core/shape/hull/types';
import type { JSX } from 'react';
import { printSurvey } from '../../../app/sheets/orders';
import { hullEnds, useApp } from '../../../store/app';
import { hullOf } from '../../../store/derived';
import { LengthField } from '../../fields/LengthField';
import { RemoveButton } from '../../fields/RemoveButton';
import { lengthUnit, wholeLength } from '../../format';

export type PointKind = 'freeboards' | 'levelMarks';

const WORDS = {
  freeboards: {
    title: 'Measured freeboards',
    none: 'None yet. Deck edge down to the water, plumb; three points fix how it floats, a fourth and fifth check them.',
    add: 'Add a freeboard',
    edit: 'Freeboards',
  },
  levelMarks: {
    title: 'Level marks',
    none: 'None. A mark on the skin just at the water; they count where no freeboard was measured.',
    add: 'Add a level mark',
    edit: 'Level marks',
  },
} as const;

/** The points that were measured afloat, each with what it is off the plane through all of them. */
export function MarkedPoints({ boat, kind }: { readonly boat: Boat; readonly kind: PointKind }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const edit = useApp((state) => state.edit);
  const records = boat.reference[kind];
  const words = WORDS[kind];
  const { points, suspect, isUndecided } = sightingResiduals(boat);
  const counts = points.some((point) => point.kind === kind);
  const ids = Object.keys(records).sort();
  const off = suspect === null ? null : (points.find(({ id }) => id === suspect)?.offM ?? null);
  return (
    <>
      <h4 className="group">{`${words.title}, ${lengthUnit(units)}`}</h4>
      {ids.length === 0 ? (
        <p className="quiet">{words.none}</p>
      ) : (
        <table className="mini-table" aria-label={words.title}>
          <thead>
            <tr>
              {['Point', 'x', 'y', 'z', ...(kind === 'freeboards' ? ['Height'] : []), ...(counts ? ['Off'] : [])].map(
                (title) => (
                  <th key={title} scope="col">
                    {title}
                  </th>
                ),
              )}
              <th scope="col">
                <span className="spoken">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {ids.map((id) => {
              const residualM = points.find((point) => point.id === id)?.residualM ?? 0;
              return (
                <tr key={id} className={counts && suspect === id ? 'suspect' : undefined}>
                  <td>{id.replaceAll('-', ' ')}</td>
                  <Coordinates boat={boat} kind={kind} id={id} />
                  {kind === 'freeboards' ? (
                    <td>
                      <LengthField
                        label={`Freeboard at ${id}`}
                        value={boat.reference.freeboards[id]?.freeboardM ?? 0}
                        commit={(value) =>
                          edit(words.edit, (draft) => {
                            const own = draft.reference.freeboards[id];
                            if (own) own.freeboardM = value;
                          })
                        }
                      />
                    </td>
                  ) : null}
                  {counts ? <td className="figure">{wholeLength(residualM, units)}</td> : null}
                  <td>
                    <RemoveButton
                      label={`Remove ${id}`}
                      remove={() =>
                        edit(words.edit, (draft) => {
                          delete draft.reference[kind][id];
                        })
                      }
                    />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      {!counts || suspect === null ? null : (
        <p className="warning">
          {`${suspect.replaceAll('-', ' ')} is off by ${wholeLength(Math.abs(off ?? 0), units)} ${lengthUnit(units)} against the others: measure it again.`}
        </p>
      )}
      {counts && isUndecided ? (
        <p className="warning">One reading is off, and these points cannot tell which. Another point would.</p>
      ) : null}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() => edit(words.edit, (draft) => addPoint(draft, boat, kind))}
        >
          {words.add}
        </button>
        {kind === 'freeboards' ? (
          <button type="button" className="button plain" onClick={() => void printSurvey(boat, null)}>
            Print a sheet for them
          </button>
        ) : null}
      </div>
    </>
  );
}

function Coordinates({
  boat,
  kind,
  id,
}: {
  readonly boat: Boat;
  readonly kind: PointKind;
  readonly id: string;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  return (
    <>
      {([0, 1, 2] as const).map((axis) => (
        <td key={axis}>
          <LengthField
            label={`${'xyz'.charAt(axis)} of ${id}`}
            value={boat.reference[kind][id]?.at[axis] ?? 0}
            commit={(value) =>
              edit(WORDS[kind].edit, (draft) => {
                const own = draft.reference[kind][id];
                if (own) own.at[axis] = value;
              })
            }
          />
        </td>
      ))}
    </>
  );
}

/** Where a tape is hung first: the share of the length from aft, and the side. */
const PLACES: readonly (readonly [id: string, share: number, side: -1 | 0 | 1])[] = [
  ['stem', 1, 0],
  ['port-side', 0.5, 1],
  ['starboard-side', 0.5, -1],
  ['port-quarter', 0.08, 1],
  ['starboard-quarter', 0.08, -1],
];

/** The next usual place that is free, on the deck edge of the lines, so that only its height is to be typed. */
function addPoint(draft: Boat, boat: Boat, kind: PointKind): void {
  const [aft, forward] = hullEnds(boat);
  const surface = hullOf(boat);
  const taken = boat.reference[kind];
  const place = PLACES.find(([id]) => !Object.hasOwn(taken, id));
  const [id, share, side] = place ?? [freeId(taken, 'point'), 0.5, 0];
  const x = aft + (forward - aft) * share;
  const edge = surface ? deckEdge(surface, x) : null;
  const at: [number, number, number] = [round(x), round(side * (edge?.half ?? 1)), round(edge?.z ?? 1)];
  if (kind === 'freeboards') draft.reference.freeboards[id] = { at, freeboardM: Math.max(0, at[2]) };
  else draft.reference.levelMarks[id] = { at: [at[0], at[1], 0] };
}

function deckEdge(surface: HullSurface, x: number): { readonly half: number; readonly z: number } {
  const inside = Math.min(Math.max(x, surface.aftM + 1e-6), surface.forwardM - 1e-6);
  const z = surface.sheerAt(inside);
  return { half: Math.abs(surface.sectionAt(inside)[0]?.[0] ?? 0), z };
}

/** To the millimetre: what is proposed is no finer than a tape. */
const round = (metres: number): number => Math.round(metres * 1000) / 1000;
