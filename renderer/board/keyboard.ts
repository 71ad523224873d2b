import type { KeyboardEvent } from 'react';
import { keyed } from '../app/command';
import { useApp } from '../store/app';
import { useDrag } from '../store/drag';
import { useDrawing } from '../store/drawing';
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
  if (toolKey(scene, key)) return true;
  const command = onDrawing(event);
  command?.run();
  return command !== null;
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
