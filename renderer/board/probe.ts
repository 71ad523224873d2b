import type { Vec2, Vec3 } from '@core/base/vec';
import { project } from '@core/output/views/drawing';
import { useApp } from '../store/app';
import { useDrag } from '../store/drag';
import { useJudging } from '../store/judged-edit';
import type { FieldView } from '../store/types';
import { detailTransform, focusOf } from './focus';
import { heldNow, liveOf } from './live';
import { cutMarkPlaces } from './paint/overlay';
import { type Scene, viewsOf } from './scene';
import { toScreen } from './sheet';

/** Eyes for end-to-end tests, only with `?e2e` in the address: where things are on screen, and what the stores hold. */
export interface BoardProbe {
  /** Middle of a thing in a field, page pixels; null when it is not placed. */
  clientPos(thingId: string, view: FieldView): Vec2 | null;
  /** A point of the boat in a field, page pixels. */
  clientAt(at: Vec3, view: FieldView): Vec2 | null;
  cutMark(): { readonly x: number; readonly top: number; readonly bottom: number } | null;
  scale(): number;
  /** The answer on the drawing is that of the boat on it, and no edit is under way. */
  isSettled(): boolean;
  /** And nothing more comes for it. */
  isAtRest(): boolean;
  app(): ReturnType<typeof useApp.getState>;
  drag(): ReturnType<typeof useDrag.getState>;
}

declare global {
  interface Window {
    underberthBoard?: BoardProbe;
  }
}

function isSettled(): boolean {
  const { report, stale } = useApp.getState();
  return report !== null && !stale && !useJudging.getState().isJudging;
}

export function registerProbe(scene: () => Scene | null): (() => void) | undefined {
  if (!new URLSearchParams(window.location.search).has('e2e')) return undefined;
  const origin = () => document.querySelector('[data-testid="board"]')?.getBoundingClientRect();
  const clientAt = (at: Vec3, view: FieldView): Vec2 | null => {
    const now = scene();
    const box = origin();
    if (!now || !box) return null;
    const focus = focusOf(now, liveOf(now, heldNow()));
    const looking =
      view === 'detail'
        ? focus && { t: detailTransform(now.sheet.fields.detail, focus).t, frame: focus.frame }
        : viewsOf(now).find((v) => v.name === view);
    if (!looking) return null;
    const [x, y] = toScreen(looking.t, project(looking.frame, at));
    return [x + box.left, y + box.top];
  };
  window.underberthBoard = {
    clientPos(thingId, view) {
      const placed = scene()?.placed.find((p) => p.id === thingId);
      return placed ? clientAt(placed.pose.at, view) : null;
    },
    clientAt,
    cutMark() {
      const now = scene();
      const box = origin();
      if (!now || !box) return null;
      const { x, top, bottom } = cutMarkPlaces(now);
      return { x: x + box.left, top: top + box.top, bottom: bottom + box.top };
    },
    scale: () => scene()?.camera.scale ?? 0,
    isSettled,
    isAtRest: () => isSettled() && !useApp.getState().searching,
    app: () => useApp.getState(),
    drag: () => useDrag.getState(),
  };
  return () => {
    delete window.underberthBoard;
  };
}
