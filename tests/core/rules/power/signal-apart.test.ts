import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/signal-apart';
const KEY = `${RULE}|sense|`;

describe('signal beside power', () => {
  it('is advice where they share a trunk: 2 740 mm from port to port (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      measured: { value: expect.closeTo(2.74, 2) },
      limit: { value: 1, bound: 'atMost' },
      related: ['power'],
    });
  });

  it('passes at the limit: the sensor 1 m from the panel, port to port (derived)', () => {
    const at = (x: number) => verdict(bent(RULE, { 'fixtures.sensor.pose.at.0': x }), KEY);
    expect(at(1.159)).toMatchObject({ outcome: 'pass', measured: { value: expect.closeTo(0.999, 2) } });
    expect(at(1.19)).toMatchObject({ outcome: 'fail' });
  });

  it('passes where a trunk of 600 mm leaves room to keep apart', () => {
    const wide = {
      'compartments.trunk.outline': [
        [0, 0],
        [3, 0],
        [3, 0.6],
        [0, 0.6],
      ],
    };
    const apart = { 'fixtures.panel.pose.at.1': 0.5, 'fixtures.sensor.pose.at.1': 0.5 };
    expect(verdict(bent(RULE, { ...wide, ...apart }), KEY)).toMatchObject({ outcome: 'pass', measured: { value: 0 } });
  });

  it('cannot tell while no power cable has a run', () => {
    const fat = {
      'lines.power.kind': 'fat',
      'lineKinds.fat': { name: 'Fat cable', what: 'cable', outsideM: 0.2, bendRadiusM: 1, conductors: 2 },
    };
    expect(verdict(bent(RULE, fat), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noPowerRun' });
  });

  it('does not apply without power cables, and not to other lines', () => {
    expect(verdict(bent(RULE, { 'lines.power.medium': 'air' }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'lines.sense.medium': 'air' }), RULE)).toEqual([]);
  });
});
