import * as portable from '../../base/portable';
import { add, cosSin, degrees, dot, scale, unit, type Vec3 } from '../../base/vec';
import { combine, gradeM } from '../../boat/accuracy';
import type { Boat, Grade } from '../../boat/schema/boat';
import { floatByWeights } from './float-by-weights';
import { displacement, floatAt } from './hydrostatics';
import type { Attitude, HullSurface, WaterPlane } from './types';

/** Spread of the measured points, along and across, from which they carry a trim and a list. */
const TRIM_SPREAD_M = 1;
const LIST_SPREAD_M = 0.3;
/** What must be left of that spread when the points lie along one slanting line: from one line only one angle can be had. */
const LEFT_OF_SPREAD = 0.2;
/** The height of a deck edge above moving water is taken with a tape. */
const DEFAULT_GRADE: Grade = 'taped';
/** Freeboards are measured upright, not square to the sloping deck: the slope enters its own equation, and settles at once. */
const UPRIGHT_STEPS = 6;

interface Sighting {
  readonly at: Vec3;
  /** Height above the water, along the vertical. */
  readonly heightM: number;
  readonly gradeM: number;
}

type Afloat = Pick<Boat, 'reference' | 'accuracy' | 'gradeOf' | 'weights'>;

/**
 * How the boat floats in cruising trim: the plane through the measured freeboards (or, without any, the level marks), by least
 * squares. One point gives the sinkage; trim and list are taken only from points that are spread enough to carry them. Two
 * points on a slanting line give trim if they are farther apart along the boat than across it, else list. Without any
 * measurement the hull floats at the mass entered (`floatByWeights`), or else the frame's own z = 0 is the water: both as good as
 * a guess.
 */
export function referenceAttitude(boat: Afloat, surface: HullSurface | null = null): Attitude {
  const freeboards = sightings(boat, 'freeboards');
  const marks = freeboards.length > 0 ? [] : sightings(boat, 'levelMarks');
  const points = freeboards.length > 0 ? freeboards : marks;
  if (points.length === 0) return unmeasured(boat, surface);
  const mean = scale(
    points.reduce<Vec3>((sum, { at }) => add(sum, at), [0, 0, 0]),
    1 / points.length,
  );
  const basis = carried(points, mean);
  let slopes: readonly [number, number] = [0, 0];
  let heightM = 0;
  for (let step = 0; step < UPRIGHT_STEPS; step += 1) {
    const upright = portable.hypot(1, slopes[0], slopes[1]);
    const water = points.map((point) => point.at[2] - point.heightM * upright);
    heightM = water.reduce((sum, z) => sum + z, 0) / points.length;
    const [forward, port] = planeSlopes(points, mean, water, basis);
    slopes = [forward, port];
  }
  const [forward, port] = slopes;
  const steep = portable.hypot(1, forward, port);
  const up = unit([0 - forward, 0 - port, 1]);
  const levelM = (heightM - forward * mean[0] - port * mean[1]) / steep;
  const residualM = Math.max(...points.map(({ at, heightM: h }) => Math.abs(dot(at, up) - levelM - h)));
  return {
    up,
    levelM,
    source: freeboards.length > 0 ? 'freeboards' : 'levelMarks',
    sinkageM: heightM,
    trimDeg: degrees(portable.atan(forward)),
    listDeg: degrees(portable.atan(0 - port)),
    residualM,
    gradeM: Math.max(residualM, fittedGrade(points, mean, basis)),
  };
}

function unmeasured(boat: Afloat, surface: HullSurface | null): Attitude {
  const water = surface && boat.weights ? floatByWeights(surface, boat.weights) : null;
  const { up, levelM } = water ?? ({ up: [0, 0, 1], levelM: 0 } as const);
  const middleM = surface ? (surface.aftM + surface.forwardM) / 2 : 0;
  return {
    up,
    levelM,
    source: water ? 'weights' : 'frame',
    sinkageM: (levelM - up[0] * middleM) / up[2],
    trimDeg: degrees(portable.atan(-up[0] / up[2])) + 0,
    listDeg: 0,
    residualM: 0,
    gradeM: gradeM(boat, 'guessed'),
  };
}

/**
 * The water as it lies when the boat heels: its plane rolled about the line in which it meets the centre plane, then shifted so
 * that the hull displaces as much as before. Trim is kept as it was. Without a hull, or with one that is dry, the level at the
 * centre plane stays. `tack` is the side that goes down.
 */
export function heeled(
  attitude: WaterPlane,
  heelDeg: number,
  tack: 'port' | 'starboard',
  surface?: HullSurface | null,
): WaterPlane {
  const upright = { up: unit(attitude.up), levelM: attitude.levelM / Math.sqrt(dot(attitude.up, attitude.up)) };
  if (heelDeg === 0) return upright;
  const { up, levelM } = upright;
  const axis = unit([up[2], 0, -up[0]]);
  // In the boat's own frame the vertical leans away from the side that goes down; port is +y.
  const [c, sine] = cosSin(heelDeg);
  const s = tack === 'starboard' ? -sine : sine;
  const across: Vec3 = [
    axis[1] * up[2] - axis[2] * up[1],
    axis[2] * up[0] - axis[0] * up[2],
    axis[0] * up[1] - axis[1] * up[0],
  ];
  const rolled = unit(add(scale(up, c), scale(across, s)));
  // A point of the axis: on the centre plane, at the water.
  const onAxis: Vec3 = scale([up[0], 0, up[2]], levelM / (up[0] * up[0] + up[2] * up[2]));
  const about = { up: rolled, levelM: dot(onAxis, rolled) };
  if (!surface) return about;
  const volumeM3 = displacementUpright(surface, upright);
  const kept = floatAt(surface, { volumeM3, up: rolled });
  return kept === null ? about : { up: rolled, levelM: kept };
}

