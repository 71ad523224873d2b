import { serviceBurden, timesAYear } from '@core/base/formulas/service-burden';
import { describe, expect, it } from 'vitest';

describe('minutes of service a year', () => {
  // Derived: a strainer every 20 h of 240 h is 12 times, each 3 min of work and 1 min for a lid: 48 min, 12 of them for access.
  it('of one task is the sum by hand', () => {
    const times = timesAYear({ intervalH: 20, intervalDays: null }, 240);
    expect(times).toBe(12);
    expect(serviceBurden([{ timesAYear: times, accessMinutes: 1, workMinutes: 3 }])).toEqual({
      aYear: 48,
      accessAYear: 12,
      leftOut: 0,
    });
  });

  it('counts the interval that comes first, and calendar days without hours', () => {
    expect(timesAYear({ intervalH: 100, intervalDays: 73 }, 200)).toBe(5);
    expect(timesAYear({ intervalH: 100, intervalDays: 365 }, 200)).toBe(2);
    expect(timesAYear({ intervalH: null, intervalDays: 730 }, 200)).toBe(0.5);
  });

  it('leaves out of the sum, and counts, what has no interval', () => {
    expect(timesAYear({ intervalH: null, intervalDays: null }, 200)).toBeNull();
    const tasks = [
      { timesAYear: null, accessMinutes: 20, workMinutes: 90 },
      { timesAYear: 2, accessMinutes: 0.5, workMinutes: 10 },
    ];
    expect(serviceBurden(tasks)).toEqual({ aYear: 21, accessAYear: 1, leftOut: 1 });
  });

  it('what is never run is never due by its hours', () => {
    expect(timesAYear({ intervalH: 100, intervalDays: null }, 0)).toBe(0);
  });
});
