import type { Vec2 } from '@core/base/vec';
import type { ViewName } from '@core/output/views/drawing';
import { type RefObject, useEffect, useRef, useState } from 'react';
import { panned, wheelFactor, zoomedAbout } from '../camera';
import { type Camera, type Sheet, within } from '../sheet';
import { boxIn } from './sheet';

/** Wheel and drag on a rehearsal: closer and further about the pointer, and to the side. */
export function useRehearsalPointing(
  canvas: RefObject<HTMLCanvasElement | null>,
  sheet: Sheet,
  change: (next: (camera: Camera) => Camera) => void,
): { readonly cursor: 'grab' | 'grabbing' } {
  const [held, setHeld] = useState(false);
  const latest = useRef({ sheet, change });
  latest.current = { sheet, change };
  useEffect(() => {
    const element = canvas.current;
    if (!element) return;
    let drag: { view: ViewName; at: Vec2 } | null = null;
    const placeOf = (event: MouseEvent): Vec2 => {
      const { left, top } = element.getBoundingClientRect();
      return [event.clientX - left, event.clientY - top];
    };
    const onWheel = (event: WheelEvent): void => {
      const at = placeOf(event);
      const view = viewAt(latest.current.sheet, at);
      if (!view) return;
      event.preventDefault();
      const pointer = onSheet(latest.current.sheet, view, at);
      latest.current.change((camera) => zoomedAbout(latest.current.sheet, camera, view, pointer, wheelFactor(event)));
    };
    const onDown = (event: PointerEvent): void => {
      const at = placeOf(event);
      const view = viewAt(latest.current.sheet, at);
      if (!view || event.button !== 0) return;
      drag = { view, at };
      element.setPointerCapture(event.pointerId);
      setHeld(true);
    };
    const onMove = (event: PointerEvent): void => {
      if (!drag) return;
      const { view, at } = drag;
      const now = placeOf(event);
      drag = { view, at: now };
      latest.current.change((camera) => panned(camera, view, now[0] - at[0], now[1] - at[1]));
    };
    const onUp = (): void => {
      drag = null;
      setHeld(false);
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    element.addEventListener('pointerdown', onDown);
    element.addEventListener('pointermove', onMove);
    element.addEventListener('pointerup', onUp);
    element.addEventListener('pointercancel', onUp);
    return () => {
      element.removeEventListener('wheel', onWheel);
      element.removeEventListener('pointerdown', onDown);
      element.removeEventListener('pointermove', onMove);
      element.removeEventListener('pointerup', onUp);
      element.removeEventListener('pointercancel', onUp);
    };
  }, [canvas]);
  return { cursor: held ? 'grabbing' : 'grab' };
}

/** The plan stands beside the profile or below it; the camera knows it below. */
function onSheet({ fields: { profile, plan } }: Sheet, view: ViewName, [x, y]: Vec2): Vec2 {
  return view === 'plan' ? [x + profile.x + profile.w / 2 - plan.x - plan.w / 2, y] : [x, y];
}

const viewAt = (sheet: Sheet, at: Vec2): ViewName | null =>
  (['profile', 'section', 'plan'] as const).find((name) => within(boxIn(sheet.fields[name]), at)) ?? null;
