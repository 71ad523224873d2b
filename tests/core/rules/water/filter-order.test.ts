import { describe, expect, it } from 'vitest';
import { type BoatJson, bent, faultyBoat, verdict, verdicts } from '../judged';

/** Strainer, coarse, fine: common practice without a source. Pairs that stand the wrong way round are counted by hand. */
const RULE = 'water/filter-order';
const KEY = `${RULE}|pump|`;
const micron = (fine: number, coarse: number) => ({ 'parts.fine.micron': fine, 'parts.coarse.micron': coarse });

describe('order of strainer and filters', () => {
  it('counts what stands the wrong way round: one pair', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'fineBeforeCoarse',
      measured: { value: 1, unit: 'count' },
      limit: { value: 0 },
    });
  });

  it('passes when the coarse cartridge comes first, or both are alike', () => {
    expect(verdict(bent(RULE, micron(20, 5)), KEY)).toMatchObject({ outcome: 'pass', measured: { value: 0 } });
    expect(verdict(bent(RULE, micron(5, 5)), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('accepts the other common layout: filters after a separate feed pump, the strainer before it', () => {
    const after = bent(RULE, {
      ...micron(20, 5),
      'parts.strainer.kind': 'strainer',
      'parts.feed': FEED,
      'arrangements.plan.places.feed': { at: [0.55, 0.3, -0.25] },
    });
    expect(verdict(relined(after, ['strainer', 'feed', 'fine', 'coarse', 'pump']), KEY)).toMatchObject({
      outcome: 'pass',
    });
    expect(verdict(relined(after, ['feed', 'strainer', 'fine', 'coarse', 'pump']), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'beforeStrainer',
    });
  });

  it('fails without a strainer', () => {
    expect(verdict(relined(bent(RULE, micron(20, 5)), ['fine', 'coarse', 'pump']), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'noStrainer',
    });
  });

  it('cannot tell where no line leads from the sea', () => {
    expect(verdict(bent(RULE, { 'lines.to-fine': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noWayFromSea',
    });
  });

  it('does not ask about a pump to which nobody has drawn a hose yet', () => {
    expect(verdict(bent(RULE, { lines: {} }), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'notDrawn' });
  });

  it('cannot tell which of two filters is finer when one does not say', () => {
    expect(verdict(bent(RULE, { 'parts.fine.micron': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noMicron',
    });
  });

  it('does not apply to a boat without a pressure pump', () => {
    expect(verdicts(bent(RULE, { 'parts.pump.kind': 'other' }), RULE)).toEqual([]);
  });
});

const FEED = {
  name: 'Feed pump',
  kind: 'feedPump',
  shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
  ports: {
    inlet: { at: [-0.05, 0, 0], direction: [-1, 0, 0], medium: 'seaWater', role: 'in' },
    outlet: { at: [0.05, 0, 0], direction: [1, 0, 0], medium: 'seaWater', role: 'out' },
  },
};

/** The same boat with its lines drawn in another order. */
function relined(json: BoatJson, order: readonly string[]): BoatJson {
  const lines: Record<string, unknown> = {};
  ['cock', ...order].forEach((from, i, all) => {
    const to = all[i + 1];
    if (to)
      lines[`l${i}`] = {
        name: `To ${to}`,
        kind: 'hose-suction-19',
        medium: 'seaWater',
        from: { thing: from, port: from === 'cock' ? 'tail' : 'outlet' },
        to: { thing: to, port: 'inlet' },
      };
  });
  return { ...faultyBoat(RULE), ...json, lines };
}
