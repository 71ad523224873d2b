import type { Part } from '@core/boat/schema/boat';
import { type Locker, type LockerProblem, problemsOf } from '@core/engine/fit/locker';
import { useMemo } from 'react';
import { type Study, useStudy } from '../../store/study';

/** Typing goes on for so long before the search begins, milliseconds. */
const PAUSE_MS = 150;

export interface Answered {
  readonly study: Study<'locker'>;
  readonly problems: readonly LockerProblem[];
}

/** The answers to what is entered. While the readings cannot be a locker the last good ones stand. */
export function useAnswers(locker: Locker, parts: Readonly<Record<string, Part>>): Answered {
  const problems = useMemo(() => problemsOf(locker), [locker]);
  const from = useMemo(() => (problems.length > 0 ? null : { locker, parts }), [locker, parts, problems]);
  return { study: useStudy('locker', from, PAUSE_MS), problems };
}
