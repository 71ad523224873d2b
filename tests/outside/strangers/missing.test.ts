import { describe, expect, it } from 'vitest';
import { finding, judge, measured, near, verdict } from './judging';

/* What a stranger leaves out, or names in words of his own: never a pass, never a false alarm. Derived by hand. */

describe('what was not entered', () => {
  it('asks for the current of a motor, and for the cables of a pump that draws', () => {
    const silent = judge('feed-first', { 'parts/hp/electric': undefined });
    expect(verdict(silent, 'power/motor-voltage|hp|')).toBe('cannotTell noCurrent');
    const bare = judge('feed-first', { 'parts/fp/electric': { drawA: 6 } });
    expect(verdict(bare, 'power/motor-voltage|fp|')).toBe('cannotTell noSource');
  });

  it('asks how fine the filters are before it calls their order right', () => {
    const key = 'water/filter-order|hp|';
    expect(finding(judge('feed-first', { 'parts/co/micron': undefined }), key).outcome).toBe('cannotTell');
    const neither = judge('feed-first', { 'parts/co/micron': undefined, 'parts/fi/micron': undefined });
    expect(finding(neither, key).outcome).toBe('cannotTell');
  });

  it('takes a seacock for what it is, whatever its positions are called', () => {
    const key = 'access/seacock-handle|i5|';
    // Handle (3.3, 2.4, -.05), hatch x 3.2..3.8, y 1.9..2.5, z .4: .45 straight up.
    const own = judge('two-kelps');
    expect(verdict(own, 'hull/seacock|n1|')).toBe('pass');
    expect(verdict(own, key)).toBe('pass');
    near(measured(own, key), 0.45);
    // Without a valve record the hand goes to its middle, z -.2: .60, past the .56 of an arm, within the .70 of head and shoulder.
    const bare = judge('two-kelps', { 'fixtures/i5/valve': undefined });
    expect(verdict(bare, 'hull/seacock|n1|')).toBe('pass');
    expect(verdict(bare, key)).toBe('pass');
    near(measured(bare, key), 0.6);
  });

  it('says how far two compartments overlap', () => {
    // Locker from x 3.5, engine space to x 4.0.
    const mixed = judge('oarweed', {
      'compartments/vu7/outline': [
        [3.5, -0.6],
        [5.2, -0.6],
        [5.2, 0.6],
        [3.5, 0.6],
      ],
    });
    const told = mixed.findings.filter((f) => f.rule === 'hull/compartment-overlap' && f.outcome === 'fail');
    expect(told.map((f) => f.outcome === 'fail' && Math.round(1000 * Math.abs(f.measured.value)))).toEqual([500]);
  });

  it('finds the panel record that belongs to no panel', () => {
    // Engine space and settee back have the locker between them.
    const lost = judge('oarweed', { 'panels/g1/between': ['eng', 'vu8'] });
    expect(verdict(lost, 'hull/panel-record|g1|panel')).toBe('cannotTell noSuchPair');
    const far = judge('oarweed', { 'panels/g1/near': [4.01, 5, 5] });
    expect(verdict(far, 'hull/panel-record|g1|panel')).toBe('cannotTell tooFar');
  });
});
