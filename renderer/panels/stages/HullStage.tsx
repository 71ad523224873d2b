import type { BoatRecipe } from '@core/boat/edits';
import { freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { GRADES } from '@core/boat/schema/quantities';
import type { JSX } from 'react';
import { hullEnds, useApp } from '../../store/app';
import { floatOf } from '../../store/floating';
import { LengthField } from '../fields/LengthField';
import { degreesText, figure, lengthUnit, massText, wholeLength } from '../format';
import { Choice, Facts, Labelled, Panel } from '../inspector/parts';
import { GRADE_WORDS } from '../words';

/** The hull as a body in the water: what it displaces, how it floats, what was measured of it. */
export function HullStage({ boat }: { readonly boat: Boat }): JSX.Element {
  return (
    <>
      <Hydrostatics boat={boat} />
      <Heel />
      <Skin boat={boat} />
      <Freeboards boat={boat} />
    </>
  );
}

function Hydrostatics({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const float = floatOf(boat, attitude);
  return (
    <Panel title="Hydrostatics" aside={`salt water ${figure(boat.weights?.waterDensityKgM3 ?? 1025)} kg/m\u00b3`}>
      {float === null ? (
        <p className="quiet">Draw at least two stations.</p>
      ) : (
        <Facts
          rows={[
            ['Displacement, from the lines', massText(float.displacementKg)],
            ['Waterplane', `${figure(float.waterplaneM2, 2)} m\u00b2`],
            ['Centre of buoyancy from aft', `${figure(float.centre[0], 2)} m`],
            ['Centre of buoyancy, z', `${wholeLength(float.centre[2], units)} ${lengthUnit(units)}`],
            ['Draught', `${figure(float.draughtM, 2)} m`],
            ['Sinks per cm', `${figure(float.kgPerCm)} kg`],
          ]}
        />
      )}
      {attitude === null ? null : (
        <Facts
          rows={[
            ['Attitude from', ATTITUDE_WORDS[attitude.source]],
            ['Deeper than drawn', `${wholeLength(attitude.sinkageM, units)} ${lengthUnit(units)}`],
            ['Trim, bow down', degreesText(attitude.trimDeg, 2)],
            ['List to starboard', degreesText(attitude.listDeg, 2)],
            ['Greatest residual', `${wholeLength(attitude.residualM, units)} ${lengthUnit(units)}`],
          ]}
        />
      )}
    </Panel>
  );
}

const ATTITUDE_WORDS = {
  frame: 'the drawing itself',
  freeboards: 'measured freeboards',
  levelMarks: 'level marks',
  weights: 'the weights entered, not measured',
} as const;

const GREATEST_HEEL_DEG = 45;

function Heel(): JSX.Element {
  const heel = useApp((state) => state.shownHeelDeg);
  const setShownHeel = useApp((state) => state.setShownHeel);
  return (
    <Panel
      title="Heel on the drawing"
      level={3}
      aside={heel === 0 ? 'level' : `${degreesText(Math.abs(heel))} to ${heel > 0 ? 'starboard' : 'port'}`}
    >
      <div>
        <input
          type="range"
          className="slider-input"
          aria-label="Heel on the drawing, degrees to starboard"
          min={-GREATEST_HEEL_DEG}
          max={GREATEST_HEEL_DEG}
          step={1}
          value={heel}
          onChange={(event) => setShownHeel(Number(event.target.value))}
        />
      </div>
    </Panel>
  );
}

function Skin({ boat }: { readonly boat: Boat }): JSX.Element | null {
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
        <Choice
          label="How the hull was measured"
          value={hull.grade}
          options={GRADES.map((grade) => [grade, GRADE_WORDS[grade]] as const)}
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

/** Heights of points of the deck edge above the water: three of them give how the boat really floats. */
function Freeboards({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const units = useApp((state) => state.displayUnits);
  const freeboards = Object.entries(boat.reference.freeboards);
  const change = (recipe: BoatRecipe): boolean => edit('Freeboards', recipe);
  return (
    <Panel title="Measured freeboards" level={3} aside={lengthUnit(units)}>
      {freeboards.length === 0 ? (
        <p className="quiet">None: the boat floats as drawn.</p>
      ) : (
        <table className="mini-table">
          <thead>
            <tr>
              {['Point', 'x', 'y', 'z', 'Height'].map((title) => (
                <th key={title} scope="col">
                  {title}
                </th>
              ))}
              <th scope="col">
                <span className="spoken">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {freeboards.map(([id, freeboard]) => (
              <tr key={id}>
                <td>{id}</td>
                {([0, 1, 2] as const).map((axis) => (
                  <td key={axis}>
                    <LengthField
                      label={`${'xyz'.charAt(axis)} of ${id}`}
                      value={freeboard.at[axis]}
                      commit={(value) =>
                        change((draft) => {
                          const own = draft.reference.freeboards[id];
                          if (own) own.at[axis] = value;
                        })
                      }
                    />
                  </td>
                ))}
                <td>
                  <LengthField
                    label={`Freeboard at ${id}`}
                    value={freeboard.freeboardM}
                    commit={(value) =>
                      change((draft) => {
                        const own = draft.reference.freeboards[id];
                        if (own) own.freeboardM = value;
                      })
                    }
                  />
                </td>
                <td>
                  <button
                    type="button"
                    className="icon-button small"
                    aria-label={`Remove ${id}`}
                    onClick={() =>
                      change((draft) => {
                        delete draft.reference.freeboards[id];
                      })
                    }
                  >
                    {'\u00d7'}
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() =>
            change((draft) => {
              const [aft, forward] = hullEnds(boat);
              const sheer = Math.max(
                1,
                ...Object.values(boat.hull?.stations ?? {}).map((s) => s.points.at(-1)?.[1] ?? 0),
              );
              draft.reference.freeboards[freeId(draft.reference.freeboards, 'point')] = {
                at: [(aft + forward) / 2, 0, sheer],
                freeboardM: sheer,
              };
            })
          }
        >
          Add a freeboard
        </button>
      </div>
    </Panel>
  );
}
