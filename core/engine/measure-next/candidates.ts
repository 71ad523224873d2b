import { AXES, dot, type Vec3 } from '../../base/vec';
import { type DrawnFace, facesOf, sideWord } from '../../boat/interior/faces';
import type { Boat, Grade } from '../../boat/schema/boat';
import type { NextReading } from '../../rules/next-reading';
import { heightAbove } from '../../shape/hull/attitude';
import type { Attitude, HullSurface } from '../../shape/hull/types';
import { pathOfSide } from '../../shape/layout/faces';
import { solidBounds, thingSolids } from '../../shape/space/things';
import { gradeNamed } from '../grade-stages';
import { NEARLY_IN_M, skinBehind } from './present-value';

/** A reading before it is known what it settles. */
export type Candidate = Omit<NextReading, 'settles' | 'value'>;

/** What the candidates of one boat are made from. */
export interface Readable {
  readonly boat: Boat;
  readonly arrangementId: string | null;
  readonly hull: HullSurface | null;
  readonly attitude: Attitude;
  readonly compartmentOf: (thingId: string) => string | null;
  readonly gradeM: (grade: Grade) => number;
}

/** The readings that would make sure of the value at a path of the boat file; none for what no tape can better. */
export function candidatesFor(path: string, from: Readable): readonly Candidate[] {
  const [kind = '', id = '', ...value] = path.split('.');
  const found = READERS[kind]?.(id, value, from) ?? [];
  return found.filter(({ grade }) => grade !== null && from.gradeM(grade) > from.gradeM('measured'));
}

type Reader = (id: string, value: readonly string[], from: Readable) => readonly Candidate[];

const READERS: Readonly<Record<string, Reader>> = {
  openings: openingReadings,
  compartments: compartmentReadings,
  fixtures: fixtureReadings,
  parts: partReadings,
  hull: hullReadings,
  reference: freeboardReadings,
};

const named = (boat: Boat, path: string, otherwise: Grade): Grade => gradeNamed(boat.gradeOf, path) ?? otherwise;

/** The accuracy is that of the worst known of the values that the reading makes sure of. */
function graded(
  { boat, gradeM }: Readable,
  paths: readonly string[],
  otherwise: Grade,
): Pick<Candidate, 'paths' | 'grade' | 'gradeM'> {
  const grades = paths.map((path) => named(boat, path, otherwise));
  const grade = grades.reduce((worst, one) => (gradeM(one) > gradeM(worst) ? one : worst));
  return { paths, grade, gradeM: gradeM(grade) };
}

function openingReadings(id: string, [value = '']: readonly string[], from: Readable): readonly Candidate[] {
  const opening = from.boat.openings[id];
  if (!opening || (value !== 'widthM' && value !== 'heightM')) return [];
  const [kind, low, high] =
    value === 'widthM'
      ? (['openingWidth', 'one side', 'the other side'] as const)
      : (['openingHeight', 'lower edge', 'upper edge'] as const);
  const path = `openings.${id}.${value}`;
  return [
    {
      id: path,
      kind,
      record: id,
      from: { record: id, side: low },
      to: { record: id, side: high },
      axis: null,
      present: opening[value],
      unit: 'm',
      at: opening.at,
      enterNext: null,
      ...graded(from, [path], opening.grade),
    },
  ];
}

/** The clear length from the side that counts to the one across from it. */
function compartmentReadings(id: string, value: readonly string[], from: Readable): readonly Candidate[] {
  const { boat } = from;
  const record = boat.compartments[id];
  if (!record) return [];
  const faces = facesOf(record);
  const asked = `compartments.${id}.${value.join('.')}`;
  const face = faces.find(({ key }) => pathOfSide(id, key) === asked);
  const across = face && acrossFrom(face, faces);
  if (!face || !across) return [];
  // Where the hull bounds the compartment the tape ends at its skin, not at the side that was drawn beyond it.
  const skinM = from.hull && skinBehind(from.hull, face);
  const drawnM = face.offset - dot(face.normal, across.centre);
  if (skinM !== null && skinM < drawnM - BEYOND_SKIN_M) return [fromSkin(id, face, skinM, from)];
  const paths = [across, face].map(({ key }) => pathOfSide(id, key));
  const at = face.centre;
  return [
    {
      id: [...paths].sort().join('+'),
      kind: 'clearLength',
      record: id,
      from: { record: id, side: sideWord(across.normal) },
      to: { record: id, side: sideWord(face.normal) },
      axis: axisOf(face.normal),
      present: drawnM,
      unit: 'm',
      at,
      enterNext: null,
      ...graded(from, paths, record.grade),
    },
  ];
}

