import { BAR_PER_METRE, deviceLoss, entranceLoss, suctionHead } from '@core/assess/water/suction-loss';
import {
  dynamicPressure,
  frictionFactor,
  lossPerMetre,
  PIPE_SEA_WATER,
  SMOOTH_HOSE_M,
  speedOf,
} from '@core/base/formulas/pipe-flow';
import { part } from '@core/boat/schema/things';
import { describe, expect, it } from 'vitest';

/** Colebrook's own equation, solved by repeated substitution: 1/sqrt f = -2 log10(e/3.7 + 2.51/(Re sqrt f)). */
function colebrook(reynolds: number, roughness: number): number {
  let f = 0.02;
  for (let k = 0; k < 60; k++) f = (-2 * Math.log10(roughness / 3.7 + 2.51 / (reynolds * Math.sqrt(f)))) ** -2;
  return f;
}

const within = (value: number, wanted: number, share: number): void =>
  expect(Math.abs(value / wanted - 1)).toBeLessThanOrEqual(share);

describe('friction factor', () => {
  // Published: Crane TP-410M example 7-1 (water at 30 C, 50 mm plastic, 200 L/min) as quoted by the documentation of the library fluids:
  // Re 100,600 and f .0179. The explicit form may be 1.5 % off.
  it('agrees with the worked example of Crane TP-410M 7-1 (quoted)', () =>
    within(frictionFactor(100_600, 0), 0.0179, 0.015));

  // Derived: solutions of Colebrook by the library fluids 1.0.22.
  it.each([
    [1e5, 0, 0.01799],
    [1e5, 1e-4, 0.018514],
    [1e5, 1e-3, 0.022175],
    [1e6, 1e-3, 0.019943],
    [1e4, 0, 0.030883],
    [5e3, 1e-4, 0.037504],
  ])('at Re %d and roughness %d is within 1.5 %% of Colebrook', (reynolds, roughness, f) => {
    within(colebrook(reynolds, roughness), f, 1e-4);
    within(frictionFactor(reynolds, roughness), f, 0.015);
  });

  // Derived: Swamee and Jain's formula worked by hand.
  it.each([
    [1e5, 1e-4, 0.018452],
    [1e4, 0, 0.030972],
    [5e3, 1e-4, 0.037974],
  ])('at Re %d and roughness %d is what the formula of Swamee and Jain gives', (reynolds, roughness, f) =>
    within(frictionFactor(reynolds, roughness), f, 5e-5),
  );

  it('is 64 / Re in laminar flow (closed form)', () => {
    within(frictionFactor(1611, 6e-5), 64 / 1611, 1e-12);
    within(frictionFactor(2000, 6e-5), 0.032, 1e-12);
  });

  it('has no step between laminar and turbulent flow, and the loss rises all the way', () => {
    let before = 0;
    for (let flow = 0.5; flow < 20; flow += 0.01) {
      const loss = lossPerMetre(flow, 0.025, PIPE_SEA_WATER);
      expect(loss).toBeGreaterThan(before);
      if (before > 0) expect(loss / before).toBeLessThan(1.08);
      before = loss;
    }
  });

  it('refuses a flow that stands, which has no factor', () => expect(() => frictionFactor(0, 0)).toThrow(/above 0/));
});

/**
 * Derived: Darcy-Weisbach for 1025 kg/m3, 1.08e-3 Pa s and a roughness of 0.0015 mm, with Colebrook by the library fluids 1.0.22 and with
 * Swamee and Jain by hand. [bore mm, L/min, m/s, Re, Pa/m Colebrook, Pa/m Swamee-Jain]
 */
const HOSES: readonly (readonly [number, number, number, number, number, number])[] = [
  [13, 3, 0.3767, 4648, 214.3, 217.3],
  [13, 5, 0.6278, 7746, 516.5, 519.8],
  [13, 8, 1.0045, 12394, 1169.3, 1171.4],
  [13, 10, 1.2557, 15492, 1728.0, 1728.4],
  [13, 12, 1.5068, 18591, 2380.5, 2378.3],
  [13, 15, 1.8835, 23238, 3528.2, 3521.3],
  [16, 5, 0.4145, 6294, 193.4, 195.1],
  [16, 8, 0.6631, 10070, 436.3, 437.8],
  [16, 10, 0.8289, 12587, 643.6, 644.6],
  [16, 15, 1.2434, 18881, 1309.9, 1308.3],
  [19, 5, 0.2939, 5300, 85.9, 86.9],
  [19, 8, 0.4703, 8480, 193.2, 194.2],
  [19, 10, 0.5878, 10600, 284.6, 285.4],
  [19, 12, 0.7054, 12720, 391.1, 391.6],
  [19, 15, 0.8817, 15900, 577.8, 577.6],
  [25, 8, 0.2716, 6445, 52.7, 53.2],
  [25, 10, 0.3395, 8056, 77.5, 78.0],
  [25, 15, 0.5093, 12084, 156.8, 157.1],
];

