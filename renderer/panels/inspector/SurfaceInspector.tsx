import type { Draft } from '@core/boat/edits';
import type { MountingSurface } from '@core/boat/interior/ways';
import type { Boat } from '@core/boat/schema/boat';
import { mountingSurface, standingPlace } from '@core/boat/schema/interior';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { deleteSelected } from '../../store/interior';
import { compartmentName } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { TextField } from '../fields/TextField';
import { MATERIAL_OPTIONS, plainWords, sentence } from '../words';
import { Place } from './Place';
import { Choice, Labelled, Link, Panel } from './parts';

const BEHIND = mountingSurface.shape.behind.unwrap().options;
const POSTURES = standingPlace.shape.posture.unwrap().options;

/** A face that something can be screwed to: what it is made of and what a screw would meet behind it. */
export function SurfaceInspector({
  boat,
  id,
  surface,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly surface: MountingSurface;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const words = surface.name ?? 'Mounting surface';
  const set = (label: string, values: Partial<Draft<MountingSurface>>): boolean =>
    edit(`${label} of ${words}`, (draft) => {
      const own = draft.mountingSurfaces[id];
      if (own) Object.assign(own, values);
    });
  const unset = (key: 'name' | 'behindM'): boolean =>
    edit(`Change ${words}`, (draft) => {
      delete draft.mountingSurfaces[id]?.[key];
    });
  return (
    <Panel title={words} aside="mounting surface">
      <Labelled label="Name">
        <TextField
          label="Name of the mounting surface"
          value={surface.name ?? ''}
          commit={(name) => set('Name', { name })}
          clear={() => unset('name')}
        />
      </Labelled>
      {(
        [
          ['widthM', 'Width'],
          ['heightM', 'Height'],
          ['thicknessM', 'Thickness'],
        ] as const
      ).map(([key, label]) => (
        <Labelled key={key} label={label}>
          <LengthField
            label={`${label} of the mounting surface`}
            path={`mountingSurfaces.${id}.${key}`}
            value={surface[key]}
            commit={(value) => set(label, { [key]: value })}
          />
        </Labelled>
      ))}
      <Labelled label="Material">
        <Choice
          label="Material of the mounting surface"
          value={surface.material}
          options={MATERIAL_OPTIONS}
          choose={(material) => set('Material', { material })}
        />
      </Labelled>
      <Labelled label="Behind it">
        <Choice
          label="What is behind the mounting surface"
          value={surface.behind}
          options={BEHIND.map((behind) => [behind, sentence(plainWords(behind))] as const)}
          choose={(behind) => set('What is behind', { behind })}
        />
      </Labelled>
      <Labelled label="Free behind">
        <LengthField
          label="Depth that is free behind it"
          value={surface.behindM ?? null}
          placeholder="not said"
          commit={(behindM) => set('Free depth', { behindM })}
          clear={() => unset('behindM')}
        />
      </Labelled>
      <Place at={surface.at} of="the mounting surface" commit={(at) => set('Place', { at })} />
      <Labelled label="In">
        <span className="place">
          <Link go={() => select({ kind: 'compartment', id: surface.compartment })}>
            {compartmentName(boat, surface.compartment)}
          </Link>
        </span>
      </Labelled>
      <div className="actions">
        <button type="button" className="button plain" onClick={() => deleteSelected()}>
          Delete the surface
        </button>
      </div>
    </Panel>
  );
}

type StandingPlace = Boat['standingPlaces'][string];

/** Where a person stands, kneels, sits or lies to work. */
export function StandingInspector({
  boat,
  id,
  place,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly place: StandingPlace;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const set = (label: string, values: Partial<Draft<StandingPlace>>): boolean =>
    edit(`${label} of ${place.name}`, (draft) => {
      const own = draft.standingPlaces[id];
      if (own) Object.assign(own, values);
    });
  const unset = (key: 'compartment' | 'headroomM'): boolean =>
    edit(`Change ${place.name}`, (draft) => {
      delete draft.standingPlaces[id]?.[key];
    });
  const used = Object.entries(boat.openings).filter(([, opening]) => opening.standing === id);
  return (
    <Panel title={place.name} aside="standing place">
      <Labelled label="Name">
        <TextField label="Name of the place" value={place.name} commit={(name) => set('Name', { name })} />
      </Labelled>
      <Labelled label="Posture">
        <Choice
          label="How the person is there"
          value={place.posture}
          options={POSTURES.map((posture) => [posture, sentence(posture)] as const)}
          choose={(posture) => set('Posture', { posture })}
        />
      </Labelled>
      <Labelled label="Headroom">
        <LengthField
          label="Clear height above the place"
          value={place.headroomM ?? null}
          placeholder="not said"
          commit={(headroomM) => set('Headroom', { headroomM })}
          clear={() => unset('headroomM')}
        />
      </Labelled>
      <Labelled label="In">
        <Choice
          label="Compartment in which the person is"
          value={place.compartment ?? ''}
          options={[
            ['', 'Outside'],
            ...Object.keys(boat.compartments).map((key) => [key, compartmentName(boat, key)] as const),
          ]}
          choose={(compartment) => (compartment === '' ? unset('compartment') : set('Compartment', { compartment }))}
        />
      </Labelled>
      <Place at={place.at} of="the standing place" commit={(at) => set('Place', { at })} />
      <h3 className="group">Works through</h3>
      {used.length === 0 ? <p className="quiet">No opening yet.</p> : null}
      <dl className="facts">
        {used.map(([openingId, opening]) => (
          <div key={openingId}>
            <dt>
              <Link go={() => select({ kind: 'opening', id: openingId })}>{opening.name}</Link>
            </dt>
            <dd className="place">{compartmentName(boat, opening.compartment)}</dd>
          </div>
        ))}
      </dl>
      <div className="actions">
        <button type="button" className="button plain" onClick={() => deleteSelected()}>
          Delete the place
        </button>
      </div>
    </Panel>
  );
}
