import {
  type AmpacityRating,
  ampacity,
  gaugeWithin,
  LOWEST_RATING,
  ratingWithin,
  USUAL_HIGHEST_RATING,
} from '../../base/formulas/ampacity';
import type { LineKind } from '../../boat/schema/boat';

/** What a power cable may carry where it lies. */
export interface Carrying {
  /** American gauge that it counts as. */
  readonly gauge: string;
  /** Rating of its insulation, degrees Celsius; null where nobody says. */
  readonly ratingC: AmpacityRating | null;
  readonly engineSpace: boolean;
  readonly bundled: number;
  /** Greatest current where it lies, amperes; without a rating from the poorest insulation to the best that is usual. */
  readonly amperes: readonly [low: number, high: number];
  /** The same without what the bundle takes: what fuses are measured by. */
  readonly aloneAmperes: readonly [low: number, high: number];
}

/** Null without a copper area, below the thinnest gauge of the table, and for insulation that stands less than its coolest column. */
export function carrying(
  kind: Pick<LineKind, 'areaMm2' | 'temperatureC'>,
  place: { readonly engineSpace: boolean; readonly bundled: number },
): Carrying | null {
  const gauge = kind.areaMm2 === undefined ? null : gaugeWithin(kind.areaMm2);
  if (gauge === null) return null;
  const ratingC = kind.temperatureC === undefined ? null : ratingWithin(kind.temperatureC);
  if (kind.temperatureC !== undefined && ratingC === null) return null;
  const { engineSpace, bundled } = place;
  const between = (bundle: number): readonly [number, number] => {
    const at = (rating: AmpacityRating): number =>
      ampacity({ gauge, ratingC: rating, engineSpace, bundled: bundle }) ?? 0;
    return [at(ratingC ?? LOWEST_RATING), at(ratingC ?? USUAL_HIGHEST_RATING)];
  };
  return { gauge, ratingC, engineSpace, bundled, amperes: between(bundled), aloneAmperes: between(1) };
}
