import { readBoat } from '@core/boat/read';
import { TASK_VERDICTS } from '@core/engine/service/service-report';
import { doneWords, stepWords, taskName, verdictSentence, verdictWords } from '@core/output/text/task-words';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';
import { taskReport } from '../service-told';

const read = readBoat(JSON.stringify(threeLockers()));
if (!read.ok) throw new Error(read.problems[0]?.message);
const { boat } = read;
const say = (part: Partial<Parameters<typeof taskReport>[0]>): string =>
  verdictSentence(taskReport({ thing: 'strainer', service: 'basket', ...part }), boat);

describe('words of service tasks', () => {
  it('have one for every verdict, each its own', () => {
    expect(new Set(TASK_VERDICTS.map(verdictWords)).size).toBe(TASK_VERDICTS.length);
  });

  it('say how it goes, through what', () => {
    expect(say({ openings: ['lid'] })).toBe('By hand, an arm in through Fore lid.');
    expect(say({ verdict: 'withMirror', posture: null })).toBe('With a mirror.');
    expect(say({ verdict: 'afterMoving', removals: [{ what: 'Cushion', kind: 'loose', minutes: 1 }] })).toBe(
      'After moving Cushion, an arm in.',
    );
  });

  it('tell what the eye does from what the hand does', () => {
    expect(say({ reason: 'seen', hands: null, openings: ['lid'] })).toBe('By eye, leaning through Fore lid.');
    expect(say({ reason: 'clear', hands: null })).toBe('Room is clear.');
  });

  it('tell in one line what is moved, then the way', () => {
    const cushion = { what: 'Cushion', kind: 'loose' as const, minutes: 1 };
    const task = taskReport({
      thing: 'strainer',
      service: 'basket',
      verdict: 'afterMoving',
      removals: [cushion],
      openings: ['lid'],
    });
    expect(doneWords(task, boat)).toBe('moving Cushion; an arm in, Fore lid');
  });

  it('call a side of a compartment as the report does, and say how many are not named', () => {
    const thing = (owner: string) => ({ owner, label: owner, shortByM: null });
    const side = { owner: 'fore', label: 'forward end of Fore locker', shortByM: null };
    const many = [side, thing('a'), thing('b'), thing('c'), thing('d')];
    expect(say({ verdict: 'notAtAll', blockers: many })).toBe(
      'Not at all, proved: stopped at the forward end of Fore locker, a, b and 2 more.',
    );
    expect(say({ verdict: 'notAtAll', blockers: many.slice(0, 4) })).toContain('Fore locker, a, b and c.');
  });

  it('never say perhaps: what was tried, what is missing, where', () => {
    const blockers = [{ owner: 'tank', label: 'Water tank', shortByM: 0.026 }];
    const open = say({ verdict: 'noWayFound', tried: 30, shortByM: 0.026, blockers });
    expect(open).toBe(
      'No way found after 30 tries: short by about 26 mm at Water tank. It is not proved impossible: try it with your own arm, and take it as a no until then.',
    );
    expect(open).not.toMatch(/maybe|perhaps|might|possibly/i);
    expect(say({ verdict: 'notAtAll', shortByM: 0.026, blockers })).toBe(
      'Not at all, proved: short by about 26 mm at Water tank.',
    );
  });

  it('add the close call, the broken demand and what the plan made worse', () => {
    expect(
      say({
        verdict: 'byDismantling',
        posture: null,
        removals: [{ what: 'tank', kind: 'thing', minutes: 20 }],
        breaksDemand: 'noDismantling',
        before: 'byHand',
        isWorse: true,
        closeCall: { gradeM: 0.01, passProbability: [0.3, 0.6] },
      }),
    ).toBe(
      'Only by taking off Water tank. This breaks the demand that nothing is dismantled. Worse than on the boat as bought: by hand then. One clearance is inside the tape.',
    );
  });

  it('tell a panel that is unscrewed from a thing that comes off', () => {
    const removals = [
      { what: 'lid', kind: 'opening' as const, minutes: 8 },
      { what: 'tank', kind: 'thing' as const, minutes: 20 },
    ];
    expect(say({ verdict: 'byDismantling', removals, openings: ['lid'] })).toBe(
      'Only by unscrewing Fore lid and taking off Water tank, an arm in.',
    );
  });

  it('name task and step by the records of the boat', () => {
    expect(taskName(boat, taskReport({ thing: 'strainer', service: 'none', task: 'basket' }))).toBe('Strainer basket');
    expect(stepWords({ kind: 'open', subject: 'lid' }, boat)).toBe('Lift out Fore lid');
    expect(stepWords({ kind: 'takeOff', subject: 'tank' }, boat)).toBe('Take off Water tank');
    expect(stepWords({ kind: 'look', subject: null }, boat)).toBe('Look at it');
  });
});
