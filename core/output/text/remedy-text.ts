import { lineKindOf } from '../../boat/catalogue/line-kinds';
import type { Boat } from '../../boat/schema/boat';
import type { Caution, Remedy, RemedyChange } from '../../rules/remedy';
import { cautionTexts } from './caution-text';
import { fieldWords } from './field-words';
import { findingText } from './finding-text';
import { nameOf, obstacleName } from './names';
import { digits, lengthText } from './quantity-text';
import { number, word } from './say';
import { VALUE_TITLES } from './value-titles';

export interface RemedyWords {
  /** What to do, one line. */
  readonly title: string;
  /** What comes of it. */
  readonly why: string;
  /** What to think of before it is done. */
  readonly cautions: readonly string[];
}

type Length = (metres: number) => string;

/** A remedy in words. `length`: where the reader has chosen units. */
export function remedyText(remedy: Remedy, boat: Boat, length: Length = lengthText): RemedyWords {
  const holes = remedy.newHoles.length;
  const runs = remedy.change === 'union' ? 'The two runs together are' : 'The run is';
  const drilled =
    remedy.change === 'union' && holes === 0
      ? 'one hole for its body'
      : holes === 0
        ? 'no hole to drill'
        : holes === 1
          ? 'one hole to drill'
          : `${holes} holes to drill`;
  return {
    title: TITLES[remedy.change](remedy, boat, length),
    why:
      remedy.lengthM === null
        ? `Tried and checked: the finding is gone. ${besides(remedy, boat)}`
        : `${runs} then ${length(remedy.lengthM)} long, ${drilled}. Routed and checked. ${besides(remedy, boat)}`,
    cautions: [
      ...remedy.cautions.map((caution) => CAUTIONS[caution.kind](caution, boat, length)),
      ...cautionTexts(remedy.hazards),
    ],
  };
}

/** What comes with it. */
function besides({ brings }: Remedy, boat: Boat): string {
  if (brings.length === 0) return 'Nothing else becomes worse.';
  const [first] = brings.map((finding) => findingText(finding, boat).title);
  return brings.length === 1
    ? `It brings new advice: ${first}.`
    : `It brings ${brings.length} new advices, first: ${first}.`;
}

const TITLES: Readonly<Record<RemedyChange, (remedy: Remedy, boat: Boat, length: Length) => string>> = {
  newHole: ({ what }, boat, length) =>
    `Drill a hole of ${length(number(what.diameterM))} in ${obstacleName(boat, word(what.panel))}`,
  widerHole: ({ what }, boat, length) =>
    `Widen the hole in ${obstacleName(boat, word(what.panel))} from ${length(number(what.fromM))} to ${length(number(what.toM))}`,
  union: ({ what }, boat) => `Cut it in two with a union through ${obstacleName(boat, word(what.panel))}`,
  elbow: ({ what }, boat) => `Fit an elbow of ${word(what.angleDeg)}° at ${nameOf(boat, word(what.thing))}`,
  kind: ({ what }, boat) => `Use ${kindName(boat, word(what.to))} in place of ${kindName(boat, word(what.from))}`,
  move: ({ what }, boat, length) =>
    `Move ${nameOf(boat, word(what.thing))} ${length(number(what.byM))} ${word(what.way)}`,
  turn: ({ what }, boat) => `Turn ${nameOf(boat, word(what.thing))} ${turnWords(number(what.byDeg))}`,
  longerHose: ({ what }, _boat, length) =>
    `Order the hose ${length(number(what.toM))} long, not ${length(number(what.fromM))}`,
  way: ({ what }, boat) => {
    const by =
      what.into !== undefined
        ? `by way of ${nameOf(boat, word(what.into))}`
        : what.through !== undefined
          ? `through ${obstacleName(boat, word(what.through))}`
          : 'another way';
    return `Lead ${nameOf(boat, word(what.line))} ${by}`;
  },
  value: ({ what }, boat, length) => valueTitle(what, boat, length),
  add: ({ what }, boat) =>
    `Add ${itemName(what.item)}${what.to === undefined ? '' : ` at ${nameOf(boat, word(what.to))}`}`,
  remove: ({ what }, boat) =>
    `Take ${itemName(what.item)} out${what.from === undefined ? '' : ` of ${nameOf(boat, word(what.from))}`}`,
  swap: ({ what }, boat) =>
    `Change ${nameOf(boat, word(what.line))} and ${nameOf(boat, word(what.other))} round at ${nameOf(boat, word(what.thing))}`,
};

/** What may be added or taken out, in words. */
const ITEM_WORDS: Readonly<Record<string, string>> = {
  grommet: 'a grommet',
  jointCover: 'a cover over the joint',
  rubberFeet: 'rubber feet',
  newSeacock: 'a new seacock with its pad, fitted ashore,',
  extensionHandle: 'an extension handle',
  turnButtons: 'turn-buttons in place of the screws',
  pad: 'a pad of 18 mm plywood, tabbed to the hull,',
  straps: 'straps',
  stainlessClamps: 'clamps that are stainless all through',
  seacock: 'a seacock',
  valve: 'the valve',
  label: 'a label that says when it is opened, and a step of the checklist,',
  loop: 'the vented loop',
  checkValve: 'a check valve',
  reliefValve: 'a relief valve',
  seal: 'a seal round what passes',
  dripCover: 'a cover that sheds drips',
  ventedLoop: 'a vented loop',
  looseTray: 'a tray that is held under it for the task',
};

const itemName = (item: unknown): string => ITEM_WORDS[word(item)] ?? word(item);

function valueTitle(what: Remedy['what'], boat: Boat, length: Length): string {
  const { id, field, from, to } = what;
  const own = VALUE_TITLES[word(field)];
  if (own) return own(what, nameOf(boat, word(id)), length);
  const { label, unit } = fieldWords(word(field));
  const said = (value: unknown): string =>
    unit === 'm' && typeof value === 'number' ? length(value) : `${word(value)}${unit === null ? '' : ` ${unit}`}`;
  const now = from === undefined ? '' : `, now ${said(from)}`;
  return `Make the ${label} of ${nameOf(boat, word(id))} ${said(to)}${now}`;
}

/** Seen from above. */
const turnWords = (byDeg: number): string =>
  Math.abs(byDeg) === 180 ? 'half round' : `${digits(Math.abs(byDeg), 0)}° ${byDeg > 0 ? 'to port' : 'to starboard'}`;

const kindName = (boat: Boat, id: string): string => lineKindOf(boat.lineKinds, id)?.name ?? id;

const CAUTIONS: Readonly<Record<Caution['kind'], (caution: Caution, boat: Boat, length: Length) => string>> = {
  noDrill: ({ data }, boat) =>
    `${nameOf(boat, word(data.panel))} is marked as not to be drilled. Find out why before you cut it: structure, a tank, a watertight or fire boundary.`,
  belowWater: ({ data }, boat, length) =>
    `The hole in ${obstacleName(boat, word(data.panel))} reaches ${length(number(data.depthM))} below the waterline. Water from one side can flood the other: seal it, or drill higher.`,
  engineSpace: ({ data }, boat) =>
    `${nameOf(boat, word(data.panel))} bounds the engine space. Seal the hole against fumes and fire as your local code asks.`,
  crimpedEnds: () => 'The hose is made up with its ends: it has to be ordered with these.',
  joint: () =>
    'Two joints more that can leak, and a hole for the body of the union. Keep it where it can be seen and tightened.',
};
