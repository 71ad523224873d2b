import { type BoatRecipe, edit } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import {
  allowedPoint,
  isAcceptedUnfair,
  knuckleSet,
  pointAdded,
  pointMoved,
  pointRemoved,
  stationDeleted,
  stationsInOrder,
  stationsRenumbered,
  stationsReplaced,
  unfairAccepted,
} from '@core/boat/station-edits';
import { describe, expect, it } from 'vitest';
import { emptyBoat } from '../../support/boats';

const boat = (): Boat =>
  done(checked(emptyBoat()), (draft) => {
    draft.hull = {
      stations: {
        b: {
          xM: 2,
          points: [
            [0, -1],
            [0.5, -0.8],
            [1, 0],
            [1.1, 0.8],
          ],
          knuckles: [1, 2],
        },
        a: {
          xM: 0,
          points: [
            [0, -0.5],
            [0.8, 0],
            [0.9, 0.8],
          ],
        },
        c: {
          xM: 4,
          points: [
            [0, -0.2],
            [0, 0.9],
          ],
        },
      },
      grade: 'taped',
      measuredTo: 'outside',
      shellM: 0.01,
      liningM: 0,
      offsetM: 0,
      sheerIsDeck: true,
    };
    draft.typed = {
      'hull.stations.b.points[2][0]': '1 m',
      'hull.stations.b.points[3][1]': '80 cm',
      'hull.stations.a.xM': '0 in',
    };
  });

function checked(draft: ReturnType<typeof emptyBoat>): Boat {
  const result = checkBoat(draft);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
}

function done(from: Boat, recipe: BoatRecipe): Boat {
  const result = edit(from, recipe);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
}

describe('edits of stations', () => {
  it('a point that moves loses what was typed for the coordinate that changed, and only that', () => {
    const after = done(boat(), pointMoved('b', 2, [1.05, 0]));
    expect(after.hull?.stations.b?.points[2]).toEqual([1.05, 0]);
    expect(after.typed?.['hull.stations.b.points[2][0]']).toBeUndefined();
    expect(after.typed?.['hull.stations.b.points[3][1]']).toBe('80 cm');
  });

  it('a new point shifts knuckles and typed words to the points they belong to; removing it shifts them back', () => {
    const before = boat();
    const more = done(before, pointAdded('b', 2, [0.8, -0.4]));
    expect(more.hull?.stations.b?.knuckles).toEqual([1, 3]);
    expect(more.typed).toMatchObject({
      'hull.stations.b.points[3][0]': '1 m',
      'hull.stations.b.points[4][1]': '80 cm',
    });
    expect(done(more, pointRemoved('b', 2))).toEqual(before);
  });

  it('a removed knuckle is no knuckle of the point after it', () => {
    const after = done(boat(), pointRemoved('b', 1));
    expect(after.hull?.stations.b?.knuckles).toEqual([1]);
    expect(done(after, knuckleSet('b', 1, false)).hull?.stations.b?.knuckles).toBeUndefined();
  });

  it('a point stays between the heights of those beside it and off the far side of the centreline', () => {
    const points = boat().hull?.stations.b?.points ?? [];
    expect(allowedPoint(points, 1, [-0.2, 0.4])).toEqual([0, 0]);
    expect(allowedPoint(points, 1, [0.3, -1.4])).toEqual([0.3, -1]);
    expect(allowedPoint(points, 0, [0, -3])).toEqual([0, -3]);
  });

  it('an accepted point is accepted while it stands there', () => {
    const after = done(boat(), unfairAccepted('b', [0.5, -0.8]));
    const station = after.hull?.stations.b;
    expect(station && isAcceptedUnfair(station, [0.5, -0.8])).toBe(true);
    expect(station && isAcceptedUnfair(station, [0.51, -0.8])).toBe(false);
  });

  it('two stations at one place are refused, and the boat stands', () => {
    const result = edit(boat(), ({ hull }) => {
      if (hull?.stations.a) hull.stations.a.xM = 2;
    });
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.problems[0]?.message).toContain('stands at the same place');
  });

  it('renumbers from aft, and typed words go along', () => {
    const after = done(boat(), stationsRenumbered());
    expect(stationsInOrder(after.hull as NonNullable<Boat['hull']>).map(([id]) => id)).toEqual(['s0', 's1', 's2']);
    expect(after.hull?.stations.s1?.points).toEqual(boat().hull?.stations.b?.points);
    expect(after.typed).toEqual({
      'hull.stations.s1.points[2][0]': '1 m',
      'hull.stations.s1.points[3][1]': '80 cm',
      'hull.stations.s0.xM': '0 in',
    });
  });

  it('a station that goes takes its typed words with it; the last two stay', () => {
    const after = done(boat(), stationDeleted('b'));
    expect(Object.keys(after.typed ?? {})).toEqual(['hull.stations.a.xM']);
    expect(edit(after, stationDeleted('a')).ok).toBe(false);
  });

  it('another table of stations keeps what else the hull says', () => {
    const stations = {
      p: {
        xM: 0,
        points: [
          [0, -1],
          [1, 0],
        ] as [number, number][],
      },
      q: {
        xM: 3,
        points: [
          [0, -1],
          [1, 0],
        ] as [number, number][],
      },
    };
    const after = done(boat(), stationsReplaced(stations, { grade: 'measured' }));
    expect(Object.keys(after.hull?.stations ?? {})).toEqual(['p', 'q']);
    expect(after.hull).toMatchObject({ shellM: 0.01, grade: 'measured' });
    expect(after.typed).toEqual({});
  });
});
