import { lidSwing } from '../../assess/access/lid-swing';
import type { PostureRegion } from '../../assess/access/reach/posture-region';
import { posturesFor } from '../../assess/access/reach/postures-for';
import type { Obstruction } from '../../assess/access/reach/types';
import { bodyOf } from '../../base/formulas/body-sizes';
import { dot, type Vec3 } from '../../base/vec';
import type { Thing } from '../../boat/schema/boat';
import { sameValue } from '../../boat/schema-walk';
import type { GradeShare } from '../../rules/finding';
import { joinedSpaces } from '../../shape/layout/joined-spaces';
import { convexOf } from '../../shape/space/convex';
import { type AnySolid, segmentToSolid } from '../../shape/space/kernel';
import { openingFrame } from '../../shape/space/ways-in';
import { gradesOver } from '../grade-stages';
import { hull, layout } from '../shape-stages';
import { boxKey } from '../solid-stages';
import { line, openings, people, standingPlaces, thing } from '../source';
import { type ComputedStage, identical, type Read, slicedStage } from '../store';
import { aboutBox, boxAbout, wallsAbout, wallsKey } from './around-stages';
import { carriedOut } from './carried-out';
import type { TaskSurroundings } from './judge-task';
import type { TaskScene } from './pieces';
import { bounds, isIn } from './spaces';
import { judgeTask, notAsked, type Removable, type TaskOutcome } from './task-outcome';
import { type PlacedTask, placedTask, waysTo } from './task-stages';
import type { NoWay, WayToTask } from './ways-to-task';

/** Whose reach counts where nobody says: the first person aboard by id; '' is a middling adult. */
export const usualPerson: ComputedStage<string> = {
  id: 'usualPerson',
  compute: (_, read) => Object.keys(read(people) ?? {}).sort()[0] ?? '',
  same: identical,
};

/** Sizes of a person. Key: record of people, or '' for a middling adult. */
export const bodyFor: ComputedStage<ReturnType<typeof bodyOf>> = {
  id: 'bodyFor',
  compute: (person, read) => bodyOf(read(people)?.[person] ?? null),
  same: sameValue,
};

/** Key of an outcome: `PERSON|THING/SERVICE`. */
export const outcomeKey = (person: string, task: string): string => `${person}|${task}`;

export function cutKey(key: string): { readonly person: string; readonly task: string } {
  const cut = key.indexOf('|');
  return { person: key.slice(0, cut), task: key.slice(cut + 1) };
}

/** What a task comes to, worked out in one slice. Key: `outcomeKey`. */
export const taskOutcome = slicedStage<TaskOutcome>({
  id: 'taskOutcome',
  start: (key, read) => ({
    step: () => {
      const { person, task: taskKey } = cutKey(key);
      const task = read(placedTask, taskKey);
      if (!task) return notAsked({ reason: 'nowhere', subject: taskKey, enterNext: 'arrangements' });
      return judgeTask(task, surroundingsOf(task, person, read), (owner) => removable(owner, read));
    },
  }),
  same: sameValue,
});

/** Ways to a task with what is about it on each of them, over reads that are recorded. */
export function surroundingsOf(task: PlacedTask, person: string, read: Read): TaskSurroundings | NoWay {
  const ways = read(waysTo, task.key);
  if ('reason' in ways) return ways;
  const all = read(openings);
  const scenes = new Map<string, TaskScene>();
  return {
    ways,
    opening: (id) => all[id] ?? null,
    scene: (way, without) => {
      const key = `${way.openings.join(' ')}|${without.join(' ')}`;
      const known = scenes.get(key) ?? sceneOf(task, way, without, person, read);
      scenes.set(key, known);
      return known;
    },
    postures: (way) => read(posturesAt, postureKey(task, way, person)),
  };
}

/** Somebody who climbs in, or kneels in a space, has what stands so far about in the way, metres. */
const BODY_ROOM_M = 1.4;

