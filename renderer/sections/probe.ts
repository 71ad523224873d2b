import type { Vec2 } from '@core/base/vec';
import type { RefObject } from 'react';
import { toScreen } from '../board/sheet';
import type { SectionScene } from './scene';
import { bodyTransform, onBodyPlan } from './sheet';

/** Eyes for end-to-end tests on the section board, only with `?e2e` in the address. */
export interface SectionsProbe {
  /** A point of the active station on the body plan, page pixels. */
  pointAt(index: number): Vec2 | null;
  /** A place of the body plan in the half of the active station, [half-breadth, z], page pixels. */
  clientAt(at: Vec2): Vec2 | null;
  scene(): Pick<SectionScene, 'body' | 'isHeld' | 'camera'> | null;
}

declare global {
  interface Window {
    underberthSections?: SectionsProbe;
  }
}

export function registerSectionsProbe(
  scene: () => SectionScene | null,
  canvas: RefObject<HTMLCanvasElement | null>,
): (() => void) | undefined {
  if (!new URLSearchParams(window.location.search).has('e2e')) return undefined;
  const clientAt = (at: Vec2): Vec2 | null => {
    const now = scene();
    const box = canvas.current?.getBoundingClientRect();
    if (!now || !box) return null;
    const [x, y] = toScreen(bodyTransform(now.sheet.body, now.camera), onBodyPlan(now.active.line.end, at));
    return [x + box.left, y + box.top];
  };
  window.underberthSections = {
    clientAt,
    pointAt(index) {
      const point = scene()?.active.points[index];
      return point ? clientAt(point) : null;
    },
    scene,
  };
  return () => {
    delete window.underberthSections;
  };
}
