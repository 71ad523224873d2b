import {
  AT_REST,
  type SectionEffect,
  type SectionGesture,
  type SectionInput,
  type SectionTarget,
  sectionStep,
} from '@renderer/sections/gesture';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const point: SectionTarget = { kind: 'point', station: 's1', index: 4 };
const curve: SectionTarget = { kind: 'curve', station: 's2' };
const along: SectionTarget = { kind: 'along', station: 's3' };
const ground: SectionTarget = { kind: 'ground' };
const down = (target: SectionTarget, pan = false): SectionInput => ({ type: 'down', at: [100, 100], target, pan });
const move = (x: number, y: number): SectionInput => ({ type: 'move', at: [x, y] });
const up: SectionInput = { type: 'up' };

function play(inputs: readonly SectionInput[]): { gesture: SectionGesture; effects: SectionEffect[] } {
  let gesture: SectionGesture = AT_REST;
  const effects: SectionEffect[] = [];
  for (const input of inputs) {
    const next = sectionStep(gesture, input);
    gesture = next.gesture;
    effects.push(...next.effects);
  }
  return { gesture, effects };
}
const names = (effects: readonly SectionEffect[]) => effects.map((effect) => effect.do);

describe('pointing on the section board', () => {
  it('picks a point at the press and holds it from where it was pressed', () => {
    const { effects } = play([down(point), move(101, 100), move(112, 95), move(130, 90), up]);
    expect(effects).toEqual([
      { do: 'pickPoint', station: 's1', index: 4 },
      { do: 'holdPoint', index: 4, by: [12, -5] },
      { do: 'holdPoint', index: 4, by: [30, -10] },
      { do: 'release' },
    ]);
  });

  it('a click on a curve, or on a station of profile and plan, makes that station the active one', () => {
    expect(play([down(curve), up]).effects).toEqual([{ do: 'pickStation', station: 's2' }]);
    expect(play([down(along), move(180, 100), up]).effects).toEqual([{ do: 'pickStation', station: 's3' }]);
  });

  it('a double click on a curve adds a point there, elsewhere nothing', () => {
    const double = (target: SectionTarget): SectionInput => ({ type: 'double', at: [90, 80], target });
    expect(play([down(curve), up, double(curve)]).effects.at(-1)).toEqual({
      do: 'addPoint',
      station: 's2',
      at: [90, 80],
    });
    expect(play([double(ground), double(point), double(along)]).effects).toEqual([]);
  });

  it('gives up a held point, and the release after it does nothing', () => {
    const { gesture, effects } = play([down(point), move(130, 90), { type: 'cancel' }, move(150, 90), up]);
    expect(gesture).toEqual(AT_REST);
    expect(names(effects)).toEqual(['pickPoint', 'holdPoint', 'giveUp']);
  });

  it('pans on the ground, and anywhere with the middle button', () => {
    expect(names(play([down(ground), move(150, 150), move(160, 150), up]).effects)).toEqual(['pan', 'pan']);
    expect(names(play([down(point, true), move(150, 150), up]).effects)).toEqual(['pan']);
  });

  it('ends every hold that it starts exactly once, whatever comes', () => {
    const inputs = fc.oneof(
      fc.tuple(fc.constantFrom(point, curve, along, ground), fc.boolean()).map(([target, pan]) => down(target, pan)),
      fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 300 })).map(([x, y]) => move(x, y)),
      fc.constant<SectionInput>(up),
      fc.constant<SectionInput>({ type: 'cancel' }),
    );
    fc.assert(
      fc.property(fc.array(inputs, { maxLength: 40 }), (list) => {
        let held = false;
        for (const effect of play([...list, { type: 'cancel' }]).effects) {
          if (effect.do === 'holdPoint') held = true;
          else if (effect.do === 'release' || effect.do === 'giveUp') {
            expect(held).toBe(true);
            held = false;
          }
        }
        expect(held).toBe(false);
      }),
      { numRuns: 300 },
    );
  });
});
