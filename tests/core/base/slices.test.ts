import { Slices } from '@core/base/slices';
import type { Vec3 } from '@core/base/vec';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../support/random';

describe('things by slices along the boat', () => {
  it('finds what a scan of all finds, in the same order', () => {
    const random = randomFrom(5);
    const box = (size: number) => {
      const low: Vec3 = [20 * random() - 5, 4 * random() - 2, 3 * random() - 1];
      const high: Vec3 = [low[0] + size * random(), low[1] + size * random(), low[2] + size * random()];
      return { low, high };
    };
    const items = Array.from({ length: 200 }, () => box(1.5));
    const slices = new Slices(items);
    for (let question = 0; question < 300; question++) {
      const asked = box(question % 3);
      const margin = question % 2 ? 0.06 : 0;
      const axes = [0, 1, 2] as const;
      const expected = items.filter((item) =>
        axes.every((k) => item.low[k] <= asked.high[k] + margin && item.high[k] >= asked.low[k] - margin),
      );
      expect(slices.meeting(asked, margin)).toEqual(expected);
    }
  });
});
