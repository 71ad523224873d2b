import type { PictureMark } from '@core/base/formulas/picture-plane';
import type { Vec2 } from '@core/base/vec';
import { freeId } from '@core/boat/edits';
import { quantised } from '@core/boat/quantise';
import {
  freeStationId,
  type Station,
  stationNumber,
  stationSet,
  stationsInOrder,
  stationsReplaced,
} from '@core/boat/station-edits';
import { curveTaken, stationsAlong, tracedStation } from '@core/boat/traced';
import { lengthUnit, wholeLength } from '../../panels/format';
import { addPicture } from '../../pictures/pictures';
import { useApp } from '../../store/app';
import { pickStation } from '../actions';
import { CURVE_WORDS, inBoat, planeOf, setTrace, type TracedView, takePicture, useTrace } from './trace-store';

/** Most marks of a scale: two scale, two more straighten. */
const MOST_MARKS = 4;

/** Adds a picture beside the boat and takes it up. */
export async function bringPicture(file: File): Promise<void> {
  const added = await addPicture(file);
  if (added.outcome === 'problem') {
    setTrace({ problem: added.message });
    return;
  }
  const { boat, edit } = useApp.getState();
  if (!boat) return;
  const known = Object.entries(boat.pictures ?? {}).find(([, picture]) => picture.file === added.name)?.[0];
  const id = known ?? freeId(boat.pictures ?? {}, 'traced');
  const { view } = useTrace.getState();
  if (known === undefined) {
    const done = edit('Add a picture to trace', (draft) => {
      draft.pictures ??= {};
      draft.pictures[id] = { file: added.name, of: file.name.slice(0, 120), view };
    });
    if (!done) return;
  }
  const now = useApp.getState().boat;
  if (now) takePicture(now, id);
}

/** Says which view a picture shows. Its marks meant places of the other view: they go. */
export function setView(view: TracedView): void {
  const { pictureId } = useTrace.getState();
  setTrace({
    view,
    curve: view === 'section' ? 'section' : view === 'plan' ? 'deckEdge' : 'keel',
    marks: [],
    points: [],
    mode: 'scale',
  });
  if (pictureId === null) return;
  useApp.getState().edit('View of a picture', (draft) => {
    const picture = draft.pictures?.[pictureId];
    if (!picture) return;
    picture.view = view;
    delete picture.scalePoints;
  });
}

/** A click on the picture, or Enter at the cross. */
export function setAt(pixel: Vec2): void {
  const { mode, marks, points } = useTrace.getState();
  const at: Vec2 = [Math.round(pixel[0] * 10) / 10, Math.round(pixel[1] * 10) / 10];
  if (mode === 'trace') setTrace({ points: [...points, at], problem: null });
  else if (marks.length < MOST_MARKS) keepMarks([...marks, { pixel: at, place: [0, 0] }]);
  else setTrace({ problem: `A scale has ${MOST_MARKS} marks at most. Remove one, or go on to trace.` });
}

/** Shows the marks, and keeps them with the picture. */
export function keepMarks(marks: readonly PictureMark[]): void {
  const { pictureId, view, xM } = useTrace.getState();
  setTrace({ marks, problem: null });
  if (pictureId === null) return;
  useApp.getState().edit(
    'Scale of a picture',
    (draft) => {
      const picture = draft.pictures?.[pictureId];
      if (picture)
        picture.scalePoints = marks.map(({ pixel, place }) => ({
          pixel: [quantised(pixel[0]), quantised(pixel[1])],
          at: [...inBoat(view, place, xM)],
        }));
    },
    `scale ${pictureId}`,
  );
}

/** Makes what was clicked part of the hull: one edit. Says why where it cannot be. */
export function takeCurve(): void {
  const { marks, points, curve, xM, waiting } = useTrace.getState();
  const found = planeOf(marks);
  const { boat, displayUnits, edit, notify } = useApp.getState();
  if (!found.ok || !boat) return;
  const places = points.map((pixel) => found.plane.toPlace(pixel));
  if (places.some((place) => place === null)) {
    setTrace({ problem: 'A point lies beyond the horizon of the straightened picture: check the marks of the scale.' });
    return;
  }
  const line = places as readonly Vec2[];
  if (curve !== 'section') {
    if (!boat.hull) {
      setTrace({
        problem:
          'Keel, sheer and deck edge are given to stations: trace two sections first, or take the offsets from a table.',
      });
      return;
    }
    const reached = stationsAlong(boat.hull, line);
    if (reached.length === 0) {
      setTrace({
        problem:
          'No station stands under this curve: it begins and ends between two of them, or its x runs beyond the hull.',
      });
      return;
    }
    if (!edit(`${CURVE_WORDS[curve]} from a picture`, curveTaken(curve, line))) return;
    setTrace({ points: [], problem: null });
    notify(`${CURVE_WORDS[curve]} taken to ${reached.length} stations. Undo: Ctrl Z`);
    return;
  }
  const traced = tracedStation(xM, line);
  const place = `${wholeLength(xM, displayUnits)} ${lengthUnit(displayUnits)}`;
  if (!traced.ok) {
    setTrace({
      problem: traced.falls
        ? `Point ${traced.falls[1] + 1} lies below point ${traced.falls[0] + 1}: a section never falls on its way from keel to sheer.`
        : 'A section needs two points at least: click from the keel to the sheer.',
    });
    return;
  }
  if (boat.hull) takeStation(traced.station);
  else if (waiting.length === 0) {
    setTrace({ waiting: [traced.station], points: [], problem: null });
    notify(`Section at ${place} traced. One more makes a hull.`);
  } else if (waiting.some((other) => Math.abs(other.xM - xM) < 0.001))
    setTrace({ problem: `A section at ${place} is traced already: say where this one stands.` });
  else {
    const both = [...waiting, traced.station].sort((a, b) => a.xM - b.xM);
    const stations = Object.fromEntries(both.map((station, i) => [`s${i}`, station]));
    if (edit('Hull from a picture', stationsReplaced(stations, { grade: 'scaled' })))
      setTrace({ waiting: [], points: [], problem: null });
  }
}

/** A traced station takes the place of the one that stands there, else it is a new one. */
function takeStation(station: Station): void {
  const { boat, edit } = useApp.getState();
  if (!boat?.hull) return;
  const there = stationsInOrder(boat.hull).find(([, { xM }]) => Math.abs(xM - station.xM) < 0.001);
  const id = there?.[0] ?? freeStationId(boat.hull);
  const label = there ? `Trace station ${stationNumber(boat.hull, id)}` : 'Trace a station';
  if (!edit(label, stationSet(id, station))) return;
  setTrace({ points: [], problem: null });
  pickStation(id);
}
