import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'access/hold-down';
const KEY = `${RULE}|side|`;
describe('what stands on a surface', () => {
  it('counts twice in a knockdown: 2 x 20 kg on a board for 30 (ISO 10133 of batteries, quoted)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      cause: 'arrangement',
      reason: 'tooMuch',
      measured: { value: 40, unit: 'kg' },
      limit: { value: 30, bound: 'atMost' },
      related: ['vessel'],
    });
    expect(verdict(bent(RULE, { 'mountingSurfaces.side.capacityKg': 40 }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { 'mountingSurfaces.side.capacityKg': 39.9 }), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('is all that is on it, named or lying there', () => {
    const second = {
      'mountingSurfaces.side.capacityKg': 45,
      'parts.small': { name: 'Small', kind: 'other', shape: { type: 'box', sizeM: [0.1, 0.08, 0.08] }, massKg: 3 },
      'arrangements.plan.places.small': { at: [0.8, 0.96, 0.12] },
    };
    expect(verdict(bent(RULE, second), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: 46 },
      related: ['small', 'vessel'],
    });
  });

  it('is asked of a part that is said to be loose', () => {
    const loose = { 'mountingSurfaces.side.capacityKg': 40, 'parts.vessel.heldDown': false };
    expect(verdict(bent(RULE, loose), `${RULE}|vessel|`)).toMatchObject({
      outcome: 'fail',
      reason: 'loose',
      measured: { value: 20, unit: 'kg' },
      hazards: ['highPressure', 'lifting'],
    });
    expect(verdict(bent(RULE, { ...loose, 'parts.vessel.heldDown': true }), `${RULE}|vessel|`)).toMatchObject({
      outcome: 'pass',
    });
    expect(verdict(bent(RULE, { ...loose, 'parts.vessel.massKg': 9 }), `${RULE}|vessel|`)).toMatchObject({
      outcome: 'notApplicable',
    });
  });

  it('does not apply to an empty surface, nor where its thickness speaks for it', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), KEY)).toMatchObject({ reason: 'nothingOnIt' });
    expect(verdict(bent(RULE, { 'mountingSurfaces.side.capacityKg': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'judgedByThickness',
    });
  });
});
