import * as portable from '../../base/portable';
import { degrees, radians, type Vec2, type Vec3 } from '../../base/vec';
import { gradeM } from '../../boat/accuracy';
import { checkBoat } from '../../boat/read';
import { type Boat, FORMAT, type Grade, type Part, type Place, SCHEMA_VERSION } from '../../boat/schema/boat';

/** What a tape reads in and at a locker. The inboard side is upright; the outboard side may lean with the hull. */
export const LOCKER_READINGS = [
  'length',
  'height',
  'depthBottom',
  'depthTop',
  'lining',
  'openingWidth',
  'openingHeight',
  'openingAcross',
  'openingUp',
] as const;
export type LockerReading = (typeof LOCKER_READINGS)[number];

export interface Reading {
  /** Metres. */
  readonly valueM: number;
  readonly grade: Grade;
}

export type LockerFace = 'front' | 'top' | 'aft' | 'forward';

export interface Locker {
  readonly name: string;
  /** Side of the boat: which way the hull leans. */
  readonly side: 'port' | 'starboard';
  /** Inside length fore and aft; clear height; depth from the inboard side to the hull, at the bottom and at the top. */
  readonly readings: Readonly<Record<LockerReading, Reading>>;
  /** Whether the depth at the top was measured, or follows from how far the hull leans out. */
  readonly slopeBy: 'depths' | 'lean';
  /** Lean of the outboard side from the vertical, degrees; positive leans outwards as it rises. */
  readonly leanDeg: number;
  readonly opening: {
    /** Front is the inboard side. */
    readonly face: LockerFace;
    /** In the middle of its face; else `openingAcross` and `openingUp` count. */
    readonly centred: boolean;
  };
}

export const COMPARTMENT = 'locker';
export const OPENING = 'opening';
export const ARRANGEMENT = 'first';

/** A reading that cannot be right, with the limit that it breaks. */
export interface LockerProblem {
  readonly reading: LockerReading | 'lean';
  readonly message: string;
}

/** Clear section of the locker, [depth outboard of the inboard side, height above the bottom], counter-clockwise; metres. */
function sectionOf(locker: Locker): readonly Vec2[] {
  const { height, lining } = valuesOf(locker);
  const [bottom, top] = depthsOf(locker);
  // A lining stands off square to the hull: across the boat it takes more where the hull leans.
  const taken = lining / portable.cos(portable.atan2(top - bottom, height));
  return roomBeside([bottom - taken, top - taken], height);
}

/** Corners where the outboard side, from `low` at the bottom to `high` at the top, leaves room beside the inboard side. */
function roomBeside([low, high]: readonly [number, number], height: number): readonly Vec2[] {
  if (low <= 0 && high <= 0) return [];
  const crossing = (height * low) / (low - high);
  const corners: Vec2[] = [];
  if (low > 0) corners.push([0, 0], [low, 0]);
  else corners.push([0, crossing]);
  if (high > 0) corners.push([high, height], [0, height]);
  else corners.push([0, crossing]);
  return corners;
}

function valuesOf(locker: Locker): Readonly<Record<LockerReading, number>> {
  return Object.fromEntries(LOCKER_READINGS.map((key) => [key, locker.readings[key].valueM])) as Record<
    LockerReading,
    number
  >;
}

/** Depths from the inboard side to the hull as measured, at the bottom and at the top, metres. */
function depthsOf(locker: Locker): readonly [number, number] {
  const { depthBottom, depthTop, height } = valuesOf(locker);
  return [
    depthBottom,
    locker.slopeBy === 'depths' ? depthTop : depthBottom + height * portable.tan(radians(locker.leanDeg)),
  ];
}

/** Lean of the outboard side from the vertical, degrees, outwards as it rises. */
export function leanOf(locker: Locker): number {
  const [bottom, top] = depthsOf(locker);
  return degrees(portable.atan2(top - bottom, valuesOf(locker).height));
}

/** Width and height of the face that the opening is in, as someone sees it who looks in; metres. */
function faceSizeOf(locker: Locker): Vec2 {
  const { length, height } = valuesOf(locker);
  const depths = sectionOf(locker).map(([depth]) => depth);
  const { face } = locker.opening;
  if (face === 'front') return [length, height];
  if (face === 'top') return [length, topDepth(locker)];
  return [Math.max(...depths), height];
}

