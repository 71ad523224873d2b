import { describe, expect, it } from 'vitest';
import { type Json, judge, judgeRaw, MM, measured, near, type Report, raw, run, verdict } from './judging';

const BOATS = [
  'wrackline',
  'limpet',
  'oarweed',
  'samphire',
  'two-kelps',
  'section-eight',
  'yaw-and-again',
  'feed-first',
  'yard-ton',
  'foot-and-inch',
];
const RULES = [
  'runs/blocked',
  'runs/supplied-length',
  'access/overlap',
  'access/way-in',
  'access/service-space',
  'water/suction-crest',
  'water/filter-order',
  'power/motor-voltage',
  'hull/seacock',
];

/** The boat seen in a mirror: what lay to port lies to starboard. */
function mirrored(value: Json, key = '', view: Json = null): Json {
  if (Array.isArray(value)) {
    if (key === 'outline' && view !== 'profile') {
      const side = view === 'section' ? 0 : 1;
      return value.map((p) => (Array.isArray(p) ? p.map((c, i) => (i === side && typeof c === 'number' ? -c : c)) : p));
    }
    if (key === 'rangeM' && view === 'profile') {
      return value.map((c) => (typeof c === 'number' ? -c : c)).reverse();
    }
    if (['at', 'near', 'normal', 'up', 'direction', 'across'].includes(key)) {
      return value.map((c, i) => (i === 1 && typeof c === 'number' ? -c : c));
    }
    return value.map((v) => mirrored(v));
  }
  if (value !== null && typeof value === 'object') {
    const own = value.view ?? null;
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, mirrored(v, k, own)]));
  }
  if (typeof value === 'number' && ['yawDeg', 'rollDeg', 'offsetM'].includes(key)) return -value;
  if (key === 'hingeAlong' && value === 'left') return 'right';
  if (key === 'hingeAlong' && value === 'right') return 'left';
  return value;
}

describe('all ten', () => {
  it('judges each boat in a mirror as the boat itself', () => {
    for (const name of BOATS) {
      const here = judge(name);
      const there = judgeRaw(mirrored(raw(name)));
      const told = (r: Report) => r.findings.map((f) => `${f.rule} ${f.subject} ${verdict(r, f.key)}`).sort();
      expect(told(there), name).toEqual(told(here));
      for (const r of here.runs) {
        const other = run(there, r.lineId);
        expect(other.status, `${name} ${r.lineId}`).toBe(r.status);
        if (r.lengthM !== null) near(other.lengthM ?? 0, r.lengthM, 0.01 * r.lengthM);
      }
      for (const f of here.findings) {
        if (f.outcome !== 'pass' && f.outcome !== 'fail') continue;
        if (f.rule === 'runs/blocked' || f.key.split('|')[2]?.includes('/')) continue; // which wall of two has another name
        near(measured(there, f.key), f.measured.value, Math.max(MM, 0.01 * Math.abs(f.measured.value)));
      }
    }
  });

  it('shows every rule passing on some boat', () => {
    const told = BOATS.flatMap((name) => judge(name).findings.map((f) => `${f.rule} ${f.outcome}`));
    for (const rule of RULES) expect(told, rule).toContain(`${rule} pass`);
  });
});
