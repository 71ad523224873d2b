import { type RefObject, useEffect, useLayoutEffect, useState } from 'react';

/** Size of an element in CSS pixels, kept up to date. */
export function useSize(ref: RefObject<HTMLElement | null>): { readonly width: number; readonly height: number } {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = () => {
      const { clientWidth: width, clientHeight: height } = element;
      setSize((before) => (before.width === width && before.height === height ? before : { width, height }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}

/** Device pixels in a CSS pixel; changes when a window goes to another screen or is zoomed. */
export function usePixelRatio(): number {
  const [ratio, setRatio] = useState(() => window.devicePixelRatio || 1);
  useEffect(() => {
    const query = window.matchMedia(`(resolution: ${ratio}dppx)`);
    const changed = () => setRatio(window.devicePixelRatio || 1);
    query.addEventListener('change', changed);
    return () => query.removeEventListener('change', changed);
  }, [ratio]);
  return ratio;
}

/** Counts up once the faces of the drawing are there: words measured before would be off. */
export function useFontsReady(onReady: () => void): number {
  const [count, setCount] = useState(0);
  useEffect(() => {
    let alive = true;
    const faces = [
      '500 11px "Barlow Semi Condensed"',
      '600 11px "Barlow Semi Condensed"',
      'italic 500 11px "Barlow Semi Condensed"',
      '400 10px "Barlow Semi Condensed"',
    ];
    void Promise.allSettled(faces.map((face) => document.fonts.load(face))).then(() => {
      if (!alive) return;
      onReady();
      setCount((n) => n + 1);
    });
    return () => {
      alive = false;
    };
  }, [onReady]);
  return count;
}
