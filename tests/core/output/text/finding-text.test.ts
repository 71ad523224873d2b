import { boatSchema } from '@core/boat/schema/boat';
import { blockedText } from '@core/output/text/blocked-text';
import { findingText } from '@core/output/text/finding-text';
import type { CloseCall, Finding, FindingBase } from '@core/rules/finding';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';

/** Wordings are ours: no source. */
const boat = boatSchema.parse(threeLockers());

const base = (rule: string, subject: string, data: FindingBase['data']): FindingBase => ({
  key: `${rule}|${subject}|`,
  rule,
  subject,
  related: [],
  at: null,
  cause: 'arrangement',
  profile: 'isoSmallCraft',
  sources: [],
  cannotSee: [],
  hazards: [],
  data,
});
const inMetres = (value: number, bound: 'atLeast' | 'atMost') => ({ value, unit: 'm', bound }) as const;

function blocked(reason: string, data: FindingBase['data']): Finding {
  return {
    ...base('runs/blocked', 'raw-1', { blocker: null, shortByM: null, proved: false, tries: 0, ...data }),
    outcome: 'fail',
    severity: 'fault',
    reason,
    measured: { value: 0, unit: 'm' },
    limit: inMetres(0, 'atMost'),
  };
}

describe('the words of a blocked run', () => {
  it('say that there is none only with proof, and else after how many tries', () => {
    const proved = findingText(blocked('hole', { blocker: 'aft|middle', shortByM: 0.021, proved: true }), boat);
    expect(proved.title).toBe('Intake to strainer cannot be routed');
    expect(proved.why).toBe(
      'Proved impossible. No hole through the panel between Aft locker and Middle locker is large enough: 21 mm more width is needed.',
    );
    const sought = findingText(blocked('clearance', { blocker: 'battery', shortByM: 0.012, tries: 30 }), boat);
    expect(sought.title).toBe('No run found for Intake to strainer');
    expect(sought.why).toBe('House bank is in the way by 12 mm. Not found after 30 tries; a way may exist.');
  });

  it('name the place, what there is and what is needed', () => {
    const narrow = blocked('hole', {
      blocker: 'aft|middle',
      shortByM: 0.006,
      neededM: 0.031,
      proved: true,
      proof: 'noPassage',
    });
    expect(findingText(narrow, boat).why).toBe(
      'Proved impossible: whatever stands where, no chain of open panels, holes and panels that may be drilled lets it through. No hole through the panel between Aft locker and Middle locker is wide enough: the best has 25 mm free. It needs one of 31 mm, 6 mm more.',
    );
    const none = blocked('hole', { blocker: 'aft|middle', shortByM: 0.031, neededM: 0.031 });
    expect(findingText(none, boat).why).toBe(
      'There is no hole through the panel between Aft locker and Middle locker that it may use. It needs one of 31 mm.',
    );
    const met = blocked('clearance', {
      blocker: 'battery',
      shortByM: 0.012,
      place: 'Aft locker',
      tries: 30,
      effort: 'deep',
    });
    expect(findingText(met, boat).why).toBe(
      'House bank is in the way in Aft locker by 12 mm. Not found after 30 tries, the longer search included; a way may exist.',
    );
    const far = blocked('reach', { shortByM: 0.2, proved: true, proof: 'tooFar', lowerBoundM: 1.7 });
    expect(findingText(far, boat).why).toBe(
      'Proved impossible: no run is shorter than 1700 mm. It is longer than the supplied length by 200 mm.',
    );
  });

  it('leave out what is not known, and never read as zero', () => {
    for (const reason of ['clearance', 'bend', 'lead', 'reach', 'notFound', 'disconnected', 'portOutside']) {
      const words = findingText(blocked(reason, { tries: 1 }), boat);
      expect(`${words.title} ${words.why} ${words.measured}`).not.toMatch(/\b0 mm|null|undefined|NaN/);
    }
    expect(findingText(blocked('bend', { shortByM: 0.02 }), boat).why).toBe(
      'The bend is too tight: 20 mm more straight length is needed.',
    );
    expect(findingText(blocked('notFound', { tries: 1 }), boat).why).toBe('Not found after 1 try; a way may exist.');
  });

  it('name the side of a compartment that stands in the way', () => {
    const why = (blocker: string) => findingText(blocked('clearance', { blocker, shortByM: 0.01 }), boat).why;
    expect(why('middle')).toBe('A side of Middle locker is in the way by 10 mm.');
    expect(why('middle/from/0')).toBe('A side of Middle locker is in the way by 10 mm.');
    expect(why('aft|middle/0')).toBe('The panel between Aft locker and Middle locker is in the way by 10 mm.');
    expect(why('aft|skin')).toBe('The panel between Aft locker and the skin of the hull is in the way by 10 mm.');
    expect(why('hull')).toBe('The hull is in the way by 10 mm.');
  });
});

