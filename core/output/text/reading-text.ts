import type { Boat, Thing } from '../../boat/schema/boat';
import type { NextReading, ReadingEnd } from '../../rules/next-reading';
import { nameOf } from './names';
import { digits, lengthText } from './quantity-text';
import { gradeText } from './schema-words';

export interface ReadingWords {
  /** What to measure, one line. */
  readonly title: string;
  /** Where the tape begins and ends; empty where something is to be entered, not measured. */
  readonly from: string;
  readonly to: string;
  /** `420 mm, taped: ±20 mm`; empty where nothing is entered yet. */
  readonly present: string;
  /** How to take it, where that is not plain. */
  readonly how: string;
}

const AXIS_WORDS = { x: 'along the boat', y: 'across the boat', z: 'upright' } as const;
const PLACE_WORDS = { x: 'How far along', y: 'How far across', z: 'How high' } as const;

/** A reading in words, for the list and for the page that is taken aboard. */
export function readingText(reading: NextReading, boat: Boat): ReadingWords {
  const name = nameOfReading(reading, boat);
  const { title, how } = KINDS[reading.kind](reading, name);
  const isEntry = reading.enterNext !== null;
  return {
    title,
    from: isEntry ? '' : endText(reading.from, boat, FROM_ROOM.has(reading.kind)),
    to: isEntry ? '' : endText(reading.to, boat, reading.kind === 'clearLength'),
    present: presentText(reading, boat),
    how,
  };
}

/** Ids of a compartment and of a thing may be the same: the kind of the reading tells which is meant. */
const FROM_ROOM: ReadonlySet<NextReading['kind']> = new Set(['clearLength', 'thingPlace']);
const roomName = (boat: Boat, id: string): string => boat.compartments[id]?.name ?? id;
const nameOfReading = ({ kind, record }: NextReading, boat: Boat): string =>
  kind === 'clearLength' ? roomName(boat, record) : kind === 'hullBreadth' ? record : nameOf(boat, record);

type Said = Pick<ReadingWords, 'title' | 'how'>;

const KINDS: Readonly<Record<NextReading['kind'], (reading: NextReading, name: string) => Said>> = {
  openingWidth: (_, name) => ({ title: `${name}: clear width`, how: '' }),
  openingHeight: (_, name) => ({ title: `${name}: clear height`, how: '' }),
  clearLength: ({ axis }, name) => ({
    title: `${name}: clear length${axis ? ` ${AXIS_WORDS[axis]}` : ''}`,
    how: '',
  }),
  thingPlace: ({ axis }, name) => ({
    title: `${axis ? PLACE_WORDS[axis] : 'Where'} ${name} stands`,
    how: '',
  }),
  heightAboveWater: (_, name) => ({
    title: `${name}: height above the water`,
    how: 'Deck edge to the water outside, less deck edge to the place inside. Below the water the figure is negative.',
  }),
  partSize: ({ to }, name) => ({
    title: `Look up in the data sheet: ${to.side === 'envelope' ? 'sizes' : to.side} of ${name}`,
    how:
      to.side === 'envelope'
        ? 'Or off the part itself, with what sticks out. Where they differ, change them at the part first.'
        : 'Or off the part itself, with what sticks out.',
  }),
  freeboard: () => ({
    title: 'Freeboard',
    how: 'Afloat in cruising trim: a weighted tape from the deck edge to the water.',
  }),
  hullBreadth: (_, name) => ({
    title: `Hull: greatest half-breadth at station ${name}`,
    how: 'From the centreline to the outside of the hull.',
  }),
  missing: ({ enterNext }) => ({ title: enterNext ?? '', how: '' }),
};

function endText({ record, side }: ReadingEnd, boat: Boat, isRoom: boolean): string {
  if (record === 'water') return 'the water';
  if (record === 'hull') return side === 'inside' ? 'inside of the hull' : `${side} of the hull`;
  const freeboard = Object.hasOwn(boat.reference.freeboards, record);
  const name = freeboard ? `deck edge ${record}` : isRoom ? roomName(boat, record) : nameOf(boat, record);
  return side === null || freeboard ? name : `${side} of ${name}`;
}

function presentText({ kind, record, present, unit, grade, gradeM }: NextReading, boat: Boat): string {
  const known = grade === null || gradeM === null ? '' : `${gradeText(grade)}, ±${Math.round(gradeM * 1000)} mm`;
  const part = kind === 'partSize' && present === null ? boat.parts[record] : undefined;
  if (part) return `${sizesText(part.shape)} (${known})`;
  if (present === null) return known;
  const value = unit === 'm' ? lengthText(present) : digits(present, 1);
  return known === '' ? value : `${value} (${known})`;
}

/** `620 × 440 × 310 mm`, `Ø 100 × 1066 mm` */
function sizesText(shape: Thing['shape']): string {
  const mm = (metres: number): string => digits(metres * 1000, 0);
  return shape.type === 'box'
    ? `${shape.sizeM.map(mm).join(' \u00d7 ')} mm`
    : `\u00d8 ${mm(shape.diameterM)} \u00d7 ${mm(shape.lengthM)} mm`;
}