const topDepth = (locker: Locker): number => {
  const { height } = valuesOf(locker);
  return Math.max(0, ...sectionOf(locker).flatMap(([depth, z]) => (z >= height - 1e-9 ? [depth] : [])));
};

const words = (metres: number): string => `${Math.round(metres * 1000)} mm`;

/** What stops these readings from being a locker; empty when nothing does. */
export function problemsOf(locker: Locker): readonly LockerProblem[] {
  const values = valuesOf(locker);
  const problems: LockerProblem[] = [];
  const least = (reading: LockerReading, name: string): void => {
    if (!(values[reading] > 0))
      problems.push({ reading, message: `${name} is ${words(values[reading])}: more than 0` });
    else if (values[reading] > 20)
      problems.push({ reading, message: `${name} is ${words(values[reading])}: at most 20 m` });
  };
  least('length', 'Length');
  least('height', 'Height');
  least('openingWidth', 'Width of the opening');
  least('openingHeight', 'Height of the opening');
  if (Math.abs(locker.leanDeg) > 80 && locker.slopeBy === 'lean')
    problems.push({ reading: 'lean', message: `The lean is ${locker.leanDeg}\u00b0: at most 80\u00b0` });
  for (const reading of ['depthBottom', 'depthTop', 'lining', 'openingAcross', 'openingUp'] as const)
    if (values[reading] < 0) problems.push({ reading, message: `${words(values[reading])} is less than 0` });
  if (problems.length > 0) return problems;
  if (sectionOf(locker).length < 3 || Math.max(...depthsOf(locker)) <= 0)
    return [{ reading: 'depthBottom', message: 'These depths leave no room in the locker' }];
  const [width, height] = faceSizeOf(locker);
  const { face } = locker.opening;
  if (values.openingWidth > width)
    problems.push({
      reading: 'openingWidth',
      message: `The opening is ${words(values.openingWidth)} wide, its side of the locker ${words(width)}`,
    });
  if (values.openingHeight > height)
    problems.push({
      reading: 'openingHeight',
      message: `The opening is ${words(values.openingHeight)} ${face === 'top' ? 'deep' : 'high'}, its side of the locker ${words(height)}`,
    });
  if (problems.length > 0 || locker.opening.centred) return problems;
  if (values.openingAcross + values.openingWidth > width + 1e-9)
    problems.push({
      reading: 'openingAcross',
      message: `The opening ends ${words(values.openingAcross + values.openingWidth - width)} beyond its side of the locker`,
    });
  if (values.openingUp + values.openingHeight > height + 1e-9)
    problems.push({
      reading: 'openingUp',
      message: `The opening ends ${words(values.openingUp + values.openingHeight - height)} beyond its side of the locker`,
    });
  return problems;
}

/** Centre, outward normal and up of the opening, in the frame of the locker: x forward from its aft end, z up from its bottom. */
function openingPlace(locker: Locker): { readonly at: Vec3; readonly normal: Vec3; readonly up: Vec3 } {
  const values = valuesOf(locker);
  const [width, height] = faceSizeOf(locker);
  const { face, centred } = locker.opening;
  const across = centred ? width / 2 : values.openingAcross + values.openingWidth / 2;
  const up = centred ? height / 2 : values.openingUp + values.openingHeight / 2;
  const out = locker.side === 'port' ? 1 : -1;
  if (face === 'front') return { at: [across, 0, up], normal: [0, -out, 0], up: [0, 0, 1] };
  if (face === 'top') return { at: [across, out * up, values.height], normal: [0, 0, 1], up: [0, out, 0] };
  const isAft = face === 'aft';
  return {
    at: [isAft ? 0 : values.length, out * across, up],
    normal: [isAft ? -1 : 1, 0, 0],
    up: [0, 0, 1],
  };
}

/** The coarsest of several readings speaks for the record that they make. */
const coarsest = (locker: Locker, keys: readonly LockerReading[]): Grade =>
  keys
    .map((key) => locker.readings[key].grade)
    .reduce((worst, grade) => (gradeM(NO_GRADES, grade) > gradeM(NO_GRADES, worst) ? grade : worst));

