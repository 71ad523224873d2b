import type { Needs } from '../../boat/schema/needs';

/** What a set is and what stands behind it. */
export interface SetData {
  readonly productLH: number;
  readonly drawA: number;
  /** Voltage of the bank, null where unknown: only the sun needs it. */
  readonly bankV: number | null;
  /** Ampere-hours that may be drawn between two full charges. */
  readonly usableAh: number;
  readonly solarW: number;
  readonly solarShare: number;
  readonly flushL: number;
}

/** A day of making water, average over the time between two full charges. */
export interface DayBudget {
  /** With what flushing drinks. */
  readonly litres: number;
  readonly hours: number;
  readonly setAh: number;
  readonly bankAh: number;
  readonly solarAh: number;
  readonly chargeAh: number;
  readonly otherAh: number;
  /** What is left for the set. */
  readonly availableAh: number;
  /** Rate of a set that takes as much power for each litre and runs as long, litres an hour; 0: none. */
  readonly fittingLH: number;
  /** Water that is left to drink a day from what is available, litres; 0: none. */
  readonly fittingL: number;
}

/**
 * hours = (waterLDay + flushL) / productLH; setAh = hours x drawA; availableAh = usableAh / chargeEveryDays + solarW x sunHoursDay x solarShare /
 * bankV + otherChargeAhDay - otherAhDay. As a set takes its ampere-hours for each litre, what is available says how many litres there can be.
 */
export function dayBudget(needs: Needs & { readonly waterLDay: number }, set: SetData): DayBudget {
  const litres = needs.waterLDay + set.flushL;
  const hours = litres / set.productLH;
  const setAh = hours * set.drawA;
  const bankAh = needs.chargeEveryDays === undefined ? 0 : set.usableAh / needs.chargeEveryDays;
  const solarAh = set.bankV === null ? 0 : (set.solarW * (needs.sunHoursDay ?? 0) * set.solarShare) / set.bankV;
  const chargeAh = needs.otherChargeAhDay ?? 0;
  const otherAh = needs.otherAhDay ?? 0;
  const availableAh = bankAh + solarAh + chargeAh - otherAh;
  const share = setAh > 0 ? Math.max(0, availableAh) / setAh : 0;
  return {
    litres,
    hours,
    setAh,
    bankAh,
    solarAh,
    chargeAh,
    otherAh,
    availableAh,
    fittingLH: set.productLH * share,
    fittingL: Math.max(0, litres * share - set.flushL),
  };
}
