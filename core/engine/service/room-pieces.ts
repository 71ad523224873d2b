import { leverSwing } from '../../assess/access/handle-swing';
import { obstructionsIn } from '../../assess/access/in-the-way';
import { swingOf, type ToolSwing, type TurnedTool } from '../../assess/access/tool-swing';
import { withdrawalOf } from '../../assess/access/withdrawal';
import { along, type Vec3 } from '../../base/vec';
import { CLEAN_MARGIN, combine } from '../../boat/accuracy';
import type { ToolNeeds, VesselNeeds } from '../../boat/catalogue/task-defaults';
import type { GradeShare } from '../../rules/finding';
import { convexOf } from '../../shape/space/convex';
import { nearestPoints } from '../../shape/space/convex-distance';
import type { Solid } from '../../shape/space/solids';
import type { CarriedOut } from './carried-out';
import {
  AS_USUAL,
  blockerOf,
  FROM_FILE,
  FROM_MEMORY,
  GEOMETRY,
  type Measure,
  measureOf,
  NOTHING_SHOWN,
  type Piece,
  PRACTICE,
  type TaskScene,
} from './pieces';
import type { PlacedTask } from './task-stages';

/** What takes room by itself, whoever does it: what is drawn out, what swings, what is stood below. */

/** How much more room is looked for than is taken, so that what is clean by the tape is told as clean, metres. */
const beyondM = (grades: readonly GradeShare[]): number =>
  CLEAN_MARGIN * combine(...grades.map(({ gradeM }) => gradeM)) * 2 + LEAST_BEYOND_M;
/** What stands there has a grade of its own. */
const LEAST_BEYOND_M = 0.06;

/** A vessel is looked for this thick, and from this far off the place, metres: it is pushed in from below. */
const SHEET_M = 0.002;

export function withdrawPiece(task: PlacedTask, scene: TaskScene): Piece | null {
  const { others, hull, gradesBetween } = scene;
  const { needs, drawn, face } = task;
  if (!needs.withdraw || !drawn) return null;
  const { lengthM, tiltOk, dropM } = needs.withdraw;
  // What touches it where it sits lets it go: hoses at ports of the thing, the board that it is let into.
  const body = convexOf(drawn);
  const touching = new Set(
    obstructionsIn(others, body.low, body.high).filter(
      ({ solid }) => nearestPoints(body, convexOf(solid)).distanceM <= 0,
    ),
  );
  const inTheWay = touching.size === 0 ? others : others.filter((one) => !touching.has(one));
  const found = withdrawalOf(drawn, face.direction, lengthM, inTheWay, {
    tiltOk,
    dropM,
    hull,
    beyondM: beyondM(gradesBetween(face.direction, [])),
  });
  const { isOut, how, freeM, blocker, beside } = found;
  const needed = how === 'tilted' ? dropM : lengthM;
  const measure = measureOf(
    'withdrawal',
    {
      value: freeM,
      limit: needed,
      bound: 'atLeast',
      unit: 'm',
      grade: gradesBetween(face.direction, blocker ? [blocker.owner] : []),
    },
    isLengthSaid(task.service, how === 'tilted') ? FROM_FILE : AS_USUAL,
  );
  const shown = { ...NOTHING_SHOWN, swept: found.swept };
  if (isOut)
    return {
      kind: 'withdraw',
      outcome: 'yes',
      reason: how === 'tilted' ? 'outTilted' : 'out',
      measures: [measure],
      blockers: [],
      shortByM: null,
      tried: 1,
      shown,
    };
  const carried = needs.massKg === null ? scene.carriedOut() : null;
  if (carried && carried.outcome !== 'cannot') return carriedPiece(carried, measure, scene);
  const shortByM = Math.max(0, (tiltOk && freeM < dropM ? dropM : lengthM) - freeM);
  return {
    kind: 'withdraw',
    // Of what may be tilted only some tilts are tried.
    outcome: tiltOk && freeM >= dropM ? 'notFound' : 'no',
    reason: tiltOk ? 'stuckTilted' : 'stuck',
    measures: [measure],
    blockers: [
      ...(blocker ? [blockerOf(blocker, shortByM)] : []),
      ...beside.filter(({ owner }) => owner !== blocker?.owner).map((met) => blockerOf(met, null)),
    ],
    shortByM,
    tried: tiltOk ? 2 : 1,
    shown,
  };
}

/** A whole thing that does not come straight out: slid and turned out of its compartment, as it came in. */
function carriedPiece(
  { outcome, spareM, lines, swept }: CarriedOut,
  straight: Measure,
  { others, gradesBetween }: TaskScene,
): Piece {
  const isOut = outcome === 'out';
  const room = measureOf(
    'withdrawal',
    { value: spareM, limit: 0, bound: 'atLeast', unit: 'm', grade: gradesBetween([0, 0, 1], []) },
    GEOMETRY,
  );
  return {
    kind: 'withdraw',
    outcome: isOut ? 'yes' : outcome === 'met' ? 'no' : 'notFound',
    reason: isOut ? 'outCarried' : 'stuckCarried',
    measures: [isOut ? room : straight],
    blockers: lines.map((owner) =>
      blockerOf({ owner, label: others.find((one) => one.owner === owner)?.label ?? owner }, null),
    ),
    shortByM: isOut ? null : straight.judged.limit.value - straight.judged.measured.value,
    tried: 1,
    shown: { ...NOTHING_SHOWN, swept },
  };
}

