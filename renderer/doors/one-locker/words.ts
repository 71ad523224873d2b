import { rotationOf, type Turn } from '@core/base/vec';
import type { Shape } from '@core/boat/schema/boat';
import type { InsideAnswer, PartAnswer } from '@core/engine/fit/one-locker';
import { percentBand } from '@core/output/text/finding-text';
import { taskText } from '@core/output/text/schema-words';
import type { CloseCall, Finding } from '@core/rules/finding';
import { degreesText, figure, lengthUnit, wholeLength } from '../../panels/format';
import type { Mark } from '../../store/findings';
import type { DisplayUnits } from '../../store/types';

/** One verdict in a cell: its shape, a few words, and the doubt where there is one. */
export interface CellWords {
  readonly mark: Mark;
  readonly words: string;
}

const spareWords = (spareM: number, units: DisplayUnits): string =>
  spareM >= 0 ? `${wholeLength(spareM, units)} to spare` : `${wholeLength(-spareM, units)} short`;

/** ` ±7, 91 to 98 %` */
const closeWords = (closeCall: CloseCall | undefined, units: DisplayUnits): string =>
  closeCall ? ` \u00b1${wholeLength(closeCall.gradeM, units)}, ${percentBand(closeCall.passProbability)}` : '';

const findingOn = (answer: PartAnswer, rule: string): Finding | undefined =>
  answer.findings.find((finding) => finding.rule === rule);

export function passesCell(answer: PartAnswer, units: DisplayUnits): CellWords {
  const finding = findingOn(answer, 'access/way-in');
  if (!finding || finding.outcome === 'notApplicable') return { mark: 'cannotTell', words: 'Not tried' };
  const spareM = typeof finding.data.spareM === 'number' ? finding.data.spareM : 0;
  if (finding.outcome === 'pass')
    return {
      mark: finding.closeCall ? 'closeCall' : 'pass',
      words: `Passes, ${spareWords(spareM, units)}${closeWords(finding.closeCall, units)}`,
    };
  if (finding.outcome === 'fail')
    return {
      mark: finding.closeCall ? 'closeCall' : 'fault',
      words: `Cannot, ${spareWords(spareM, units)}${closeWords(finding.closeCall, units)}`,
    };
  return {
    mark: 'cannotTell',
    words: spareM < 0 ? `Not found, ${spareWords(spareM, units)}` : 'Not found: no way of turning it',
  };
}

const PROOF_WORDS: Readonly<Record<'thickness' | 'length' | 'shadow' | 'volume', string>> = {
  thickness: 'too thick',
  length: 'too long',
  shadow: 'too large across',
  volume: 'too large',
};

export function insideCell(inside: InsideAnswer, units: DisplayUnits): CellWords {
  if (inside.outcome === 'cannot')
    return {
      mark: inside.judged.closeCall ? 'closeCall' : 'fault',
      words: `Cannot, ${PROOF_WORDS[inside.proof.proof]}`,
    };
  const spareM = inside.judged?.margin ?? 0;
  const close = closeWords(inside.judged?.closeCall, units);
  if (inside.outcome === 'fits')
    return {
      mark: inside.judged.closeCall ? 'closeCall' : 'pass',
      words: `Fits, ${spareWords(spareM, units)}${close}`,
    };
  return {
    mark: inside.judged?.closeCall ? 'closeCall' : 'cannotTell',
    words: inside.way ? `Not found, ${spareWords(spareM, units)}${close}` : 'Not found',
  };
}

/** Why it fits nowhere, or how far the search went. */
export function insideSentence({ inside, fit }: PartAnswer, units: DisplayUnits): string {
  const unit = lengthUnit(units);
  if (inside.outcome === 'cannot') {
    const { proof, needs, has } = inside.proof;
    const length = (metres: number): string => `${wholeLength(metres, units)} ${unit}`;
    switch (proof) {
      case 'thickness':
        return `Proved: its thinnest side is ${length(needs)}, the locker is ${length(has)} across at its narrowest.`;
      case 'length':
        return `Proved: its longest line is ${length(needs)}, that of the locker ${length(has)}.`;
      case 'shadow':
        return `Proved: its smallest face covers ${figure(needs * 1e4)} cm\u00b2, the locker has ${figure(has * 1e4)} cm\u00b2 across.`;
      case 'volume':
        return `Proved: it takes ${figure(needs * 1000, 1)} L, the locker holds ${figure(has * 1000, 1)} L.`;
    }
  }
  const tried = triedWords(fit.tried);
  const between = inside.tight.length > 0 ? `Tightest between ${listWords(inside.tight)}.` : '';
  if (inside.outcome === 'fits') {
    const { margin, closeCall } = inside.judged;
    const doubt = closeCall
      ? ` The readings are good to \u00b1${wholeLength(closeCall.gradeM, units)} ${unit} here: the chance that it fits is ${percentBand(closeCall.passProbability)}.`
      : '';
    return `Each of its sides could be ${wholeLength(margin, units)} ${unit} longer.${doubt} ${between} ${tried}`;
  }
  return `No way round was found, nor a proof that there is none. ${tried} ${between}`;
}

