import { applied } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line } from './pieces';

/** A vented loop on the suction side is a fault, air: common practice, no source. */
const RULE = 'water/vented-suction';
const KEY = `${RULE}|loop|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);

describe('a vented loop', () => {
  it('on the suction is a fault', () => {
    expect(told({})).toMatchObject({ outcome: 'fail', severity: 'fault', reason: 'drawsAir', related: ['s5', 's5b'] });
  });

  it('on what is pushed is right', () => {
    const onBrine = {
      'lines.s5': line('fine.out', 'pump.in', 'seaWater'),
      'lines.s5b': undefined,
      'parts.loop.ports.a.medium': 'brine',
      'parts.loop.ports.b.medium': 'brine',
      'lines.b1': line('station.brine', 'loop.a'),
      'lines.b2': line('loop.b', 'brine-out.tail'),
    };
    expect(told(onBrine)).toMatchObject({ outcome: 'pass' });
  });

  it('behind a feed pump is not drawn on', () => {
    expect(told({ 'parts.fine.kind': 'feedPump', 'parts.fine.micron': undefined })).toMatchObject({ outcome: 'pass' });
  });

  it('without lines is not asked, nor is a boat without one', () => {
    expect(told({ 'lines.s5': undefined, 'lines.s5b': undefined })).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'parts.loop.kind': 'tee' }), RULE)).toEqual([]);
  });
});

describe('a loop in mid-line', () => {
  it('is offered to be taken out, and its hose goes on', () => {
    const read = readBoat(JSON.stringify(bent(RULE, {})));
    if (!read.ok) throw new Error('not a boat');
    const [offer] = mends(read.boat, KEY);
    expect(offer).toMatchObject({ change: 'remove', what: { item: 'loop', from: 's5' } });
    const after = applied(read.boat, offer?.patches ?? []);
    expect(after.parts.loop).toBeUndefined();
    expect(after.lines.s5b).toBeUndefined();
    expect(after.lines.s5).toMatchObject({ from: { thing: 'fine' }, to: { thing: 'pump', port: 'in' } });
  });
});