describe('the words of a service space', () => {
  const little = (task: string): Finding => ({
    ...base('access/service-space', 'strainer', {
      task,
      freeM: 0.025,
      blocker: 'middle',
      blockerLabel: 'bottom of Middle locker',
    }),
    outcome: 'fail',
    severity: 'fault',
    reason: 'tooLittle',
    measured: { value: 0.025, unit: 'm' },
    limit: inMetres(0.06, 'atLeast'),
  });

  it('say the task as people do, or as the owner named it', () => {
    const words = findingText(little('bowlDrop'), boat);
    expect(words.title).toBe('Too little room for bowl drop of Strainer');
    expect(words.measured).toBe('25 mm, at least 60 mm');
    expect(words.why).toBe('The bottom of Middle locker is in the way after 25 mm.');
    expect(findingText(little('Bowl down'), boat).title).toBe('Too little room for Bowl down of Strainer');
  });
});

describe('a close call', () => {
  const close = (passProbability: readonly [number, number]): string =>
    findingText(
      {
        ...base('access/overlap', 'battery', {}),
        outcome: 'pass',
        measured: { value: 0.002, unit: 'm' },
        limit: inMetres(0, 'atLeast'),
        closeCall: { gradeM: 0.021, passProbability },
      },
      boat,
    ).closeCall;

  it('gives the chance as a band that is neither nothing nor certainty', () => {
    expect(close([0.16, 0.26])).toBe('The drawing is good to ±21 mm here: the chance that it passes is 16 to 26 %.');
    expect(close([0.5, 0.5])).toMatch(/ is 50 %\.$/);
    expect(close([0.001, 0.012])).toMatch(/ is at most 1 %\.$/);
    expect(close([0.001, 0.002])).toMatch(/ is below 1 %\.$/);
    expect(close([0.98, 0.999])).toMatch(/ is at least 98 %\.$/);
    expect(close([0.996, 0.999])).toMatch(/ is above 99 %\.$/);
  });
});

