import { useEffect, useState } from 'react';
import type { Studies, StudyKind } from '../worker/studies/protocol';
import { studiesNow } from './connections';

/** What takes longer than this is said to be being worked out, milliseconds. */
const LONG_MS = 300;

export interface Study<K extends StudyKind> {
  /** The last answer, kept while a newer one is worked out. */
  readonly gives: Studies[K]['gives'] | null;
  /** What that answer rests on. */
  readonly from: Studies[K]['from'] | null;
  /** A newer question waits, or what was asked last did not come to an answer. */
  readonly isStale: boolean;
  /** It has waited for so long that it is worth a word. */
  readonly isLong: boolean;
  /** What the work on the newest question threw: a fault of the program. */
  readonly fault: string | null;
}

/**
 * The answer to a question that may take its time. It is asked when it is another object than before, and `pauseMs` later where there
 * is an answer to be seen meanwhile; null asks nothing.
 */
export function useStudy<K extends StudyKind>(kind: K, from: Studies[K]['from'] | null, pauseMs = 0): Study<K> {
  const [last, setLast] = useState<{
    readonly asked: Studies[K]['from'] | null;
    readonly answered: { readonly from: Studies[K]['from']; readonly gives: Studies[K]['gives'] } | null;
    readonly fault: string | null;
  }>({ asked: null, answered: null, fault: null });
  const waits = from !== null && last.asked !== from;
  const isLong = useIsLong(waits);
  const pause = last.answered === null ? 0 : pauseMs;
  useEffect(() => {
    if (from === null || !waits) return;
    let takeBack = (): void => {};
    const timer = setTimeout(() => {
      takeBack = studiesNow().study(kind, from, (told) =>
        setLast((before) =>
          told.ok
            ? { asked: from, answered: { from, gives: told.gives }, fault: null }
            : { asked: from, answered: before.answered, fault: told.message },
        ),
      );
    }, pause);
    return () => {
      clearTimeout(timer);
      takeBack();
    };
  }, [kind, from, waits, pause]);
  const isStale = last.answered?.from !== from;
  return {
    gives: last.answered?.gives ?? null,
    from: last.answered?.from ?? null,
    isStale: from !== null && isStale,
    isLong,
    fault: last.asked === from ? last.fault : null,
  };
}

/** Whether something has been going on for long enough to be told. */
export function useIsLong(goesOn: boolean): boolean {
  const [isLong, setLong] = useState(false);
  useEffect(() => {
    if (!goesOn) return;
    const timer = setTimeout(() => setLong(true), LONG_MS);
    return () => {
      clearTimeout(timer);
      setLong(false);
    };
  }, [goesOn]);
  return isLong && goesOn;
}
