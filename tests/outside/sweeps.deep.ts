import { analyze } from '@core/analyze';
import { expect, it } from 'vitest';
import { boatOf } from '../oracle/judged';
import { scene } from '../support/scenes';
import { swept } from './sweeps';

/** Derived, as in sweeps.test.ts: scenes until 200 runs are judged, half of them round planted runs. Other scenes: SWEEP_SEED. */
const FIRST = Number(process.env.SWEEP_SEED ?? 301);

it('shares no space in 200 runs, and does in 50 walls once it is moved 5 mm into them', () => {
  let [runs, walls, most] = [0, 0, 0];
  for (let seed = FIRST; runs < 200 || walls < 50; seed += 1) {
    const boat = boatOf(scene(seed, { planted: seed % 2 === 0 }).boat);
    const some = swept(boat, analyze(boat));
    runs += some.runs.length;
    walls += some.pressed.length;
    most = Math.max(most, ...some.runs.flatMap(({ shared }) => shared.map(({ m3 }) => m3)));
    for (const { what, shared, overboardM3 } of some.runs) {
      expect([`${seed} ${what}`, ...shared.filter(({ m3 }) => m3 > 1e-9)]).toEqual([`${seed} ${what}`]);
      expect(overboardM3, what).toBeGreaterThan(1e-6);
    }
    expect(some.pressed.filter(({ m3 }) => !(m3 > 1e-8))).toEqual([]);
  }
  console.log(JSON.stringify({ runs, walls, mostSharedM3: most }));
});
