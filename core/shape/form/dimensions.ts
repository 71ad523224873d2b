import { type Problem, problem } from '../../boat/problem';
import type { Hull } from '../../boat/schema/boat';
import { SEA_WATER_KG_M3 } from '../../boat/sea-water';

export type Form = NonNullable<Hull['form']>;
export const FORMS = ['longKeel', 'finKeel', 'lightDisplacement', 'motorHull', 'catamaran'] as const satisfies Form[];

/** What an owner knows of a boat; what is left out follows from the rest by common practice (no source). Metres, kilograms. */
export interface FormInput {
  readonly form: Form;
  readonly lengthM: number;
  readonly waterlineLengthM?: number | undefined;
  /** Over all: of a catamaran from outside to outside of both hulls. */
  readonly beamM: number;
  /** Of a catamaran: breadth of one hull at the deck. */
  readonly hullBeamM?: number | undefined;
  readonly draughtM: number;
  readonly displacementKg: number;
  /** Height of the deck edge above the water at bow, at its lowest amidships, at the stern. */
  readonly bowFreeboardM?: number | undefined;
  readonly midFreeboardM?: number | undefined;
  readonly sternFreeboardM?: number | undefined;
  readonly waterDensityKgM3?: number | undefined;
}

/** Every dimension settled. */
export interface Dimensions {
  readonly form: Form;
  readonly lengthM: number;
  readonly waterlineLengthM: number;
  readonly beamM: number;
  readonly hullBeamM: number;
  readonly draughtM: number;
  readonly displacementKg: number;
  readonly bowFreeboardM: number;
  readonly midFreeboardM: number;
  readonly sternFreeboardM: number;
  readonly waterDensityKgM3: number;
}

interface Proportions {
  readonly waterline: number;
  /** Breadth of one hull: a share of the beam of a single hull, of the length of a catamaran. */
  readonly hullBeam: number;
  /** Freeboard amidships: a share of the length and a height that even a dinghy has. */
  readonly freeboard: readonly [number, number];
  readonly bow: number;
  readonly stern: number;
  /** Usual beam, draught and displacement of that length: [factor, power of the length]. Only suggestions. */
  readonly usual: {
    readonly beam: readonly [number, number];
    readonly draught: readonly [number, number];
    readonly mass: readonly [number, number];
  };
}

/** Common practice of small craft from about 6 to 20 m; no source. */
const PROPORTIONS: Readonly<Record<Form, Proportions>> = {
  longKeel: {
    waterline: 0.8,
    hullBeam: 1,
    freeboard: [0.055, 0.35],
    bow: 1.45,
    stern: 1.08,
    usual: { beam: [0.78, 0.6], draught: [0.4, 0.58], mass: [7.5, 2.9] },
  },
  finKeel: {
    waterline: 0.85,
    hullBeam: 1,
    freeboard: [0.055, 0.4],
    bow: 1.32,
    stern: 1.05,
    usual: { beam: [0.8, 0.61], draught: [0.42, 0.62], mass: [7.2, 2.82] },
  },
  lightDisplacement: {
    waterline: 0.92,
    hullBeam: 1,
    freeboard: [0.055, 0.45],
    bow: 1.16,
    stern: 1.02,
    usual: { beam: [0.82, 0.61], draught: [0.45, 0.66], mass: [5.8, 2.76] },
  },
  motorHull: {
    waterline: 0.93,
    hullBeam: 1,
    freeboard: [0.07, 0.35],
    bow: 1.6,
    stern: 0.95,
    usual: { beam: [0.85, 0.61], draught: [0.3, 0.55], mass: [10, 2.78] },
  },
  catamaran: {
    waterline: 0.95,
    hullBeam: 0.155,
    freeboard: [0.07, 0.6],
    bow: 1.12,
    stern: 1,
    usual: { beam: [1.55, 0.6], draught: [0.3, 0.58], mass: [7.4, 2.82] },
  },
};

/** Least and greatest of what a number may be, whatever the form. */
const FORM_LIMITS = {
  lengthM: [5, 30],
  beamM: [1.5, 14],
  hullBeamM: [0.8, 5],
  draughtM: [0.3, 5],
  displacementKg: [300, 250_000],
  freeboardM: [0.3, 4],
} as const;

type Range = readonly [least: number, greatest: number];

/** Length on the water as a share of the length over all. */
const WATERLINE_SHARE: Range = [0.68, 0.99];
/** Beam as a share of the length over all: of one hull, of a catamaran. */
const BEAM_SHARE: Range = [0.17, 0.55];
const CATAMARAN_BEAM_SHARE: Range = [0.35, 0.85];
const DRAUGHT_SHARE: Range = [0.03, 0.35];

const rounded = (metres: number, step: number): number => Math.round(metres / step) / Math.round(1 / step);

