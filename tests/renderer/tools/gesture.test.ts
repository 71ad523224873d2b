import { type Effect, type Gesture, IDLE, type Input, nudgeOf, step, type Target } from '@renderer/tools/gesture';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const thing: Target = { kind: 'selectable', selection: { kind: 'thing', id: 'pump' }, movable: true };
const run: Target = { kind: 'selectable', selection: { kind: 'line', id: 'r1' }, movable: false };
const ground: Target = { kind: 'ground', under: { kind: 'compartment', id: 'saloon' } };
const down = (target: Target, pan = false): Input => ({ type: 'down', at: [100, 100], view: 'plan', target, pan });
const move = (x: number, y: number): Input => ({ type: 'move', at: [x, y] });
const up = (x: number, y: number): Input => ({ type: 'up', at: [x, y] });

function play(inputs: readonly Input[]): { gesture: Gesture; effects: Effect[] } {
  let gesture: Gesture = IDLE;
  const effects: Effect[] = [];
  for (const input of inputs) {
    const next = step(gesture, input);
    gesture = next.gesture;
    effects.push(...next.effects);
  }
  return { gesture, effects };
}
const names = (effects: readonly Effect[]) => effects.map((e) => (e.do === 'endDrag' ? `endDrag ${e.how}` : e.do));

