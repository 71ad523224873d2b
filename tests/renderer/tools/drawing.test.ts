import {
  cornersOf,
  type Draft,
  type DrawingInput,
  type DrawingTool,
  type Drawn,
  drawingStep,
} from '@renderer/tools/drawing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const CLOSE_M = 0.1;
const down = (u: number, v: number): DrawingInput => ({ type: 'down', at: [u, v], view: 'plan' });
const move = (u: number, v: number): DrawingInput => ({ type: 'move', at: [u, v] });
const up = (u: number, v: number, moved = true): DrawingInput => ({ type: 'up', at: [u, v], moved });

function play(tool: DrawingTool, inputs: readonly DrawingInput[]): { draft: Draft | null; drawn: Drawn[] } {
  let draft: Draft | null = null;
  const drawn: Drawn[] = [];
  for (const input of inputs) {
    const next = drawingStep(draft, tool, input, CLOSE_M);
    draft = next.draft;
    if (next.drawn) drawn.push(next.drawn);
  }
  return { draft, drawn };
}

describe('drawing a rectangle', () => {
  it('goes by press, drag and release', () => {
    const { draft, drawn } = play('rectangle', [down(3, 0), move(3.5, 0.2), up(4, 0.6)]);
    expect(draft).toBeNull();
    expect(drawn).toEqual([
      {
        tool: 'rectangle',
        view: 'plan',
        points: [
          [3, 0],
          [4, 0.6],
        ],
        sizesTyped: false,
      },
    ]);
  });
  it('goes by two clicks', () => {
    const { draft, drawn } = play('rectangle', [down(3, 0), up(3, 0, false), move(3.9, 0.5), down(4, 0.6)]);
    expect(draft).toBeNull();
    expect(drawn[0]?.points).toEqual([
      [3, 0],
      [4, 0.6],
    ]);
  });
  it('takes a typed size on the side on which the pointer is', () => {
    // derived: the pointer is to the left and above, so 450 goes left and 300 up
    const { drawn } = play('rectangle', [
      down(3, 0),
      up(3, 0, false),
      move(2.9, 0.1),
      { type: 'typed', size: [0.45, 0.3] },
    ]);
    expect(drawn[0]?.points).toEqual([
      [3, 0],
      [expect.closeTo(2.55, 12), expect.closeTo(0.3, 12)],
    ]);
  });
  it('makes nothing of a line, and goes on', () => {
    const { draft, drawn } = play('rectangle', [down(3, 0), up(4, 0.001)]);
    expect(drawn).toEqual([]);
    expect(draft?.points).toEqual([[3, 0]]);
  });
  it('has its corners against the clock, whichever way it was drawn', () => {
    const want = [
      [3, 0],
      [4, 0],
      [4, 0.6],
      [3, 0.6],
    ];
    for (const points of [
      [
        [3, 0],
        [4, 0.6],
      ],
      [
        [4, 0.6],
        [3, 0],
      ],
      [
        [4, 0],
        [3, 0.6],
      ],
    ] as const)
      expect(cornersOf({ tool: 'rectangle', points: [...points] })).toEqual(want);
  });
});

