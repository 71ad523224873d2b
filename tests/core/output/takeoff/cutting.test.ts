import { type CuttingPlan, type CuttingQuestion, cuttingPlan } from '@core/output/takeoff/cutting';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../support/dice';

/** Every way to put the pieces into lengths, one after the other: the least that can be bought. Written for this test alone. */
function leastByTrying({ needs, onHand, sold }: CuttingQuestion): number {
  const longest = 'lengths' in sold ? Math.max(...sold.lengths) : Number.POSITIVE_INFINITY;
  const cost = (load: number): number => {
    if ('step' in sold) return Math.ceil(load / sold.step) * sold.step;
    return Math.min(...sold.lengths.filter((length) => length >= load));
  };
  const there = onHand.map(() => 0);
  const bought: number[] = [];
  const special: number[] = [];
  const from = (index: number): number => {
    const need = needs[index];
    if (need === undefined) return [...special, ...bought.map(cost)].reduce((sum, one) => sum + one, 0);
    let least = Number.POSITIVE_INFINITY;
    const tryIn = (loads: number[], k: number): void => {
      loads[k] = (loads[k] ?? 0) + need;
      least = Math.min(least, from(index + 1));
      loads[k] = (loads[k] ?? 0) - need;
    };
    onHand.forEach((length, k) => {
      if ((there[k] ?? 0) + need <= length) tryIn(there, k);
    });
    bought.forEach((load, k) => {
      if (load + need <= longest) tryIn(bought, k);
    });
    const open = need > longest ? special : bought;
    open.push(need);
    least = Math.min(least, from(index + 1));
    open.pop();
    return least;
  };
  return from(0);
}

function expectSound({ needs, onHand, sold }: CuttingQuestion, plan: CuttingPlan): void {
  expect(plan.stocks.flatMap(({ pieces }) => pieces).sort((a, b) => a - b)).toEqual(needs.map((_, i) => i));
  const used = plan.stocks.flatMap(({ onHand: at }) => at ?? []);
  expect(new Set(used).size).toBe(used.length);
  for (const stock of plan.stocks) {
    expect(stock.pieces.reduce((sum, at) => sum + (needs[at] ?? 0), 0)).toBeLessThanOrEqual(stock.length);
    if (stock.onHand !== null) expect(stock.length).toBe(onHand[stock.onHand]);
    else if (!stock.isSpecial && 'lengths' in sold) expect(sold.lengths).toContain(stock.length);
  }
  const bought = plan.stocks.filter(({ onHand: at }) => at === null);
  expect(bought.reduce((sum, { length }) => sum + length, 0)).toBe(plan.bought);
}

describe('cutting', () => {
  it('buys as little as every way tried one by one, over 200 small questions', () => {
    const luck = dice(Number(process.env.CUTTING_SEED ?? 11));
    for (let k = 0; k < 200; k += 1) {
      const draw = (low: number, high: number) => low + Math.floor(luck.next() * (high - low + 1));
      const question: CuttingQuestion = {
        needs: Array.from({ length: draw(1, 6) }, () => draw(3, 60)),
        onHand: Array.from({ length: draw(0, 2) }, () => draw(5, 70)),
        sold:
          luck.next() < 0.25
            ? { step: draw(1, 10) }
            : { lengths: Array.from({ length: draw(1, 3) }, () => draw(20, 90)) },
      };
      const plan = cuttingPlan(question);
      expectSound(question, plan);
      expect([plan.bought, plan.leastBought]).toEqual(Array(2).fill(leastByTrying(question)));
    }
  });

  it('finds what the longest piece first would miss', () => {
    // Derived: 6+4+2 and 5+4+3 fill two lengths of 12 to the last unit; 6+5, 4+4+3, 2 would take three.
    const plan = cuttingPlan({ needs: [6, 5, 4, 4, 3, 2], onHand: [], sold: { lengths: [12] } });
    expect([plan.bought, plan.stocks.length]).toEqual([24, 2]);
  });

  it('takes what is there before what is bought, though buying would be no dearer', () => {
    const plan = cuttingPlan({ needs: [20, 8], onHand: [10], sold: { lengths: [50] } });
    expect(plan.bought).toBe(50);
    expect(plan.stocks.find(({ onHand }) => onHand === 0)?.pieces).toEqual([1]);
  });

  it('mixes lengths where that is less: 7 and 4 from 5 + 6 cannot be, so 8 + 5', () => {
    const plan = cuttingPlan({ needs: [7, 4], onHand: [], sold: { lengths: [5, 8, 20] } });
    expect(plan.bought).toBe(13);
  });

  it('buys nothing where nothing is needed', () => {
    expect(cuttingPlan({ needs: [], onHand: [5], sold: { step: 10 } })).toMatchObject({ bought: 0, stocks: [] });
  });

  it('says how far it may be off where the bound on the work is met', () => {
    const luck = dice(5);
    const needs = Array.from({ length: 40 }, () => 20 + Math.floor(luck.next() * 40));
    const question: CuttingQuestion = { needs, onHand: [], sold: { lengths: [97] }, mostNodes: 60 };
    const plan = cuttingPlan(question);
    expectSound(question, plan);
    expect(plan.leastBought).toBeLessThan(plan.bought);
    // No plan can hold more than there is: the bound is one.
    expect(plan.leastBought).toBeGreaterThanOrEqual(needs.reduce((sum, need) => sum + need, 0));
    const longer = cuttingPlan({ ...question, mostNodes: 20_000 });
    expect(longer.bought).toBeLessThanOrEqual(plan.bought);
    expect(longer.bought).toBeGreaterThanOrEqual(plan.leastBought);
  });
});
