import { newBoat } from '@core/boat/new-boat';
import { make } from '@renderer/board/drawing/make';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { layoutOf } from '@renderer/store/derived';
import { useDrawing } from '@renderer/store/drawing';
import { beforeEach, describe, expect, it } from 'vitest';

beforeEach(() => {
  connectEngine(null);
  connectJournal(null);
  useDrawing.setState({ typed: {}, last: {} });
  useApp.getState().open(newBoat('New'), { fileName: 'new.boat.json', token: null, saved: true });
});

/** The grade that a rectangle drawn in plan gets. */
function gradeDrawn(sizesTyped: boolean): string | undefined {
  const { boat } = useApp.getState();
  if (!boat) throw new Error('expected a boat');
  const layout = layoutOf(boat, null);
  const points = [
    [3, 0],
    [4, 0.6],
  ] as const;
  make(
    { boat, hull: null, layout, sectionX: 4, selection: null },
    { tool: 'rectangle', view: 'plan', points, sizesTyped },
  );
  return useApp.getState().boat?.compartments['locker-1']?.grade;
}

describe('a compartment that was drawn', () => {
  it('is guessed by the pointer, whatever its range', () => {
    useDrawing.setState({ typed: { plan: [-0.3, 0.2] } });
    expect(gradeDrawn(false)).toBe('guessed');
  });
  it('is guessed while its range is a proposal', () => {
    expect(gradeDrawn(true)).toBe('guessed');
  });
  it('is taped when its sizes and its range were typed', () => {
    useDrawing.setState({ typed: { plan: [-0.3, 0.2] } });
    expect(gradeDrawn(true)).toBe('taped');
  });
});
