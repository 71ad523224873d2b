import { cosSin, dot, type Vec2, type Vec3 } from '../../base/vec';
import type { Boat, Compartment } from '../../boat/schema/boat';
import { signedArea } from './outline';
import { DRAWN_TO_TOUCH_M, GREATEST_GAP_M } from './panels';
import { type Face, prismOf } from './prism';

/**
 * A side of a compartment, by its record and the key of its face: `side3` stands on the outline from corner 3 to corner 4,
 * `low` and `high` are the ends of the range along the right-handed third axis.
 */
export type FaceId = `${string}/${string}`;

export const faceId = (compartment: string, key: string): FaceId => `${compartment}/${key}`;

/** Path in the boat file of the value that places a face. The range of a profile runs against the third axis. */
export function pathOfFace(compartments: Boat['compartments'], compartment: string, key: string): string {
  const record = compartments[compartment];
  if (key.startsWith('side')) return `compartments.${compartment}.outline.${key.slice('side'.length)}`;
  const first = record && record.rangeM[0] <= record.rangeM[1] ? 0 : 1;
  const isLower = (key === 'low') !== (record?.view === 'profile');
  return `compartments.${compartment}.rangeM.${isLower ? first : 1 - first}`;
}

export interface PlacedFace extends Face {
  readonly id: FaceId;
}

/** Every side of every compartment that has volume, sorted by compartment. */
export const facesOf = (compartments: Boat['compartments']): readonly PlacedFace[] =>
  Object.keys(compartments)
    .sort()
    .flatMap((id) =>
      (prismOf(id, compartments[id] as Compartment)?.faces ?? []).map((face) => ({
        ...face,
        id: faceId(id, face.key),
      })),
    );

/** Faces look at one another within one degree. */
const OPPOSED = -0.99985;

/**
 * Sides that are one thing aboard: both faces of a bulkhead, and whatever else stands against either of them. Who moves one
 * of them moves all, or the drawing tears. Each group is sorted; a side that stands alone is a group of one.
 */
export function faceGroups(faces: readonly PlacedFace[]): readonly (readonly FaceId[])[] {
  const root = new Map<FaceId, FaceId>(faces.map(({ id }) => [id, id]));
  const find = (id: FaceId): FaceId => {
    let at = id;
    for (let up = root.get(at) as FaceId; up !== at; up = root.get(at) as FaceId) at = up;
    return at;
  };
  faces.forEach((a, i) => {
    for (const b of faces.slice(i + 1)) {
      if (a.compartment === b.compartment || !standAgainst(a, b)) continue;
      const [first, second] = [find(a.id), find(b.id)].sort() as [FaceId, FaceId];
      root.set(second, first);
    }
  });
  const groups = new Map<FaceId, FaceId[]>();
  for (const { id } of faces) groups.set(find(id), [...(groups.get(find(id)) ?? []), id]);
  return [...groups.values()].map((group) => group.sort());
}

function standAgainst(a: Face, b: Face): boolean {
  for (const k of [0, 1, 2] as const)
    if (a.low[k] > b.high[k] + GREATEST_GAP_M || b.low[k] > a.high[k] + GREATEST_GAP_M) return false;
  const { normal, offset } = a.plane;
  if (dot(normal, b.plane.normal) > OPPOSED) return false;
  const corner = b.pieces[0]?.polygon[0];
  const gapM = corner ? dot(normal, corner) - offset : Number.POSITIVE_INFINITY;
  return gapM >= -DRAWN_TO_TOUCH_M && gapM <= GREATEST_GAP_M;
}

/** Compartments with some of their sides moved outward, metres; a compartment none of whose sides moves keeps its identity. */
export function facesMoved(
  compartments: Boat['compartments'],
  outward: ReadonlyMap<FaceId, number>,
): Boat['compartments'] {
  const moved: Record<string, Compartment> = {};
  const touched = new Set([...outward.keys()].map((id) => id.slice(0, id.lastIndexOf('/'))));
  for (const [id, record] of Object.entries(compartments))
    moved[id] = touched.has(id) ? sidesMoved(record, (key) => outward.get(faceId(id, key)) ?? 0) : record;
  return moved;
}

