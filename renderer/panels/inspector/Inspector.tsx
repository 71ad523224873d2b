import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { lineInHand, thingOf } from '../../store/select';
import { ReadingInspector, SurveyPointInspector } from '../survey/SurveyInspector';
import { CompartmentInspector } from './CompartmentInspector';
import { LineInspector } from './LineInspector';
import { OpeningInspector } from './OpeningInspector';
import { PanelInspector } from './PanelInspector';
import { StationInspector } from './StationInspector';
import { StandingInspector, SurfaceInspector } from './SurfaceInspector';
import { ThingInspector } from './ThingInspector';

/** What is selected, whatever it is. A selected finding shows its subject. */
export function Inspector(): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const selection = useApp((state) => state.selection);
  const subject = useApp((state) =>
    state.selection?.kind === 'finding'
      ? (state.report?.findings.find((finding) => finding.key === state.selection?.id)?.subject ?? null)
      : null,
  );
  if (!boat || !selection) return null;
  const ofLine = lineInHand(selection);
  const id = ofLine ?? subject ?? selection.id;
  const thing = thingOf(boat, id);
  if ((selection.kind === 'thing' || subject !== null) && thing)
    return <ThingInspector key={id} boat={boat} id={id} thing={thing} />;
  const line = boat.lines[id];
  if ((ofLine !== null || subject !== null) && line) return <LineInspector key={id} boat={boat} id={id} line={line} />;
  const compartment = boat.compartments[id];
  if ((selection.kind === 'compartment' || subject !== null) && compartment)
    return <CompartmentInspector key={id} boat={boat} id={id} compartment={compartment} />;
  const opening = boat.openings[id];
  if ((selection.kind === 'opening' || subject !== null) && opening)
    return <OpeningInspector key={id} boat={boat} id={id} opening={opening} />;
  const surface = boat.mountingSurfaces[id];
  if ((selection.kind === 'surface' || subject !== null) && surface)
    return <SurfaceInspector key={id} boat={boat} id={id} surface={surface} />;
  const place = boat.standingPlaces[id];
  if (selection.kind === 'standingPlace' && place)
    return <StandingInspector key={id} boat={boat} id={id} place={place} />;
  if (selection.kind === 'panel') return <PanelInspector key={id} boat={boat} id={id} />;
  if (selection.kind === 'station') return <StationInspector key={id} boat={boat} id={id} />;
  if (selection.kind === 'surveyPoint') return <SurveyPointInspector key={id} boat={boat} id={id} />;
  if (selection.kind === 'reading') return <ReadingInspector key={id} boat={boat} id={id} />;
  return null;
}
