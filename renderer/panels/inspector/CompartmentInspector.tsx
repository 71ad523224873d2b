import { facesAgainst, facesOf } from '@core/boat/interior/faces';
import { drawnBounds } from '@core/boat/interior/placing';
import type { Boat, Compartment } from '@core/boat/schema/boat';
import { COMPARTMENT_KINDS } from '@core/boat/schema/interior';
import { type JSX, useState } from 'react';
import { printSurvey } from '../../app/sheets/orders';
import { splitBy } from '../../board/drawing/make';
import { CompartmentPictures } from '../../pictures/CompartmentPictures';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import {
  copyAcross,
  deleteSelected,
  duplicateCompartment,
  mergeCompartments,
  mirrorCompartment,
} from '../../store/interior';
import { compartmentName, markOf, thingOf } from '../../store/select';
import { useVolumes } from '../../store/volumes';
import { GradeChoice } from '../fields/GradeChoice';
import { LengthField } from '../fields/LengthField';
import { TextField } from '../fields/TextField';
import { Tick } from '../fields/Tick';
import { figure } from '../format';
import { plainWords, RULE_WORDS, sentence } from '../words';
import { Corners, Faces } from './CompartmentShape';
import { Choice, Facts, Labelled, Link, Panel } from './parts';

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly compartment: Compartment;
}

/** A compartment: what it is, its room, its faces and corners as numbers, what bounds it, and what can be done with the whole. */
export function CompartmentInspector({ boat, id, compartment }: Props): JSX.Element {
  return (
    <>
      <What id={id} compartment={compartment} />
      <Acts boat={boat} id={id} compartment={compartment} />
      <Faces boat={boat} id={id} compartment={compartment} />
      <Corners id={id} compartment={compartment} />
      <Volume boat={boat} id={id} />
      <Bounds boat={boat} id={id} />
      <Inside boat={boat} id={id} />
      <CompartmentPictures boat={boat} id={id} />
    </>
  );
}

function What({ id, compartment }: Omit<Props, 'boat'>): JSX.Element {
  const edit = useApp((state) => state.edit);
  const change = (label: string, values: Partial<Pick<Compartment, 'name' | 'kind' | 'grade' | 'liningM'>>): boolean =>
    edit(`${label} of ${compartment.name}`, (draft) => {
      const own = draft.compartments[id];
      if (own) Object.assign(own, values);
    });
  return (
    <Panel title={<span className="place">{compartment.name}</span>} aside={`drawn in ${compartment.view}`}>
      <Labelled label="Name">
        <TextField
          label="Name of the compartment"
          value={compartment.name}
          commit={(name) => change('Name', { name })}
        />
      </Labelled>
      <Labelled label="Kind">
        <Choice
          label="Kind of compartment"
          value={compartment.kind}
          options={COMPARTMENT_KINDS.map((kind) => [kind, sentence(plainWords(kind))] as const)}
          choose={(kind) => change('Kind', { kind })}
        />
      </Labelled>
      <Labelled label="Taken">
        <GradeChoice
          label="How it was measured"
          value={compartment.grade}
          choose={(grade) => change('Grade', { grade })}
        />
      </Labelled>
      <Labelled label="Lining">
        <LengthField
          label="Lining inside, off the shell"
          value={compartment.liningM ?? null}
          placeholder="as the hull"
          commit={(liningM) => change('Lining', { liningM })}
          clear={() =>
            edit(`Lining of ${compartment.name}`, (draft) => {
              delete draft.compartments[id]?.liningM;
            })
          }
        />
      </Labelled>
      <Tick
        label="Stowage: gear is thrown in and dragged out"
        checked={compartment.stowage ?? false}
        turn={(on) =>
          edit(`Stowage of ${compartment.name}`, (draft) => {
            const own = draft.compartments[id];
            if (own && on) own.stowage = true;
            else delete own?.stowage;
          })
        }
      />
    </Panel>
  );
}

/** Split, merge, mirror, duplicate and delete, as buttons. */
function Acts({ boat, id, compartment }: Props): JSX.Element {
  const setTool = useApp((state) => state.setTool);
  const neighbours = [
    ...new Set(
      facesOf(compartment).flatMap((face) => facesAgainst(boat.compartments, id, face.key).map((other) => other.id)),
    ),
  ];
  const [chosen, setChosen] = useState<string | null>(null);
  const merged = chosen !== null && neighbours.includes(chosen) ? chosen : (neighbours[0] ?? '');
  const [low, high] = drawnBounds(compartment);
  const middle = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2] as const;
  const halve = (axis: 0 | 1 | 2): void => {
    const normal = [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0] as const;
    splitBy(boat, id, middle, normal);
  };
  return (
    <Panel title="Whole" level={3}>
      <div className="actions">
        <button type="button" className="button plain" onClick={() => mirrorCompartment(id)}>
          Mirror to the other side
        </button>
        <button type="button" className="button plain" onClick={() => copyAcross(id)}>
          Copy to the other side
        </button>
        <button type="button" className="button plain" onClick={() => duplicateCompartment(id)}>
          Duplicate
        </button>
        <button type="button" className="button plain" onClick={() => deleteSelected()}>
          Delete
        </button>
        <button type="button" className="button plain" onClick={() => void printSurvey(boat, id)}>
          Print its survey sheet
        </button>
      </div>
      <div className="split-row">
        <span className="label">Halve</span>
        {(
          [
            [0, 'fore and aft'],
            [1, 'port and starboard'],
            [2, 'above and below'],
          ] as const
        ).map(([axis, words]) => (
          <button key={axis} type="button" className="button plain" onClick={() => halve(axis)}>
            {words}
          </button>
        ))}
        <button type="button" className="button plain" onClick={() => setTool('split')}>
          by a line
        </button>
      </div>
      {neighbours.length === 0 ? null : (
        <div className="add-row">
          <Choice
            label="Neighbour to merge with"
            value={merged}
            options={neighbours.map((other) => [other, compartmentName(boat, other)] as const)}
            choose={setChosen}
          />
          <button type="button" className="button" onClick={() => mergeCompartments(id, merged)}>
            Merge in
          </button>
        </div>
      )}
    </Panel>
  );
}

