import { readFileSync } from 'node:fs';
import { edit } from '@core/boat/edits';
import { newBoat } from '@core/boat/new-boat';
import { pieceAdded, pieceOf, readPiece } from '@core/boat/pieces';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { describe, expect, it } from 'vitest';

const read = readBoat(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
if (!read.ok) throw new Error('expected the sample to be read');
const SAMPLE: Boat = read.boat;
const ARRANGEMENT = SAMPLE.currentArrangement ?? Object.keys(SAMPLE.arrangements).sort()[0] ?? '';

function textOf(boat: Boat, things: readonly string[]): string {
  const taken = pieceOf(boat, ARRANGEMENT, things);
  if (!taken.ok) throw new Error(taken.problems.map(({ message }) => message).join('\n'));
  return taken.text;
}
function pieceFrom(text: string): Boat {
  const piece = readPiece(text);
  if (!piece.ok) throw new Error(piece.problems.map(({ message }) => message).join('\n'));
  return piece.piece;
}
function put(boat: Boat, arrangement: string, piece: Boat, by: readonly [number, number, number] = [0, 0, 0]) {
  const put = pieceAdded(boat, arrangement, piece, by);
  const result = edit(boat, put.recipe);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return { ...put, boat: result.boat };
}

describe('a piece of a boat', () => {
  it('holds what was taken and the lines between, and nothing else', () => {
    const piece = pieceFrom(textOf(SAMPLE, ['coarse', 'fine', 'intake']));
    expect(Object.keys(piece.parts).sort()).toEqual(['coarse', 'fine']);
    expect(Object.keys(piece.fixtures)).toEqual(['intake']);
    expect(Object.keys(piece.lines)).toEqual(['r4']);
    expect(Object.keys(piece.compartments)).toEqual([]);
  });

  it('goes into another boat with its places, joined as it was', () => {
    const other = newBoat('Other');
    const { boat, things, lines } = put(other, 'first', pieceFrom(textOf(SAMPLE, ['coarse', 'fine'])));
    expect(things).toEqual({ coarse: 'coarse', fine: 'fine' });
    expect(boat.lines[lines.r4 ?? '']).toEqual(SAMPLE.lines.r4);
    const places = SAMPLE.arrangements[ARRANGEMENT]?.places ?? {};
    for (const id of ['coarse', 'fine']) expect(boat.arrangements.first?.places[id]?.at).toEqual(places[id]?.at);
  });

  it('goes into its own boat a second time under free ids and marks, beside the first, with its clip points', () => {
    const clipped = edit(SAMPLE, (draft) => {
      const clips = draft.arrangements[ARRANGEMENT]?.clipPoints;
      if (clips) clips.r4 = { c1: { at: [1, 0.5, 0.25], order: 1 } };
    });
    if (!clipped.ok) throw new Error('expected a clip point');
    const before = clipped.boat;
    const { boat, things, lines } = put(
      before,
      ARRANGEMENT,
      pieceFrom(textOf(before, ['coarse', 'fine'])),
      [0.5, 0, 0],
    );
    expect(things).toEqual({ coarse: 'coarse-2', fine: 'fine-2' });
    const line = boat.lines[lines.r4 ?? ''];
    expect([line?.from.thing, line?.to.thing]).toEqual(['coarse-2', 'fine-2']);
    const marks = [...Object.values(boat.parts), ...Object.values(boat.fixtures), ...Object.values(boat.lines)].flatMap(
      ({ tag }) => tag ?? [],
    );
    expect(new Set(marks).size).toBe(marks.length);
    const places = boat.arrangements[ARRANGEMENT]?.places ?? {};
    expect(places['coarse-2']?.at[0]).toBeCloseTo((places.coarse?.at[0] ?? 0) + 0.5, 6);
    expect(boat.arrangements[ARRANGEMENT]?.clipPoints[lines.r4 ?? '']?.c1?.at).toEqual([1.5, 0.5, 0.25]);
    // What was there stays as it was.
    for (const id of Object.keys(SAMPLE.parts)) expect(boat.parts[id]).toEqual(SAMPLE.parts[id]);
  });

  it('brings the kind of its lines along; one that the boat has under that id with other values gets another id', () => {
    const kind = { name: 'My hose', what: 'hose', outsideM: 0.02, bendRadiusM: 0.1 } as const;
    const withKind = (outsideM: number): Boat => {
      const result = edit(SAMPLE, (draft) => {
        Object.assign(draft.lineKinds, { mine: { ...kind, outsideM } });
        const line = draft.lines.r4;
        if (line) line.kind = 'mine';
      });
      if (!result.ok) throw new Error('expected the kind');
      return result.boat;
    };
    const piece = pieceFrom(textOf(withKind(0.02), ['coarse', 'fine']));
    const fresh = put(newBoat('Other'), 'first', piece);
    expect(fresh.boat.lines[fresh.lines.r4 ?? '']?.kind).toBe('mine');
    expect(fresh.boat.lineKinds.mine?.outsideM).toBe(0.02);
    const clash = put(withKind(0.03), ARRANGEMENT, piece, [0.5, 0, 0]);
    const own = clash.boat.lines[clash.lines.r4 ?? '']?.kind ?? '';
    expect(own).not.toBe('mine');
    expect(clash.boat.lineKinds[own]?.outsideM).toBe(0.02);
    expect(clash.boat.lineKinds.mine?.outsideM).toBe(0.03);
    expect(Object.keys(put(withKind(0.02), ARRANGEMENT, piece, [0.5, 0, 0]).boat.lineKinds)).toEqual(['mine']);
  });

  it('stays together as a group of its own', () => {
    const bound = edit(SAMPLE, (draft) => {
      for (const id of ['coarse', 'fine']) Object.assign(draft.parts[id] ?? {}, { group: 'filters' });
    });
    if (!bound.ok) throw new Error('expected a group');
    const { boat } = put(bound.boat, ARRANGEMENT, pieceFrom(textOf(bound.boat, ['coarse', 'fine'])), [0.5, 0, 0]);
    expect(boat.parts.coarse?.group).toBe('filters');
    expect(boat.parts['coarse-2']?.group).toBe(boat.parts['fine-2']?.group);
    expect(boat.parts['coarse-2']?.group).not.toBe('filters');
  });

  it('is one edit that is taken back whole', () => {
    const added = pieceAdded(SAMPLE, ARRANGEMENT, pieceFrom(textOf(SAMPLE, ['coarse', 'fine'])), [0.5, 0, 0]);
    const there = edit(SAMPLE, added.recipe);
    if (!there.ok) throw new Error('expected an edit');
    const back = edit(there.boat, (draft) => {
      for (const id of Object.values(added.things)) {
        delete draft.parts[id];
        delete draft.arrangements[ARRANGEMENT]?.places[id];
      }
      for (const id of Object.values(added.lines)) delete draft.lines[id];
    });
    expect(back.ok && writeBoat(back.boat)).toBe(writeBoat(SAMPLE));
  });
});

describe('text from outside', () => {
  const piece = (): Record<string, unknown> =>
    JSON.parse(textOf(SAMPLE, ['coarse', 'fine'])) as Record<string, unknown>;
  const refusal = (text: string): string => {
    const answer = readPiece(text);
    return answer.ok ? '' : answer.problems.map(({ message }) => message).join('\n');
  };

  it.each<[string, string]>([
    ['prose', 'Dear friend, the pump is leaking.'],
    ['markup', '<img src=x onerror=alert(1)>'],
    ['other JSON', '{"parts":{"a":{}}}'],
    ['nothing', '{}'],
    ['a list', '[1,2,3]'],
    ['deep nesting', '['.repeat(5000) + ']'.repeat(5000)],
  ])('%s is refused with a reason', (_, text) => {
    expect(refusal(text).length).toBeGreaterThan(10);
  });

  it('is refused where a value is out of bounds, with its path, and where it would reach a prototype', () => {
    const heavy = piece();
    Object.assign((heavy.parts as Record<string, object>).coarse ?? {}, { massKg: 1e12 });
    expect(refusal(JSON.stringify(heavy))).toContain('parts.coarse.massKg');
    expect(refusal(JSON.stringify(piece()).replace('"coarse":{', '"__proto__":{'))).not.toBe('');
    expect(refusal(JSON.stringify({ ...piece(), schemaVersion: 999 }))).toContain('schemaVersion');
  });

  it('is refused where a line ends on what it does not hold, and where it holds nothing to put in', () => {
    const astray = piece();
    delete (astray.parts as Record<string, object>).fine;
    expect(refusal(JSON.stringify(astray))).not.toBe('');
    expect(refusal(writeBoat(newBoat('Empty')))).toContain('nothing');
  });
});
