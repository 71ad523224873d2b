import { dayBudget } from '@core/assess/power/day-budget';
import { deviationDeg, fieldOfLongWire } from '@core/base/formulas/compass-deviation';
import { fieldOfWay } from '@core/base/formulas/current-field';
import { riseInSpace } from '@core/base/formulas/locker-heat';
import { feedFromPower } from '@core/base/formulas/pump-power';
import { describe, expect, it } from 'vitest';

describe('the field of a current (Biot-Savart)', () => {
  it('25 A on a single conductor at 0.5 m make 10 microtesla: 27 degrees square to 20, 30 at worst (derived)', () => {
    const teslas = fieldOfLongWire({ amperes: 25, awayM: 0.5, apartM: 0 });
    expect(teslas * 1e6).toBeCloseTo(10, 9);
    expect(deviationDeg(teslas).squareDeg).toBeCloseTo(26.565, 3);
    expect(deviationDeg(teslas).worstDeg).toBeCloseTo(30, 9);
  });
  it('the pair 10 mm apart makes 0.20 microtesla, 0.6 degrees (derived)', () => {
    const teslas = fieldOfLongWire({ amperes: 25, awayM: 0.5, apartM: 0.01 });
    expect(teslas * 1e6).toBeCloseTo(0.2, 9);
    expect(deviationDeg(teslas).worstDeg).toBeCloseTo(0.573, 3);
  });
  it('of straights end to end comes to that of the long wire (derived)', () => {
    const field = fieldOfWay(
      [
        [-500, 0, 0],
        [1, 0, 0],
        [500, 0, 0],
      ],
      25,
      [0, 0, 0.5],
    );
    expect(Math.hypot(...field) * 1e6).toBeCloseTo(10, 4);
  });
});

describe('warmth of a locker', () => {
  const shut = { heatW: 135, wallWK: 9, ventAreaM2: 0, ventHeightM: 0.3, outsideC: 30 };
  it('135 W in a shut locker of 9 W/K rise by 15 K (derived)', () => expect(riseInSpace(shut)).toBeCloseTo(15, 12));

  it('balances: what goes through sides and vents is what is given off, for any vent (derived)', () => {
    for (const ventAreaM2 of [0.001, 0.004, 0.02, 0.1]) {
      const rise = riseInSpace({ ...shut, ventAreaM2 });
      const flow = 0.6 * (ventAreaM2 / 2 / Math.SQRT2) * Math.sqrt((2 * 9.81 * 0.3 * rise) / 303.15);
      expect(9 * rise + 1.2 * 1005 * flow * rise).toBeCloseTo(135, 6);
      expect(rise).toBeLessThan(15);
    }
  });

  it('through vents alone it goes with the 2/3 power of the heat (law of natural draught)', () => {
    const vented = (heatW: number) => riseInSpace({ ...shut, heatW, wallWK: 0, ventAreaM2: 0.02 });
    expect(vented(800) / vented(100)).toBeCloseTo(4, 6);
  });

  it('has no end where nothing lets the heat out, and is nothing without heat', () => {
    expect(riseInSpace({ ...shut, wallWK: 0 })).toBe(Number.POSITIVE_INFINITY);
    expect(riseInSpace({ ...shut, heatW: 0 })).toBe(0);
  });
});

describe('power of a feed', () => {
  it('8 L/min at 55 bar are 733.3 W, and take 1 078 W of electricity at 0.85 x 0.80 (derived)', () => {
    expect(feedFromPower({ watts: 733.333, pressureBar: 55, efficiency: 1 })).toBeCloseTo(8, 5);
    expect(feedFromPower({ watts: 1078.43, pressureBar: 55, efficiency: 0.85 * 0.8 })).toBeCloseTo(8, 4);
  });
});

describe("a day's energy", () => {
  const set = { productLH: 30, drawA: 30, bankV: 12.8, usableAh: 100, solarW: 400, solarShare: 0.75, flushL: 0 };
  it('400 W x 5 h x 0.75 are 117.2 Ah at 12.8 V; 120 L at 30 L/h and 30 A are 4 h and 120 Ah (derived)', () => {
    const budget = dayBudget({ waterLDay: 120, sunHoursDay: 5 }, set);
    expect(budget.solarAh).toBeCloseTo(117.19, 2);
    expect([budget.hours, budget.setAh]).toEqual([4, 120]);
    // 117.19 of 120 Ah: as much of the rate and of the water
    expect(budget.fittingLH).toBeCloseTo((30 * 117.1875) / 120, 9);
    expect(budget.fittingL).toBeCloseTo((120 * 117.1875) / 120, 9);
  });

  it('a bank of 100 usable Ah over four days gives 25 a day, and what else draws comes off (derived)', () => {
    const budget = dayBudget(
      { waterLDay: 20, chargeEveryDays: 4, otherAhDay: 60, otherChargeAhDay: 10 },
      { ...set, flushL: 15 },
    );
    expect(budget).toMatchObject({ bankAh: 25, availableAh: -25, fittingLH: 0, fittingL: 0, litres: 35 });
  });
});
