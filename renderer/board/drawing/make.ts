import { subtract, unit, type Vec2, type Vec3 } from '@core/base/vec';
import { freeId } from '@core/boat/edits';
import { drawnValues } from '@core/boat/interior/placing';
import { compartmentAdded } from '@core/boat/interior/shaping';
import { compartmentSplit, partsOf } from '@core/boat/interior/splitting';
import type { Boat, Grade } from '@core/boat/schema/boat';
import { FRAMES, lift, type ViewName } from '@core/output/views/drawing';
import { useApp } from '../../store/app';
import { type Range, useDrawing } from '../../store/drawing';
import { cornersOf, type Drawn } from '../../tools/drawing';
import { keepMeasures } from '../measuring/keep';
import type { Scene } from '../scene';
import { rangeFor } from './range';

/** `Locker 3`: the word with the least number that no compartment bears. */
export function freeName(boat: Boat, word: string): string {
  const taken = new Set(Object.values(boat.compartments).map(({ name }) => name));
  let number = 1;
  while (taken.has(`${word} ${number}`)) number++;
  return `${word} ${number}`;
}

/** What of the scene a drawn thing is made in. */
type Site = Pick<Scene, 'boat' | 'hull' | 'layout' | 'sectionX' | 'selection'>;

/** Makes what a tool has drawn: an edit, or a measurement. */
export function make(scene: Site, drawn: Drawn): void {
  switch (drawn.tool) {
    case 'rectangle':
    case 'polygon': {
      const corners = cornersOf(drawn);
      const { rangeM, from } = rangeFor(scene, drawn.view, corners);
      // What the pointer drew, or a range that was proposed, nobody has measured.
      const grade = drawn.sizesTyped && from === 'entered' ? 'taped' : 'guessed';
      if (addCompartment(scene.boat, drawn.view, corners, rangeM, grade)) useApp.getState().setTool('select');
      return;
    }
    case 'split': {
      const [a, b] = drawn.points;
      if (a && b) splitAlong(scene, drawn.view, a, b);
      return;
    }
    case 'measure': {
      keepMeasures([{ view: drawn.view, points: drawn.points.map((p) => inView(scene, drawn.view, p)) }]);
    }
  }
}

/** A point of the paper in the boat; across the view it lies in the section plane, or at nought. */
export const inView = ({ sectionX }: Pick<Scene, 'sectionX'>, view: ViewName, at: Vec2): Vec3 =>
  lift(FRAMES[view], at, view === 'section' ? -sectionX : 0);

/** Adds a compartment by its corners on paper, selects it, and keeps its range for the next. False when it was refused. */
function addCompartment(boat: Boat, view: ViewName, corners: readonly Vec2[], rangeM: Range, grade: Grade): boolean {
  const { edit, select } = useApp.getState();
  const name = freeName(boat, 'Locker');
  const id = freeId(boat.compartments, name.toLowerCase().replace(' ', '-'));
  const outline = corners.map((p): [number, number] => {
    const [[u, v]] = drawnValues(view, lift(FRAMES[view], p, 0));
    return [u, v];
  });
  const done = edit(
    `Draw ${name}`,
    compartmentAdded(id, { name, view, outline, rangeM: [rangeM[0], rangeM[1]], grade }),
  );
  if (!done) return false;
  useDrawing.setState((state) => ({ last: { ...state.last, [view]: rangeM }, typed: {} }));
  select({ kind: 'compartment', id });
  return true;
}

/** Cuts the selected compartment, else the one under the middle of the stroke, along a stroke drawn in a view. */
function splitAlong(scene: Site, view: ViewName, a: Vec2, b: Vec2): void {
  const { boat, layout, selection } = scene;
  const frame = FRAMES[view];
  const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const at = inView(scene, view, middle);
  const id = selection?.kind === 'compartment' ? selection.id : layout.compartmentAt(at);
  const { notify, setTool } = useApp.getState();
  if (id === null) {
    notify('Select the compartment that is to be split');
    return;
  }
  const way = unit(subtract(lift(frame, b, 0), lift(frame, a, 0)));
  const { toViewer } = frame;
  const normal: Vec3 = [
    way[1] * toViewer[2] - way[2] * toViewer[1],
    way[2] * toViewer[0] - way[0] * toViewer[2],
    way[0] * toViewer[1] - way[1] * toViewer[0],
  ];
  if (splitBy(boat, id, at, normal)) setTool('select');
}

/** Splits a compartment by a plane; says why where that is not possible. */
export function splitBy(boat: Boat, id: string, at: Vec3, normal: Vec3): boolean {
  const own = boat.compartments[id];
  const { edit, notify, showProblem } = useApp.getState();
  if (!own) return false;
  const parts = partsOf(own, { at, normal });
  if (!parts.ok) {
    showProblem({ title: `Not split: ${own.name}`, lines: [parts.why] });
    return false;
  }
  const word = own.name.replace(/ \d+$/, '');
  const name = freeName(boat, word);
  const newId = freeId(boat.compartments, `${id}-part`);
  const done = edit(`Split ${own.name}`, compartmentSplit(id, { at, normal }, newId, name));
  if (done) notify(`Split ${own.name}; the other part is ${name}. Undo: Ctrl Z`);
  return done;
}