/** What becomes of the room as drawn. */
function Volume({ boat, id }: Omit<Props, 'compartment'>): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const [volume] = useVolumes(boat, arrangementId, [id]);
  const litres = (m3: number): string => `${figure(m3 * 1000, m3 < 0.01 ? 1 : 0)}`;
  const off = (words: string, m3: number): readonly [string, string] | null =>
    m3 > 5e-5 ? [words, `\u2212${litres(m3)}`] : null;
  return (
    <Panel title="Volume" level={3} aside="litres">
      {volume ? (
        <Facts
          rows={[
            ['As drawn', litres(volume.grossM3)],
            off('Beyond the hull', volume.outsideM3),
            off('Shell', volume.shellM3),
            off('Lining', volume.liningM3),
            off('Ribs', volume.ribsM3),
            off('Fixtures', volume.fixturesM3),
            ['Net', <b key="net">{litres(volume.netM3)}</b>],
          ]}
        />
      ) : (
        <p className="quiet">Being worked out.</p>
      )}
    </Panel>
  );
}

function Bounds({ boat, id }: Omit<Props, 'compartment'>): JSX.Element {
  const select = useApp((state) => state.select);
  const arrangementId = useApp((state) => state.arrangementId);
  const panels = Object.values(layoutOf(boat, arrangementId).panels).filter((panel) => panel.between.includes(id));
  const openings = Object.entries(boat.openings).filter(
    ([, opening]) => opening.compartment === id || opening.to === id,
  );
  const surfaces = Object.entries(boat.mountingSurfaces).filter(([, surface]) => surface.compartment === id);
  const places = Object.entries(boat.standingPlaces).filter(([, place]) => place.compartment === id);
  return (
    <Panel title="Bounded by" level={3} aside={panels.length + openings.length === 0 ? 'nothing drawn' : undefined}>
      <dl className="facts">
        {panels.map((panel) => (
          <div key={panel.id}>
            <dt className="place">
              <Link go={() => select({ kind: 'panel', id: panel.id })}>
                {compartmentName(boat, panel.between[0] === id ? panel.between[1] : panel.between[0])}
              </Link>
            </dt>
            <dd>{RULE_WORDS[panel.rule]}</dd>
          </div>
        ))}
        {openings.map(([openingId, opening]) => (
          <div key={openingId}>
            <dt>
              <Link go={() => select({ kind: 'opening', id: openingId })}>{opening.name}</Link>
            </dt>
            <dd>{sentence(plainWords(opening.how))}</dd>
          </div>
        ))}
        {surfaces.map(([surfaceId, surface]) => (
          <div key={surfaceId}>
            <dt>
              <Link go={() => select({ kind: 'surface', id: surfaceId })}>{surface.name ?? 'Mounting surface'}</Link>
            </dt>
            <dd>{sentence(plainWords(surface.material))}</dd>
          </div>
        ))}
        {places.map(([placeId, place]) => (
          <div key={placeId}>
            <dt>
              <Link go={() => select({ kind: 'standingPlace', id: placeId })}>{place.name}</Link>
            </dt>
            <dd>{sentence(place.posture)}</dd>
          </div>
        ))}
      </dl>
    </Panel>
  );
}

function Inside({ boat, id }: Omit<Props, 'compartment'>): JSX.Element {
  const select = useApp((state) => state.select);
  const report = useApp((state) => state.report);
  const within = Object.entries(report?.places ?? {}).filter(([, place]) => place.compartment === id);
  return (
    <Panel title="Inside" level={3} aside={within.length === 0 ? 'nothing' : undefined}>
      <dl className="facts">
        {within.map(([thingId]) => {
          const thing = thingOf(boat, thingId);
          return (
            <div key={thingId}>
              <dt>
                <Link go={() => select({ kind: 'thing', id: thingId })}>{thing?.name ?? thingId}</Link>
              </dt>
              <dd>{markOf(thingId, thing)}</dd>
            </div>
          );
        })}
      </dl>
    </Panel>
  );
}
