import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'water/drain-fall';
const KEY = `${RULE}|drain|`;
const outletAt = (z: number) => verdict(bent(RULE, { 'fixtures.outlet.pose.at.2': z }), KEY);

describe('a drain', () => {
  it('that rises is a fault: 200 mm, and 2 in 100 of its level length of 1.5 m (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'rises',
      measured: { value: expect.closeTo(0.23, 2) },
      data: { backM: expect.closeTo(0.2, 2) },
    });
  });

  it('that lies level is advice: it lacks 30 mm over 1.5 m (derived)', () => {
    expect(outletAt(-0.1)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'tooLevel',
      measured: { value: expect.closeTo(0.03, 2) },
    });
  });

  it('passes about the limit of 2 in 100, what its level ends lack granted', () => {
    expect(outletAt(-0.13)).toMatchObject({ outcome: 'pass', limit: { value: 0.01, bound: 'atMost' } });
    expect(outletAt(-0.11)).toMatchObject({ outcome: 'fail', reason: 'tooLevel' });
  });

  it('cannot be told without a run', () => {
    const fat = {
      'lines.drain.kind': 'fat',
      'lineKinds.fat': { name: 'Fat hose', what: 'hose', outsideM: 0.9, bendRadiusM: 4 },
    };
    expect(verdict(bent(RULE, fat), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noRun' });
  });

  it('is waste of a sink, or what the line says; what is pumped need not fall', () => {
    expect(verdicts(bent(RULE, { 'fixtures.sink.kind': 'head' }), RULE)).toEqual([]);
    expect(verdicts(bent(RULE, { 'lines.drain.drains': false }), RULE)).toEqual([]);
    expect(verdicts(bent(RULE, { 'fixtures.sink.kind': 'head', 'lines.drain.drains': true }), RULE)).toHaveLength(1);
  });

  it('does not apply without a place', () => {
    const lost = { 'lines.drain.to': { thing: 'gone', port: 'out' }, 'parts.gone': tee };
    expect(verdict(bent(RULE, lost), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'notPlaced' });
  });
});

const tee = {
  name: 'Tee',
  kind: 'tee',
  shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
  ports: { out: { at: [0.05, 0, 0], direction: [1, 0, 0] } },
};