describe('loss of one metre of smooth hose', () => {
  it.each(HOSES)('%d mm at %d L/min', (mm, flow, speed, reynolds, colebrookPa, swameePa) => {
    const boreM = mm / 1000;
    within(speedOf(flow, boreM), speed, 3e-4);
    within((PIPE_SEA_WATER.densityKgM3 * speedOf(flow, boreM) * boreM) / PIPE_SEA_WATER.viscosityPaS, reynolds, 3e-4);
    const loss = lossPerMetre(flow, boreM, PIPE_SEA_WATER, SMOOTH_HOSE_M);
    within(loss, swameePa, 0.005);
    within(loss, colebrookPa, 0.015);
  });

  // Derived: OWA-EPANET 2.2 (epanet-engine 0.8.0), a single hose of 10 m; head in metres of the water itself.
  it.each([
    [13, 8, 1.164468],
    [16, 10, 0.640733],
    [19, 10, 0.283746],
    [25, 15, 0.156121],
    [25, 2, 0.003733],
  ])('ten metres of %d mm at %d L/min as EPANET has them', (mm, flow, headM) =>
    within((10 * lossPerMetre(flow, mm / 1000, PIPE_SEA_WATER)) / (BAR_PER_METRE * 1e5), headM, 0.002),
  );

  it('is nothing without flow', () => expect(lossPerMetre(0, 0.019, PIPE_SEA_WATER)).toBe(0));

  // Derived: rho v2 / 2 at K = 1.
  it('takes 113.3 Pa at a fitting of K = 1 in 19 mm at 8 L/min', () =>
    within(dynamicPressure(8, 0.019, PIPE_SEA_WATER), 113.3, 1e-3));
});

/**
 * A whole suction, derived twice: in EPANET 2.2 and by hand. Sea, 25 mm 0.3 m K 1.10, 25 mm 1.2 m K .60, a strainer of 0.100 m at 8 L/min
 * (quadratic), 19 mm 2.5 m K 2.0, a filter of .150 m at 8 (linear), 19 mm .5 m K .6, a filter of .300 m, 19 mm 1.5 m K 1.0.
 */
describe('a whole suction way', () => {
  const strainer = part.parse({
    name: 'Strainer',
    kind: 'strainer',
    shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
    pressureLoss: { atLMin: 8, cleanBar: 0.1 * BAR_PER_METRE },
  });
  const filter = (headM: number) =>
    part.parse({
      name: 'Filter',
      kind: 'filter',
      shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
      pressureLoss: { atLMin: 8, cleanBar: headM * BAR_PER_METRE },
    });
  const headOf = (flow: number): number => {
    const piece = (boreM: number, lengthM: number, k: number): number =>
      (lengthM * lossPerMetre(flow, boreM, PIPE_SEA_WATER) + k * dynamicPressure(flow, boreM, PIPE_SEA_WATER)) / 1e5;
    const pipes =
      piece(0.025, 0.3, 1.1) +
      piece(0.025, 1.2, 0.6) +
      piece(0.019, 2.5, 2) +
      piece(0.019, 0.5, 0.6) +
      piece(0.019, 1.5, 1);
    const devices = [strainer, filter(0.15), filter(0.3)].map(
      (one) => deviceLoss('x', one, flow, 0.019, 0)?.cleanBar ?? Number.NaN,
    );
    return (pipes + devices.reduce((a, b) => a + b, 0)) / BAR_PER_METRE;
  };

  it('loses 0.69186 m at 8 L/min by hand, 0.691746 m in EPANET', () => {
    within(headOf(8), 0.69186, 1e-4);
    within(headOf(8), 0.691746, 0.002);
  });

  it('loses 1.196961 m at 12 L/min by hand', () => within(headOf(12), 1.196961, 5e-4));

  // Derived: (101325 - 0.98 x 4246) / (1025 x 9.80665) - 0.10 - 0.69186 at 30 C.
  it('leaves a pump 0.10 m up a head of 8.875 m in water of 30 degrees', () =>
    expect(suctionHead((0.1 + headOf(8)) * BAR_PER_METRE)).toBeCloseTo(8.875, 2));

  // Published: sharp entrance K 0.5 (Crane, Idelchik); derived: half of 113.3 Pa.
  it('takes half the dynamic pressure at a sharp entrance', () =>
    within(entranceLoss('x', 0.019, 8).cleanBar * 1e5, 56.65, 1e-3));
});
