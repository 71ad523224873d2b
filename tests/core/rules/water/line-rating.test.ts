import { readBoat } from '@core/boat/read';
import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { bent, faultyBoat, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

const RULE = 'water/line-rating';
const told = (changes: Readonly<Record<string, unknown>>, key: string) =>
  verdict(bent(RULE, changes), `${RULE}|${key}`);
const instances = (changes: Readonly<Record<string, unknown>>, lineId: string) =>
  verdicts(bent(RULE, changes), RULE).filter(({ subject }) => subject === lineId);

describe('a line on the pressure side', () => {
  it('must bear what the set works at, and what its relief opens at', () => {
    expect(told({}, 'h1|pressure')).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'tooWeak',
      measured: { value: 30, unit: 'bar' },
      limit: { value: 55 },
      hazards: ['highPressure'],
    });
    const at = (bar: number) => ({ 'lineKinds.weak-hose.pressureBar': bar });
    expect(told(at(55), 'h1|pressure')).toMatchObject({ outcome: 'pass' });
    expect(told({ ...at(60), 'parts.pump.relief': { opensBar: 65 } }, 'h1|pressure')).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'belowRelief',
      limit: { value: 65 },
    });
    expect(told({ ...at(54), 'parts.pump.relief': { opensBar: 65 } }, 'h1|pressure')).toMatchObject({
      severity: 'danger',
      reason: 'tooWeak',
      limit: { value: 65 },
    });
    // Catalogue, EN 853 1SN 3/8 in: 180 bar (quoted).
    expect(told({ 'lines.h1.kind': 'hose-pressure-10' }, 'h1|pressure')).toMatchObject({
      outcome: 'pass',
      measured: { value: 180 },
    });
    expect(told({ 'lines.h1.kind': 'hose-suction-13' }, 'h1|pressure')).toMatchObject({
      outcome: 'fail',
      measured: { value: 0 },
    });
  });

  it('is one up to the control station, and no further; to the last membrane where no station is drawn', () => {
    const right = { 'lines.h1.kind': 'hose-pressure-10' };
    expect(told({ ...right, 'lines.h2.kind': 'hose-brine-16' }, 'h2|pressure')).toMatchObject({ outcome: 'fail' });
    expect(instances(right, 'b1').filter(({ key }) => key.endsWith('pressure'))).toEqual([]);
    const none = {
      ...right,
      'parts.station': undefined,
      'lines.h2': undefined,
      'lines.b1': line('membrane.brine', 'brine-out.tail'),
    };
    expect(instances(none, 'b1').filter(({ key }) => key.endsWith('pressure'))).toEqual([]);
    expect(told(none, 'h1|pressure')).toMatchObject({ outcome: 'pass' });
  });

  it('is offered a hose that bears it', () => {
    const read = readBoat(JSON.stringify(faultyBoat(RULE)));
    if (!read.ok) throw new Error('not a boat');
    const [first] = mends(read.boat, `${RULE}|h1|pressure`);
    expect(first).toMatchObject({ change: 'kind', what: { line: 'h1', from: 'weak-hose', to: 'hose-pressure-10' } });
  });
});

describe('a line on the suction', () => {
  it('must be made for it', () => {
    expect(told({ 'lines.s1.kind': 'hose-brine-19' }, 's1|suction')).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'collapses',
    });
    expect(told({}, 's1|suction')).toMatchObject({ outcome: 'pass' });
    const kind = { name: 'Some hose', what: 'hose', outsideM: 0.026, boreM: 0.019, bendRadiusM: 0.15 };
    expect(told({ 'lineKinds.some': kind, 'lines.s1.kind': 'some' }, 's1|suction')).toMatchObject({
      outcome: 'cannotTell',
      enterNext: 'Enter whether Some hose may be used on suction',
    });
  });

  it('must be no push-fit tube', () => {
    expect(told({ 'lines.s1.kind': 'tube-water-15' }, 's1|suction')).toMatchObject({
      outcome: 'fail',
      reason: 'pushFit',
    });
  });
});

describe('a line with made water', () => {
  it('must be made for drinking water', () => {
    expect(told({ 'lines.w1.kind': 'hose-brine-13' }, 'w1|potable')).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'notPotable',
      hazards: ['drinkingWater'],
    });
    expect(told({}, 'w1|potable')).toMatchObject({ outcome: 'pass' });
    const kind = { name: 'Some tube', what: 'tube', outsideM: 0.006, boreM: 0.004, bendRadiusM: 0.05 };
    expect(told({ 'lineKinds.some': kind, 'lines.w2.kind': 'some' }, 'w2|potable')).toMatchObject({
      outcome: 'cannotTell',
    });
    expect(instances({ 'lineKinds.some': kind, 'lines.f2.kind': 'some' }, 'f2')).toMatchObject([
      { outcome: 'notApplicable' },
    ]);
  });
});

describe('metal on feed and made water', () => {
  it('is a fault where it is brass, copper, galvanised or carbon steel, told once at the first of its lines', () => {
    const all = verdicts(bent(RULE, { 'parts.strainer.material': 'brass' }), RULE).filter(
      (one) => one.outcome === 'fail' && one.key.endsWith('metal'),
    );
    expect(all.map(({ key }) => key)).toEqual([`${RULE}|s1|metal`]);
    expect(all[0]).toMatchObject({
      severity: 'fault',
      reason: 'foulMetal',
      related: ['strainer'],
      data: { metals: 'Strainer (plain brass)' },
    });
    for (const material of ['copper', 'galvanised', 'carbonSteel'])
      expect(told({ 'parts.membrane.material': material }, 'h1|metal')).toMatchObject({ outcome: 'fail' });
    const tube = {
      name: 'Copper tube',
      what: 'tube',
      outsideM: 0.008,
      boreM: 0.006,
      bendRadiusM: 0.03,
      potable: true,
      material: 'copper',
    };
    expect(told({ 'lineKinds.cu': tube, 'lines.w2.kind': 'cu' }, 'w2|metal')).toMatchObject({ outcome: 'fail' });
  });

  it('is none where it is bronze, proof brass, stainless steel or plastic, or elsewhere', () => {
    for (const material of ['bronze', 'dzrBrass', 'stainless316', 'plastic'])
      expect(told({ 'parts.strainer.material': material }, 's1|metal')).toMatchObject({ outcome: 'pass' });
    const heater = part('waterHeater', { in: port('freshWater', 'in') }, { material: 'copper' });
    expect(
      verdicts(
        bent(RULE, { 'parts.heater': heater, 'lines.x': line('fresh-pump.out', 'heater.in', 'freshWater') }),
        RULE,
      ).filter(({ key, outcome }) => outcome === 'fail' && key.endsWith('metal')),
    ).toEqual([]);
  });
});