/**
 * The water as it lies when the bow goes down by so many degrees more: its plane pitched athwartships, then shifted so that the hull displaces
 * as much as before. Without a hull, or with one that is dry, the level on the centre plane at `aboutM`, metres along x, stays.
 */
export function trimmed(
  water: WaterPlane,
  bowDownDeg: number,
  surface: HullSurface | null,
  aboutM: number,
): WaterPlane {
  if (bowDownDeg === 0) return water;
  const [c, s] = cosSin(bowDownDeg);
  const [x, y, z] = unit(water.up);
  const up: Vec3 = [x * c - z * s, y, x * s + z * c];
  const stays: Vec3 = [aboutM, 0, (water.levelM - water.up[0] * aboutM) / water.up[2]];
  const about = { up, levelM: dot(stays, up) };
  if (!surface) return about;
  const kept = floatAt(surface, { volumeM3: displacementUpright(surface, water), up });
  return kept === null ? about : { up, levelM: kept };
}

const UPRIGHT = new WeakMap<HullSurface, { readonly water: WaterPlane; readonly volumeM3: number }>();

/** Every angle of heel of one boat asks for the same volume. */
function displacementUpright(surface: HullSurface, water: WaterPlane): number {
  const known = UPRIGHT.get(surface);
  if (known && known.water.levelM === water.levelM && known.water.up.every((c, axis) => c === water.up[axis]))
    return known.volumeM3;
  const volumeM3 = displacement(surface, water);
  UPRIGHT.set(surface, { water, volumeM3 });
  return volumeM3;
}

/** Height of a point above the water, metres. */
export const heightAbove = (water: WaterPlane, point: Vec3): number =>
  (dot(point, water.up) - water.levelM) / Math.sqrt(dot(water.up, water.up));

function sightings(boat: Afloat, kind: 'freeboards' | 'levelMarks'): readonly Sighting[] {
  const records: Boat['reference']['freeboards'] | Boat['reference']['levelMarks'] = boat.reference[kind];
  return Object.keys(records)
    .sort()
    .flatMap((id) => {
      const record = records[id];
      if (!record) return [];
      const grade = boat.gradeOf?.[`reference.${kind}.${id}`] ?? record.grade ?? DEFAULT_GRADE;
      const heightM = 'freeboardM' in record && typeof record.freeboardM === 'number' ? record.freeboardM : 0;
      return [{ at: record.at, heightM, gradeM: gradeM(boat, grade) }];
    });
}

type Carried = 'height' | 'trim' | 'list' | 'both';

function carried(points: readonly Sighting[], mean: Vec3): Carried {
  const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
  const alongM = spread(points.map(({ at }) => at[0]));
  const acrossM = spread(points.map(({ at }) => at[1]));
  const trim = alongM >= TRIM_SPREAD_M;
  const list = acrossM >= LIST_SPREAD_M;
  if (trim && list) {
    const [xx, xy, yy] = moments(points, mean);
    // Share of the scatter across that does not go along with x.
    if (points.length >= 3 && xx * yy - xy * xy > LEFT_OF_SPREAD ** 2 * xx * yy) return 'both';
    return alongM >= acrossM ? 'trim' : 'list';
  }
  return trim ? 'trim' : list ? 'list' : 'height';
}

function moments(points: readonly Sighting[], mean: Vec3): readonly [number, number, number] {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const { at } of points) {
    const dx = at[0] - mean[0];
    const dy = at[1] - mean[1];
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  return [xx, xy, yy];
}

/** Slopes of the plane (forward, to port) through heights at the points, as far as the points carry them. */
function planeSlopes(
  points: readonly Sighting[],
  mean: Vec3,
  heights: readonly number[],
  basis: Carried,
): readonly [number, number] {
  const [xx, xy, yy] = moments(points, mean);
  let xh = 0;
  let yh = 0;
  points.forEach(({ at }, i) => {
    xh += (at[0] - mean[0]) * (heights[i] ?? 0);
    yh += (at[1] - mean[1]) * (heights[i] ?? 0);
  });
  if (basis === 'height') return [0, 0];
  if (basis === 'trim') return [xh / xx, 0];
  if (basis === 'list') return [0, yh / yy];
  const determinant = xx * yy - xy * xy;
  return [(xh * yy - yh * xy) / determinant, (yh * xx - xh * xy) / determinant];
}

/** Two standard deviations of the plane's height at the worst of the measured points, from the grades of the readings. */
function fittedGrade(points: readonly Sighting[], mean: Vec3, basis: Carried): number {
  return Math.max(
    ...points.map(({ at }) =>
      combine(
        ...points.map((reading, j) => {
          // What the plane at this point gains from one reading: 1 metre there, 0 elsewhere.
          const one = points.map((_, k) => (k === j ? 1 : 0));
          const [forward, port] = planeSlopes(points, mean, one, basis);
          const gain = 1 / points.length + forward * (at[0] - mean[0]) + port * (at[1] - mean[1]);
          return gain * reading.gradeM;
        }),
      ),
    ),
  );
}
