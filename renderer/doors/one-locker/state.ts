import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf } from '@core/boat/catalogue/templates';
import { freeId } from '@core/boat/edits';
import type { Grade, Part } from '@core/boat/schema/boat';
import { part as partSchema } from '@core/boat/schema/things';
import type { Locker, LockerReading } from '@core/engine/fit/locker';
import { create } from 'zustand';

/** What is entered in the door. It stays while the window does, so that a look at the boat loses nothing. */
interface LockerDoor {
  readonly locker: Locker;
  readonly parts: Readonly<Record<string, Part>>;
  /** The part whose best place is drawn; null: all of them together. */
  readonly shown: string | null;
  /** A typed value is a reading: what was guessed before is then taped, an opening measured. */
  setReading(key: LockerReading, valueM: number): void;
  setGrade(key: LockerReading, grade: Grade): void;
  setLocker(change: Partial<Locker>): void;
  addPart(templateId: string): void;
  setPart(id: string, part: Part): void;
  removePart(id: string): void;
  show(id: string | null): void;
}

const guess = (mm: number) => ({ valueM: mm / 1000, grade: 'guessed' as const });

/** An example to type over: every value of it is marked as a guess. */
const EXAMPLE: Locker = {
  name: 'Locker',
  side: 'port',
  slopeBy: 'depths',
  leanDeg: 20,
  readings: {
    length: guess(900),
    height: guess(600),
    depthBottom: guess(350),
    depthTop: guess(550),
    lining: guess(0),
    openingWidth: guess(450),
    openingHeight: guess(350),
    openingAcross: guess(225),
    openingUp: guess(125),
  },
  opening: { face: 'front', centred: true },
};

const OWN_SHAPES = { ownBox: 'Own box', ownCylinder: 'Own cylinder' } as const;
export const OWN = Object.entries(OWN_SHAPES);

function newPart(templateId: string): Part | null {
  if (templateId === 'ownBox')
    return partSchema.parse({ name: 'Own box', kind: 'other', shape: { type: 'box', sizeM: [0.4, 0.3, 0.3] } });
  if (templateId === 'ownCylinder')
    return partSchema.parse({
      name: 'Own cylinder',
      kind: 'other',
      shape: { type: 'cylinder', diameterM: 0.1, lengthM: 0.6, axis: 'x' },
    });
  const template = PART_TEMPLATES.find(({ id }) => id === templateId);
  return template ? partOf(template) : null;
}

export const useLocker = create<LockerDoor>()((set) => ({
  locker: EXAMPLE,
  parts: {},
  shown: null,
  setReading: (key, valueM) =>
    set(({ locker }) => {
      const before = locker.readings[key];
      const taken: Grade = key.startsWith('opening') ? 'measured' : 'taped';
      const reading = { valueM, grade: before.grade === 'guessed' ? taken : before.grade };
      return { locker: { ...locker, readings: { ...locker.readings, [key]: reading } } };
    }),
  setGrade: (key, grade) =>
    set(({ locker }) => ({
      locker: { ...locker, readings: { ...locker.readings, [key]: { ...locker.readings[key], grade } } },
    })),
  setLocker: (change) => set(({ locker }) => ({ locker: { ...locker, ...change } })),
  addPart: (templateId) =>
    set(({ parts }) => {
      const part = newPart(templateId);
      if (!part) return {};
      const id = freeId(
        parts,
        templateId === 'ownBox' ? 'box' : templateId === 'ownCylinder' ? 'cylinder' : templateId,
      );
      return { parts: { ...parts, [id]: { ...part, tag: nextTag(parts) } }, shown: id };
    }),
  setPart: (id, part) => set(({ parts }) => ({ parts: { ...parts, [id]: part } })),
  removePart: (id) =>
    set(({ parts, shown }) => {
      const { [id]: _, ...rest } = parts;
      return { parts: rest, shown: shown === id ? null : shown };
    }),
  show: (shown) => set({ shown }),
}));

/** P1, P2 ...: the number that a part has on the drawing. */
function nextTag(parts: Readonly<Record<string, Part>>): string {
  const used = new Set(Object.values(parts).map(({ tag }) => tag));
  let number = 1;
  while (used.has(`P${number}`)) number++;
  return `P${number}`;
}
