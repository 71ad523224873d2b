import { dot, rotate, rotationOf, UNIT_AXES, type Vec3 } from '../base/vec';
import { gradeM } from '../boat/accuracy';
import { facesOf } from '../boat/interior/faces';
import type { Boat, Compartment, Grade } from '../boat/schema/boat';
import { sameValue } from '../boat/schema-walk';
import type { GradeShare } from '../rules/finding';
import { pathOfFace } from '../shape/layout/faces';
import { layout } from './shape-stages';
import { accuracy, compartmentData, grades, hullData, isPart, pose, thing } from './source';
import type { ComputedStage, Read } from './store';
import { attitude } from './water-stages';

/** Shares are asked for by record and value, `RECORD` or `RECORD VALUE`; no id holds a blank. */
const cut = (key: string): readonly [string, string] => {
  const at = key.indexOf(' ');
  return at < 0 ? [key, ''] : [key.slice(0, at), key.slice(at + 1)];
};

/**
 * Two standard deviations of one record, or of one of its values, metres. The boat's own word for a path (`gradeOf`) counts
 * before that of the record, and that for the whole path before those for its beginnings. Zero for what is chosen, not measured.
 */
const gradeOfValue: ComputedStage<GradeShare> = {
  id: 'gradeOf',
  compute: (key, read) => {
    const [id, value] = cut(key);
    const found = read(grades, id);
    if (!found) return { path: id, gradeM: 0 };
    const path = value === '' ? found.path : `${found.path}.${value}`;
    return { path, gradeM: gradeAt(read(accuracy), path, found.grade) };
  },
  same: sameValue,
};

/** The grade of a path, metres: the boat's word for the longest beginning of it that it has one for, else `otherwise`. */
export function gradeAt(boat: Pick<Boat, 'accuracy' | 'gradeOf'>, path: string, otherwise: Grade): number {
  return gradeM(boat, gradeNamed(boat.gradeOf, path) ?? otherwise);
}

export function gradeNamed(named: Boat['gradeOf'], path: string): Grade | undefined {
  for (let at = path; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('.')))) {
    const grade = named && Object.hasOwn(named, at) ? named[at] : undefined;
    if (grade) return grade;
  }
  return undefined;
}

/**
 * Key: id of a wall. A bulkhead was measured from both sides, and the better reading counts; of equals that of the shallower
 * compartment, where the tape is shorter.
 */
const gradeOfWall: ComputedStage<GradeShare> = {
  id: 'gradeOfWall',
  compute: (wallId, read) => {
    const { panels } = read(layout);
    const pieces = wallId.split('/');
    const panel = panels[pieces[0] ?? ''];
    const sides = panel
      ? panel.between.map((compartment, k) => [compartment, panel.faces[k] ?? ''] as const)
      : [[pieces[0] ?? '', pieces[1] ?? ''] as const];
    const compartments = read(compartmentData);
    const found = sides.map(([compartment, face]) => {
      const record = `compartments.${compartment}.`;
      const path = pathOfFace(compartments, compartment, face);
      const share = read(gradeOfValue, `${compartment} ${path.slice(record.length)}`);
      return { share, depthM: panel ? depthAlong(compartments[compartment], panel.normal) : 0 };
    });
    found.sort((a, b) => a.share.gradeM - b.share.gradeM || a.depthM - b.depthM);
    return found[0]?.share ?? { path: wallId, gradeM: 0 };
  },
  same: sameValue,
};

/** How deep a compartment is along a direction, metres. */
function depthAlong(compartment: Compartment | undefined, direction: Vec3): number {
  if (!compartment) return 0;
  const along = facesOf(compartment).flatMap(({ polygon }) => polygon.map((p) => dot(p, direction)));
  return Math.max(...along) - Math.min(...along);
}

/** Key: distance forward, metres. Between two stations the worse known counts; beyond the last one that one. */
const gradeOfHull: ComputedStage<GradeShare> = {
  id: 'gradeOfHull',
  compute: (x, read) => {
    const hull = read(hullData);
    const whole = read(gradeOfValue, 'hull');
    if (!hull) return whole;
    const stations = Object.entries(hull.stations).sort(([, a], [, b]) => a.xM - b.xM);
    const next = stations.findIndex(([, { xM }]) => xM >= Number(x));
    const near = next < 0 ? stations.slice(-1) : stations.slice(Math.max(0, next - 1), next + 1);
    const boat = read(accuracy);
    return near
      .map(([id, station]): GradeShare => {
        const path = `hull.stations.${id}`;
        return { path, gradeM: gradeAt(boat, path, station.grade ?? hull.grade) };
      })
      .reduce((worst, share) => (share.gradeM > worst.gradeM ? share : worst), { path: 'hull', gradeM: 0 });
  },
  same: sameValue,
};

const gradesAlong = (read: Read, id: string, direction: Vec3): readonly GradeShare[] => {
  const value = (name: string, gain: number): GradeShare => {
    const { path, gradeM: whole } = read(gradeOfValue, `${id} ${name}`);
    return { path, gradeM: whole * Math.abs(gain) };
  };
  if (!read(isPart, id)) return direction.map((gain, axis) => value(`pose.at.${axis}`, gain));
  const placed = read(pose, id);
  const shape = read(thing, id)?.shape;
  if (!placed || !shape) return [];
  const turn = rotationOf(placed);
  const local = UNIT_AXES.map((axis) => dot(rotate(turn, axis), direction));
  if (shape.type === 'box') return local.map((gain, axis) => value(`shape.sizeM.${axis}`, gain));
  const lengthwise = local['xyz'.indexOf(shape.axis)] ?? 0;
  return [
    value('shape.lengthM', lengthwise),
    value('shape.diameterM', Math.sqrt(Math.max(0, 1 - lengthwise * lengthwise))),
  ];
};

/** What rules ask, over reads that are recorded. */
export const gradesOver = (read: Read) => ({
  gradeOf: (id: string, value?: string): GradeShare => read(gradeOfValue, value === undefined ? id : `${id} ${value}`),
  gradesAlong: (id: string, direction: Vec3): readonly GradeShare[] => gradesAlong(read, id, direction),
  gradeOfWater: (): GradeShare => ({ path: 'reference', gradeM: read(attitude).gradeM }),
  gradeOfWall: (wallId: string): GradeShare => read(gradeOfWall, wallId),
  gradeOfHull: (at: Vec3): GradeShare => read(gradeOfHull, String(at[0])),
});
