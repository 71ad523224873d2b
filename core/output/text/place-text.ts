import type { Boat } from '../../boat/schema/boat';
import type { CompartmentAnswer, PlaceTest, PlaceTestResult } from '../../engine/placement/place-report';
import type { Measured } from '../../rules/finding';
import { findingText } from './finding-text';
import { obstacleName } from './names';
import { digits, lengthText, measureText } from './quantity-text';

/** The columns of the question, as a person asks them. */
export const PLACE_TEST_TITLE: Readonly<Record<PlaceTest, string>> = {
  passes: 'Way in',
  fits: 'Room',
  mounts: 'Mounting',
  serves: 'Service',
  dry: 'Dry',
  cool: 'Cool',
  reaches: 'Lines reach',
  spills: 'Spills',
  holes: 'New holes',
};

const TESTS = Object.keys(PLACE_TEST_TITLE) as readonly PlaceTest[];

export const PLACE_VERDICT_WORD: Readonly<Record<CompartmentAnswer['verdict'], string>> = {
  goes: 'goes',
  goesClose: 'goes, close',
  open: 'cannot tell',
  no: 'no',
  notYet: 'not judged yet',
};

export interface PlaceWords {
  /** One sentence on what decides. */
  readonly decides: string;
  /** The same in at most sixteen letters, for the drawing; empty where there is nothing to warn of. */
  readonly short: string;
  /** What else it costs: `1.34 m more hose, 2 new holes`; empty where nothing is known. */
  readonly differs: string;
  /** One clause for each test; empty where nothing needs saying. */
  readonly tests: Readonly<Record<PlaceTest, string>>;
  /** Demands of the owner that it breaks. */
  readonly breaks: readonly string[];
}

/** Words of one compartment's answer; `length`: how lengths are written. */
export function placeText(
  answer: CompartmentAnswer,
  boat: Boat,
  length: (metres: number) => string = lengthText,
): PlaceWords {
  const tests = Object.fromEntries(TESTS.map((test) => [test, clauseOf(answer.tests[test], boat, length)])) as Record<
    PlaceTest,
    string
  >;
  const breaks = answer.breaks.map((id) => demandText(id, boat, length));
  return {
    decides: decidesText(answer, tests, breaks),
    short: shortText(answer, length),
    differs: differsText(answer, length),
    tests,
    breaks,
  };
}

function decidesText(
  { verdict, decides }: CompartmentAnswer,
  tests: Readonly<Record<PlaceTest, string>>,
  breaks: readonly string[],
): string {
  const [broken] = breaks;
  if (decides === null)
    return broken !== undefined ? `Against a demand: ${broken}.` : verdict === 'goes' ? 'Every test passes.' : '';
  const said = tests[decides];
  const title = PLACE_TEST_TITLE[decides];
  return said === '' ? `${title}.` : `${title}: ${said}.`;
}

/** What a test says, without a full stop. */
function clauseOf(result: PlaceTestResult, boat: Boat, length: (metres: number) => string): string {
  const { finding, reason, outcome, enterNext } = result;
  if (outcome === 'notJudged') return '';
  if (finding) {
    const { title, measured } = findingText(finding, boat);
    const next = enterNext ? `; ${lower(enterNext)}` : '';
    return `${trimmed(title)}${measured === '' ? '' : ` (${measured})`}${next}`;
  }
  const words = reason === null ? undefined : CLAUSES[reason];
  return words ? words(result, boat, length) : '';
}

const trimmed = (sentence: string): string => sentence.replace(/\.$/, '');
const lower = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

type Clause = (result: PlaceTestResult, boat: Boat, length: (metres: number) => string) => string;

const amountOf = ({ measured }: PlaceTestResult): number => measured?.value ?? 0;
const limitOf = ({ limit }: PlaceTestResult): number => limit?.value ?? 0;
const named = ({ about }: PlaceTestResult, boat: Boat, k: number): string => {
  const id = about[k];
  return id === undefined ? 'something' : obstacleName(boat, id);
};

/** Reasons that are no finding of a check. */
const CLAUSES: Readonly<Record<string, Clause>> = {
  tooBigForOpening: (result, boat, length) =>
    `${named(result, boat, 1)} is ${length(-amountOf(result))} too small in every turn`,
  noRoom: () => 'nothing is drawn of it that holds room',
  thickerThanRoom: (result, _, length) =>
    `its thinnest side is ${length(limitOf(result))}, the room ${length(amountOf(result))} across`,
  longerThanRoom: (result, _, length) =>
    `it is ${length(limitOf(result))} from corner to corner, the room ${length(amountOf(result))}`,
  largerThanRoom: (result) =>
    `it takes up ${digits(limitOf(result), 0)} L, the whole compartment ${digits(amountOf(result), 0)} L`,
  noPlaceFound: (result) =>
    amountOf(result) === 0
      ? 'it stands between the sides in no turn that is allowed'
      : `no free place was found among ${digits(amountOf(result), 0)} tried`,
  noSurface: (result, boat) => `no face is drawn there that ${named(result, boat, 0)} can be screwed to`,
  lineTooShort: (result, boat, length) =>
    `${named(result, boat, 0)} needs ${length(amountOf(result))} at least; ${length(limitOf(result))} of it is there`,
  noRun: (result, boat, length) => {
    const [, blocker] = result.about;
    const short = result.measured ? `, ${length(amountOf(result))} short` : '';
    return `no way was found for ${named(result, boat, 0)}${blocker === undefined ? '' : ` past ${obstacleName(boat, blocker)}`}${short}`;
  },
  noRunYet: (result, boat) =>
    `a quick search found no way for ${named(result, boat, 0)} and was ended; put it there to have it looked for in full`,
  drowns: (result, boat, length) =>
    `${length(-amountOf(result))} under water when a joint behind ${named(result, boat, 1)} lets go and no pump runs`,
  overTheFlood: (result, boat, length) =>
    `${length(amountOf(result))} above the water when a joint behind ${named(result, boat, 1)} lets go and no pump runs`,
  underHatch: (result, boat) =>
    `green water through ${named(result, boat, 1)} reaches it, ${measureText({ value: amountOf(result), unit: 'deg' })} off the plumb line`,
  drips: (result, boat) =>
    `it stands under ${named(result, boat, 1)}${result.enterNext ? `; ${lower(result.enterNext)}` : ''}`,
  waterHarmless: () => 'water does it no harm',
  noFloodThere: () => 'no joint that lets go floods it',
  noHatchAbove: () => 'under no opening in the weather',
  newHoles: (result) => holesText(amountOf(result)),
};