/** A side that is drawn further than this behind the skin is not what one measures to. */
const BEYOND_SKIN_M = 0.02;

function fromSkin(id: string, face: DrawnFace, present: number, from: Readable): Candidate {
  const path = pathOfSide(id, face.key);
  return {
    id: path,
    kind: 'clearLength',
    record: id,
    from: { record: 'hull', side: 'inside' },
    to: { record: id, side: sideWord(face.normal) },
    axis: axisOf(face.normal),
    present,
    unit: 'm',
    at: face.centre,
    enterNext: null,
    ...graded(from, [path], from.boat.compartments[id]?.grade ?? 'taped'),
  };
}

/** The nearest side that looks the other way and is met when one goes in from the middle of this one; null between slanting sides. */
function acrossFrom(face: DrawnFace, faces: readonly DrawnFace[]): DrawnFace | null {
  const at = face.centre;
  let best: { face: DrawnFace; far: number } | null = null;
  for (const other of faces) {
    if (dot(face.normal, other.normal) > -0.99) continue;
    const far = dot(other.normal, at) * -1 + other.offset;
    if (far > 1e-6 && (!best || far < best.far)) best = { face: other, far };
  }
  return best?.face ?? null;
}

function axisOf(normal: Vec3): 'x' | 'y' | 'z' | null {
  const k = normal.findIndex((step) => Math.abs(step) > 0.99);
  return k < 0 ? null : (AXES[k] ?? null);
}

/** Where a fixture is along one axis: from the side of its compartment that is nearest there, or above the water. */
function fixtureReadings(id: string, value: readonly string[], from: Readable): readonly Candidate[] {
  const { boat } = from;
  const fixture = boat.fixtures[id];
  const axis = Number(value[2] ?? Number.NaN);
  if (!fixture || value[0] !== 'pose' || !(axis >= 0 && axis <= 2)) return [];
  const path = `fixtures.${id}.pose.at.${axis}`;
  const shared = {
    id: path,
    record: id,
    axis: AXES[axis] ?? null,
    unit: 'm' as const,
    at: fixture.pose.at,
    enterNext: null,
    ...graded(from, [path], fixture.pose.grade ?? fixture.grade ?? 'taped'),
  };
  if (axis === 2 && fixture.opensToSea)
    return [
      {
        ...shared,
        kind: 'heightAboveWater',
        from: { record: 'water', side: null },
        to: { record: id, side: 'middle' },
        present: heightAbove(from.attitude, fixture.pose.at),
      },
    ];
  const datum = datumOf(id, axis, from);
  if (!datum) return [];
  const { face, home, gapM, side } = datum;
  return [
    {
      ...shared,
      kind: 'thingPlace',
      from: { record: home, side: sideWord(face.normal) },
      to: { record: id, side },
      present: gapM,
    },
  ];
}

interface PlaceDatum {
  readonly face: DrawnFace;
  /** Compartment of the face. */
  readonly home: string;
  /** From the face to the near side of the thing, metres. */
  readonly gapM: number;
  readonly side: string;
}

/** The side of its compartment that a fixture is nearest to along an axis. */
function datumOf(id: string, axis: number, { boat, compartmentOf }: Readable): PlaceDatum | null {
  const fixture = boat.fixtures[id];
  const home = compartmentOf(id);
  const record = home === null ? undefined : boat.compartments[home];
  const body = fixture && thingSolids(id, fixture, fixture.pose)[0];
  if (!fixture || !record || home === null || !body) return null;
  const { low, high } = solidBounds(body);
  let best: PlaceDatum | null = null;
  for (const face of facesOf(record)) {
    const { normal, offset } = face;
    const sign = Math.sign(normal[axis] ?? 0);
    if (Math.abs(normal[axis] ?? 0) < 0.99) continue;
    const gapM = offset - sign * ((sign > 0 ? high : low)[axis] ?? 0);
    if (gapM >= -NEARLY_IN_M && (!best || gapM < best.gapM)) best = { face, home, gapM, side: sideWord(normal) };
  }
  return best;
}