describe('pointing on the board', () => {
  it('picks at the press, not at the release', () => {
    const { effects } = play([down(thing)]);
    expect(effects).toContainEqual({ do: 'select', selection: { kind: 'thing', id: 'pump' } });
  });

  it('is a click as long as the hand hardly moves', () => {
    expect(names(play([down(thing), move(101, 101), up(101, 101)]).effects)).toEqual(['activate', 'select']);
  });

  it('drags from where it was pressed, so that nothing jumps', () => {
    const { effects } = play([down(thing), move(110, 95), move(130, 90), up(140, 90)]);
    expect(names(effects)).toEqual(['activate', 'select', 'startDrag', 'moveTo', 'moveTo', 'moveTo', 'endDrag commit']);
    expect(effects.filter((e) => e.do === 'moveTo').map((e) => e.by)).toEqual([
      [10, -5],
      [30, -10],
      [40, -10],
    ]);
  });

  it('gives up a drag when cancelled, and the release after it does nothing', () => {
    const { gesture, effects } = play([down(thing), move(130, 90), { type: 'cancel' }, move(150, 90), up(150, 90)]);
    expect(gesture).toEqual(IDLE);
    expect(names(effects)).toEqual(['activate', 'select', 'startDrag', 'moveTo', 'endDrag cancel']);
  });

  it('drags a clip point as one edit, and gives it up when cancelled', () => {
    const picked = { kind: 'clipPoint', id: 'clip', line: 'r1' } as const;
    const clip: Target = { kind: 'selectable', selection: picked, movable: true };
    const { effects } = play([down(clip), move(101, 100), move(110, 95), up(120, 90)]);
    expect(effects.slice(2)).toEqual([
      { do: 'startPull', what: picked, view: 'plan', from: [100, 100] },
      { do: 'pullTo', view: 'plan', by: [10, -5] },
      { do: 'pullTo', view: 'plan', by: [20, -10] },
      { do: 'endDrag', how: 'commit' },
    ]);
    const given = play([down(clip), move(110, 95), { type: 'cancel' }, up(120, 90)]);
    expect(given.gesture).toEqual(IDLE);
    expect(given.effects.at(-1)).toEqual({ do: 'endDrag', how: 'cancel' });
  });

  it('pulls the run that is picked at the place where it was pressed', () => {
    const { effects } = play([down({ ...run, movable: true } as Target), move(110, 95), up(120, 90)]);
    expect(effects.slice(2)).toEqual([
      { do: 'startPull', what: { kind: 'line', id: 'r1' }, view: 'plan', from: [100, 100] },
      { do: 'pullTo', view: 'plan', by: [10, -5] },
      { do: 'pullTo', view: 'plan', by: [20, -10] },
      { do: 'endDrag', how: 'commit' },
    ]);
  });

  it('slides a crossing as one edit', () => {
    const crossing = { kind: 'crossing', id: '0', line: 'r1' } as const;
    const target: Target = { kind: 'selectable', selection: crossing, movable: true };
    expect(play([down(target), move(110, 95)]).effects.slice(2)[0]).toEqual({
      do: 'startPull',
      what: crossing,
      view: 'plan',
      from: [100, 100],
    });
  });

  it('does not move a run that was not picked before', () => {
    expect(names(play([down(run), move(150, 150), up(150, 150)]).effects)).toEqual(['activate', 'select']);
  });

  it('pans on the ground, and a click there picks the place under it', () => {
    expect(names(play([down(ground), move(150, 150), move(160, 150), up(160, 150)]).effects)).toEqual([
      'activate',
      'pan',
      'pan',
    ]);
    expect(play([down(ground), up(100, 100)]).effects).toContainEqual({
      do: 'select',
      selection: { kind: 'compartment', id: 'saloon' },
    });
  });

  it('pans with the middle button or the space bar, whatever lies under the pointer, and picks nothing', () => {
    expect(names(play([down(thing, true), move(150, 150), up(150, 150)]).effects)).toEqual(['activate', 'pan']);
    expect(names(play([down(ground, true), up(100, 100)]).effects)).toEqual(['activate']);
  });

  it('with Shift or Ctrl adds what is clicked, and picks nothing else at the press', () => {
    const adding: Input = { ...down(thing), adding: true } as Input;
    expect(names(play([adding]).effects)).toEqual(['activate']);
    expect(play([adding, up(100, 100)]).effects).toContainEqual({
      do: 'toggle',
      selection: { kind: 'thing', id: 'pump' },
    });
    const place: Input = { ...down(ground), adding: true } as Input;
    expect(play([place, up(100, 100)]).effects).toContainEqual({
      do: 'toggle',
      selection: { kind: 'compartment', id: 'saloon' },
    });
  });

  it('with Shift draws a box from the ground or from a thing, and moves neither the thing nor the sheet', () => {
    for (const target of [ground, thing]) {
      const { gesture, effects } = play([{ ...down(target), adding: true } as Input, move(150, 150), up(160, 170)]);
      expect(names(effects)).toEqual(['activate', 'box', 'box', 'endBox']);
      expect(effects.at(-2)).toMatchObject({ from: [100, 100], to: [160, 170] });
      expect(effects.at(-1)).toEqual({ do: 'endBox', how: 'commit' });
      expect(gesture).toEqual(IDLE);
    }
    const given = play([{ ...down(ground), adding: true } as Input, move(150, 150), { type: 'cancel' }]);
    expect(given.effects.at(-1)).toEqual({ do: 'endBox', how: 'cancel' });
  });

  it('takes all along when one of several that are picked is dragged; a click on it picks it alone', () => {
    const among: Target = { ...thing, isAmong: true } as Target;
    expect(names(play([down(among), move(130, 90), up(130, 90)]).effects)).toEqual([
      'activate',
      'front',
      'startDrag',
      'moveTo',
      'moveTo',
      'endDrag commit',
    ]);
    expect(names(play([down(among), up(100, 100)]).effects)).toEqual(['activate', 'front', 'select']);
  });

  it('leads a line from a port by a drag, and from nowhere by a click', () => {
    const port: Target = { kind: 'port', port: { thing: 'pump', port: 'inlet' }, under: { kind: 'thing', id: 'pump' } };
    const { effects } = play([down(port), move(130, 90), up(200, 90)]);
    expect(effects.slice(1)).toEqual([
      { do: 'joinFrom', port: { thing: 'pump', port: 'inlet' } },
      { do: 'joinTo', at: [130, 90] },
      { do: 'endJoin', at: [200, 90] },
    ]);
    expect(names(play([down(port), up(100, 100)]).effects)).toEqual(['activate', 'select']);
    expect(play([down(port), move(130, 90), { type: 'cancel' }]).effects.at(-1)).toEqual({ do: 'endJoin', at: null });
  });

  it('carries the cut along', () => {
    expect(names(play([down({ kind: 'cutMark' }), move(120, 100), move(140, 100), up(140, 100)]).effects)).toEqual([
      'cutAt',
      'cutAt',
    ]);
  });

  it('ends every drag that it starts exactly once, whatever comes', () => {
    const targets = fc.constantFrom(thing, run, ground, { kind: 'cutMark' } as Target);
    const inputs = fc.oneof(
      fc.tuple(targets, fc.boolean()).map(([target, pan]) => down(target, pan)),
      fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 300 })).map(([x, y]) => move(x, y)),
      fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 300 })).map(([x, y]) => up(x, y)),
      fc.constant<Input>({ type: 'cancel' }),
    );
    fc.assert(
      fc.property(fc.array(inputs, { maxLength: 40 }), (list) => {
        // One gesture is one undo step because each start meets one end, and moves stand only between them.
        let open = 0;
        for (const effect of play([...list, { type: 'cancel' }]).effects) {
          if (effect.do === 'startDrag') {
            expect(open).toBe(0);
            open = 1;
          } else if (effect.do === 'endDrag') {
            expect(open).toBe(1);
            open = 0;
          } else if (effect.do === 'moveTo') expect(open).toBe(1);
        }
        expect(open).toBe(0);
      }),
      { numRuns: 300 },
    );
  });
});