/** Whether its record tells how far it must come, and no usual value stands in. */
const isLengthSaid = ({ withdrawM, clearM, tiltAfterM }: PlacedTask['service'], isTilted: boolean): boolean =>
  (isTilted ? tiltAfterM : withdrawM) !== undefined || clearM > 0;

const turnedTool = ({ face, needs }: PlacedTask, { kind, lengthM, headM, swingDeg }: ToolNeeds): TurnedTool => ({
  kind,
  hub: kind === 'strap' && needs.withdraw ? along(face.at, face.direction, -strapBackM(needs.withdraw.longM)) : face.at,
  axis: face.direction,
  lengthM,
  headM,
  neededDeg: swingDeg,
});

/** A strap goes round a bowl in the middle of its length. */
const strapBackM = (longM: number): number => longM / 2;

export function turnPiece(task: PlacedTask, { others, hull }: TaskScene): { piece: Piece; swing: ToolSwing } | null {
  const { tool } = task.needs;
  if (!tool) return null;
  const swing = swingOf(turnedTool(task, tool), others, hull);
  const measure = measureOf(
    'swing',
    { value: swing.freeDeg, limit: swing.neededDeg, bound: 'atLeast', unit: 'deg', grade: [] },
    tool.kind === 'strap' ? PRACTICE : FROM_MEMORY,
  );
  return {
    swing,
    piece: {
      kind: 'turn',
      outcome: swing.isFree ? 'yes' : 'no',
      reason: swing.isFree ? 'turns' : tool.kind === 'driver' ? 'noRoomInFront' : 'noSwing',
      measures: [measure],
      blockers: swing.isFree ? [] : swing.blockers.map((met) => blockerOf(met, null)),
      shortByM: null,
      tried: 1,
      shown: { ...NOTHING_SHOWN, swept: swing.swept },
    },
  };
}

/** Whether the lever of a valve makes its turn; lines on the valve itself give way. */
export function leverPiece({ lever, thing }: PlacedTask, { arms, hull }: TaskScene): Piece | null {
  if (!lever) return null;
  const others = arms.filter(({ owner }) => owner !== thing);
  const { isFree, freeDeg, neededDeg, blockers, swept } = leverSwing(lever.handle, lever.pose, others, hull);
  return {
    kind: 'turn',
    outcome: isFree ? 'yes' : 'no',
    reason: isFree ? 'turns' : 'leverStopped',
    measures: [
      measureOf('swing', { value: freeDeg, limit: neededDeg, bound: 'atLeast', unit: 'deg', grade: [] }, FROM_FILE),
    ],
    blockers: blockers.map((met) => blockerOf(met, null)),
    shortByM: null,
    tried: 1,
    shown: { ...NOTHING_SHOWN, swept },
  };
}

/** Tray, cup and funnel: whether each has its height straight below or above the place. */
export function vesselPieces(task: PlacedTask, scene: TaskScene): readonly Piece[] {
  return task.needs.vessels.map((vessel) => vesselPiece(task, vessel, scene));
}

function vesselPiece(
  { face: { at }, drawn, needs, service }: PlacedTask,
  vessel: VesselNeeds,
  { others, hull, gradesBetween }: TaskScene,
): Piece {
  const isAbove = vessel.kind === 'funnel';
  const way: Vec3 = isAbove ? [0, 0, 1] : [0, 0, -1];
  const { heightM, acrossM } = vessel;
  const sheet: Solid = {
    type: 'cylinder',
    id: vessel.kind,
    owner: vessel.kind,
    label: vessel.kind,
    layer: 'sweep',
    from: at,
    to: along(at, way, SHEET_M),
    radius: acrossM / 2,
  };
  const {
    isOut: isMet,
    freeM,
    blocker,
    swept,
  } = withdrawalOf(sheet, way, heightM - SHEET_M, others, {
    tiltOk: false,
    hull,
    beyondM: beyondM(gradesBetween(way, [])),
  });
  const valueM = freeM + SHEET_M;
  const measure = measureOf(
    'below',
    {
      value: valueM,
      limit: heightM,
      bound: 'atLeast',
      unit: 'm',
      grade: gradesBetween(way, blocker ? [blocker.owner] : []),
    },
    service.below?.heightM === undefined ? AS_USUAL : FROM_FILE,
  );
  return {
    kind: 'below',
    outcome: isMet ? 'yes' : 'no',
    reason: isMet ? 'vesselFits' : isAbove ? 'noRoomAbove' : 'noRoomBelow',
    measures: [measure],
    blockers: !isMet && blocker ? [blockerOf(blocker, heightM - valueM)] : [],
    shortByM: isMet ? null : heightM - valueM,
    tried: 1,
    shown: { ...NOTHING_SHOWN, swept: drawn && needs.withdraw ? [] : swept },
  };
}
