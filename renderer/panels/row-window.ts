import { type RefObject, useCallback, useEffect, useState } from 'react';

/** Height of a row and of the heading, pixels of usual text. */
const ROW_PX = 24;
const HEADING_PX = 27;
const USUAL_PX = 16;
/** Pixels on the screen: larger text has taller rows. */
const onScreen = (px: number): number =>
  (px * (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || USUAL_PX)) / USUAL_PX;
/** Up to so many rows all of them are in the page; of more only those in sight, and some around them. */
export const ALL_UP_TO = 150;
const AROUND = 20;
/** Rows that the tallest drawer shows. */
const IN_SIGHT = 40;

export interface RowWindow {
  readonly from: number;
  readonly to: number;
  /** Heights of what is left out above and below, pixels. */
  readonly above: number;
  readonly below: number;
  /** Scrolls until the row is in sight. */
  reveal(index: number): void;
}

export function windowOf(count: number, scrolled: number, rowPx = ROW_PX): Omit<RowWindow, 'reveal'> {
  if (count <= ALL_UP_TO) return { from: 0, to: count, above: 0, below: 0 };
  const first = Math.floor(scrolled / rowPx);
  const from = Math.max(0, Math.min(count - IN_SIGHT, first) - AROUND);
  const to = Math.min(count, from + IN_SIGHT + 2 * AROUND);
  return { from, to, above: from * rowPx, below: (count - to) * rowPx };
}

/** The part of a long table that is in the page: thousands of rows would be laid out and painted for nothing. */
export function useRowWindow(body: RefObject<HTMLElement | null>, count: number): RowWindow {
  const [scrolled, setScrolled] = useState(0);
  useEffect(() => {
    const scroller = scrollerOf(body.current);
    if (!scroller || count <= ALL_UP_TO) return;
    // A step of several rows, so that not every pixel makes the table anew.
    const rowsPx = onScreen(ROW_PX) * 8;
    const onScroll = () => setScrolled(Math.floor(scroller.scrollTop / rowsPx) * rowsPx);
    onScroll();
    scroller.addEventListener('scroll', onScroll, { passive: true });
    return () => scroller.removeEventListener('scroll', onScroll);
  }, [body, count]);

  const reveal = useCallback(
    (index: number) => {
      const scroller = scrollerOf(body.current);
      if (count <= ALL_UP_TO || !scroller) {
        body.current?.querySelector(`[data-index="${index}"]`)?.scrollIntoView?.({ block: 'nearest' });
        return;
      }
      const rowPx = onScreen(ROW_PX);
      const top = index * rowPx;
      const room = scroller.clientHeight - onScreen(HEADING_PX);
      if (top < scroller.scrollTop) scroller.scrollTop = top;
      else if (top + rowPx > scroller.scrollTop + room) scroller.scrollTop = top + rowPx - room;
      setScrolled(scroller.scrollTop);
    },
    [body, count],
  );
  return { ...windowOf(count, scrolled, count <= ALL_UP_TO ? ROW_PX : onScreen(ROW_PX)), reveal };
}

const scrollerOf = (body: HTMLElement | null): HTMLElement | null => body?.closest('.drawer-rows') ?? null;
