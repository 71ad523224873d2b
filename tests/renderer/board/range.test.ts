import { edit } from '@core/boat/edits';
import { compartmentAdded } from '@core/boat/interior/shaping';
import { newBoat } from '@core/boat/new-boat';
import type { Boat } from '@core/boat/schema/boat';
import { rangeFor } from '@renderer/board/drawing/range';
import { useDrawing } from '@renderer/store/drawing';
import { beforeEach, describe, expect, it } from 'vitest';

beforeEach(() => useDrawing.setState({ typed: {}, last: {} }));

const sceneOf = (boat: Boat) => ({ boat, hull: null, sectionX: 4 });

/** A locker 1 m square in plan, from 300 mm below to 200 mm above the water. */
function withLocker(): Boat {
  const made = edit(
    newBoat('New'),
    compartmentAdded('a', {
      name: 'Locker 1',
      view: 'plan',
      outline: [
        [3, 0],
        [4, 0],
        [4, 1],
        [3, 1],
      ],
      rangeM: [-0.3, 0.2],
    }),
  );
  if (!made.ok) throw new Error('expected a boat');
  return made.boat;
}

describe('the range proposed for a new compartment', () => {
  it('is that of the neighbour that it stands against, across a bulkhead too', () => {
    const scene = sceneOf(withLocker());
    expect(
      rangeFor(scene, 'plan', [
        [4.02, 0.2],
        [5, 0.8],
      ]),
    ).toEqual({ rangeM: [-0.3, 0.2], from: 'as Locker 1' });
    // In profile the third direction is across the boat: the neighbour lies from y = 0 to 1.
    expect(
      rangeFor(scene, 'profile', [
        [4, -0.3],
        [5, 0.2],
      ]).rangeM,
    ).toEqual([0, 1]);
  });
  it('is on top of the compartment that it lies over in plan', () => {
    const { rangeM, from } = rangeFor(sceneOf(withLocker()), 'plan', [
      [3.2, 0.2],
      [3.8, 0.8],
    ]);
    expect(rangeM[0]).toBe(0.2);
    expect(from).toBe('on top of Locker 1');
  });
  it('is what was entered before all, and the last one where nothing is near', () => {
    const scene = sceneOf(withLocker());
    useDrawing.setState({ last: { plan: [0.1, 0.9] } });
    expect(
      rangeFor(scene, 'plan', [
        [8, 2],
        [9, 3],
      ]).rangeM,
    ).toEqual([0.1, 0.9]);
    useDrawing.setState({ typed: { plan: [-1, -0.5] } });
    expect(
      rangeFor(scene, 'plan', [
        [4.02, 0.2],
        [5, 0.8],
      ]).rangeM,
    ).toEqual([-1, -0.5]);
  });
  it('begins at the section for what is drawn in a section of an empty boat', () => {
    expect(
      rangeFor(sceneOf(newBoat('New')), 'section', [
        [0, 0],
        [1, 1],
      ]).rangeM,
    ).toEqual([4, 4.6]);
  });
});