describe('what of a drawing was typed', () => {
  const set = (u: number, v: number): DrawingInput => ({ type: 'down', at: [u, v], view: 'plan', typed: true });
  const isTyped = (tool: DrawingTool, ...inputs: readonly DrawingInput[]) =>
    play(tool, inputs).drawn.map(({ sizesTyped }) => sizesTyped);

  it('is the size of a rectangle, wherever the pointer put its corner', () => {
    const begun = [down(3, 0), up(3, 0, false), move(3.2, 0.1)];
    expect(isTyped('rectangle', ...begun, { type: 'typed', size: [0.45, 0.3] })).toEqual([true]);
    expect(isTyped('rectangle', ...begun, down(3.45, 0.3))).toEqual([false]);
    expect(isTyped('rectangle', ...begun, { type: 'close' })).toEqual([false]);
    // two points by their coordinates give the size; one of them does not
    expect(isTyped('rectangle', set(3, 0), up(3, 0, false), set(3.45, 0.3))).toEqual([true]);
    expect(isTyped('rectangle', ...begun, set(3.45, 0.3))).toEqual([false]);
  });

  it('is an outline only when every side was', () => {
    const side: DrawingInput = { type: 'typed', size: [0.4, 0] };
    const up2: DrawingInput = { type: 'typed', size: [0, 0.3] };
    const begun = [down(0, 0), up(0, 0, false), move(0.1, 0.1), side];
    expect(isTyped('polygon', ...begun, up2, { type: 'close' })).toEqual([true]);
    expect(isTyped('polygon', ...begun, down(0.4, 0.3), { type: 'close' })).toEqual([false]);
    expect(
      isTyped('polygon', ...begun, down(0.4, 0.3), up(0.4, 0.3, false), { type: 'back' }, up2, { type: 'close' }),
    ).toEqual([false]);
  });
});

describe('drawing corner by corner', () => {
  const three = [down(0, 0), up(0, 0), down(1, 0), up(1, 0), down(1, 1), up(1, 1)] as const;
  it('is closed by Enter, by the first corner and by a double click', () => {
    const want = [
      [0, 0],
      [1, 0],
      [1, 1],
    ];
    expect(play('polygon', [...three, { type: 'close' }]).drawn[0]?.points).toEqual(want);
    expect(play('polygon', [...three, down(0.05, 0.05)]).drawn[0]?.points).toEqual(want);
    expect(play('polygon', [...three, down(1, 1)]).drawn[0]?.points).toEqual(want);
  });
  it('is not closed by two corners, nor near the first one too early', () => {
    const two = three.slice(0, 4);
    expect(play('polygon', [...two, { type: 'close' }]).drawn).toEqual([]);
    expect(play('polygon', [...two, down(0.05, 0)]).draft?.points).toHaveLength(3);
  });
  it('takes the last corner back, and the first one ends it', () => {
    expect(play('polygon', [...three, { type: 'back' }]).draft?.points).toEqual([
      [0, 0],
      [1, 0],
    ]);
    expect(play('polygon', [down(0, 0), { type: 'back' }]).draft).toBeNull();
  });
  it('goes a typed length along the way to the pointer', () => {
    // derived: 3-4-5: 0.5 m along (0.6, 0.8)
    const { draft } = play('polygon', [down(0, 0), up(0, 0), move(0.6, 0.8), { type: 'typed', size: 0.5 }]);
    expect(draft?.points[1]).toEqual([expect.closeTo(0.3, 12), expect.closeTo(0.4, 12)]);
  });
});

it('never makes anything after Escape, whatever came before, and stands idle then', () => {
  const input: fc.Arbitrary<DrawingInput> = fc.oneof(
    fc.tuple(fc.integer({ min: -3, max: 3 }), fc.integer({ min: -3, max: 3 })).map(([u, v]) => down(u, v)),
    fc.tuple(fc.integer({ min: -3, max: 3 }), fc.integer({ min: -3, max: 3 })).map(([u, v]) => move(u, v)),
    fc.tuple(fc.integer({ min: -3, max: 3 }), fc.boolean()).map(([u, moved]) => up(u, u, moved)),
    fc.constantFrom<DrawingInput>({ type: 'close' }, { type: 'back' }, { type: 'typed', size: 0.4 }),
  );
  fc.assert(
    fc.property(
      fc.constantFrom<DrawingTool>('rectangle', 'polygon', 'split', 'measure'),
      fc.array(input),
      (tool, inputs) => {
        const { drawn } = play(tool, inputs);
        for (const { points } of drawn) expect(points.length).toBeGreaterThanOrEqual(tool === 'polygon' ? 3 : 2);
        const after = play(tool, [...inputs, { type: 'cancel' }]);
        expect(after.draft).toBeNull();
        expect(after.drawn).toEqual(drawn);
      },
    ),
  );
});
