import { readBoat } from '@core/boat/read';
import { describe, expect, it } from 'vitest';
import { finding, judge, length, near, raw, run, verdict } from './judging';

describe('what the first reader of the schema found wrong', () => {
  it('drills a straight run on its axis with a rigid end 120 mm from the panel', () => {
    const twice = judge('oarweed', { 'panels/g2': undefined });
    near(length(twice, 'h'), 2.4);
    expect(twice.summary.newHoles).toBe(2);
  });
  it('counts what a hole carries: 26 + 10 mm do not lie in 30', () => {
    const full = judge('oarweed', { 'panels/g2/holes/loom/carries': { c: { name: 'loom', diameterM: 0.01 } } });
    expect(run(full, 'h').status).toBe('blocked');
  });
  it('names the panel whose hole is too small, or that may not be drilled', () => {
    const small = run(judge('oarweed', { 'panels/g2/holes/loom/diameterM': 0.027 }), 'h').reason;
    expect(small?.kind).toBe('hole');
    expect(small?.blocker).toBe('vu7|vu8');
    near(small?.shortByM ?? 0, 0.001, 0.0005);
    const shut = run(judge('oarweed', { 'panels/g2/holes': {} }), 'h').reason;
    expect(shut?.blocker).toBe('vu7|vu8');
    expect(run(judge('section-eight'), 'ef').reason?.blocker).toBe('ell|low');
  });
  it('names the wall of joinery in the way', () => {
    const wall = {
      name: 'Wall',
      kind: 'joinery',
      shape: { type: 'box', sizeM: [0.02, 0.9, 0.7] },
      pose: { at: [0.75, 0.45, 0.25] },
    };
    expect(run(judge('limpet', { 'fixtures/wall': wall }), 'y2').reason?.blocker).toBe('wall');
  });
  it('does not take a part in by a lid eight metres off', () => {
    expect(finding(judge('limpet', { 'openings/o/at': [8, 8, 8] }), 'access/way-in|c|').outcome).not.toBe('pass');
  });
  it('takes the current of the line where the motor states none', () => {
    const lined = judge('limpet', { 'parts/c/electric': undefined, 'lines/y3/currentA': 25 });
    expect(verdict(lined, 'power/motor-voltage|c|')).toBe('pass');
  });
  it('notes a medium against its ports', () => {
    const boat = JSON.stringify(raw('oarweed')).replace(
      '"kind":"hp","medium":"brine"',
      '"kind":"hp","medium":"dcPower"',
    );
    const read = readBoat(boat);
    expect(read.ok ? read.notes.length : 1).toBeGreaterThan(0);
  });
});
