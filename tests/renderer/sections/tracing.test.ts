// @vitest-environment happy-dom
import { edit } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { stationsReplaced } from '@core/boat/station-edits';
import { keepMarks, setAt, setView, takeCurve } from '@renderer/sections/tracing/trace-actions';
import { planeOf, planeProblemWords, takePicture, useTrace } from '@renderer/sections/tracing/trace-store';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { beforeEach, describe, expect, it } from 'vitest';
import { emptyBoat } from '../../support/boats';
import { wigley } from '../../support/hull-shapes';

const app = () => useApp.getState();
const trace = () => useTrace.getState();

function open(withHull: boolean): void {
  const empty = checkBoat({ ...emptyBoat(), pictures: { side: { file: 'side.png', view: 'profile' } } });
  if (!empty.ok) throw new Error('expected a boat');
  let boat: Boat = empty.boat;
  if (withHull) {
    const done = edit(boat, stationsReplaced(wigley(10, 3, 1.2, 5, 7).stations));
    if (!done.ok) throw new Error('expected a hull');
    boat = done.boat;
  }
  app().open(boat, { fileName: 'traced.boat.json', token: null, saved: true });
  useTrace.setState({ waiting: [], problem: null, xM: 0 });
  takePicture(boat, 'side');
}

/** Marks of a picture of 100 pixels a metre: x = 0 at 200 right, the water at 600 down. */
const scaled = (): void =>
  keepMarks([
    { pixel: [200, 600], place: [0, 0] },
    { pixel: [1200, 600], place: [10, 0] },
  ]);

beforeEach(() => {
  connectEngine(null);
  connectJournal(null);
});

describe('the scale of a picture', () => {
  it('is clicked, typed, and kept with the picture for the next time', () => {
    open(true);
    expect(trace().mode).toBe('scale');
    setAt([200, 600]);
    setAt([1200, 600]);
    expect(trace().marks.map(({ pixel }) => pixel)).toEqual([
      [200, 600],
      [1200, 600],
    ]);
    scaled();
    expect(app().boat?.pictures?.side?.scalePoints).toEqual([
      { pixel: [200, 600], at: [0, 0, 0] },
      { pixel: [1200, 600], at: [10, 0, 0] },
    ]);
    useTrace.setState({ marks: [], pictureId: null });
    takePicture(app().boat as Boat, 'side');
    expect(trace()).toMatchObject({ mode: 'trace', view: 'profile' });
    const found = planeOf(trace().marks);
    // derived: 300 pixels right of x = 0 and 150 above the water at 100 pixels a metre
    expect(found.ok && found.plane.toPlace([500, 450])).toEqual([3, 1.5]);
  });

  it('that cannot be is told by the numbers of its marks', () => {
    const words = (marks: Parameters<typeof planeOf>[0]): string => {
      const found = planeOf(marks);
      return found.ok ? '' : planeProblemWords(found.problem);
    };
    expect(
      words([
        { pixel: [5, 5], place: [0, 0] },
        { pixel: [6, 6], place: [4, 0] },
      ]),
    ).toMatch(/^Marks 1 and 2 are the same point of the picture/);
    expect(
      words([
        { pixel: [5, 5], place: [0, 0] },
        { pixel: [600, 6], place: [0, 0] },
      ]),
    ).toMatch(/^Marks 1 and 2 are given the same place/);
    expect(
      words([
        { pixel: [0, 100], place: [0, 0] },
        { pixel: [200, 0], place: [4, 0] },
        { pixel: [200, 100], place: [4, 2] },
        { pixel: [0, 0], place: [0, 2] },
      ]),
    ).toMatch(/two of the marks are swapped/);
  });

  it('takes four marks and no fifth; another view begins with none', () => {
    open(true);
    for (const x of [100, 400, 700, 1000, 1300]) setAt([x, 600]);
    expect(trace().marks).toHaveLength(4);
    expect(trace().problem).toMatch(/4 marks at most/);
    setView('plan');
    expect(trace().marks).toEqual([]);
    expect(app().boat?.pictures?.side).toMatchObject({ view: 'plan' });
  });
});

describe('a curve over a picture', () => {
  it('as keel moves every station under it, in one edit', () => {
    open(true);
    scaled();
    useTrace.setState({ mode: 'trace', curve: 'keel' });
    for (const [x, y] of [
      [400, 700],
      [700, 720],
      [1000, 690],
    ] as const)
      setAt([x, y]);
    const before = app().boat?.hull;
    takeCurve();
    // derived: 120 pixels under the water are 1.2 m at x = 5; at 2.5 a sixth of the way down from 1.0 to 1.2
    expect(app().boat?.hull?.stations.s002?.points[0]?.[1]).toBeCloseTo(-1.2, 6);
    expect(app().boat?.hull?.stations.s001?.points[0]?.[1]).toBeCloseTo(-1.0 - 0.2 / 6, 5);
    expect(app().boat?.hull?.stations.s000).toEqual(before?.stations.s000);
    expect(trace().points).toEqual([]);
    app().undo();
    expect(app().boat?.hull).toEqual(before);
  });

  it('that no station stands under, or that falls, is told and nothing is lost', () => {
    open(true);
    scaled();
    useTrace.setState({
      mode: 'trace',
      curve: 'keel',
      points: [
        [210, 700],
        [240, 700],
      ],
    });
    const before = app().boat?.hull;
    takeCurve();
    expect(trace().problem).toMatch(/^No station stands under this curve/);
    expect(trace().points).toHaveLength(2);
    useTrace.setState({
      view: 'section',
      curve: 'section',
      points: [
        [200, 700],
        [300, 600],
        [320, 650],
        [400, 500],
      ],
    });
    takeCurve();
    expect(trace().problem).toMatch(/^Point 3 lies below point 2/);
    expect(app().boat?.hull).toEqual(before);
  });

  it('two sections make a hull where there was none', () => {
    open(false);
    setView('section');
    scaled();
    const section = (xM: number, wide: number): void => {
      useTrace.setState({
        mode: 'trace',
        xM,
        points: [
          [200, 680],
          [200 + wide, 600],
          [210 + wide, 520],
        ],
      });
      takeCurve();
    };
    section(3, 120);
    expect(app().boat?.hull).toBeUndefined();
    expect(trace().waiting).toHaveLength(1);
    section(3, 120);
    expect(trace().problem).toMatch(/is traced already/);
    section(1, 90);
    const { hull } = app().boat ?? {};
    expect(hull).toMatchObject({ grade: 'scaled' });
    expect(hull?.stations.s0).toMatchObject({ xM: 1, taken: 'traced' });
    // derived: 90 pixels off the centre are 0.9 m
    expect(hull?.stations.s0?.points[1]).toEqual([0.9, 0]);
    expect(trace().waiting).toEqual([]);
  });
});