const postureKey = ({ compartment }: PlacedTask, { standing, through }: WayToTask, person: string): string =>
  [person, standing ?? '', through ?? '', compartment ?? ''].join('|');

/** Postures at an opening or in a space, for all tasks behind it. Key: `PERSON|STANDING|OPENING|COMPARTMENT`. */
const posturesAt: ComputedStage<readonly PostureRegion[]> = {
  id: 'posturesAt',
  compute: (key, read) => {
    const [person = '', standing = '', through = '', compartment = ''] = key.split('|');
    const record = read(openings)[through];
    const place = read(standingPlaces)[standing];
    const at = record?.at ?? place?.at;
    const box = at && boxOf(at, BODY_ROOM_M);
    const about = box ? read(aboutBox, boxKey(...box)) : null;
    const walls = box ? read(wallsAbout, wallsKey(record ? [through] : [], ...box)) : [];
    return posturesFor({
      opening: record ? { id: through, record } : null,
      compartment: compartment === '' ? null : compartment,
      standing: place ?? null,
      body: read(bodyFor, person).sizes,
      layout: read(layout),
      hull: read(hull),
      around: about ? [...about.things, ...about.runs, ...walls] : walls,
    });
  },
  same: sameValue,
};

function sceneOf(task: PlacedTask, way: WayToTask, without: readonly string[], person: string, read: Read): TaskScene {
  const { low, high } = boxAbout(task.face.at);
  const about = read(aboutBox, boxKey(low, high));
  const rooms = read(layout);
  const spaces = spacesOn(way, task.compartment, read);
  const stays = ({ owner, solid }: Obstruction): boolean =>
    !without.includes(owner) && (owner === task.thing || isIn(spaces, solid, rooms));
  const things = about.things.filter(stays);
  const { linesOff } = task.needs;
  const isOff = ({ owner }: Obstruction): boolean => linesOff && endsAt(owner, task.thing, read);
  const runs = about.runs.filter((run) => stays(run) && !isOff(run));
  const surface = read(hull);
  const walls = withLidsAsTheyOpen(
    read(wallsAbout, wallsKey(way.openings, low, high)).filter(({ owner }) => bounds(spaces, owner, rooms)),
    way.openings,
    without,
    read,
  );
  const ownLines = new Set(runs.filter(({ owner }) => endsAt(owner, task.thing, read)).map(({ owner }) => owner));
  const giving = runs.map((run) =>
    ownLines.has(run.owner) && isBeside(run.solid, task.hands) ? { ...run, owner: task.thing } : run,
  );
  const who = read(people)?.[person];
  return {
    arms: [...things, ...giving, ...walls],
    all: [...things, ...runs, ...walls],
    others: [...things.filter(({ owner }) => owner !== task.thing), ...runs, ...walls],
    hull: surface,
    body: read(bodyFor, person).sizes,
    onlyArm: who?.oneArm === true ? (who.arm ?? 'either') : null,
    carriedOut: () => carriedOut(task, way, without, runs, read),
    gradesBetween: (direction, owners) => [
      ...gradesOver(read).gradesAlong(task.thing, direction),
      ...owners.flatMap((owner) => gradesOfOwner(owner, direction, task.face.at, read)),
    ],
  };
}

/** Spaces that an arm may be in on a way: that of the thing, those behind what is opened, where the person is, and all that is open to them. */
function spacesOn(
  { openings: opened, standing }: WayToTask,
  compartment: string | null,
  read: Read,
): ReadonlySet<string> {
  const all = read(openings);
  const place = standing === null ? undefined : read(standingPlaces)[standing];
  const rooms = read(layout);
  return joinedSpaces(rooms, [
    ...(compartment === null ? [] : [compartment]),
    ...opened.flatMap((id) => [all[id]?.compartment ?? '', all[id]?.to ?? '']),
    place ? (place.compartment ?? rooms.compartmentAt(place.at) ?? '') : '',
  ]);
}