/** Usual beam, draught and displacement of a boat of that form and length: suggestions, not answers. */
export function usualDimensions(
  form: Form,
  lengthM: number,
): { readonly beamM: number; readonly draughtM: number; readonly displacementKg: number } {
  const { usual } = PROPORTIONS[form];
  const of = ([factor, power]: readonly [number, number]): number => factor * lengthM ** power;
  return {
    beamM: rounded(of(usual.beam), 0.05),
    draughtM: rounded(of(usual.draught), 0.05),
    displacementKg: Math.round(of(usual.mass) / 50) * 50,
  };
}

const both = (a: Range, b: Range): Range => [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
const into = ([least, greatest]: Range, value: number): number => Math.min(greatest, Math.max(least, value));
const shareOf = ([least, greatest]: Range, whole: number): Range => [
  rounded(least * whole, 0.001),
  rounded(greatest * whole, 0.001),
];

const beamRange = (form: Form, lengthM: number): Range =>
  both(shareOf(form === 'catamaran' ? CATAMARAN_BEAM_SHARE : BEAM_SHARE, lengthM), FORM_LIMITS.beamM);
/** Of one hull of a catamaran: slender, and with water between the two. Never empty for a beam that is itself in range. */
const hullBeamRange = (lengthM: number, beamM: number): Range =>
  both(FORM_LIMITS.hullBeamM, [rounded(0.06 * lengthM, 0.001), rounded(0.46 * beamM, 0.001)]);
const freeboardRange = (lengthM: number): Range => both(FORM_LIMITS.freeboardM, [0, rounded(0.3 * lengthM, 0.001)]);

/** Fills in what was not given. What is filled in keeps to what a boat may have: only what was given can be at fault. */
export function dimensionsOf(input: FormInput): Dimensions {
  const { form, lengthM, beamM } = input;
  const share = PROPORTIONS[form];
  const freeboard = (value: number): number => into(freeboardRange(lengthM), rounded(value, 0.01));
  const midFreeboardM = input.midFreeboardM ?? freeboard(share.freeboard[0] * lengthM + share.freeboard[1]);
  const hullBeam = (): number =>
    into(hullBeamRange(lengthM, beamM), rounded(Math.min(share.hullBeam * lengthM, beamM * 0.42), 0.01));
  return {
    form,
    lengthM,
    waterlineLengthM: input.waterlineLengthM ?? rounded(share.waterline * lengthM, 0.01),
    beamM,
    hullBeamM: form === 'catamaran' ? (input.hullBeamM ?? hullBeam()) : beamM,
    draughtM: input.draughtM,
    displacementKg: input.displacementKg,
    bowFreeboardM: input.bowFreeboardM ?? freeboard(midFreeboardM * share.bow),
    midFreeboardM,
    sternFreeboardM: input.sternFreeboardM ?? freeboard(midFreeboardM * share.stern),
    waterDensityKgM3: input.waterDensityKgM3 ?? SEA_WATER_KG_M3,
  };
}

/**
 * Dimensions that no boat has, each with its value and what it may be. What is measured against another dimension, or follows
 * from it, is judged once that one is right: its limits would mean nothing before.
 */
export function checkDimensions(d: Dimensions): readonly Problem[] {
  const problems: Problem[] = [];
  const within = (key: keyof Dimensions, [least, most]: Range, unit: string): boolean => {
    const value = d[key];
    if (typeof value === 'number' && value >= least && value <= most) return true;
    problems.push(problem([key], value, `it must be from ${plain(least)} to ${plain(most)} ${unit}`));
    return false;
  };
  if (!within('lengthM', FORM_LIMITS.lengthM, 'm')) return problems;
  within('waterlineLengthM', shareOf(WATERLINE_SHARE, d.lengthM), 'm');
  if (within('beamM', beamRange(d.form, d.lengthM), 'm') && d.form === 'catamaran')
    within('hullBeamM', hullBeamRange(d.lengthM, d.beamM), 'm');
  within('draughtM', both(shareOf(DRAUGHT_SHARE, d.lengthM), FORM_LIMITS.draughtM), 'm');
  if (within('midFreeboardM', freeboardRange(d.lengthM), 'm')) {
    const ends = (['bowFreeboardM', 'sternFreeboardM'] as const).map((key) =>
      within(key, freeboardRange(d.lengthM), 'm'),
    );
    if (ends.every((isRight) => isRight) && d.midFreeboardM > Math.min(d.bowFreeboardM, d.sternFreeboardM) + 0.25)
      problems.push(
        problem(['midFreeboardM'], d.midFreeboardM, 'amidships the deck may stand 0.25 m above bow and stern at most'),
      );
  }
  within('displacementKg', FORM_LIMITS.displacementKg, 'kg');
  return problems;
}

const plain = (value: number): string => String(Math.round(value * 1000) / 1000);
