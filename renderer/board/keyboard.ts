import { add, type Vec3 } from '@core/base/vec';
import { FRAMES } from '@core/output/views/drawing';
import type { KeyboardEvent } from 'react';
import { useApp } from '../store/app';
import { useDrag } from '../store/drag';
import { useDrawing } from '../store/drawing';
import { heldOf, nudgePulled } from '../store/pulled';
import { useRunQuestion } from '../store/run-question';
import { sameSelection } from '../store/select';
import type { FieldView, Selection } from '../store/types';
import { nudgeOf } from '../tools/gesture';
import type { ListedOption } from './BoardList';
import { ZOOM_STEP, zoomed } from './camera';
import { nudgeShape } from './drawing/nudge';
import { toolKey } from './drawing/tool-pointing';
import { slidBy } from './pulling';
import { detailFrame, type Scene } from './scene';
import type { CameraControl } from './use-camera';

const VIEWS: readonly FieldView[] = ['profile', 'plan', 'section'];

/** Keys of the board while its list has the focus. Returns true for a key that it used. */
export function boardKey(
  event: KeyboardEvent,
  scene: Scene,
  options: readonly ListedOption[],
  control: CameraControl,
  cancel: () => boolean,
): boolean {
  const app = useApp.getState();
  const { key, shiftKey } = event;
  if (event.ctrlKey || event.metaKey) return false;
  if (key === 'Escape') {
    if (!cancel() && !putDown()) {
      if (app.selection === null) return false;
      app.select(null);
    }
    return true;
  }
  // A held thing follows the pointer alone.
  const { thingId, pulled } = useDrag.getState();
  if (thingId !== null || pulled !== null) return key.startsWith('Arrow');
  if (toolKey(scene, key)) return true;
  const frame = FRAMES[detailFrame(app.activeView).name];
  const picked = app.selection?.kind === 'thing' ? app.selection.id : null;
  const nudge = nudgeOf(key, shiftKey, frame.right, frame.up);
  if (nudge) {
    if (picked) app.nudge(picked, nudge);
    else if (nudgeOfRun(scene, app.selection, nudge)) return true;
    else if (!nudgeShape(app.selection, nudge)) pickNext(options, 1);
    return true;
  }
  switch (key) {
    case 'PageDown':
      pickNext(options, 1);
      return true;
    case 'PageUp':
      pickNext(options, -1);
      return true;
    case 'Home':
      pickAt(options, 0);
      return true;
    case 'End':
      pickAt(options, -1);
      return true;
    case 'r':
    case 'R':
      if (picked) turnInView(picked, frame.toViewer, shiftKey ? 90 : -90);
      return picked !== null;
    case 'v':
    case 'V': {
      const at = VIEWS.indexOf(app.activeView);
      const next = VIEWS[(at + (shiftKey ? VIEWS.length - 1 : 1)) % VIEWS.length];
      if (next) app.setActiveView(next);
      return true;
    }
    case '[':
    case '{':
      app.setSectionX(app.sectionX - (shiftKey ? 0.01 : 0.1));
      return true;
    case ']':
    case '}':
      app.setSectionX(app.sectionX + (shiftKey ? 0.01 : 0.1));
      return true;
    case '+':
    case '=':
      control.change((camera) => zoomed(scene.sheet, camera, ZOOM_STEP * ZOOM_STEP));
      return true;
    case '-':
      control.change((camera) => zoomed(scene.sheet, camera, 1 / (ZOOM_STEP * ZOOM_STEP)));
      return true;
    case '0':
      control.fit();
      return true;
    default:
      return false;
  }
}

/** Escape puts down, one after the other: the tool, the face in hand, at last the selection. */
function putDown(): boolean {
  const { tool, setTool } = useApp.getState();
  const { about, drop } = useRunQuestion.getState();
  if (about === 'alternatives') {
    drop();
    return true;
  }
  if (tool !== 'select') {
    setTool('select');
    return true;
  }
  if (useDrawing.getState().grip === null) return false;
  useDrawing.setState({ grip: null });
  return true;
}

/** Clockwise as one looks at the view: about the axis towards the eye, turned the other way round. */
function turnInView(thing: string, towards: readonly [number, number, number], deg: number): void {
  const axis = towards[0] !== 0 ? 0 : towards[1] !== 0 ? 1 : 2;
  useApp.getState().turn(thing, (['x', 'y', 'z'] as const)[axis] ?? 'z', deg * (towards[axis] ?? 1));
}

/** A clip point moves freely, a hole in its panel. */
function nudgeOfRun(scene: Scene, selection: Selection | null, by: Vec3): boolean {
  if (!selection) return false;
  const held = heldOf(scene.boat, scene.arrangementId, selection);
  if (!held) return selection.kind === 'crossing';
  return nudgePulled(selection, (at) => (held.kind === 'clip' ? add(at, by) : slidBy(scene, held, at, by)));
}

function pickNext(options: readonly ListedOption[], by: 1 | -1): void {
  const { selection } = useApp.getState();
  const at = options.findIndex((o) => sameSelection(o.selection, selection));
  const next = at < 0 ? (by > 0 ? 0 : options.length - 1) : (at + by + options.length) % options.length;
  pickAt(options, next);
}

function pickAt(options: readonly ListedOption[], index: number): void {
  const option = options.at(index);
  if (option) useApp.getState().select(option.selection);
}
