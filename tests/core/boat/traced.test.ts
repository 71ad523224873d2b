import { edit } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { stationsReplaced } from '@core/boat/station-edits';
import { alongCurve, curveTaken, stationsAlong, tracedStation } from '@core/boat/traced';
import { describe, expect, it } from 'vitest';
import { emptyBoat } from '../../support/boats';
import { wigley } from '../../support/hull-shapes';

function traceable(): Boat {
  const empty = checkBoat(emptyBoat());
  if (!empty.ok) throw new Error('expected a boat');
  const done = edit(empty.boat, stationsReplaced(wigley(10, 3, 1.2, 5, 7, 0.8).stations));
  if (!done.ok) throw new Error(done.problems.map(({ message }) => message).join('\n'));
  return done.boat;
}

describe('a traced section', () => {
  it('is the same from the keel up, from the sheer down, and from either side', () => {
    const clicked: [number, number][] = [
      [0, -0.8],
      [0.7, -0.5],
      [1.2, 0.1],
      [1.3, 0.9],
    ];
    const up = tracedStation(3, clicked);
    expect(up).toEqual({ ok: true, station: { xM: 3, points: clicked, grade: 'scaled', taken: 'traced' } });
    expect(tracedStation(3, [...clicked].reverse())).toEqual(up);
    expect(
      tracedStation(
        3,
        clicked.map(([y, z]) => [-y, z]),
      ),
    ).toEqual(up);
  });

  it('that falls is refused with the two clicks; one click is no section; a click twice counts once', () => {
    const falls = tracedStation(3, [
      [0, -0.8],
      [0.7, -0.1],
      [0.9, -0.4],
      [1.3, 0.9],
    ]);
    expect(falls).toEqual({ ok: false, falls: [1, 2] });
    expect(tracedStation(3, [[0, -0.8]])).toEqual({ ok: false, falls: null });
    expect(
      tracedStation(3, [
        [0.2, -0.8],
        [0.2, -0.8],
      ]),
    ).toEqual({ ok: false, falls: null });
  });
});

describe('a traced curve along the boat', () => {
  const keel: [number, number][] = [
    [9, -0.5],
    [5, -1],
    [1, -0.6],
  ];

  it('is read between its clicks, whichever way they went', () => {
    // derived: half way from (5, -1) to (9, -0.5)
    expect(alongCurve(keel, 7)).toBeCloseTo(-0.75, 12);
    expect(alongCurve(keel, 0.9)).toBeNull();
    expect(stationsAlong(traceable().hull as NonNullable<Boat['hull']>, keel)).toEqual(['s001', 's002', 's003']);
  });

  it('as keel takes the points below it away and moves knuckles with their points', () => {
    const done = edit(traceable(), curveTaken('keel', keel));
    if (!done.ok) throw new Error(done.problems.map(({ message }) => message).join('\n'));
    const before = traceable().hull?.stations.s002;
    const after = done.boat.hull?.stations.s002;
    expect(after?.points[0]).toEqual([0, -1]);
    // derived: of levels -1.2, -1.0, -0.8 ... the second is not above the new keel at -1.0
    expect(after?.points).toHaveLength((before?.points.length ?? 0) - 1);
    expect(before?.knuckles).toEqual([6]);
    expect(after?.knuckles).toEqual([5]);
    expect(after).toMatchObject({ taken: 'traced', grade: 'scaled' });
    expect(done.boat.hull?.stations.s000).toEqual(traceable().hull?.stations.s000);
  });

  it('as deck edge gives the sheer its half-breadth from either side, as sheer its height', () => {
    const edge = edit(
      traceable(),
      curveTaken('deckEdge', [
        [0, -1.1],
        [10, -0.7],
      ]),
    );
    // derived: half way between 1.1 and 0.7
    expect(edge.ok && edge.boat.hull?.stations.s002?.points.at(-1)).toEqual([0.9, 0.8]);
    const sheer = edit(
      traceable(),
      curveTaken('sheer', [
        [-1, 1],
        [11, 1.6],
      ]),
    );
    expect(sheer.ok && sheer.boat.hull?.stations.s002?.points.at(-1)?.[1]).toBeCloseTo(1.3, 9);
  });
});
