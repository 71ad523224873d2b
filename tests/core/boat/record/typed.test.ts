import { edit } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import { type Typed, typedAfter } from '@core/boat/record/typed';
import type { Boat } from '@core/boat/schema/boat';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';

const read = readBoat(JSON.stringify(threeLockers()));
if (!read.ok) throw new Error('expected a boat');
const { boat } = read;
const [id = '', part] = Object.entries(boat.parts)[0] ?? [];
if (!part) throw new Error('expected a part');
type Recipe = Parameters<typeof edit>[1];

/** The words beside the values after an edit, as the window makes it. */
function words(from: Boat, recipe: Recipe, typed: Typed | null): Readonly<Record<string, string>> {
  const first = edit(from, recipe);
  if (!first.ok) throw new Error(first.problems[0]?.message);
  const follow = typedAfter(from, first.boat, first.patches, typed);
  if (!follow) return first.boat.typed ?? {};
  const second = edit(first.boat, follow);
  if (!second.ok) throw new Error(second.problems[0]?.message);
  return second.boat.typed ?? {};
}
const massOf =
  (value: number): Recipe =>
  (draft) => {
    const own = draft.parts[id];
    if (own) own.massKg = value;
  };
const typed: Typed = { value: 24.94758, text: '55 lb' };
const path = `parts.${id}.massKg`;

describe('what was typed', () => {
  it('stands beside the one value that it gave', () => {
    expect(words(boat, massOf(24.94758), typed)).toEqual({ [path]: '55 lb' });
  });

  it('is not kept where it says no more than the value', () => {
    expect(words(boat, massOf(25), { value: 25, text: '25' })).toEqual({});
  });

  it('goes when the value changes from elsewhere, and stays when another one does', () => {
    const kept: Boat = { ...boat, typed: { [path]: '55 lb' } };
    expect(words(kept, massOf(30), null)).toEqual({});
    const heat: Recipe = (draft) => {
      const own = draft.parts[id];
      if (own) own.heatW = 100;
    };
    expect(words(kept, heat, null)).toEqual({ [path]: '55 lb' });
  });

  it('goes with its record', () => {
    const kept: Boat = { ...boat, typed: { [path]: '55 lb', 'compartments.other.rangeM[0]': '1 ft' } };
    const gone: Recipe = (draft) => {
      for (const [line, { from, to }] of Object.entries(draft.lines))
        if (from.thing === id || to.thing === id) delete draft.lines[line];
      for (const arrangement of Object.values(draft.arrangements)) delete arrangement.places[id];
      delete draft.parts[id];
    };
    expect(words(kept, gone, null)).toEqual({ 'compartments.other.rangeM[0]': '1 ft' });
  });

  it('is found in a list by its place', () => {
    const [compartment = ''] = Object.keys(boat.compartments);
    const top = boat.compartments[compartment]?.rangeM[1] ?? 0;
    const higher: Recipe = (draft) => {
      const own = draft.compartments[compartment];
      if (own) own.rangeM = [own.rangeM[0], top + 0.0254];
    };
    expect(words(boat, higher, { value: top + 0.0254, text: '33 in' })).toEqual({
      [`compartments.${compartment}.rangeM[1]`]: '33 in',
    });
  });

  it('is not guessed where two values became the same', () => {
    const both: Recipe = (draft) => {
      const own = draft.parts[id];
      if (!own) return;
      own.massKg = 24.94758;
      own.heatW = 24.94758;
    };
    expect(words(boat, both, typed)).toEqual({});
  });
});
