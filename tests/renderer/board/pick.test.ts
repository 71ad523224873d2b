import { distanceToSegment } from '@core/base/segment';
import { type Pickable, POINT_PX, pick, pickCompartment } from '@renderer/board/pick';
import { describe, expect, it } from 'vitest';

const box = (x: number, y: number, w: number, h: number) =>
  [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ] as const;
const none: Pickable = { marks: [], points: [], crossings: [], things: [], runs: [], compartments: [] };

describe('picking', () => {
  it('takes the smallest of things that lie over each other', () => {
    const here: Pickable = {
      ...none,
      things: [
        { id: 'tank', envelope: box(0, 0, 200, 100) },
        { id: 'pump', envelope: box(50, 40, 40, 30) },
      ],
    };
    expect(pick([60, 50], here, null)).toEqual({ kind: 'thing', id: 'pump' });
    expect(pick([10, 10], here, null)).toEqual({ kind: 'thing', id: 'tank' });
  });

  it('holds on to what is picked already, so that it can be dragged from under something smaller', () => {
    const here: Pickable = {
      ...none,
      things: [
        { id: 'tank', envelope: box(0, 0, 200, 100) },
        { id: 'pump', envelope: box(50, 40, 40, 30) },
      ],
    };
    expect(pick([60, 50], here, { kind: 'thing', id: 'tank' })).toEqual({ kind: 'thing', id: 'tank' });
  });

  it('gives a tiny thing a hit area of 28 px', () => {
    const here: Pickable = { ...none, things: [{ id: 'fuse', envelope: box(100, 100, 6, 4) }] };
    expect(pick([100 + 3 + POINT_PX / 2 - 1, 102], here, null)).toEqual({ kind: 'thing', id: 'fuse' });
    expect(pick([100 + 3 + POINT_PX / 2 + 2, 102], here, null)).toBeNull();
  });

  it('finds a run up to 14 px beside it, and on a large body when pointed at exactly', () => {
    const here: Pickable = {
      ...none,
      things: [{ id: 'tank', envelope: box(0, 0, 200, 100) }],
      runs: [
        {
          id: 'r1',
          pieces: [
            [
              [0, 50],
              [400, 50],
            ],
          ],
        },
      ],
    };
    expect(pick([300, 63], here, null)).toEqual({ kind: 'line', id: 'r1' });
    expect(pick([300, 66], here, null)).toBeNull();
    expect(pick([100, 52], here, null)).toEqual({ kind: 'line', id: 'r1' });
    expect(pick([100, 62], here, null)).toEqual({ kind: 'thing', id: 'tank' });
  });

  it('leaves a clip point of the line in hand under a mark that lies over it', () => {
    const here: Pickable = {
      ...none,
      points: [{ id: 'c', line: 'r1', at: [60, 50] }],
      crossings: [{ id: '0', line: 'r1', at: [90, 50] }],
      marks: [
        { key: 'k', at: [62, 50] },
        { key: 'x', at: [92, 50] },
      ],
    };
    const inHand = { kind: 'line', id: 'r1' } as const;
    expect(pick([60, 50], here, inHand)).toEqual({ kind: 'clipPoint', id: 'c', line: 'r1' });
    expect(pick([90, 50], here, inHand)).toEqual({ kind: 'crossing', id: '0', line: 'r1' });
    expect(pick([70, 50], here, inHand)).toEqual({ kind: 'finding', id: 'k' });
    expect(pick([60, 50], here, null)).toEqual({ kind: 'finding', id: 'k' });
  });

  it('puts marks of findings before all else', () => {
    const here: Pickable = {
      ...none,
      marks: [{ key: 'k', at: [60, 50] }],
      things: [{ id: 'pump', envelope: box(50, 40, 40, 30) }],
    };
    expect(pick([66, 55], here, null)).toEqual({ kind: 'finding', id: 'k' });
  });

  it('takes clip points of the line in hand from their whole hit area, those of other lines only from close by', () => {
    const here: Pickable = {
      ...none,
      points: [{ id: 'clip', line: 'r1', at: [100, 100] }],
      things: [{ id: 'pump', envelope: box(90, 90, 40, 40) }],
    };
    const clip = { kind: 'clipPoint', id: 'clip', line: 'r1' } as const;
    expect(pick([111, 100], here, null)).toEqual({ kind: 'thing', id: 'pump' });
    expect(pick([103, 102], here, null)).toEqual(clip);
    expect(pick([111, 100], here, { kind: 'line', id: 'r1' })).toEqual(clip);
    expect(pick([111, 100], here, clip)).toEqual(clip);
    expect(pick([111, 100], here, { kind: 'line', id: 'r2' })).toEqual({ kind: 'thing', id: 'pump' });
  });

  it('finds the smallest compartment around a point', () => {
    const areas = [
      { id: 'saloon', rings: [box(0, 0, 300, 200)] },
      { id: 'locker', rings: [box(10, 10, 50, 50)] },
    ];
    expect(pickCompartment([20, 20], areas)).toEqual({ kind: 'compartment', id: 'locker' });
    expect(pickCompartment([200, 20], areas)).toEqual({ kind: 'compartment', id: 'saloon' });
    expect(pickCompartment([400, 20], areas)).toBeNull();
  });

  it('measures to a segment, not to its line', () => {
    expect(distanceToSegment([5, 3], [0, 0], [10, 0])).toBe(3);
    expect(distanceToSegment([13, 4], [0, 0], [10, 0])).toBe(5);
  });
});
