import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import { Fragment, type JSX } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { isPart, lineInHand, markOf, thingOf } from '../../store/select';
import { AllData } from '../record/AllData';
import { ReadingInspector, SurveyPointInspector } from '../survey/SurveyInspector';
import { CompartmentInspector } from './CompartmentInspector';
import { LineInspector } from './LineInspector';
import { OpeningInspector } from './OpeningInspector';
import { PanelInspector } from './PanelInspector';
import { StationInspector } from './StationInspector';
import { StandingInspector, SurfaceInspector } from './SurfaceInspector';
import { ThingInspector } from './ThingInspector';

/** What is selected, whatever it is, and below it all that the file says of it. A selected finding shows its subject. */
export function Inspector(): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const selection = useApp((state) => state.selection);
  const subject = useApp((state) =>
    state.selection?.kind === 'finding'
      ? (state.report?.findings.find((finding) => finding.key === state.selection?.id)?.subject ?? null)
      : null,
  );
  const arrangementId = useApp((state) => state.arrangementId);
  const panelData = useApp((state) =>
    state.boat && state.selection?.kind === 'panel'
      ? layoutOf(state.boat, state.arrangementId).panels[state.selection.id]?.dataId
      : undefined,
  );
  if (!boat || !selection) return null;
  const ofLine = lineInHand(selection);
  const id = ofLine ?? subject ?? selection.id;
  const isOf = (kind: typeof selection.kind): boolean => selection.kind === kind || subject !== null;

  const thing = thingOf(boat, id);
  if (isOf('thing') && thing) {
    const ofThing = isPart(boat, id) ? ['parts', id] : ['fixtures', id];
    return (
      <Fragment key={id}>
        <ThingInspector boat={boat} id={id} thing={thing} />
        <AllData boat={boat} path={ofThing} of={markOf(id, thing)} />
        {isPart(boat, id) && arrangementId !== null ? (
          <AllData
            title="All data of its place"
            boat={boat}
            path={['arrangements', arrangementId, 'places', id]}
            of={`the place of ${markOf(id, thing)}`}
          />
        ) : null}
      </Fragment>
    );
  }
  const line = boat.lines[id];
  if ((ofLine !== null || subject !== null) && line)
    return (
      <Fragment key={id}>
        <LineInspector boat={boat} id={id} line={line} />
        <AllData boat={boat} path={['lines', id]} of={markOf(id, line)} />
        <AllData
          title={`All data of its kind`}
          boat={boat}
          path={['lineKinds', line.kind]}
          of={lineKindOf(boat.lineKinds, line.kind)?.name ?? line.kind}
        />
      </Fragment>
    );
  const whole = (group: string, of: string | undefined, own: JSX.Element): JSX.Element => (
    <Fragment key={id}>
      {own}
      <AllData boat={boat} path={[...group.split('.'), id]} of={of ?? id} />
    </Fragment>
  );
  const compartment = boat.compartments[id];
  if (isOf('compartment') && compartment)
    return whole(
      'compartments',
      compartment.name,
      <CompartmentInspector boat={boat} id={id} compartment={compartment} />,
    );
  const opening = boat.openings[id];
  if (isOf('opening') && opening)
    return whole('openings', opening.name, <OpeningInspector boat={boat} id={id} opening={opening} />);
  const surface = boat.mountingSurfaces[id];
  if (isOf('surface') && surface)
    return whole('mountingSurfaces', surface.name, <SurfaceInspector boat={boat} id={id} surface={surface} />);
  const place = boat.standingPlaces[id];
  if (selection.kind === 'standingPlace' && place)
    return whole('standingPlaces', place.name, <StandingInspector boat={boat} id={id} place={place} />);
  if (selection.kind === 'panel')
    return (
      <Fragment key={id}>
        <PanelInspector boat={boat} id={id} />
        {panelData === undefined ? null : <AllData boat={boat} path={['panels', panelData]} of="the panel" />}
      </Fragment>
    );
  if (selection.kind === 'station')
    return whole('hull.stations', `station ${id}`, <StationInspector boat={boat} id={id} />);
  if (selection.kind === 'surveyPoint')
    return whole('survey.points', `point ${id}`, <SurveyPointInspector boat={boat} id={id} />);
  if (selection.kind === 'reading')
    return whole('survey.readings', `reading ${id}`, <ReadingInspector boat={boat} id={id} />);
  return null;
}