/** A locker is judged by the usual grades; the boat that it becomes may say otherwise. */
export const NO_GRADES: Pick<Boat, 'accuracy'> = { accuracy: {} };

/**
 * The boat that a measured locker is: one compartment with its slope, one opening that leads outside, the parts with their places. Without a
 * hull it stands on the centreline with its bottom at z = 0. Throws when `problemsOf` has something to say.
 */
export function lockerBoat(
  locker: Locker,
  parts: Readonly<Record<string, Part>>,
  places: Readonly<Record<string, Place>>,
): Boat {
  const values = valuesOf(locker);
  const out = locker.side === 'port' ? 1 : -1;
  const section = sectionOf(locker).map(([depth, z]): [number, number] => [out * depth, z]);
  const outline = out === 1 ? section : section.reverse();
  const read = checkBoat({
    format: FORMAT,
    schemaVersion: SCHEMA_VERSION,
    name: locker.name,
    compartments: {
      [COMPARTMENT]: {
        name: locker.name,
        kind: 'locker',
        view: 'section',
        outline,
        rangeM: [0, values.length],
        grade: coarsest(locker, ['length', 'height', 'depthBottom', 'depthTop']),
        ...(values.lining > 0 ? { liningM: values.lining } : {}),
      },
    },
    openings: {
      [OPENING]: {
        name: OPENING_NAMES[locker.opening.face],
        compartment: COMPARTMENT,
        to: 'outside',
        ...openingPlace(locker),
        widthM: values.openingWidth,
        heightM: values.openingHeight,
        grade: coarsest(locker, ['openingWidth', 'openingHeight']),
      },
    },
    gradeOf: gradesOf(locker, outline),
    parts,
    arrangements: { [ARRANGEMENT]: { name: 'First', places } },
    currentArrangement: ARRANGEMENT,
  });
  if (!read.ok) throw new Error(`lockerBoat: ${read.problems.map(({ message }) => message).join('; ')}`);
  return read.boat;
}

/** Which reading places each side; the aft end, the bottom and the inboard side are where the tape begins. */
function gradesOf(locker: Locker, outline: readonly Vec2[]): Readonly<Record<string, Grade>> {
  const { length, height, openingWidth, openingHeight } = locker.readings;
  const sides = outline.map(([y, z], i): readonly [string, Grade] => {
    const [nextY, nextZ] = outline[(i + 1) % outline.length] ?? [y, z];
    const isLevel = Math.abs(z - nextZ) < 1e-9;
    const isInboard = Math.abs(y) < 1e-9 && Math.abs(nextY) < 1e-9;
    const grade = isLevel && z > 1e-9 ? height.grade : isLevel || isInboard ? 'measured' : depthGrade(locker);
    return [`compartments.${COMPARTMENT}.outline.${i}`, grade];
  });
  return {
    ...Object.fromEntries(sides),
    [`compartments.${COMPARTMENT}.rangeM.0`]: 'measured',
    [`compartments.${COMPARTMENT}.rangeM.1`]: length.grade,
    [`openings.${OPENING}.widthM`]: openingWidth.grade,
    [`openings.${OPENING}.heightM`]: openingHeight.grade,
  };
}

const depthGrade = (locker: Locker): Grade => coarsest(locker, ['depthBottom', 'depthTop']);

const OPENING_NAMES: Readonly<Record<LockerFace, string>> = {
  front: 'Front opening',
  top: 'Lid',
  aft: 'Aft opening',
  forward: 'Forward opening',
};

/** Names a side of the locker by its outward normal. */
export const sideNameIn =
  ({ side }: Locker) =>
  ([x, y, z]: Vec3): string => {
    if (Math.abs(x) > 0.7) return x > 0 ? 'forward end' : 'aft end';
    if (Math.abs(y) < 1e-9) return z > 0 ? 'top' : 'bottom';
    return y * (side === 'port' ? 1 : -1) > 0 ? 'hull side' : 'inboard side';
  };

/** A copy with one reading longer by so much. */
export const withReading = (locker: Locker, key: LockerReading, byM: number): Locker => ({
  ...locker,
  readings: {
    ...locker.readings,
    [key]: { ...locker.readings[key], valueM: locker.readings[key].valueM + byM },
  },
});
