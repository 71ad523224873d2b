/** Power that water under pressure takes. */

/** Pressure pump 0.85, motor 0.80. Typical of small plunger sets, no source. */
export const PUMP_EFFICIENCY = 0.85 * 0.8;
const PA_PER_BAR = 1e5;
const L_MIN_PER_M3_S = 60_000;

/**
 * Water that a pump can bring to a pressure, litres a minute: Q = eta P / p.
 * P watts of electricity; p pressureBar, gauge; eta share that ends in the water. Definition of hydraulic power (derived): 8 L/min at 55 bar
 * are 733 W in the water. Leaves out what an energy recovery gives back.
 */
export const feedFromPower = (input: { watts: number; pressureBar: number; efficiency: number }): number =>
  ((input.watts * input.efficiency) / (input.pressureBar * PA_PER_BAR)) * L_MIN_PER_M3_S;
