import type { SetSize } from '@core/boat/catalogue/generic-set';
import type { FirstBoatInput, ShellInput } from '@core/engine/first-boat/first-boat';
import type { UsualFixture } from '@core/engine/first-boat/usual-fixtures';
import { type Form, usualDimensions } from '@core/shape/form/dimensions';
import { create } from 'zustand';
import type { PlainShell } from '../../worker/studies/protocol';

/** Hull and interior as they are drawn at the door. */
export type Drawn = Extract<PlainShell, { ok: true }>;

/** Numbers of the boat that may be typed; what is not typed is guessed from the rest. */
export const BOAT_FIELDS = [
  'lengthM',
  'beamM',
  'draughtM',
  'displacementKg',
  'waterlineLengthM',
  'hullBeamM',
  'bowFreeboardM',
  'midFreeboardM',
  'sternFreeboardM',
  'soleBelowM',
] as const;
export type BoatField = (typeof BOAT_FIELDS)[number];

export const LOCKER_FIELDS = ['lengthM', 'widthM', 'heightM', 'fromBulkheadM'] as const;
export type LockerField = (typeof LOCKER_FIELDS)[number];
export const MOST_LOCKERS = 4;

export interface LockerAnswers {
  /** Tells it from the others while it is on the page. */
  readonly id: number;
  readonly compartment: string;
  readonly name: string;
  readonly values: Readonly<Partial<Record<LockerField, number>>>;
}

export interface Answers {
  readonly form: Form;
  readonly name: string;
  readonly values: Readonly<Partial<Record<BoatField, number>>>;
  readonly setSize: SetSize;
  readonly fixtures: Readonly<Record<UsualFixture, boolean>>;
  readonly lockers: readonly LockerAnswers[];
}

const FIRST_LENGTH_M = 11;

export const NO_ANSWERS: Answers = {
  form: 'finKeel',
  name: '',
  values: {},
  setSize: 60,
  fixtures: { engine: true, intake: true, battery: true, waterTank: true, sink: true, freshPump: true },
  lockers: [],
};

/** Fields that count for a form: a catamaran has the breadth of one hull where others have a waterline length. */
export const fieldsOf = (form: Form): readonly BoatField[] =>
  BOAT_FIELDS.filter((field) => field !== (form === 'catamaran' ? 'waterlineLengthM' : 'hullBeamM'));

/** Most numbers that can be typed. */
export const mostTyped = (form: Form): number => fieldsOf(form).length + MOST_LOCKERS * LOCKER_FIELDS.length;

export const typedCount = ({ form, values, lockers }: Answers): number =>
  fieldsOf(form).filter((field) => values[field] !== undefined).length +
  lockers.reduce((sum, locker) => sum + Object.keys(locker.values).length, 0);

/** A locker counts once its three sizes are known: half a measurement is a guess. */
export const isMeasured = ({ values }: LockerAnswers): boolean =>
  values.lengthM !== undefined && values.widthM !== undefined && values.heightM !== undefined;

/** What the boat is made from. */
export const inputOf = (answers: Answers): FirstBoatInput => ({
  ...shellInputOf(answers),
  name: answers.name,
  setSize: answers.setSize,
  fixtures: answers.fixtures,
});

/** What of it gives her shape. */
export function shellInputOf({ form, values, lockers }: Pick<Answers, 'form' | 'values' | 'lockers'>): ShellInput {
  const lengthM = values.lengthM ?? FIRST_LENGTH_M;
  const usual = usualDimensions(form, lengthM);
  return {
    form,
    lengthM,
    beamM: values.beamM ?? usual.beamM,
    draughtM: values.draughtM ?? usual.draughtM,
    displacementKg: values.displacementKg ?? usual.displacementKg,
    waterlineLengthM: form === 'catamaran' ? undefined : values.waterlineLengthM,
    hullBeamM: form === 'catamaran' ? values.hullBeamM : undefined,
    bowFreeboardM: values.bowFreeboardM,
    midFreeboardM: values.midFreeboardM,
    sternFreeboardM: values.sternFreeboardM,
    soleZ: values.soleBelowM === undefined ? undefined : -values.soleBelowM,
    lockers: lockers.filter(isMeasured).map((locker) => ({
      compartment: locker.compartment,
      name: locker.name.trim() || undefined,
      lengthM: locker.values.lengthM ?? 0,
      widthM: locker.values.widthM ?? 0,
      heightM: locker.values.heightM ?? 0,
      fromBulkheadM: locker.values.fromBulkheadM,
    })),
  };
}

/** Guesses that stand in fields not yet typed, from the hull as it is drawn. */
export function guessesOf(answers: Answers, shell: Drawn | null): Partial<Record<BoatField, number>> {
  const input = inputOf(answers);
  const own = {
    lengthM: input.lengthM,
    beamM: input.beamM,
    draughtM: input.draughtM,
    displacementKg: input.displacementKg,
  };
  if (!shell) return own;
  const { dimensions: d, interior } = shell;
  return {
    ...own,
    waterlineLengthM: d.waterlineLengthM,
    hullBeamM: d.hullBeamM,
    bowFreeboardM: d.bowFreeboardM,
    midFreeboardM: d.midFreeboardM,
    sternFreeboardM: d.sternFreeboardM,
    soleBelowM: -interior.soleZ,
  };
}

interface TenMinutesStore {
  readonly answers: Answers;
  set(change: Partial<Answers>): void;
  /** Undefined takes a value back to its guess. */
  setValue(field: BoatField, value: number | undefined): void;
  setLocker(index: number, change: Partial<Pick<LockerAnswers, 'compartment' | 'name'>>): void;
  setLockerValue(index: number, field: LockerField, value: number | undefined): void;
  addLocker(compartment: string): void;
  removeLocker(index: number): void;
  startOver(): void;
}

/** Kept while the window is open: leaving the door and coming back finds everything as it was. */
export const useTenMinutes = create<TenMinutesStore>()((set) => {
  const change = (edit: (answers: Answers) => Answers): void => set(({ answers }) => ({ answers: edit(answers) }));
  const locker = (index: number, edit: (one: LockerAnswers) => LockerAnswers): void =>
    change((answers) => ({ ...answers, lockers: answers.lockers.map((one, i) => (i === index ? edit(one) : one)) }));
  return {
    answers: NO_ANSWERS,
    set: (some) => change((answers) => ({ ...answers, ...some })),
    setValue: (field, value) => change((answers) => ({ ...answers, values: withValue(answers.values, field, value) })),
    setLocker: (index, some) => locker(index, (one) => ({ ...one, ...some })),
    setLockerValue: (index, field, value) =>
      locker(index, (one) => ({ ...one, values: withValue(one.values, field, value) })),
    addLocker: (compartment) =>
      change((answers) =>
        answers.lockers.length >= MOST_LOCKERS
          ? answers
          : {
              ...answers,
              lockers: [
                ...answers.lockers,
                { id: 1 + Math.max(0, ...answers.lockers.map(({ id }) => id)), compartment, name: '', values: {} },
              ],
            },
      ),
    removeLocker: (index) =>
      change((answers) => ({ ...answers, lockers: answers.lockers.filter((_, i) => i !== index) })),
    startOver: () => set({ answers: NO_ANSWERS }),
  };
});

function withValue<K extends string>(
  values: Readonly<Partial<Record<K, number>>>,
  field: K,
  value: number | undefined,
): Partial<Record<K, number>> {
  const { [field]: _old, ...rest } = values;
  return (value === undefined ? rest : { ...rest, [field]: value }) as Partial<Record<K, number>>;
}
