import { inTheWay } from '../../assess/access/in-the-way';
import { lidSwing } from '../../assess/access/lid-swing';
import type { ArmPose } from '../../assess/access/reach/types';
import { spillOf } from '../../assess/flooding/spill';
import { add, along, scale, subtract, UP, unit, type Vec3 } from '../../base/vec';
import { openingMinutes } from '../../boat/catalogue/service-assumptions';
import type { CapsuleSolid } from '../../shape/space/solids';
import { sweepPast } from '../../shape/space/sweep';
import { solidBounds } from '../../shape/space/things';
import { hull } from '../shape-stages';
import { boxKey } from '../solid-stages';
import { openings, serviceAssumptions, standingPlaces, thing } from '../source';
import type { Read } from '../store';
import { aboutBox, wallsAbout, wallsKey } from './around-stages';
import { bodyFor, outcomeKey, surroundingsOf, taskOutcome } from './outcome-stages';
import type { Piece, Shown } from './pieces';
import type { RehearsalStep } from './service-report';
import type { TaskOutcome } from './task-outcome';
import { type PlacedTask, placedTask } from './task-stages';

/** Opening takes half of what opening and shutting takes; so does moving away. */
const THERE = 0.5;
/** A drop is followed so far down, metres. */
const DEEPEST_M = 3;
const BESIDE_M = 0.05;
/** Radius of a drop. */
const DROP_M = 0.002;

type Person = NonNullable<RehearsalStep['person']>;

/** The steps of one task as it is done, or as it is tried where it cannot be; none where nothing is known of a way. */
export function rehearsalOf(key: string, person: string, read: Read): readonly RehearsalStep[] {
  const task = read(placedTask, key);
  const outcome = read(taskOutcome, outcomeKey(person, key));
  if (!task || !outcome.attempt) return [];
  const who = personAt(task, outcome, person, read);
  const before = [...opened(task, outcome, person, read), ...takenOff(outcome, read)];
  const closing: RehearsalStep = {
    ...step('close', who),
    minutes: before.reduce((sum, { minutes }) => sum + minutes, 0),
  };
  return [
    step('go', who),
    ...before.map((one) => ({ ...one, person: who })),
    ...worked(task, outcome, who, read),
    ...(closing.minutes > 0 ? [closing] : []),
  ];
}

const step = (kind: RehearsalStep['kind'], person: Person | null): RehearsalStep => ({
  kind,
  minutes: 0,
  subject: null,
  person,
  arms: [],
  rays: [],
  swept: [],
  drip: [],
});

/** What is shown of all pieces together. */
const shownOf = (pieces: readonly Piece[], kinds: readonly Piece['kind'][]): readonly Shown[] =>
  pieces.filter(({ kind }) => kinds.includes(kind)).map(({ shown }) => shown);

/** How far in front of its middle the eyes of a head are, as a share of its radius. */
const EYES_SHARE = 0.85;

function personAt({ face }: PlacedTask, { attempt }: TaskOutcome, person: string, read: Read): Person | null {
  if (!attempt) return null;
  const { region, way, pieces } = attempt;
  const hands = shownOf(pieces, ['hand'])[0];
  const head = hands?.body?.head;
  // Who only works looks at what the hands do: the eyes are in front of the head.
  const looking =
    head && along(head, unit(subtract(face.at, head)), EYES_SHARE * read(bodyFor, person).sizes.headRadiusM);
  const eye = shownOf(pieces, ['see'])[0]?.eye ?? looking ?? region.eyes[0]?.centre ?? null;
  const shoulder = hands?.arms[0]?.pose.shoulder ?? region.shoulders[0]?.centre ?? null;
  if (!eye || !shoulder) return null;
  const standing = way.standing === null ? null : (read(standingPlaces)[way.standing] ?? null);
  const inside = region.posture === 'climbIn' || standing === null;
  const at = inside ? (hands?.body?.hips ?? shoulder) : standing.at;
  return { at: at ?? face.at, posture: region.posture, eye, shoulder };
}

