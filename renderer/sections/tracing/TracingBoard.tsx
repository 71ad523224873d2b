import type { Vec2 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { profileOf, sectionsAlong, sheerInPlan } from '@core/output/views/lines-plan';
import { halfSectionAt } from '@core/shape/hull/half-section';
import {
  type JSX,
  type KeyboardEvent,
  type MouseEvent,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { tokens } from '../../app/tokens';
import { wheelFactor } from '../../board/camera';

import { registerProbe } from '../../board/probe';
import { usePixelRatio, useSize } from '../../board/use-size';
import { loadPicture } from '../../pictures/pictures';
import { useApp } from '../../store/app';
import { hullOf } from '../../store/derived';
import { fittedPicture, type PictureCamera, paintTrace, toPicture } from './paint-trace';
import { TracePanel } from './TracePanel';
import { setAt } from './trace-actions';
import { planeOf, setTrace, type TracedView, useTrace } from './trace-store';

type Loaded = { readonly bitmap: ImageBitmap; readonly widthPx: number; readonly heightPx: number };

/** Tracing over a picture: its scale, then the curve that is clicked along it. */
export default function TracingBoard({ boat }: { readonly boat: Boat }): JSX.Element {
  const pictureId = useTrace((state) => state.pictureId);
  const file = pictureId === null ? null : (boat.pictures?.[pictureId]?.file ?? null);
  const picture = usePicture(file);
  const root = useRef<HTMLDivElement>(null);
  const size = useSize(root);
  useEffect(() => registerProbe(() => null), []);
  return (
    <div className="tracing">
      <div ref={root} className="tracing-picture">
        {picture && size.width > 40 ? (
          <Picture boat={boat} picture={picture} width={size.width} height={size.height} />
        ) : (
          <p className="tracing-empty">
            {file === null
              ? 'Choose a picture: a photograph square to the boat, or an old drawing.'
              : 'Reading the picture.'}
          </p>
        )}
      </div>
      <TracePanel boat={boat} />
    </div>
  );
}

/** The decoded picture; let go of when another one is shown. */
function usePicture(file: string | null): Loaded | null {
  const [loaded, setLoaded] = useState<Loaded | null>(null);
  useEffect(() => {
    setLoaded(null);
    if (file === null) return;
    let wanted = true;
    let bitmap: ImageBitmap | null = null;
    void loadPicture(file).then((found) => {
      if (found.outcome === 'problem') {
        if (wanted) setTrace({ problem: found.message });
      } else if (wanted) {
        bitmap = found.bitmap;
        setLoaded(found);
      } else found.bitmap.close();
    });
    return () => {
      wanted = false;
      bitmap?.close();
    };
  }, [file]);
  return loaded;
}

const CROSS_STEP = 10;

function Picture({
  boat,
  picture,
  width,
  height,
}: {
  readonly boat: Boat;
  readonly picture: Loaded;
  readonly width: number;
  readonly height: number;
}): JSX.Element {
  const theme = useApp((state) => state.theme);
  const { marks, points, opacity, view, xM, mode } = useTrace();
  const ratio = usePixelRatio();
  const canvas = useRef<HTMLCanvasElement>(null);
  const surface = useRef<HTMLButtonElement>(null);
  const { widthPx, heightPx } = picture;
  const fit = useMemo(() => fittedPicture(width, height, widthPx, heightPx), [width, height, widthPx, heightPx]);
  const [moved, setMoved] = useState<PictureCamera | null>(null);
  const camera = moved ?? fit;
  const [cross, setCross] = useState<Vec2>([widthPx / 2, heightPx / 2]);
  const [focused, setFocused] = useState(false);
  const found = useMemo(() => planeOf(marks), [marks]);
  const hull = useMemo(() => linesOf(boat, view, xM), [boat, view, xM]);
  const plane = found.ok ? found.plane : null;

  useLayoutEffect(() => {
    const ctx = canvas.current?.getContext('2d');
    if (!ctx) return;
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    const colours = tokens(theme);
    paintTrace(
      ctx,
      { ...picture, camera, opacity, colours, marks, plane, points, hull, cross, focused },
      width,
      height,
    );
  }, [picture, camera, opacity, theme, marks, plane, points, hull, cross, focused, ratio, width, height]);

  const cameraRef = useRef(camera);
  cameraRef.current = camera;
  usePictureCamera(surface, cameraRef, setMoved);

  const onClick = (event: MouseEvent<HTMLButtonElement>): void => {
    // Enter and space click too: they have no place of their own and mean the cross.
    if (event.detail === 0) {
      setAt(cross);
      return;
    }
    const box = event.currentTarget.getBoundingClientRect();
    const pixel = toPicture(camera, [event.clientX - box.left, event.clientY - box.top]);
    if (pixel[0] < 0 || pixel[1] < 0 || pixel[0] > widthPx || pixel[1] > heightPx) return;
    setCross(pixel);
    setAt(pixel);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = (event.shiftKey ? 1 : CROSS_STEP) / camera.scale;
    const by: Vec2 | null =
      event.key === 'ArrowRight'
        ? [step, 0]
        : event.key === 'ArrowLeft'
          ? [-step, 0]
          : event.key === 'ArrowUp'
            ? [0, -step]
            : event.key === 'ArrowDown'
              ? [0, step]
              : null;
    if (by) {
      setCross(([x, y]) => [Math.min(widthPx, Math.max(0, x + by[0])), Math.min(heightPx, Math.max(0, y + by[1]))]);
    } else if (event.key === 'Backspace' && mode === 'trace') setTrace({ points: points.slice(0, -1) });
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <>
      <canvas
        ref={canvas}
        width={Math.round(width * ratio)}
        height={Math.round(height * ratio)}
        style={{ width, height }}
      />
      <button
        ref={surface}
        type="button"
        className="tracing-surface"
        aria-label={`The picture. Arrow keys move the cross, Enter sets a ${mode === 'scale' ? 'mark of the scale' : 'point of the curve'} there. Cross at ${Math.round(cross[0])} right, ${Math.round(cross[1])} down, of ${widthPx} by ${heightPx} pixels`}
        onClick={onClick}
        onKeyDown={onKeyDown}
        onFocus={(event) => setFocused(event.currentTarget.matches(':focus-visible'))}
        onBlur={() => setFocused(false)}
      />
      {moved ? (
        <button type="button" className="button tracing-fit" onClick={() => setMoved(null)}>
          Whole picture
        </button>
      ) : null}
    </>
  );
}

/** Wheel zooms about the pointer; the middle or right button moves the picture. */
function usePictureCamera(
  surface: { readonly current: HTMLElement | null },
  camera: { readonly current: PictureCamera },
  change: (camera: PictureCamera) => void,
): void {
  useEffect(() => {
    const element = surface.current;
    if (!element) return;
    let last: Vec2 | null = null;
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      const at: Vec2 = [event.clientX - box.left, event.clientY - box.top];
      const { scale, x, y } = camera.current;
      const factor = wheelFactor(event);
      const next = Math.min(16, Math.max(0.02, scale * factor));
      change({ scale: next, x: at[0] - ((at[0] - x) * next) / scale, y: at[1] - ((at[1] - y) * next) / scale });
    };
    const down = (event: PointerEvent) => {
      if (event.button === 0) return;
      event.preventDefault();
      element.setPointerCapture(event.pointerId);
      last = [event.clientX, event.clientY];
    };
    const move = (event: PointerEvent) => {
      if (!last) return;
      const { scale, x, y } = camera.current;
      change({ scale, x: x + event.clientX - last[0], y: y + event.clientY - last[1] });
      last = [event.clientX, event.clientY];
    };
    const up = () => {
      last = null;
    };
    const menu = (event: Event) => event.preventDefault();
    element.addEventListener('wheel', wheel, { passive: false });
    element.addEventListener('pointerdown', down);
    element.addEventListener('pointermove', move);
    element.addEventListener('pointerup', up);
    element.addEventListener('contextmenu', menu);
    return () => {
      element.removeEventListener('wheel', wheel);
      element.removeEventListener('pointerdown', down);
      element.removeEventListener('pointermove', move);
      element.removeEventListener('pointerup', up);
      element.removeEventListener('contextmenu', menu);
    };
  }, [surface, camera, change]);
}

/** The hull as it is, to be laid over the picture. */
function linesOf(boat: Boat, view: TracedView, xM: number): readonly (readonly Vec2[])[] {
  const surface = hullOf(boat);
  if (!surface) return [];
  if (view === 'profile') {
    const { keel, sheer } = profileOf(sectionsAlong(surface));
    return [keel, sheer];
  }
  const { offsetM } = surface;
  const both = (points: readonly Vec2[], across: 0 | 1): readonly (readonly Vec2[])[] =>
    [1, -1].map((side) =>
      points.map((point): Vec2 => {
        const out = offsetM + side * point[across];
        return across === 0 ? [out, point[1]] : [point[0], out];
      }),
    );
  return view === 'plan' ? both(sheerInPlan(sectionsAlong(surface)), 1) : both(halfSectionAt(surface, xM), 0);
}