describe('what was measured, where a value beside its limit says nothing', () => {
  const routed = (slackM: number | null, value: number, closeCall?: CloseCall): Finding => ({
    ...base('runs/blocked', 'raw-1', { lengthM: 0.4, bends: 1, slackM }),
    outcome: 'pass',
    measured: { value, unit: 'm' },
    limit: inMetres(0, 'atLeast'),
    ...(closeCall ? { closeCall } : {}),
  });
  const ofEnds: CloseCall = { gradeM: 0.007, hangsOn: 'run', passProbability: [0.5, 0.5] };

  it('a run that bears no slip of its ends says so', () => {
    const words = findingText(routed(0, 0, ofEnds), boat);
    expect(words.title).toBe('Intake to strainer is routed, if its ends are where they are drawn');
    expect(words.measured).toBe('Its ends may be 7 mm off, it takes up none of it');
    expect(words.why).toBe(
      '400 mm, 1 bend. It has little room to bend: where an end is a little off, it may find no way.',
    );
    expect(words.closeCall).toBe(
      'The ends of the run are known to ±7 mm: the chance that it can lie as drawn is 50 %.',
    );
  });

  it('a run that bears some of it says how much, and one that bears all of it how near it passes', () => {
    const some = findingText(routed(0.003, 0.003, ofEnds), boat);
    expect(some.measured).toBe('Its ends may be 7 mm off, it takes up 3 mm');
    expect(some.why).toContain('where an end is more than 3 mm off');
    expect(findingText(routed(null, 0.012), boat).measured).toBe('12 mm clear where it passes nearest');
  });

  it('a run that was not found says what it lacks, and how well that is known', () => {
    const found = blocked('clearance', { shortByM: 0.006, tries: 3 });
    if (found.outcome !== 'fail') throw new Error('expected a fault');
    const close = { ...found, closeCall: { gradeM: 0.173, passProbability: [0.47, 0.48] as const } };
    expect(findingText(close, boat).measured).toBe('6 mm missing, ±173 mm');
    expect(findingText(found, boat).measured).toBe('6 mm missing');
  });

  it('a verdict that is sure of a run that is not keeps its figures, and says what hangs on the run', () => {
    const crest: Finding = {
      ...base('water/suction-crest', 'raw-1', {}),
      outcome: 'pass',
      measured: { value: 0, unit: 'm' },
      limit: inMetres(0.02, 'atMost'),
      closeCall: ofEnds,
    };
    const words = findingText(crest, boat);
    expect(words.title).toBe('Intake to strainer traps no air, if the run can lie as drawn');
    expect(words.measured).toBe('0 mm, at most 20 mm');
  });

  it('room that need only be there is to spare or too little', () => {
    const stands = (value: number, capped = false): string =>
      findingText(
        {
          ...base('access/overlap', 'battery', { capped }),
          outcome: 'pass',
          measured: { value, unit: 'm' },
          limit: inMetres(0, 'atLeast'),
        },
        boat,
      ).measured;
    expect(stands(0.002)).toBe('2 mm to spare');
    expect(stands(-0.012)).toBe('12 mm too little');
    expect(stands(0.2, true)).toBe('more than 200 mm to spare');
    const shares = findingText(
      {
        ...base('hull/compartment-overlap', 'aft', {}),
        outcome: 'pass',
        measured: { value: 0, unit: 'm' },
        limit: inMetres(0, 'atMost'),
      },
      boat,
    );
    expect(shares.measured).toBe('');
  });
});

describe('sources', () => {
  it('carry their standing once', () => {
    const found: Finding = {
      ...base('power/motor-voltage', 'pump', {}),
      outcome: 'cannotTell',
      reason: 'noSource',
      enterNext: '',
      sources: [
        { key: 'abyc-e11', standing: 'quoted' },
        { key: 'practice', standing: 'commonPractice' },
        { key: 'boat-file', standing: 'boatFile' },
      ],
    };
    expect(findingText(found, boat).sources).toEqual([
      'ABYC E-11 AC and DC electrical systems on boats (quoted, not read)',
      'Common practice of the trade, no source',
      'The boat file: value entered by its owner',
    ]);
  });
});

describe('words of a blocked run', () => {
  const reason = { kind: 'clearance', at: null, blocker: 'tank', shortByM: 0.012, tries: 6 } as const;

  it('name the obstacle, the shortage and how sure that is', () => {
    expect(blockedText({ reason, proved: false }, () => 'the tank')).toBe(
      'The tank is in the way by 12 mm. Not found after 6 tries; a way may exist.',
    );
  });

  it('follow the units of the reader, and say nothing of tries where it is proved', () => {
    expect(
      blockedText(
        { reason, proved: true },
        () => 'the tank',
        (m) => `${(m / 0.0254).toFixed(1)} in`,
      ),
    ).toBe('The tank is in the way by 0.5 in.');
  });

  it('tell of an end without a place', () => {
    const unplaced = { kind: 'notPlaced', at: null, blocker: null, shortByM: null, tries: 0 } as const;
    expect(blockedText({ reason: unplaced, proved: false }, (id) => id)).toBe('One of its ends has no place.');
  });
});
