import type { Part } from '@core/boat/schema/boat';
import { type Locker, type LockerProblem, problemsOf } from '@core/engine/fit/locker';
import type { LockerAnswers } from '@core/engine/fit/one-locker';
import { useEffect, useMemo, useState } from 'react';

/** Typing goes on for so long before the search begins, milliseconds. */
const PAUSE_MS = 150;

export interface Answered {
  /** The last answers, kept while newer ones are worked out. */
  readonly answers: LockerAnswers | null;
  readonly isStale: boolean;
  readonly problems: readonly LockerProblem[];
  /** What the search threw: a fault of the program. */
  readonly fault: string | null;
}

/** The answers to what is entered. While the readings cannot be a locker the last good ones stand. */
export function useAnswers(locker: Locker, parts: Readonly<Record<string, Part>>): Answered {
  const problems = useMemo(() => problemsOf(locker), [locker]);
  const [found, setFound] = useState<{
    readonly for: readonly [Locker, Readonly<Record<string, Part>>];
    readonly answers: LockerAnswers | null;
    readonly fault: string | null;
  } | null>(null);
  useEffect(() => {
    if (problems.length > 0) return;
    let isWanted = true;
    const timer = setTimeout(async () => {
      const { answerAlone, lockerAnswers } = await import('@core/engine/fit/one-locker');
      try {
        // One part at a time, so that a key typed meanwhile is taken; the whole answer then finds them done.
        for (const [id, part] of Object.entries(parts)) {
          if (!isWanted) return;
          answerAlone(locker, id, part);
          await new Promise((next) => setTimeout(next));
        }
        if (!isWanted) return;
        setFound({ for: [locker, parts], answers: lockerAnswers(locker, parts), fault: null });
      } catch (error) {
        const fault = error instanceof Error ? error.message : String(error);
        setFound((before) => ({ for: [locker, parts], answers: before?.answers ?? null, fault }));
      }
    }, PAUSE_MS);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [locker, parts, problems]);
  const isStale = found?.for[0] !== locker || found.for[1] !== parts;
  return { answers: found?.answers ?? null, isStale, problems, fault: found?.fault ?? null };
}
