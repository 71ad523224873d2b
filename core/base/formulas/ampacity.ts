/** What a copper conductor may carry without its insulation growing too hot. */

/**
 * 33 CFR 183.425 Table 5: amperes at 30 C outside engine spaces, by gauge and by temperature rating of the insulation in degrees C. Note 1
 * of the table corrects them for engine spaces (50 C).
 */
export const AMPACITY_TABLE_5 = {
  gauges: ['18', '16', '14', '12', '10', '8', '6', '4', '3', '2', '1', '0', '00', '000', '0000'],
  amperes: {
    60: [10, 15, 20, 25, 40, 55, 80, 105, 120, 140, 165, 195, 225, 260, 300],
    75: [10, 15, 20, 25, 40, 65, 95, 125, 145, 170, 195, 230, 265, 310, 360],
    80: [15, 20, 25, 35, 50, 70, 100, 130, 150, 175, 210, 245, 285, 330, 385],
    90: [20, 25, 30, 40, 55, 70, 100, 135, 155, 180, 210, 245, 285, 330, 385],
    105: [20, 25, 35, 45, 60, 80, 120, 160, 180, 210, 245, 285, 330, 385, 445],
    125: [25, 30, 40, 50, 70, 90, 125, 170, 195, 225, 265, 305, 355, 410, 475],
    200: [25, 35, 45, 55, 70, 100, 135, 180, 210, 240, 280, 325, 370, 430, 510],
  },
  /** That of 105 C is quoted by others as well; the rest is from memory of the note. */
  engineSpaceFactors: { 60: 0.58, 75: 0.75, 80: 0.78, 90: 0.82, 105: 0.85, 125: 0.89, 200: 1 },
  source: 'cfr-33-183',
} as const;

export type AmpacityRating = keyof typeof AMPACITY_TABLE_5.amperes;
const RATINGS = [60, 75, 80, 90, 105, 125, 200] as const satisfies readonly AmpacityRating[];
export const LOWEST_RATING: AmpacityRating = RATINGS[0];
export const USUAL_HIGHEST_RATING: AmpacityRating = 105;

/** Column of the table for insulation that stands so many degrees C: the highest that is no higher; null below the lowest. */
export const ratingWithin = (temperatureC: number): AmpacityRating | null =>
  RATINGS.findLast((rating) => rating <= temperatureC) ?? null;

/** Areas are printed rounded: 13.3 mm2 is gauge 6, which has 13.302. */
const AREA_SLACK = 0.02;

/**
 * Cross-section of an American gauge, mm2: pi / 4 x (0.127 x 92^((36 - n) / 39))^2.
 * n: number of the gauge, 0 for 0, -1 for 00, -2 for 000, -3 for 0000. Source: ASTM B258, by definition. Bare solid wire; a strand differs
 * by its make-up.
 */
export function gaugeAreaMm2(gauge: string): number {
  const number = /^0+$/.test(gauge) ? 1 - gauge.length : Number(gauge);
  return (Math.PI / 4) * (0.127 * 92 ** ((36 - number) / 39)) ** 2;
}

/** Areas of the gauges of the table, computed once. */
const AREAS: readonly (readonly [gauge: string, areaMm2: number])[] = AMPACITY_TABLE_5.gauges.map((gauge) => [
  gauge,
  gaugeAreaMm2(gauge),
]);

/** Largest gauge of the table that a cross-section holds (2 % allowed for rounding); null for what is thinner than all. */
export const gaugeWithin = (areaMm2: number): string | null =>
  AREAS.findLast(([, needed]) => needed <= areaMm2 * (1 + AREA_SLACK))?.[0] ?? null;

/**
 * Share of its ampacity that each of several conductors in one bundle keeps, all of them carrying current: they heat one another. Three: 0.7,
 * 4 to 6: 0.6, 7 to 24: 0.5, more: 0.4. Source: table of UL 1426 boat cable as printed by its makers; the last step from memory.
 */
export function bundleFactor(conductors: number): number {
  if (conductors < 3) return 1;
  if (conductors < 4) return 0.7;
  if (conductors < 7) return 0.6;
  return conductors < 25 ? 0.5 : 0.4;
}

export interface ConductorPlace {
  readonly gauge: string;
  readonly ratingC: AmpacityRating;
  readonly engineSpace: boolean;
  /** Conductors in its bundle that carry current, itself included; default 1. */
  readonly bundled?: number;
}

/** Greatest current in amperes of a conductor; null for a gauge that the table does not have. */
export function ampacity({ gauge, ratingC, engineSpace, bundled = 1 }: ConductorPlace): number | null {
  const column = (AMPACITY_TABLE_5.gauges as readonly string[]).indexOf(gauge);
  const outside = AMPACITY_TABLE_5.amperes[ratingC][column];
  if (outside === undefined) return null;
  return outside * (engineSpace ? AMPACITY_TABLE_5.engineSpaceFactors[ratingC] : 1) * bundleFactor(bundled);
}
