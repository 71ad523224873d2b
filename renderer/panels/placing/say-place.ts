import type { Boat } from '@core/boat/schema/boat';
import type { CompartmentAnswer } from '@core/engine/placement/place-report';
import { type PlaceWords, placeText } from '@core/output/text/place-text';
import type { DisplayUnits } from '../../store/types';
import { figure, lengthUnit, runFigure, runUnit, wholeLength } from '../format';

/** Lengths as the screen writes them: hoses in metres or feet, what is shorter in millimetres or inches. */
const lengthIn =
  (units: DisplayUnits) =>
  (metres: number): string =>
    Math.abs(metres) >= 1
      ? `${runFigure(metres, units)} ${runUnit(units)}`
      : `${wholeLength(metres, units)} ${lengthUnit(units)}`;

interface Said {
  readonly boat: Boat;
  readonly units: DisplayUnits;
  readonly words: PlaceWords;
}
const said = new WeakMap<CompartmentAnswer, Said>();

/** The answer about a compartment in words, in the units on screen; list and drawing ask for the same ones again and again. */
export function placeWords(answer: CompartmentAnswer, boat: Boat, units: DisplayUnits): PlaceWords {
  const known = said.get(answer);
  if (known && known.boat === boat && known.units === units) return known.words;
  const words = placeText(answer, boat, lengthIn(units));
  said.set(answer, { boat, units, words });
  return words;
}

/** Below this a hose is as long as it was, metres. */
const SAME_M = 0.005;

/** What it costs, short enough for the end of a line: `+1.34 m, 2 holes, 12 L`. */
export function costWords({ best, isNow, stowageLostL }: CompartmentAnswer, units: DisplayUnits): string {
  if (!best) return '';
  const { moreHoseM, newHoles } = best;
  const hose =
    moreHoseM === null || isNow || Math.abs(moreHoseM) < SAME_M
      ? ''
      : `${moreHoseM > 0 ? '+' : '\u2212'}${runFigure(Math.abs(moreHoseM), units)} ${runUnit(units)}`;
  const holes = newHoles === null || newHoles === 0 ? '' : `${figure(newHoles)} ${newHoles === 1 ? 'hole' : 'holes'}`;
  const stowage = stowageLostL === null || stowageLostL < 0.5 ? '' : `${figure(stowageLostL)} L`;
  return [hose, holes, stowage].filter((part) => part !== '').join(', ');
}
