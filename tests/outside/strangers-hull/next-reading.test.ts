import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import { nextReadings } from '@core/engine/measure-next/next-readings';
import { describe, expect, it } from 'vitest';

/** A filter of 135 x 135 x 320 mm in a roomy locker behind a door: only the door can be in doubt. */
function lockerWith(door: object) {
  const read = readBoat(
    JSON.stringify({
      format: 'underberth-boat',
      schemaVersion: 1,
      name: 'One locker',
      compartments: {
        cabin: {
          name: 'Cabin',
          kind: 'cabin',
          view: 'plan',
          outline: [
            [0, -1],
            [1.2, -1],
            [1.2, -0.02],
            [0, -0.02],
          ],
          rangeM: [-0.4, 1.5],
        },
        locker: {
          name: 'Locker',
          view: 'plan',
          outline: [
            [0, 0],
            [1.2, 0],
            [1.2, 0.7],
            [0, 0.7],
          ],
          rangeM: [-0.4, 0.3],
        },
      },
      openings: {
        door: {
          name: 'Door',
          compartment: 'locker',
          to: 'cabin',
          at: [0.6, -0.01, -0.05],
          normal: [0, -1, 0],
          ...door,
        },
      },
      parts: { filter: { name: 'Filter', kind: 'filter', shape: { type: 'box', sizeM: [0.135, 0.135, 0.32] } } },
      arrangements: { plan: { name: 'Plan', places: { filter: { at: [0.6, 0.35, -0.05] } } } },
    }),
  );
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  const wayIn = analyze(read.boat).findings.find(({ key }) => key === 'access/way-in|filter|');
  if (wayIn?.outcome !== 'pass' && wayIn?.outcome !== 'fail') throw new Error('expected a verdict on the way in');
  return { wayIn, next: nextReadings(read.boat).map(({ id, paths }) => ({ id, paths })) };
}

describe('a door that is narrow and high', () => {
  it.each([
    [{ widthM: 0.14, heightM: 0.4 }, 'openings.door.widthM', 0.005],
    [{ widthM: 0.4, heightM: 0.14 }, 'openings.door.heightM', 0.005],
    [{ widthM: 0.125, heightM: 0.4 }, 'openings.door.widthM', -0.01],
  ])('hangs on its narrow side alone: %o', (size, path, spareM) => {
    const { wayIn, next } = lockerWith({ ...size, grade: 'taped' });
    expect(wayIn.measured?.value).toBeCloseTo(spareM, 9);
    // derived: a side taped to 20 mm and a part measured to 5 mm, root of the sum of squares
    expect(wayIn.closeCall?.gradeM).toBeCloseTo(Math.hypot(0.02, 0.005), 9);
    expect(next.flatMap(({ paths }) => paths)).toEqual([path]);
  });

  it('is settled by that reading: 155 mm measured passes, 115 mm does not, and neither is a close call', () => {
    const wide = lockerWith({ widthM: 0.155, heightM: 0.4, grade: 'measured' });
    const narrow = lockerWith({ widthM: 0.115, heightM: 0.4, grade: 'measured' });
    expect([wide.wayIn.outcome, narrow.wayIn.outcome]).toEqual(['pass', 'fail']);
    expect([wide.wayIn.closeCall, narrow.wayIn.closeCall]).toEqual([undefined, undefined]);
  });

  it('with both sides near, hangs on both', () => {
    const { wayIn } = lockerWith({ widthM: 0.142, heightM: 0.145, grade: 'taped' });
    expect(wayIn.closeCall?.gradeM).toBeCloseTo(Math.hypot(0.02, 0.02, 0.005), 9);
  });
});
