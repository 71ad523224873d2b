import type { Dice } from './dice';

type Form = 'longKeel' | 'finKeel' | 'lightDisplacement' | 'motorHull' | 'catamaran';
export const ALL_FORMS: readonly Form[] = ['longKeel', 'finKeel', 'lightDisplacement', 'motorHull', 'catamaran'];

/** Beam, draught and mass that such boats have: [factor, power of the length]. From memory, no source. */
const USUAL: Readonly<Record<Form, readonly (readonly [number, number])[]>> = {
  longKeel: [
    [0.78, 0.6],
    [0.4, 0.58],
    [7.5, 2.9],
  ],
  finKeel: [
    [0.8, 0.61],
    [0.42, 0.62],
    [7.2, 2.82],
  ],
  lightDisplacement: [
    [0.82, 0.61],
    [0.45, 0.66],
    [5.8, 2.76],
  ],
  motorHull: [
    [0.85, 0.61],
    [0.3, 0.55],
    [10, 2.78],
  ],
  catamaran: [
    [1.55, 0.6],
    [0.3, 0.58],
    [7.4, 2.82],
  ],
};

export interface DrawnDimensions {
  readonly form: Form;
  readonly lengthM: number;
  readonly beamM: number;
  readonly draughtM: number;
  readonly displacementKg: number;
}

/** Main dimensions as owners give them: a length from 7 to 16 m, the rest within a tenth or so of what is usual. */
export function drawnDimensions(form: Form, dice: Dice): DrawnDimensions {
  const lengthM = Math.round(dice.from(7, 16) * 100) / 100;
  const [beam, draught, mass] = USUAL[form].map(([factor, power]) => factor * lengthM ** power) as [
    number,
    number,
    number,
  ];
  const about = (value: number, share: number, step: number): number =>
    Math.round((value * dice.from(1 - share, 1 + share)) / step) * step;
  return {
    form,
    lengthM,
    beamM: Math.round(about(beam, 0.1, 0.01) * 100) / 100,
    draughtM: Math.round(about(draught, 0.12, 0.01) * 100) / 100,
    displacementKg: about(mass, 0.15, 10),
  };
}
