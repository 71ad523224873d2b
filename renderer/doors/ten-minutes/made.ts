import type { Problem } from '@core/boat/problem';
import type { Boat } from '@core/boat/schema/boat';
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { studiesNow } from '../../store/connections';
import { useIsLong, useStudy } from '../../store/study';
import { type Answers, type Drawn, inputOf, shellInputOf, useTenMinutes } from './answers';

/** The drawing follows this long after the last key. */
const SETTLE_MS = 120;

export interface ShellNow {
  readonly drawn: Drawn | null;
  readonly problems: readonly Problem[];
  readonly stale: boolean;
  readonly isLong: boolean;
  readonly fault: string | null;
}

/** The hull and interior of the present answers, a moment after the last change; the last good one stays while they are wrong. */
export function useShell(): ShellNow {
  const { form, values, lockers } = useTenMinutes((state) => state.answers);
  // What does not change the shape draws nothing anew.
  const from = useMemo(() => shellInputOf({ form, values, lockers }), [form, values, lockers]);
  const { gives, isStale, isLong, fault } = useStudy('shell', from, SETTLE_MS);
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  if (gives?.ok && gives !== drawn) setDrawn(gives);
  const problems = gives && !gives.ok ? gives.problems : NONE;
  return { drawn, problems, stale: isStale || problems.length > 0, isLong, fault };
}

const NONE: readonly Problem[] = [];

interface Refusal {
  readonly of: Answers;
  readonly problems: readonly Problem[];
  readonly fault: string | null;
}

export interface Drawing {
  readonly isDrawing: boolean;
  readonly isLong: boolean;
  readonly problems: readonly Problem[];
  readonly fault: string | null;
  draw(): void;
  cancel(): void;
}

/**
 * The boat is drawn aside while the door stays alive. Cancel, another answer, or leaving the door takes the wish back; `take` gets the
 * boat.
 */
export function useDrawing(answers: Answers, take: (boat: Boat) => Promise<void>): Drawing {
  const [of, setOf] = useState<Answers | null>(null);
  const [refused, setRefused] = useState<Refusal | null>(null);
  const takeBack = useRef<() => void>(() => {});
  const cancel = useCallback(() => {
    takeBack.current();
    setOf(null);
  }, []);
  useEffect(() => {
    if (of !== null && of !== answers) cancel();
  }, [of, answers, cancel]);
  useEffect(() => cancel, [cancel]);
  const isDrawing = of === answers;
  const draw = (): void => {
    setRefused(null);
    setOf(answers);
    takeBack.current = studiesNow().study('firstBoat', inputOf(answers), async (told) => {
      if (!told.ok) setRefused({ of: answers, problems: NONE, fault: told.message });
      else if (!told.gives.ok) setRefused({ of: answers, problems: told.gives.problems, fault: null });
      else await take(told.gives.boat);
      setOf(null);
    });
  };
  // A refusal speaks of the answers that it was given for, and of no others.
  const own = refused?.of === answers ? refused : null;
  return {
    isDrawing,
    isLong: useIsLong(isDrawing),
    problems: own?.problems ?? NONE,
    fault: own?.fault ?? null,
    draw,
    cancel,
  };
}
