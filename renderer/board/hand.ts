import type { ListedOption } from './BoardList';
import type { Scene } from './scene';
import type { Sheet } from './sheet';
import type { CameraControl } from './use-camera';

/** The board that is on the screen, for commands that come from elsewhere; null: another page is up. */
export interface BoardHand {
  /** Null of a drawing that nothing can be picked or moved on. */
  scene(): Scene | null;
  sheet(): Sheet | null;
  camera(): CameraControl;
  options(): readonly ListedOption[];
}

let hand: BoardHand | null = null;

export const boardNow = (): BoardHand | null => hand;

/** Why a command of the drawing cannot be given now. */
export const needsDrawing = (): string | null => (hand === null ? 'The drawing is not on the screen' : null);

/** Gives back what takes it away again. */
export function handBoard(own: BoardHand): () => void {
  hand = own;
  return () => {
    if (hand === own) hand = null;
  };
}