/** The size that is in doubt; all of them together where more than one is: they stand on one data sheet. */
function partReadings(id: string, value: readonly string[], from: Readable): readonly Candidate[] {
  const part = from.boat.parts[id];
  if (!part) return [];
  const sizes = sizeReadings(id, from);
  const asked = `parts.${id}.${value.join('.')}`;
  const own = sizes.filter(({ paths: [path] }) => path === asked);
  const coarse = sizes.filter(({ gradeM }) => (gradeM ?? 0) > from.gradeM('measured'));
  if (value.length > 0 && (own.length === 0 || coarse.length < 2)) return own;
  const path = `parts.${id}`;
  const ends = { record: id, side: 'envelope' };
  return [
    {
      id: path,
      kind: 'partSize',
      record: id,
      from: ends,
      to: ends,
      axis: null,
      present: null,
      unit: null,
      at: placeOf(id, from),
      enterNext: null,
      ...graded(from, [path, ...coarse.flatMap(({ paths }) => paths)], part.grade ?? 'measured'),
    },
  ];
}

const placeOf = (id: string, { boat, arrangementId }: Readable): Vec3 | null =>
  (arrangementId === null ? undefined : boat.arrangements[arrangementId]?.places[id]?.at) ?? null;

/** Each size of a part by itself. */
export function sizeReadings(id: string, from: Readable): readonly Candidate[] {
  const part = from.boat.parts[id];
  if (!part) return [];
  const { shape } = part;
  const sizes =
    shape.type === 'box'
      ? shape.sizeM.map((present, k) => ({ value: `sizeM.${k}`, side: BOX_SIDES[k] ?? '', present }))
      : (['length', 'diameter'] as const).map((side) => ({ value: `${side}M`, side, present: shape[`${side}M`] }));
  return sizes.map(({ value, side, present }): Candidate => {
    const path = `parts.${id}.shape.${value}`;
    return {
      id: path,
      kind: 'partSize',
      record: id,
      from: { record: id, side },
      to: { record: id, side },
      axis: null,
      present,
      unit: 'm',
      at: placeOf(id, from),
      enterNext: null,
      ...graded(from, [path], part.grade ?? 'measured'),
    };
  });
}
const BOX_SIDES = ['length', 'width', 'height'] as const;

/** The greatest half-breadth of a station. */
function hullReadings(_: string, [id = '']: readonly string[], from: Readable): readonly Candidate[] {
  const { hull } = from.boat;
  const station = hull?.stations[id];
  if (!hull || !station) return [];
  const [breadth, z] = station.points.reduce((widest, point) => (point[0] > widest[0] ? point : widest));
  const path = `hull.stations.${id}`;
  return [
    {
      id: path,
      kind: 'hullBreadth',
      record: id,
      from: { record: 'hull', side: 'centreline' },
      to: { record: 'hull', side: 'skin' },
      axis: 'y',
      present: breadth,
      unit: 'm',
      at: [station.xM, breadth, z],
      enterNext: null,
      ...graded(from, [path], station.grade ?? hull.grade),
    },
  ];
}

/** Heights above the water rest on the freeboards. Where there is none yet, one is asked for. */
function freeboardReadings(_: string, __: readonly string[], from: Readable): readonly Candidate[] {
  const { freeboards, levelMarks } = from.boat.reference;
  if (Object.keys(freeboards).length === 0 && Object.keys(levelMarks).length === 0)
    return [
      {
        id: 'missing:reference',
        kind: 'missing',
        record: 'hull',
        from: { record: 'water', side: null },
        to: { record: 'hull', side: 'deck edge' },
        axis: 'z',
        paths: [],
        present: null,
        unit: null,
        grade: 'guessed',
        gradeM: from.gradeM('guessed'),
        at: null,
        enterNext: 'Measure the freeboard at the bow and at both quarters, afloat in cruising trim',
      },
    ];
  return Object.entries(freeboards).map(([id, { at, freeboardM, grade }]): Candidate => {
    const path = `reference.freeboards.${id}`;
    return {
      id: path,
      kind: 'freeboard',
      record: id,
      from: { record: 'water', side: null },
      to: { record: id, side: 'deck edge' },
      axis: 'z',
      present: freeboardM,
      unit: 'm',
      at,
      enterNext: null,
      ...graded(from, [path], grade ?? 'taped'),
    };
  });
}
