import { PLYWOOD_W_M2K, riseInSpace } from '../../base/formulas/locker-heat';
import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import type { Vec2 } from '../../base/vec';
import type { Compartment } from '../../boat/schema/boat';

/** Air of a compartment while all that gives off heat in it runs. */
export interface LockerAir {
  /** How that is known. */
  readonly by: 'measured' | 'measuredRise' | 'balance';
  /** Warmer than while nothing runs, kelvin; null where only the temperature was measured. */
  readonly riseK: number | null;
  /** Temperature on a hot day, degrees Celsius; null where nobody says how warm it is without. */
  readonly airC: number | null;
  readonly heatW: number;
  readonly wallWK: number;
  readonly ventAreaM2: number;
}

/** Where nobody says how warm it is on a hot day: a balance of heat hangs little on it. Common practice, no source. */
const HOT_DAY_C = 30;

/** What is measured counts before what is reckoned; `heatW`: what all things in the compartment give off, watts. */
export function lockerAir(compartment: Compartment, heatW: number): LockerAir {
  const { measuredC, measuredRiseK, summerTemperatureC, ventAreaM2 = 0 } = compartment;
  const wallWK = compartment.wallWK ?? PLYWOOD_W_M2K * sidesM2(compartment);
  const space = { heatW, wallWK, ventAreaM2 };
  if (measuredC !== undefined) return { by: 'measured', riseK: null, airC: measuredC, ...space };
  const riseK =
    measuredRiseK ??
    riseInSpace({
      ...space,
      ventHeightM: compartment.ventHeightM ?? heightOf(compartment) / 2,
      outsideC: summerTemperatureC ?? HOT_DAY_C,
    });
  return {
    by: measuredRiseK === undefined ? 'balance' : 'measuredRise',
    riseK,
    airC: summerTemperatureC === undefined ? null : summerTemperatureC + riseK,
    ...space,
  };
}

/** Area of all sides of the prism as drawn, m2. */
function sidesM2({ outline, rangeM }: Compartment): number {
  const ring = outline as readonly Vec2[];
  const around = ring.reduce((sum, [a, b], k) => {
    const [c, d] = ring[(k + 1) % ring.length] as Vec2;
    return sum + portable.hypot(c - a, d - b);
  }, 0);
  return 2 * Math.abs(signedArea(ring)) + around * (rangeM[1] - rangeM[0]);
}

/** From its lowest to its highest point, metres. */
function heightOf({ view, outline, rangeM }: Compartment): number {
  if (view === 'plan') return rangeM[1] - rangeM[0];
  const heights = outline.map(([, z]) => z);
  return Math.max(...heights) - Math.min(...heights);
}