function endsAt(lineId: string, thingId: string, read: Read): boolean {
  const what = read(line, lineId);
  return what?.from.thing === thingId || what?.to.thing === thingId;
}

/** A hose or cable on the thing itself gives way to the hand so far about its place, metres. Project judgement. */
const GIVES_M = 0.2;

const isBeside = (solid: AnySolid, hands: readonly Vec3[]): boolean =>
  hands.some((at) => segmentToSolid(at, at, solid, GIVES_M) < GIVES_M);

/** How far a lid stands open among what is about it; null of one that nothing stops. Key: the opening. */
const stoppedLid: ComputedStage<{ readonly standing: AnySolid; readonly by: string } | null> = {
  id: 'stoppedLid',
  compute: (id, read) => {
    const opening = read(openings)[id];
    if (opening?.how !== 'hinged' || !opening.swing) return null;
    const reachM = Math.max(opening.widthM, opening.heightM) + BESIDE_LID_M;
    const [low, high] = boxOf(opening.at, reachM);
    const about = read(aboutBox, boxKey(low, high));
    const { out } = openingFrame(opening);
    // It swings outwards: what does not reach out past it is not met.
    const faceM = dot(opening.at, out) + LID_FACE_M;
    const around = [...about.things, ...about.runs, ...read(wallsAbout, wallsKey([id], low, high))].filter(
      ({ solid }) => dot(convexOf(solid).support(out), out) > faceM,
    );
    const swing = lidSwing(id, opening, around, read(hull));
    return swing?.blocker ? { standing: swing.standing, by: swing.blocker.owner } : null;
  },
  same: sameValue,
};
const BESIDE_LID_M = 0.1;
const LID_FACE_M = 0.005;

const boxOf = (at: Vec3, byM: number): readonly [Vec3, Vec3] => [
  [at[0] - byM, at[1] - byM, at[2] - byM],
  [at[0] + byM, at[1] + byM, at[2] + byM],
];

/** A lid stands as far open as what is about it lets it. */
function withLidsAsTheyOpen(
  walls: readonly Obstruction[],
  opened: readonly string[],
  without: readonly string[],
  read: Read,
): readonly Obstruction[] {
  const stopped = opened.flatMap((id) => {
    const lid = read(stoppedLid, id);
    return lid && !without.includes(lid.by) ? [lid.standing] : [];
  });
  if (stopped.length === 0) return walls;
  return walls.map((wall) => {
    const standing = stopped.find(({ id }) => id === wall.solid.id);
    return standing ? { ...wall, solid: standing } : wall;
  });
}

/** How well the place of whatever stands in the way is known. Where a run lies follows from its ends. */
function gradesOfOwner(owner: string, direction: Vec3, at: Vec3, read: Read): readonly GradeShare[] {
  const grades = gradesOver(read);
  if (owner === 'hull') return [grades.gradeOfHull(at)];
  if (read(thing, owner)) return grades.gradesAlong(owner, direction);
  const [record = owner] = owner.split('|');
  return read(line, owner) ? [] : [grades.gradeOf(record)];
}

/** What holds the boat together or the sea out is not taken off to get at something else. */
const STAYS: ReadonlySet<Thing['kind']> = new Set([
  'engine',
  'fuelTank',
  'waterTank',
  'holdingTank',
  'gasLocker',
  'mastStep',
  'keelBolts',
  'chainplate',
  'joinery',
  'skinFitting',
  'seacock',
  'logFitting',
  'stuffingBox',
  'steering',
]);
/** Nobody takes off what weighs more on the way to something else, kilograms. Project judgement. */
const HEAVY_KG = 40;

/** How something comes off that is in the way; null: it stays where it is. */
function removable(owner: string, read: Read): Removable | null {
  if (read(line, owner)) return 'line';
  const what = read(thing, owner);
  if (!what || STAYS.has(what.kind) || what.massKg > HEAVY_KG) return null;
  return what.heldDown === false || what.kind === 'sparesBox' ? 'loose' : 'thing';
}
