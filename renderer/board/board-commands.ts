import type { Vec3 } from '@core/base/vec';
import { FRAMES } from '@core/output/views/drawing';
import { needsBoat, needsSelection, needsThings } from '../app/availability';
import type { Command } from '../app/command';
import { useApp } from '../store/app';
import {
  chosenThings,
  groupChosen,
  lineUp,
  moveChosen,
  pickMore,
  pickTogether,
  spaceOut,
  takenWith,
  turnChosen,
  ungroupChosen,
} from '../store/chosen';
import { useDrag } from '../store/drag';
import { chosenOf, sameSelection } from '../store/select';
import type { FieldView, Selection } from '../store/types';
import type { Side } from '../tools/arranging';
import { nudgeOf } from '../tools/gesture';
import { ZOOM_STEP, zoomed } from './camera';
import { nudgeShape } from './drawing/nudge';
import { boardNow, needsDrawing } from './hand';
import { nudgeOfRun } from './pulling';
import { detailFrame } from './scene';

/** What can be done on the drawing board by key or by name. */

const VIEWS: readonly FieldView[] = ['profile', 'plan', 'section'];

const frameNow = () => FRAMES[detailFrame(useApp.getState().activeView).name];

const needsBoard = (): string | null => needsBoat() ?? needsDrawing();

function view(step: 1 | -1): void {
  const { activeView, setActiveView, notify } = useApp.getState();
  const next = VIEWS[(VIEWS.indexOf(activeView) + VIEWS.length + step) % VIEWS.length];
  if (!next) return;
  setActiveView(next);
  notify(`Keys work in the ${next}`);
}

/** Moves what is picked, whatever it is: a step of 10 mm, or 1 mm. With nothing to move it picks the first thing. */
function nudge(key: string, fine: boolean): void {
  const { selection, alsoSelected, nudge: nudgeThing } = useApp.getState();
  const { right, up } = frameNow();
  const by = nudgeOf(key, fine, right, up);
  // A held thing follows the pointer alone.
  if (!by || useDrag.getState().thingId !== null || useDrag.getState().pulled !== null) return;
  if (alsoSelected.length > 0) moveChosen(by);
  else if (selection?.kind === 'thing') nudgeThing(selection.id, by);
  else if (!movedOfRun(selection, by) && !nudgeShape(selection, by)) pickBeside(1);
}

function movedOfRun(selection: Selection | null, by: Vec3): boolean {
  const scene = boardNow()?.scene() ?? null;
  return scene !== null && nudgeOfRun(scene, selection, by);
}

function pickBeside(by: 1 | -1, too = false): void {
  const options = boardNow()?.options() ?? [];
  const { selection } = useApp.getState();
  const at = options.findIndex((o) => sameSelection(o.selection, selection));
  pickAt(at < 0 ? (by > 0 ? 0 : options.length - 1) : (at + by + options.length) % options.length, too);
}

function pickAt(index: number, too = false): void {
  const option = (boardNow()?.options() ?? []).at(index);
  if (!option) return;
  if (!too) pickTogether(option.selection);
  else {
    const app = useApp.getState();
    app.select(option.selection, [...chosenOf(app), ...takenWith(app.boat, option.selection)]);
  }
}

/** All that stands in the compartment that is picked; else everything aboard. Where one draws compartments: all of these. */
function pickAll(): void {
  const { boat, selection, stage, select } = useApp.getState();
  const scene = boardNow()?.scene() ?? null;
  if (!boat || !scene) return;
  if (stage === 'compartments' && selection?.kind !== 'thing') {
    pickMore(Object.keys(boat.compartments).map((id) => ({ kind: 'compartment', id })));
    return;
  }
  const within = selection?.kind === 'compartment' ? selection.id : null;
  const here = scene.placed.filter((p) => within === null || scene.layout.compartmentAt(p.pose.at) === within);
  const things = here.map(({ id }): Selection => ({ kind: 'thing', id }));
  const last = things.at(-1);
  if (last) select(last, things);
  else useApp.getState().notify('Nothing stands there');
}

/** Clockwise as one looks at the view: about the axis towards the eye, turned the other way round. */
function turn(deg: 90 | -90): void {
  const { selection, turn: turnThing } = useApp.getState();
  const { toViewer } = frameNow();
  const axis = toViewer[0] !== 0 ? 0 : toViewer[1] !== 0 ? 1 : 2;
  const name = (['x', 'y', 'z'] as const)[axis];
  const by = -deg * (toViewer[axis] ?? 1);
  const things = chosenThings();
  if (things.length > 1) turnChosen(name, by);
  else if (selection?.kind === 'thing') turnThing(selection.id, name, by);
}

const zoom = (factor: number): void => {
  const board = boardNow();
  const sheet = board?.sheet();
  if (board && sheet) board.camera().change((camera) => zoomed(sheet, camera, factor));
};

const WAYS = [
  ['Right', 'ArrowRight', 'to the right'],
  ['Left', 'ArrowLeft', 'to the left'],
  ['Up', 'ArrowUp', 'up'],
  ['Down', 'ArrowDown', 'down'],
] as const;

const LINE_UPS: readonly (readonly [string, string, 0 | 1, Side])[] = [
  ['line-up-left', 'left sides', 0, 'before'],
  ['line-up-middle-across', 'middles from left to right', 0, 'middle'],
  ['line-up-right', 'right sides', 0, 'after'],
  ['line-up-top', 'upper sides', 1, 'after'],
  ['line-up-middle-up', 'middles from top to bottom', 1, 'middle'],
  ['line-up-bottom', 'lower sides', 1, 'before'],
];