const triedWords = ({ square, tilts }: { readonly square: number; readonly tilts: number }): string =>
  `Tried ${square} square ways round${tilts > 0 ? ` and ${figure(tilts)} tilts` : ''}.`;

export const listWords = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** How it stands, from its own length and top: `length fore and aft, top up`. */
export function wayWords(shape: Shape, turn: Turn, isTilted: boolean, side: 'port' | 'starboard'): string {
  const axes = rotationOf(turn);
  const longest = longestAxis(shape);
  const end = axes[longest];
  const top = axes[2];
  if (isTilted) {
    const rise = (Math.asin(Math.min(1, Math.abs(end[2]))) * 180) / Math.PI;
    const swing = (Math.atan2(Math.abs(end[1]), Math.abs(end[0])) * 180) / Math.PI;
    return `tilted: its length rises ${degreesText(rise)}, ${degreesText(swing)} off fore and aft`;
  }
  const lies = Math.abs(end[0]) > 0.9 ? 'fore and aft' : Math.abs(end[1]) > 0.9 ? 'across' : 'upright';
  if (shape.type === 'cylinder') return `its length ${lies}`;
  const outboard = side === 'port' ? 1 : -1;
  const faces =
    top[2] > 0.9
      ? 'up'
      : top[2] < -0.9
        ? 'down'
        : Math.abs(top[0]) > 0.9
          ? top[0] > 0
            ? 'forward'
            : 'aft'
          : top[1] * outboard > 0
            ? 'outboard'
            : 'inboard';
  return `its length ${lies}, its top ${faces}`;
}

function longestAxis(shape: Shape): 0 | 1 | 2 {
  if (shape.type === 'cylinder') return shape.axis === 'x' ? 0 : shape.axis === 'y' ? 1 : 2;
  const [x, y, z] = shape.sizeM;
  return x >= y && x >= z ? 0 : y >= z ? 1 : 2;
}

/** Findings on the service tasks of a part, in the order of their keys. */
const serviceFindings = (findings: readonly Finding[], id: string): readonly Finding[] =>
  findings.filter(
    ({ rule, subject, outcome }) => rule === 'access/service-space' && subject === id && outcome !== 'notApplicable',
  );

export function serviceCell(answer: PartAnswer, id: string, units: DisplayUnits): CellWords {
  const findings = serviceFindings(answer.findings, id);
  if (answer.inside.outcome !== 'fits') return { mark: 'cannotTell', words: 'Stands nowhere' };
  if (findings.length === 0) return { mark: 'advice', words: 'No task entered' };
  const short = findings.filter(({ outcome }) => outcome === 'fail');
  if (short.length === 0) {
    const isClose = findings.some((finding) => finding.outcome === 'pass' && finding.closeCall);
    return {
      mark: isClose ? 'closeCall' : 'pass',
      words: `${findings.length} of ${findings.length}${isClose ? ', a close call' : ''}`,
    };
  }
  const worst = short.reduce((a, b) => (shortBy(b) > shortBy(a) ? b : a));
  const isClose = short.every((finding) => finding.outcome === 'fail' && finding.closeCall);
  return {
    mark: isClose ? 'closeCall' : 'fault',
    words: `${findings.length - short.length} of ${findings.length}, ${taskOf(worst)} ${wholeLength(shortBy(worst), units)} short`,
  };
}

const shortBy = (finding: Finding): number =>
  finding.outcome === 'fail' ? finding.limit.value - finding.measured.value : 0;
const taskOf = (finding: Finding): string => taskText(String(finding.data.task ?? 'a task'));