/** What is cleared away, then each opening with its lid. */
function opened(task: PlacedTask, { attempt }: TaskOutcome, person: string, read: Read): readonly RehearsalStep[] {
  const all = read(openings);
  const assumed = read(serviceAssumptions);
  const around = surroundingsOf(task, person, read);
  const scene = attempt && !('reason' in around) ? around.scene(attempt.way, attempt.without) : null;
  return (attempt?.way.openings ?? []).flatMap((id): RehearsalStep[] => {
    const opening = all[id];
    if (!opening) return [];
    const swing = lidSwing(id, opening, scene?.all ?? [], read(hull));
    return [
      ...opening.moveFirst.map((subject) => ({
        ...step('move', null),
        subject,
        minutes: THERE * assumed.moveMinutes,
      })),
      {
        ...step('open', null),
        subject: id,
        minutes: THERE * openingMinutes(opening, assumed),
        swept: swing?.swept ?? [],
      },
    ];
  });
}

function takenOff({ removed }: TaskOutcome, read: Read): readonly RehearsalStep[] {
  const { moveMinutes, takeOffMinutes } = read(serviceAssumptions);
  return removed.map(({ owner, kind }) => ({
    ...step(kind === 'loose' ? 'move' : 'takeOff', null),
    subject: owner,
    minutes: THERE * (kind === 'loose' ? moveMinutes : takeOffMinutes),
  }));
}

/** Looking, reaching, turning, drawing out, catching what runs out; the work takes its minutes at the last of them. */
function worked(task: PlacedTask, { attempt }: TaskOutcome, who: Person | null, read: Read): readonly RehearsalStep[] {
  const pieces = attempt?.pieces ?? [];
  const [seen] = shownOf(pieces, ['see']);
  const hands = shownOf(pieces, ['hand', 'mirror']).flatMap(({ arms }) => arms.map(({ pose }) => pose));
  const [turned, ...ends] = shownOf(pieces, ['turn']);
  const [drawn] = shownOf(pieces, ['withdraw']);
  const below = shownOf(pieces, ['below']);
  const what = read(thing, task.thing);
  const spillL = what ? spillOf(what, task.service) : 0;
  const armsOf = (shown: readonly Shown[]): readonly ArmPose[] =>
    shown.flatMap(({ arms }) => arms.map(({ pose }) => pose));
  const steps: RehearsalStep[] = [
    ...(seen ? [{ ...step('look', who), rays: seen.rays }] : []),
    ...(hands.length > 0 ? [{ ...step('reach', who), arms: hands }] : []),
    ...(turned ? [{ ...step('turn', who), arms: ends.length > 0 ? armsOf(ends) : hands, swept: turned.swept }] : []),
    ...(below.length > 0 || spillL !== 0
      ? [{ ...step('catch', who), arms: hands, swept: below.flatMap(({ swept }) => swept), drip: dripOf(task, read) }]
      : []),
    ...(drawn ? [{ ...step('withdraw', who), arms: hands, swept: drawn.swept }] : []),
    { ...step('work', who), minutes: task.needs.minutesWork, arms: hands, rays: seen?.rays ?? [] },
  ];
  return steps;
}

/** Straight down from the lowest point of what is opened, to what it falls on: things, floors, the hull. */
function dripOf({ face, drawn, thing: own }: PlacedTask, read: Read): readonly Vec3[] {
  const lowest = drawn ? Math.min(face.at[2], solidBounds(drawn).low[2]) : face.at[2];
  const from: Vec3 = [face.at[0], face.at[1], lowest];
  const low = add(from, [-BESIDE_M, -BESIDE_M, -DEEPEST_M]);
  const high = add(from, [BESIDE_M, BESIDE_M, BESIDE_M]);
  const things = read(aboutBox, boxKey(low, high)).things.filter(({ owner }) => owner !== own);
  const catching = [...things, ...read(wallsAbout, wallsKey([], low, high))].map(inTheWay);
  const drop: CapsuleSolid = {
    type: 'capsule',
    id: 'drop',
    owner: own,
    label: '',
    layer: 'sweep',
    from,
    to: from,
    radius: DROP_M,
  };
  const down = { kind: 'straight', direction: scale(UP, -1), distanceM: DEEPEST_M } as const;
  const { blocker } = sweepPast(catching, read(hull), drop, down);
  return blocker ? [from, blocker.at] : [];
}