export const BOARD_COMMANDS: readonly Command[] = [
  ...[true, false].flatMap((coarse) =>
    WAYS.map(
      ([keys, key, words]): Command => ({
        id: `move-${keys.toLowerCase()}${coarse ? '' : '-fine'}`,
        words: `Move what is picked ${coarse ? '10' : '1'} mm ${words}`,
        group: 'Move, turn, line up',
        also: 'nudge shift step arrow',
        keys: coarse ? keys : `Shift ${keys}`,
        where: 'drawing',
        why: needsBoard,
        run: () => nudge(key, !coarse),
      }),
    ),
  ),
  {
    id: 'turn',
    words: 'Quarter turn clockwise in the view',
    group: 'Move, turn, line up',
    also: 'rotate quarter turn of the selected thing',
    keys: 'R',
    why: needsThings(1),
    run: () => turn(90),
  },
  {
    id: 'turn-back',
    words: 'Quarter turn the other way',
    group: 'Move, turn, line up',
    also: 'rotate anticlockwise',
    keys: 'Shift R',
    why: needsThings(1),
    run: () => turn(-90),
  },
  ...LINE_UPS.map(
    ([id, words, way, side]): Command => ({
      id,
      words: `Line up ${words} in the view`,
      group: 'Move, turn, line up',
      also: `align flush ${side === 'middle' ? 'centre center' : 'edge'}`,
      why: needsThings(2),
      run: () => lineUp(frameNow(), way, side),
    }),
  ),
  ...([0, 1] as const).map(
    (way): Command => ({
      id: way === 0 ? 'space-out-across' : 'space-out-up',
      words: `Space out ${way === 0 ? 'from left to right' : 'from top to bottom'}, equal gaps`,
      group: 'Move, turn, line up',
      also: 'distribute evenly',
      why: needsThings(3),
      run: () => spaceOut(frameNow(), way),
    }),
  ),
  {
    id: 'keep-together',
    words: 'Keep what is picked together',
    group: 'Pick',
    also: 'group bind',
    keys: 'Ctrl G',
    why: needsThings(2),
    run: groupChosen,
  },
  {
    id: 'let-apart',
    words: 'Let what is picked go apart',
    group: 'Pick',
    also: 'ungroup release',
    keys: 'Ctrl Shift G',
    why: needsThings(1),
    run: ungroupChosen,
  },
  {
    id: 'pick-all',
    words: 'Pick all, or all in the compartment that is picked',
    group: 'Pick',
    also: 'select everything',
    keys: 'Ctrl A',
    why: needsBoard,
    run: pickAll,
  },
  {
    id: 'pick-next',
    words: 'Pick the next thing',
    group: 'Pick',
    also: 'select following',
    keys: 'Page down',
    where: 'drawing',
    why: needsBoard,
    run: () => pickBeside(1),
  },
  {
    id: 'pick-previous',
    words: 'Pick the thing before',
    group: 'Pick',
    also: 'select previous',
    keys: 'Page up',
    where: 'drawing',
    why: needsBoard,
    run: () => pickBeside(-1),
  },
  ...([1, -1] as const).map(
    (by): Command => ({
      id: by > 0 ? 'pick-also-next' : 'pick-also-previous',
      words: by > 0 ? 'Pick the next thing too' : 'Pick the thing before too',
      group: 'Pick',
      also: 'select several extend',
      keys: by > 0 ? 'Shift Page down' : 'Shift Page up',
      where: 'drawing',
      why: needsBoard,
      run: () => pickBeside(by, true),
    }),
  ),
  {
    id: 'pick-first',
    words: 'Pick the first thing',
    group: 'Pick',
    keys: 'Home',
    where: 'drawing',
    why: needsBoard,
    run: () => pickAt(0),
  },
  {
    id: 'pick-last',
    words: 'Pick the last thing listed',
    group: 'Pick',
    keys: 'End',
    where: 'drawing',
    why: needsBoard,
    run: () => pickAt(-1),
  },
  {
    id: 'go-to-picked',
    words: 'Take the view to what is picked',
    group: 'View',
    also: 'centre show zoom to selection',
    why: needsSelection,
    run: () => {
      const { selection, glideTo } = useApp.getState();
      const here = boardNow()
        ?.scene()
        ?.placed.find(({ id }) => selection?.kind === 'thing' && id === selection.id);
      if (here) glideTo(here.pose.at);
    },
  },
  {
    id: 'view-next',
    words: 'The next view takes the keys',
    group: 'View',
    also: 'profile plan section active',
    keys: 'V',
    where: 'drawing',
    why: needsBoat,
    run: () => view(1),
  },
  {
    id: 'view-previous',
    words: 'The view before takes the keys',
    group: 'View',
    also: 'profile plan section active',
    keys: 'Shift V',
    where: 'drawing',
    why: needsBoat,
    run: () => view(-1),
  },
  {
    id: 'zoom-in',
    words: 'Closer',
    group: 'View',
    also: 'zoom in larger',
    keys: '+',
    moreKeys: ['='],
    where: 'drawing',
    why: needsBoard,
    run: () => zoom(ZOOM_STEP * ZOOM_STEP),
  },
  {
    id: 'zoom-out',
    words: 'Further away',
    group: 'View',
    also: 'zoom out smaller',
    keys: '\u2212',
    where: 'drawing',
    why: needsBoard,
    run: () => zoom(1 / (ZOOM_STEP * ZOOM_STEP)),
  },
  {
    id: 'zoom-all',
    words: 'The whole boat',
    group: 'View',
    also: 'zoom fit all',
    keys: '0',
    where: 'drawing',
    why: needsBoard,
    run: () => boardNow()?.camera().fit(),
  },
];
