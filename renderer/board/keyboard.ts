import type { KeyboardEvent } from 'react';
import { keyed } from '../app/command';
import { useApp } from '../store/app';
import { useDrag } from '../store/drag';
import { useDrawing } from '../store/drawing';
import { lookAtPlace, placeThere, usePlacing } from '../store/placing';
import { useRunQuestion } from '../store/run-question';
import { BOARD_COMMANDS } from './board-commands';
import { toolKey } from './drawing/tool-pointing';
import type { Scene } from './scene';

const onDrawing = keyed(BOARD_COMMANDS.filter(({ where }) => where === 'drawing'));

/** Keys of the board while its list has the focus. Returns true for a key that it used. */
export function boardKey(event: KeyboardEvent, scene: Scene, cancel: () => boolean): boolean {
  const app = useApp.getState();
  const { key } = event;
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
  if (scene.tinting && placeKey(event)) return true;
  if (toolKey(scene, key)) return true;
  const command = onDrawing(event);
  command?.run();
  return command !== null;
}

/** While it is asked where parts can go: page keys look at one place after the other, Enter moves the parts there. */
function placeKey({ key, shiftKey }: KeyboardEvent): boolean {
  if (shiftKey) return false;
  if (key === 'Enter') placeThere();
  else if (key === 'PageDown' || key === 'PageUp') lookAtPlace(key === 'PageDown' ? 1 : -1);
  else return false;
  return true;
}

/** Escape puts down, one after the other: the question where parts can go, the tool, the face in hand, at last the selection. */
function putDown(): boolean {
  const { tool, setTool } = useApp.getState();
  const { about, drop } = useRunQuestion.getState();
  const { parts, close } = usePlacing.getState();
  if (parts.length > 0) {
    close();
    return true;
  }
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
