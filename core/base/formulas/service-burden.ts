/**
 * Minutes that service takes a year.
 *
 *   times = max(hours / intervalH, 365 / intervalDays)        minutes = times x (access + work)
 *
 * hours: what the engine or the set runs in a year. Of two intervals the one that comes first counts, and so the greater number of times.
 * access: opening what is shut and moving what is in the way, and putting it back. Arithmetic of ours; intervals and minutes are assumptions.
 */
const DAYS_A_YEAR = 365;

export interface Intervals {
  readonly intervalH: number | null;
  readonly intervalDays: number | null;
}

/** How often a year; null where no interval says. */
export function timesAYear({ intervalH, intervalDays }: Intervals, hoursAYear: number): number | null {
  if (intervalH === null && intervalDays === null) return null;
  return Math.max(
    intervalH === null ? 0 : hoursAYear / intervalH,
    intervalDays === null ? 0 : DAYS_A_YEAR / intervalDays,
  );
}

export interface BurdenShare {
  /** Null: in no sum. */
  readonly timesAYear: number | null;
  readonly accessMinutes: number;
  readonly workMinutes: number;
}

/** Sum over tasks: all minutes, those of access alone, and how many tasks without an interval are left out. */
export function serviceBurden(tasks: readonly BurdenShare[]): {
  readonly aYear: number;
  readonly accessAYear: number;
  readonly leftOut: number;
} {
  const sum = (minutes: (task: BurdenShare) => number): number =>
    tasks.reduce((total, task) => total + (task.timesAYear ?? 0) * minutes(task), 0);
  return {
    aYear: sum(({ accessMinutes, workMinutes }) => accessMinutes + workMinutes),
    accessAYear: sum(({ accessMinutes }) => accessMinutes),
    leftOut: tasks.filter((task) => task.timesAYear === null).length,
  };
}