describe('arrow keys', () => {
  it('step 10 mm along the axes of the view, 1 mm with shift', () => {
    expect(nudgeOf('ArrowRight', false, [1, 0, 0], [0, 0, 1])).toEqual([0.01, 0, 0]);
    expect(nudgeOf('ArrowUp', true, [1, 0, 0], [0, 1, 0])).toEqual([0, 0.001, 0]);
    // Looking forward, right is starboard: minus y.
    expect(nudgeOf('ArrowRight', false, [0, -1, 0], [0, 0, 1])).toEqual([0, -0.01, 0]);
    expect(nudgeOf('x', false, [1, 0, 0], [0, 0, 1])).toBeNull();
  });
});

describe('shaping the interior', () => {
  const face = { kind: 'face', compartment: 'locker', key: 'side1' } as const;
  const under = { kind: 'panel', id: 'a|b' } as const;
  const grip: Target = { kind: 'grip', what: face, under };

  it('drags a face as one edit, and gives it up when cancelled', () => {
    const { gesture, effects } = play([down(grip), move(101, 100), move(130, 100), up(140, 100)]);
    expect(gesture).toEqual(IDLE);
    expect(effects.slice(1)).toEqual([
      { do: 'shape', what: face, view: 'plan', from: [100, 100], at: [130, 100] },
      { do: 'shape', what: face, view: 'plan', from: [100, 100], at: [140, 100] },
      { do: 'endShape', how: 'commit' },
    ]);
    const given = play([down(grip), move(130, 100), { type: 'cancel' }, up(140, 100)]);
    expect(given.effects.at(-1)).toEqual({ do: 'endShape', how: 'cancel' });
  });

  it('takes a face in hand by a click, with what lies under it', () => {
    expect(play([down(grip), up(101, 100)]).effects.slice(1)).toEqual([{ do: 'grip', what: face, under }]);
  });

  it('slides an opening that is picked, and moves nothing with the sheet in hand', () => {
    const opening: Target = { kind: 'selectable', selection: { kind: 'opening', id: 'lid' }, movable: true };
    expect(names(play([down(opening), move(130, 100), up(130, 100)]).effects)).toEqual([
      'activate',
      'select',
      'shape',
      'shape',
      'endShape',
    ]);
    expect(names(play([down(grip, true), move(130, 100), up(130, 100)]).effects)).toEqual(['activate', 'pan']);
  });
});
