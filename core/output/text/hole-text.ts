import type { Discharge, HoleReason, HoleReasonKey, HoleRole } from '../../assess/water/which-hole';
import { BIBLIOGRAPHY } from '../../base/bibliography';
import type { Boat } from '../../boat/schema/boat';
import { percentBand } from './finding-text';
import { nameOf } from './names';
import { digits, lengthText } from './quantity-text';

type Data = HoleReason['data'];

const mm = (value: string | number | undefined): string => lengthText(Number(value));
const millimetres = (value: string | number | undefined): string => `${digits(Number(value) * 1000, 0)} mm`;

/** `at 20° on port tack`; the side that goes down names the tack the other way round. */
function attitude({ heelDeg, down }: Data): string {
  if (down === 'upright') return 'upright';
  return `at ${digits(Number(heelDeg), 0)}\u00b0 on ${down === 'starboard' ? 'port' : 'starboard'} tack`;
}

const DISCHARGE_WORDS: Readonly<Record<Discharge, string>> = {
  head: 'the head',
  sink: 'the sink',
  exhaust: 'the exhaust',
  cooling: 'cooling water',
  bilge: 'the bilge',
  brine: 'brine',
  deck: 'deck water',
};
const dischargeWords = (what: string): string =>
  Object.hasOwn(DISCHARGE_WORDS, what) ? DISCHARGE_WORDS[what as Discharge] : what;

type Say = (data: Data, name: (ids: string | number | undefined) => string) => string;

const SAID: Readonly<Record<HoleReasonKey, Say>> = {
  dry: (data) => `Dry ${attitude(data)}: ${mm(-Number(data.depthM))} above the water`,
  shallow: (data) =>
    `Only ${mm(data.depthM)} under ${attitude(data)}, at least ${mm(data.limitM)}: draws air in a chop`,
  immersed: (data) => `Stays under: ${mm(data.depthM)} ${attitude(data)} is the least`,
  narrow: (data) => `Bore ${millimetres(data.boreM)}, the set asks for ${millimetres(data.wantedM)}`,
  wasteComesOut: (data) => `What comes out of it, ${dischargeWords(String(data.what))}, would be drawn in`,
  dischargeAhead: (data, name) =>
    `${name(data.other)} lets out ${dischargeWords(String(data.what))} ${mm(data.apartM)} ahead on its side, at least ${mm(data.limitM)}`,
  dischargeNear: (data, name) =>
    `${name(data.other)} lets out ${dischargeWords(String(data.what))} ${mm(data.apartM)} away on its side, at least ${mm(data.limitM)}`,
  dischargeUnknown: (data, name) =>
    `Cannot tell what comes out of ${name(data.other)}, ${mm(data.apartM)} away: enter it`,
  engineShares: () => 'The engine draws through it: with the set running it may starve',
  shared: (data, name) => `Shared by ${name(data.by)}`,
  spare: () => 'Nothing else uses it',
  takenAsIntake: (data, name) => `Taken as an intake by ${name(data.by)}`,
  outOfReach: (data) => `Its handle is ${mm(data.distanceM)} in, at most ${mm(data.limitM)}`,
  reachUnknown: (data) => `Cannot tell whether its handle is in reach. ${String(data.enterNext)}`,
  inReach: (data) =>
    Number(data.distanceM) > 0 ? `Its handle is ${mm(data.distanceM)} in, in reach` : 'Its handle is in reach',
  noValve: () => 'No seacock',
  gateValve: () => 'A gate valve: replace it first',
  brass: () => 'Plain brass: replace it first',
  materialUnknown: () => 'Cannot tell what it is made of: enter the material',
  old: (data) => `Fitted in ${data.year}, ${data.years} years ago: look at it first`,
  logFitting: () => 'A log fitting: it takes a through-hull and a seacock to draw through it',
  haulOut: (data) => `Needs a haul-out: ${String(data.jobs)}`,
  needsHaulOut: (data) => `Needs a haul-out, which is not wanted: ${String(data.jobs)}`,
  above: (data) => `Stays above the water: ${mm(-Number(data.depthM))} ${attitude(data)} is the least`,
  underAtHeel: (data) => `Under by ${mm(data.depthM)} ${attitude(data)}: needs a loop above that`,
  underUpright: (data) => `${mm(data.depthM)} under the water upright: a way in for the sea`,
  backsUp: (data, name) => `Backs up into ${name(data.by)}: ${mm(data.depthM)} under ${attitude(data)}`,
  aheadOfIntake: (data, name) => `Brine would run to ${name(data.intake)}, ${mm(data.apartM)} astern on its side`,
};

const STANDING: Readonly<Record<HoleReason['source']['standing'], string>> = {
  derived: 'derived',
  quoted: 'quoted, not read',
  commonPractice: '',
  boatFile: '',
};

export interface HoleWords {
  readonly said: string;
  readonly source: string;
  /** `±60 mm; 83 to 93 %`; empty for a clean verdict. */
  readonly doubt: string;
}

/** A reason in words, with where it comes from. */
export function holeReasonText(reason: HoleReason, boat: Boat): HoleWords {
  const name = (ids: string | number | undefined): string =>
    String(ids ?? '')
      .split(', ')
      .map((id) => dischargeWords(nameOf(boat, id)))
      .join(', ');
  const standing = STANDING[reason.source.standing];
  const { closeCall } = reason;
  return {
    said: SAID[reason.key](reason.data, name),
    source: `${BIBLIOGRAPHY[reason.source.key].title}${standing === '' ? '' : ` (${standing})`}`,
    doubt: closeCall
      ? `\u00b1${lengthText(closeCall.gradeM)}; chance that it holds ${percentBand(closeCall.passProbability)}`
      : '',
  };
}

export const holeRoleWords = (role: HoleRole): string => (role === 'intake' ? 'As intake' : 'As brine outlet');