const holesText = (count: number): string =>
  count === 0 ? 'no new hole' : `${digits(count, 0)} new ${count === 1 ? 'hole' : 'holes'}`;

/** What stands on the drawing, where there is room for a word or a number. */
const SHORT: Readonly<Record<PlaceTest, string>> = {
  passes: 'way in',
  fits: 'no room',
  mounts: 'no face',
  serves: 'no service',
  dry: 'wet',
  cool: 'warm',
  reaches: 'lines',
  spills: 'spills',
  holes: 'holes',
};

/** Reasons and rules that have a word of their own: it stands alone in a locker. */
const SHORT_REASON: Readonly<Record<string, string>> = {
  lineTooShort: 'hose short',
  noRun: 'no way for hose',
  'runs/blocked': 'no way for hose',
  'runs/supplied-length': 'hose short',
  'runs/near-heat': 'hose near heat',
  'power/near-compass': 'near compass',
  'power/compass-parts': 'near compass',
  'power/ignition': 'near fuel vapour',
  'water/over-electrics': 'over electrics',
  'water/suction-crest': 'traps air',
};

/** Tests of sizes: what is missing answers by itself. */
const OF_SIZE: ReadonlySet<PlaceTest> = new Set(['passes', 'fits']);
/** Less is not worth a number, metres. */
const NO_LENGTH_M = 0.0005;
const LETTERS = 16;

function shortText(
  { verdict, decides, breaks, tests, best }: CompartmentAnswer,
  length: (metres: number) => string,
): string {
  if (verdict === 'notYet') return '';
  if (decides === null) return breaks.length > 0 ? 'not wanted' : '';
  if (verdict === 'open') return `${PLACE_TEST_TITLE[decides].toLowerCase()} ?`;
  const { measured, limit, reason } = tests[decides];
  if (verdict !== 'no') {
    const more = best?.moreHoseM ?? null;
    return more === null || Math.abs(more) < 0.005 ? '' : `${more > 0 ? '+' : '−'}${length(Math.abs(more))}`;
  }
  if (decides === 'cool' && measured?.unit === 'C') return measureText(measured);
  const own = SHORT_REASON[reason?.split('/').slice(0, 2).join('/') ?? ''];
  if (own !== undefined) return own;
  const missing = measured && limit && OF_SIZE.has(decides) ? tooBigText(measured, limit.value, length) : '';
  return missing === '' ? SHORT[decides] : missing;
}

/** By how much something does not go; empty where that is no length, or too long for the drawing. */
function tooBigText(measured: Measured, limit: number, length: (metres: number) => string): string {
  const missingM = Math.abs(measured.value - limit);
  if (measured.unit !== 'm' || missingM < NO_LENGTH_M) return '';
  const said = `${length(missingM)} too big`;
  return said.length <= LETTERS ? said : '';
}

function differsText({ best, stowageLostL }: CompartmentAnswer, length: (metres: number) => string): string {
  if (!best) return '';
  const { moreHoseM, newHoles } = best;
  const said = [
    moreHoseM === null || Math.abs(moreHoseM) < 0.005
      ? ''
      : `${length(Math.abs(moreHoseM))} ${moreHoseM > 0 ? 'more' : 'less'} hose and cable`,
    newHoles === null ? '' : holesText(newHoles),
    stowageLostL === null || stowageLostL < 0.05
      ? ''
      : `${digits(stowageLostL, stowageLostL < 10 ? 1 : 0)} L of stowage`,
  ];
  return said.filter((part) => part !== '').join(', ');
}

const DEMANDS: Readonly<Record<string, string>> = {
  notInBerthCompartment: 'not where somebody sleeps',
  noHaulOut: 'nothing that needs the boat out of the water',
  noDismantling: 'service without taking anything apart',
  noNewHoleBelowWaterline: 'no new hole below the waterline',
  seenFrom: 'seen from',
  keepWithin: 'within',
};

/** What an owner demands, in a few words. */
export function demandText(id: string, boat: Boat, length: (metres: number) => string = lengthText): string {
  const demand = Object.hasOwn(boat.demands ?? {}, id) ? boat.demands?.[id] : undefined;
  if (!demand) return id;
  const { kind, place, distanceM } = demand;
  const standing =
    place !== undefined && Object.hasOwn(boat.standingPlaces, place) ? boat.standingPlaces[place] : undefined;
  const from = standing?.name ?? place ?? '';
  const words = DEMANDS[kind] ?? kind;
  if (kind === 'seenFrom') return `${words} ${from}`.trim();
  if (kind === 'keepWithin')
    return `${words} ${distanceM === undefined ? '' : `${length(distanceM)} `}of ${from}`.trim();
  return words;
}
