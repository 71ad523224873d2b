import type { BodySizes } from '@core/base/formulas/body-sizes';
import type { Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import type { RehearsalStep, TaskReport } from '@core/engine/service/service-report';
import { FRAMES, type ViewName } from '@core/output/views/drawing';
import { boundsInBoat } from '@core/output/views/envelope';
import { openingRim } from '@core/output/views/openings';
import { extentOfSteps, type Stance } from '@core/output/views/rehearsal';
import type { RunPath } from '@core/output/views/runs';
import type { HullSurface } from '@core/shape/hull/types';
import type { Layout } from '@core/shape/layout/types';
import type { Tokens } from '../../app/tokens';
import { poseOf, thingOf } from '../../store/select';
import type { DisplayUnits } from '../../store/types';
import { type CutScene, cutScene } from '../cut-scene';
import type { Camera, Extent, Sheet } from '../sheet';
import type { Placed } from '../things';

/** All that the painters of a rehearsal read. */
export interface RehearsalScene {
  readonly boat: Boat;
  readonly hull: HullSurface | null;
  readonly layout: Layout;
  readonly colours: Tokens;
  readonly units: DisplayUnits;
  readonly placed: readonly Placed[];
  readonly paths: readonly RunPath[];
  readonly task: TaskReport;
  readonly steps: readonly RehearsalStep[];
  /** Which of them is shown. */
  readonly index: number;
  readonly body: BodySizes;
  readonly stance: Stance;
  readonly sheet: Sheet;
  readonly camera: Camera;
  /** What list and tables point at. */
  readonly hovered: string | null;
  readonly isStale: boolean;
  /** Counts up when fonts arrive. */
  readonly fonts: number;
}

/** Below this share of the upright shoulder height somebody who stands has gone down on the knees. */
const KNEELS_BELOW = 0.62;

/** How the person is: by the standing place, else by how low the shoulder is. */
export function stanceOf(boat: Boat, task: TaskReport, steps: readonly RehearsalStep[], body: BodySizes): Stance {
  if (task.posture === 'lie') return 'lie';
  // Where nobody stands anywhere, and inside, the hips are told.
  if (task.posture === 'climbIn' || task.standing === null) return 'crouch';
  const place = boat.standingPlaces[task.standing];
  if (place && place.posture !== 'stand') return place.posture;
  const low = steps.some(
    ({ person }) => person !== null && person.shoulder[2] - person.at[2] < KNEELS_BELOW * body.standingShoulderM,
  );
  return low ? 'kneel' : 'stand';
}

/** Room about what a rehearsal shows, metres. */
const ROOM_M = 0.12;
const ALONE_M = 0.5;

/** What must be in sight: the person and all steps, the thing, and its openings. */
export function extentOfRehearsal(
  boat: Boat,
  arrangementId: string | null,
  task: TaskReport,
  steps: readonly RehearsalStep[],
  body: BodySizes,
): Extent {
  const thing = thingOf(boat, task.thing);
  const pose = poseOf(boat, arrangementId, task.thing);
  const box = thing && pose ? boundsInBoat(thing.shape, pose) : { low: task.at, high: task.at };
  const rims = task.openings.flatMap((id) => {
    const opening = boat.openings[id];
    return opening ? openingRim(opening) : [];
  });
  const { low, high } = extentOfSteps(steps, body, [task.at, box.low, box.high, ...rims]);
  const room = steps.length === 0 ? ALONE_M : ROOM_M;
  return { low: moved(low, -room), high: moved(high, room) };
}

const moved = ([x, y, z]: Vec3, by: number): Vec3 => [x + by, y + by, z + by];

/** Each view cuts through the place that is worked at, kept to millimetres. */
export function cutAt(
  { boat, hull, layout, task }: Pick<RehearsalScene, 'boat' | 'hull' | 'layout' | 'task'>,
  name: ViewName,
): CutScene {
  const axis = name === 'profile' ? 1 : name === 'section' ? 0 : 2;
  return cutScene(boat, hull, layout, {
    frame: FRAMES[name],
    at: Math.round(task.at[axis] * 1000) / 1000,
  });
}
