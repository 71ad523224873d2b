import { useCallback, useEffect, useRef, useState } from 'react';
import { useCursor } from '../store/cursor';
import type { Glide } from '../store/types';
import { between, kept } from './camera';
import type { Camera, Extent, Sheet } from './sheet';

const GLIDE_MS = 180;
/** A glide to a place comes at least this much closer than the whole boat. */
const GLIDE_CLOSER = 1.8;

export interface CameraControl {
  readonly camera: Camera;
  /** Moving: a gesture or a glide is under way, so words stay as they were placed. */
  readonly moving: boolean;
  change(next: (camera: Camera) => Camera): void;
  fit(): void;
}

/** The camera is null as long as it shows the whole sheet, so that it follows every change of size. */
export function useCamera(sheet: Sheet, extent: Extent, glide: Glide | null): CameraControl {
  const [own, setOwn] = useState<Camera | null>(null);
  const [moving, setMoving] = useState(false);
  const settle = useRef<ReturnType<typeof setTimeout>>(undefined);
  const frame = useRef(0);
  const latest = useRef({ sheet, extent, camera: sheet.fit });
  const camera = own ?? sheet.fit;
  latest.current = { sheet, extent, camera };

  const touched = useCallback(() => {
    setMoving(true);
    clearTimeout(settle.current);
    settle.current = setTimeout(() => setMoving(false), 140);
  }, []);

  const change = useCallback(
    (next: (camera: Camera) => Camera) => {
      cancelAnimationFrame(frame.current);
      touched();
      setOwn((before) => kept(next(before ?? latest.current.sheet.fit), latest.current.extent));
    },
    [touched],
  );
  const fit = useCallback(() => {
    cancelAnimationFrame(frame.current);
    touched();
    setOwn(null);
  }, [touched]);

  const seen = useRef(glide?.count ?? 0);
  useEffect(() => {
    if (!glide || glide.count === seen.current) return;
    seen.current = glide.count;
    const { sheet: now, camera: from } = latest.current;
    const to: Camera = { scale: Math.max(from.scale, now.fit.scale * GLIDE_CLOSER), at: glide.at };
    if (window.matchMedia('(prefers-reduced-motion: reduce)').matches) {
      change(() => to);
      return;
    }
    const start = performance.now();
    const tick = (time: number) => {
      const t = Math.min(1, Math.max(0, (time - start) / GLIDE_MS));
      touched();
      setOwn(between(from, to, 1 - (1 - t) * (1 - t)));
      if (t < 1) frame.current = requestAnimationFrame(tick);
    };
    frame.current = requestAnimationFrame(tick);
  }, [glide, change, touched]);

  useEffect(() => () => clearTimeout(settle.current), []);
  const { scale } = camera;
  useEffect(() => useCursor.getState().setPixelsPerMetre(scale), [scale]);
  return { camera, moving, change, fit };
}
