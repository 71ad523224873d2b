import { analyze } from '@core/analyze';
import { remedies, startRemedies } from '@core/engine/remedies/remedies';
import { worseFindings } from '@core/engine/remedies/worse';
import { Session } from '@core/engine/session';
import { remedyText } from '@core/output/text/remedy-text';
import type { Finding } from '@core/rules/finding';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, faultyBoat } from '../../rules/judged';
import { broken } from './judged-remedies';

const offered = (json: unknown, lineId = 'hose') => {
  const boat = boatOf(json);
  const found = remedies(boat, lineId);
  return { boat, found, before: analyze(boat) };
};

describe('remedies of a line that no panel lets through', () => {
  const { boat, found, before } = offered(faultyBoat('runs/blocked'));

  it('keep their word when the boat is analysed afresh with each of them', () => {
    expect(found.length).toBeGreaterThan(1);
    for (const remedy of found) expect(broken(boat, before, 'hose', remedy)).toEqual([]);
  });

  it('drill a hole as wide as the hose needs, or cut the line in two, the cheaper first', () => {
    // derived: 19 mm of hose and 1 mm all round
    expect(found[0]).toMatchObject({ change: 'newHole', what: { panel: 'aft|fore' } });
    expect(found[0]?.what.diameterM).toBeCloseTo(0.021, 9);
    expect(found.map(({ change }) => change)).toContain('union');
    const costs = found.map(({ costM }) => costM);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
  });

  it('say what to think of first', () => {
    // derived: both ports lie at the waterline, so a hole between them reaches below it
    expect(found[0]?.cautions.map(({ kind }) => kind)).toEqual(['noDrill', 'belowWater']);
    const words = remedyText(found[0] as (typeof found)[number], boat);
    expect(words.title).toBe('Drill a hole of 21 mm in the panel between Aft locker and Fore locker');
    expect(words.cautions[0]).toContain('not to be drilled');
  });

  it('widen a hole that is there, to what the hose needs beside what it carries', () => {
    const holes = {
      old: { at: [1.01, 0.5, 0], diameterM: 0.025, carries: { wire: { name: 'wire', diameterM: 0.008 } } },
    };
    const narrow = offered(bent('runs/blocked', { 'panels.between.holes': holes }));
    const wider = narrow.found.find(({ change }) => change === 'widerHole');
    // derived: 21 mm and 8 mm
    expect(wider?.what).toMatchObject({ fromM: 0.025 });
    expect(wider?.what.toM).toBeCloseTo(0.029, 9);
    expect(broken(narrow.boat, narrow.before, 'hose', wider as NonNullable<typeof wider>)).toEqual([]);
  });
});

describe('remedies of a hose that is too short', () => {
  it('order the next length that is long enough', () => {
    const { boat, found, before } = offered(faultyBoat('runs/supplied-length'));
    const longer = found.find(({ change }) => change === 'longerHose');
    const run = before.runs.find(({ lineId }) => lineId === 'hose');
    const spareM = boat.lines.hose?.supplied?.spareM ?? 0;
    // derived: the run and its reserve, rounded up to the next 100 mm, and no further than one step beyond
    const leastM = (run?.lengthM ?? 0) + spareM;
    expect(Number(longer?.what.toM)).toBeGreaterThanOrEqual(leastM);
    expect(Number(longer?.what.toM)).toBeLessThan(leastM + 0.2);
    for (const remedy of found) expect(broken(boat, before, 'hose', remedy)).toEqual([]);
  });
});

describe('remedies of a port that something stands before', () => {
  const block = { name: 'Battery', kind: 'battery', shape: { type: 'box', sizeM: [0.1, 0.3, 0.3] } };
  const { boat, found, before } = offered(
    bent('runs/blocked', {
      'panels.between.rule': 'drill',
      'parts.block': block,
      'arrangements.plan.places.block': { at: [0.52, 0.5, 0] },
    }),
  );

  it('move the part that stands there by the least that helps, to a few millimetres', () => {
    const move = found.find(({ change, what }) => change === 'move' && what.thing === 'block');
    expect(move).toBeDefined();
    expect(broken(boat, before, 'hose', move as NonNullable<typeof move>)).toEqual([]);
    // derived: half of the battery (150 mm) and half of the hose (9.5 mm) must come by; the step is 5 mm
    expect(Number(move?.what.byM)).toBeGreaterThanOrEqual(0.1595);
    expect(Number(move?.what.byM)).toBeLessThanOrEqual(0.17);
  });

  it('are worked out in slices, by a session as by themselves', () => {
    const session = new Session(boat);
    session.settled();
    const work = session.remedies('hose');
    let slices = 0;
    let step = work.step();
    for (; 'progress' in step; step = work.step()) {
      expect(step.progress.done).toBeLessThanOrEqual(step.progress.of);
      slices += 1;
    }
    expect(slices).toBeGreaterThan(20);
    expect(step.answer).toEqual(found);
    // nothing of that is left in the session
    expect(session.settled()).toEqual(before);
  });
});

describe('remedies', () => {
  it('are none for a line that fails nothing', () => {
    expect(remedies(boatOf(bent('runs/blocked', { 'panels.between.rule': 'drill' })), 'hose')).toEqual([]);
    const work = startRemedies(boatOf(faultyBoat('runs/blocked')), 'no-such-line');
    for (;;) {
      const step = work.step();
      if (!('answer' in step)) continue;
      expect(step.answer).toEqual([]);
      break;
    }
  });
});

describe('what became worse', () => {
  const finding = (key: string, more: object): Finding =>
    ({
      key,
      outcome: 'fail',
      severity: 'fault',
      measured: { value: 0.1, unit: 'm' },
      limit: { value: 0, unit: 'm', bound: 'atMost' },
      ...more,
    }) as unknown as Finding;
  const [old] = [finding('a', {})];

  it('is a new failure, a graver one, one that misses by more, a pass that is lost', () => {
    const keys = (before: readonly Finding[], after: readonly Finding[]) =>
      worseFindings(before, after).map(({ key }) => key);
    expect(keys([old], [old])).toEqual([]);
    expect(keys([], [old])).toEqual(['a']);
    expect(keys([old], [finding('a', { severity: 'danger' })])).toEqual(['a']);
    expect(keys([old], [finding('a', { severity: 'advice' })])).toEqual([]);
    expect(keys([old], [finding('a', { measured: { value: 0.15, unit: 'm' } })])).toEqual(['a']);
    expect(keys([old], [finding('a', { measured: { value: 0.05, unit: 'm' } })])).toEqual([]);
    expect(keys([finding('a', { outcome: 'pass' })], [finding('a', { outcome: 'cannotTell' })])).toEqual(['a']);
    expect(keys([old], [finding('a', { outcome: 'cannotTell' })])).toEqual([]);
  });
});
