import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'runs/clamps';
const KEY = `${RULE}|hose|`;
const FROM = `${KEY}from`;

describe('clamps of a hose joint below the heeled waterline', () => {
  it('are two by ISO practice (quoted)', () => {
    expect(verdict(bent(RULE, {}), FROM)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      cause: 'existing',
      reason: 'tooFew',
      measured: { value: 1, unit: 'count' },
      limit: { value: 2, bound: 'atLeast' },
      related: ['cock'],
      hazards: ['hullHole'],
    });
    expect(verdict(bent(RULE, { 'lines.hose.ends.from.clamps': 2 }), FROM)).toMatchObject({ outcome: 'pass' });
  });

  it('may be one by the American texts (quoted)', () => {
    expect(verdict(bent(RULE, { practice: 'usVoluntary' }), FROM)).toMatchObject({
      outcome: 'pass',
      limit: { value: 1 },
    });
    expect(verdict(bent(RULE, { practice: 'usVoluntary', 'lines.hose.ends.from.clamps': 0 }), FROM)).toMatchObject({
      outcome: 'fail',
    });
  });

  it('are stainless all through', () => {
    const rusty = { 'lines.hose.ends.from.clamps': 2, 'lines.hose.ends.from.clampsStainless': false };
    expect(verdict(bent(RULE, rusty), `${FROM} metal`)).toMatchObject({ outcome: 'fail', reason: 'willRust' });
  });

  it('may be told of the kind', () => {
    const kind = {
      'lines.hose.ends': {},
      'lines.hose.kind': 'own',
      'lineKinds.own': {
        name: 'Own hose',
        what: 'hose',
        outsideM: 0.026,
        bendRadiusM: 0.15,
        end: { rigidM: 0.04, clamps: 1 },
      },
    };
    expect(verdicts(bent(RULE, kind), RULE).map(({ outcome }) => outcome)).toEqual(['fail', 'fail']);
  });

  it('are not asked for where nobody counted them, above the water, of fresh water and of crimped ends', () => {
    expect(verdict(bent(RULE, { 'lines.hose.ends': {} }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'nothingSaid',
    });
    const dry = { 'fixtures.cock.pose.at.2': 0.4, 'fixtures.tee.pose.at.2': 0.44 };
    expect(verdict(bent(RULE, dry), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'lines.hose.medium': 'freshWater' }), RULE)).toEqual([]);
    const crimped = { 'lines.hose.ends.from.crimped': true, 'lines.hose.ends.to.crimped': true };
    expect(verdict(bent(RULE, crimped), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });
});