function sidesMoved(record: Compartment, by: (key: string) => number): Compartment {
  const profile = record.view === 'profile';
  const lower = by(profile ? 'high' : 'low');
  const upper = by(profile ? 'low' : 'high');
  const [first, second] = record.rangeM;
  const isUpward = first <= second;
  const rangeM: [number, number] = isUpward ? [first - lower, second + upper] : [first + upper, second - lower];
  const outline = outlineMoved(record.outline, (side) => by(`side${side}`));
  return { ...record, ...sameCentre(record, outline, rangeM) };
}

/** Corners of an outline whose sides go outward: where the moved sides meet. */
function outlineMoved(outline: readonly Vec2[], by: (side: number) => number): [number, number][] {
  const n = outline.length;
  const turn = signedArea(outline) < 0 ? -1 : 1;
  const distance: number[] = [];
  const normal: Vec2[] = [];
  for (let i = 0; i < n; i++) {
    const a = outline[i] as Vec2;
    const b = outline[(i + 1) % n] as Vec2;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    normal.push([(turn * (b[1] - a[1])) / length, (-turn * (b[0] - a[0])) / length]);
    distance.push(by(i));
  }
  // A corner within a straight side belongs to that side, which goes by the name of its first corner.
  for (let i = 0; i < n; i++) {
    const before = (i + n - 1) % n;
    if (isStraight(normal[before] as Vec2, normal[i] as Vec2) && distance[i] === 0)
      distance[i] = distance[before] as number;
  }
  return outline.map((corner, i): [number, number] => {
    const before = (i + n - 1) % n;
    const [p, q] = [normal[before] as Vec2, normal[i] as Vec2];
    const [dp, dq] = [distance[before] as number, distance[i] as number];
    if (isStraight(p, q)) return [corner[0] + q[0] * dq, corner[1] + q[1] * dq];
    const determinant = p[0] * q[1] - p[1] * q[0];
    return [corner[0] + (dp * q[1] - dq * p[1]) / determinant, corner[1] + (dq * p[0] - dp * q[0]) / determinant];
  });
}

const isStraight = (p: Vec2, q: Vec2): boolean => Math.abs(p[0] * q[1] - p[1] * q[0]) < 1e-4;

/**
 * A prism is turned about the middle of its bounds, which a moved side carries along: the whole is shifted back, so that the
 * sides that did not move stay where they are.
 */
function sameCentre(
  record: Compartment,
  outline: [number, number][],
  rangeM: [number, number],
): Pick<Compartment, 'outline' | 'rangeM'> {
  const [cos, sin] = cosSin(record.yawDeg);
  if (cos === 1) return { outline, rangeM };
  const [ax, ay] = middleOf(record.view, record.outline, record.rangeM);
  const [bx, by] = middleOf(record.view, outline, rangeM);
  const [dx, dy] = [bx - ax, by - ay];
  const shift: Vec3 = [dx * cos - dy * sin - dx, dx * sin + dy * cos - dy, 0];
  const [u, v, w] = record.view === 'plan' ? [0, 1, 2] : record.view === 'profile' ? [0, 2, 1] : [1, 2, 0];
  return {
    outline: outline.map(([a, b]): [number, number] => [a + (shift[u ?? 0] ?? 0), b + (shift[v ?? 0] ?? 0)]),
    rangeM: [rangeM[0] + (shift[w ?? 0] ?? 0), rangeM[1] + (shift[w ?? 0] ?? 0)],
  };
}

/** Middle of the bounds in plan. */
function middleOf(view: Compartment['view'], outline: readonly Vec2[], rangeM: Vec2): Vec2 {
  const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  const first = middle(outline.map(([a]) => a));
  const second = middle(outline.map(([, b]) => b));
  const range = middle(rangeM);
  return view === 'plan' ? [first, second] : view === 'profile' ? [first, range] : [range, first];
}
