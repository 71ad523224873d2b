import { cross, norm, unit, type Vec3 } from '../base/vec';
import { lineCrossing, type OutlineFault, outlineFault } from './outline';
import { type PathPart, type Problem, problem } from './problem';
import type { Boat, Hull, KeepOut, Thing } from './schema/boat';

/** Stations closer than this would make a surface without thickness between them. */
const LEAST_STATION_SPACING_M = 0.001;
/** Sine of the least angle between two directions that must span a plane. */
const LEAST_ANGLE = 1e-3;

/** What no drawing can mean: outlines that cross themselves, ranges that run backwards, stations that coincide. */
export function checkGeometry(boat: Boat): readonly Problem[] {
  const problems: Problem[] = [];
  const report = (path: readonly PathPart[], value: unknown, limit: string): void => {
    problems.push(problem(path, value, limit));
  };
  for (const [id, { outline, rangeM }] of Object.entries(boat.compartments)) {
    const fault = outlineFault(outline);
    if (fault) report(['compartments', id, 'outline'], outline, outlineWords(fault));
    if (!(rangeM[0] < rangeM[1])) {
      report(['compartments', id, 'rangeM'], rangeM, 'the first must be below the second');
    }
  }
  if (boat.hull) checkHull(boat.hull, report);
  for (const [id, opening] of Object.entries(boat.openings)) {
    if (opening.up && parallel(opening.up, opening.normal)) {
      report(['openings', id, 'up'], opening.up, 'it must not run along the normal of the opening');
    }
  }
  for (const [group, records] of [
    ['fixtures', boat.fixtures],
    ['parts', boat.parts],
  ] as const) {
    for (const [id, thing] of Object.entries(records)) checkThing(thing, [group, id], report);
  }
  for (const [id, kind] of Object.entries(boat.lineKinds)) {
    if (kind.boreM !== undefined && kind.boreM >= kind.outsideM) {
      report(['lineKinds', id, 'boreM'], kind.boreM, `it must be below the outside diameter, ${kind.outsideM} m`);
    }
  }
  for (const [id, { holes }] of Object.entries(boat.panels)) {
    for (const [hole, { diameterM, carries }] of Object.entries(holes)) {
      for (const [one, carried] of Object.entries(carries)) {
        if (carried.diameterM <= diameterM) continue;
        const path = ['panels', id, 'holes', hole, 'carries', one, 'diameterM'];
        report(path, carried.diameterM, `it must be at most the diameter of its hole, ${diameterM} m`);
      }
    }
  }
  for (const [id, { supplied }] of Object.entries(boat.lines)) {
    if (supplied && supplied.spareM >= supplied.lengthM) {
      const limit = `it must be below the supplied length, ${supplied.lengthM} m`;
      report(['lines', id, 'supplied', 'spareM'], supplied.spareM, limit);
    }
  }
  for (const [id, { file }] of Object.entries(boat.pictures ?? {})) {
    if (/[/\\]|^\.\.?$/.test(file)) {
      report(['pictures', id, 'file'], file, 'a plain file name is needed, without a folder');
    }
  }
  return problems;
}

type Report = (path: readonly PathPart[], value: unknown, limit: string) => void;

function outlineWords(fault: OutlineFault): string {
  switch (fault.kind) {
    case 'sameCorner':
      return `corners ${fault.corners[0]} and ${fault.corners[1]} are the same point`;
    case 'crossing':
      return `the sides from corner ${fault.sides[0]} and from corner ${fault.sides[1]} cross or touch`;
    case 'noArea':
      return 'it must enclose an area';
  }
}

function checkHull(hull: Hull, report: Report): void {
  const stations = Object.entries(hull.stations);
  if (stations.length < 2) {
    report(['hull', 'stations'], stations.length, 'at least two stations are needed');
  }
  const ordered = [...stations].sort(([, a], [, b]) => a.xM - b.xM);
  ordered.forEach(([id, station], index) => {
    const next = ordered[index + 1];
    const isEnd = index === 0 || index === ordered.length - 1;
    if (next && next[1].xM - station.xM < LEAST_STATION_SPACING_M) {
      report(['hull', 'stations', next[0], 'xM'], next[1].xM, `the station ${id} stands at the same place`);
    }
    const { points } = station;
    points.forEach((point, at) => {
      const before = points[at - 1];
      if (before && point[1] < before[1]) {
        const limit = `its height must not be below that of the point before it, ${before[1]} m`;
        report(['hull', 'stations', id, 'points', at], point, limit);
      }
    });
    const crossing = lineCrossing(points);
    if (crossing) {
      const [i, j] = crossing;
      const limit = `the section crosses itself: the sides from point ${i} and from point ${j} meet`;
      report(['hull', 'stations', id, 'points', j], points[j], limit);
    }
    const keel = points[0];
    const sheer = points.at(-1);
    // An end may be a point: there the whole section has come together.
    const isPoint = isEnd && points.every(([halfBreadth]) => halfBreadth === 0);
    if (keel && sheer && sheer[1] <= keel[1] && !isPoint) {
      report(['hull', 'stations', id, 'points'], points, 'the sheer must be above the keel');
    }
    if (points.every(([halfBreadth]) => halfBreadth === 0) && !isEnd) {
      report(['hull', 'stations', id, 'points'], points, 'a station between the ends must have breadth');
    }
    station.knuckles?.forEach((knuckle, at) => {
      if (knuckle >= points.length) {
        const limit = `the station has the points 0 to ${points.length - 1}`;
        report(['hull', 'stations', id, 'knuckles', at], knuckle, limit);
      }
    });
  });
  if (stations.length >= 2 && stations.every(([, { points }]) => points.every(([breadth]) => breadth === 0))) {
    report(['hull', 'stations'], 0, 'at least one station must have breadth');
  }
}

function checkThing(thing: Thing, path: readonly PathPart[], report: Report): void {
  for (const [id, service] of Object.entries(thing.services)) {
    if (service.across && parallel(service.across, service.direction)) {
      const limit = 'it must not run along the direction of the service space';
      report([...path, 'services', id, 'across'], service.across, limit);
    }
  }
  for (const [id, sweep] of Object.entries<KeepOut>(thing.sweeps)) {
    if (sweep.type === 'sector' && !(sweep.fromDeg < sweep.toDeg && sweep.toDeg - sweep.fromDeg <= 360)) {
      const value = [sweep.fromDeg, sweep.toDeg];
      report(
        [...path, 'sweeps', id, 'fromDeg'],
        value,
        'the first angle must be below the second, by 360 degrees at most',
      );
    }
  }
}

const parallel = (a: Vec3, b: Vec3): boolean => norm(cross(unit(a), unit(b))) < LEAST_ANGLE;
