import type { Boat } from '@core/boat/schema/boat';
import type { StowageReport } from '@core/engine/placement/stowage';
import { useEffect } from 'react';
import { create } from 'zustand';
import { studiesNow } from './connections';

/** After an edit so long a pause before it is asked anew, milliseconds. */
const PAUSE_MS = 500;

interface StowageState {
  /** The boat that was asked about last. */
  readonly asked: Boat | null;
  readonly of: Boat | null;
  readonly gives: StowageReport | null;
  /** What the work threw: a fault of the program. */
  readonly fault: string | null;
}

/** One answer for table and panel: of two that ask, neither takes back the other. */
const useAnswer = create<StowageState>()(() => ({ asked: null, of: null, gives: null, fault: null }));

let timer: ReturnType<typeof setTimeout> | undefined;
let takeBack = (): void => {};

function ask(boat: Boat): void {
  if (useAnswer.getState().asked === boat) return;
  clearTimeout(timer);
  takeBack();
  takeBack = () => {};
  useAnswer.setState({ asked: boat });
  const pause = useAnswer.getState().gives === null ? 0 : PAUSE_MS;
  timer = setTimeout(() => {
    takeBack = studiesNow().study('stowage', { boat }, (told) =>
      useAnswer.setState(told.ok ? { of: boat, gives: told.gives, fault: null } : { fault: told.message }),
    );
  }, pause);
}

export interface StowageNow {
  /** The last answer, kept while a newer one is worked out. */
  readonly gives: StowageReport | null;
  readonly isStale: boolean;
  readonly fault: string | null;
}

/** What the plan takes of the stowage and where boxes find room; null asks nothing. */
export function useStowage(boat: Boat | null): StowageNow {
  const { of, gives, fault } = useAnswer();
  useEffect(() => {
    if (boat) ask(boat);
  }, [boat]);
  return { gives, isStale: boat !== null && of !== boat, fault };
}
