import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { stationBetween } from '@core/shape/hull/station-between';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { box, hullOf, wigley } from '../../../support/hull-shapes';

const LEVEL = { up: [0, 0, 1], levelM: 0 } as const;

describe('a station between its neighbours', () => {
  it('lies on the form that the neighbours were taken from', () => {
    const hull = wigley(10, 3, 1.2, 21, 13, 0.5);
    const station = stationBetween(hull, 3.3);
    if (!station) throw new Error('expected a station');
    expect(station.points).toHaveLength(14);
    expect(station.knuckles).toEqual([12]);
    expect(station.taken).toBe('interpolated');
    for (const [y, z] of station.points) {
      // published: Wigley's form, y = B/2 (1 - (2x/L - 1)^2) (1 - (z/T)^2), upright above z = 0
      const truth = 1.5 * (1 - (0.66 - 1) ** 2) * (z >= 0 ? 1 : 1 - (z / 1.2) ** 2);
      expect(Math.abs(y - truth)).toBeLessThan(0.002);
    }
  });

  it('changes the volume by less than a thousandth when it is added', () => {
    const hull = wigley(10, 3, 1.2, 11, 13);
    const before = hydrostatics(hullSurface(hull), LEVEL).volumeM3;
    const station = stationBetween(hull, 4.4);
    if (!station) throw new Error('expected a station');
    const after = hydrostatics(hullSurface({ ...hull, stations: { ...hull.stations, more: station } }), LEVEL).volumeM3;
    expect(Math.abs(after / before - 1)).toBeLessThan(0.001);
  });

  it('keeps the corner of a chine and the flat of a keel', () => {
    const station = stationBetween(box(6, 2, 0.8, 0.6), 2);
    expect(station?.points).toEqual([
      [0, -0.8],
      [1, -0.8],
      [1, 0.6],
    ]);
    expect(station?.knuckles).toEqual([1]);
    const flat = hullOf(
      [0, 1, 2].map((xM) => ({
        xM,
        points: [
          [0.1, -1],
          [0.6, -0.5],
          [1, 0.5],
        ] as [number, number][],
      })),
    );
    expect(stationBetween(flat, 0.5)?.points[0]).toEqual([0.1, -1]);
  });

  it('of a hull measured inside is a station of the inside', () => {
    const hull = { ...wigley(10, 3, 1.2, 21, 13), measuredTo: 'inside' as const, shellM: 0.02, liningM: 0.03 };
    const inside = stationBetween(hull, 3.3);
    const plain = stationBetween({ ...hull, measuredTo: 'outside' }, 3.3);
    expect(inside?.points).toEqual(plain?.points);
  });

  it('is none beyond the ends and none where a station stands', () => {
    const hull = wigley(10, 3, 1.2, 11, 9);
    for (const x of [-0.1, 0, 5, 10, 10.4]) expect(stationBetween(hull, x)).toBeNull();
  });
});
