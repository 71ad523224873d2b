import { readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { add } from '@core/base/vec';
import { currentArrangementId, edit, type Patch, placed } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Report } from '@core/engine/report';
import { Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { expectStoriesToSettle } from './story';

interface Bounds {
  readonly lowerBoundM: number;
  readonly costBoundM: number | null;
}

const boundsOf = ({ runs }: Report): Readonly<Record<string, Bounds>> =>
  Object.fromEntries(
    runs.map(({ lineId, lowerBoundM, costBoundM }) => [lineId, { lowerBoundM, costBoundM: costBoundM ?? null }]),
  );

/** Moves of the sample boat: a part at the end of few lines, one at the end of many, one that hangs on none. */
const MOVES = [
  { part: 'strainer', at: [4.821, -0.58, -0.285] },
  { part: 'station', by: [0.02, 0, 0.01] },
  { part: 'spares', by: [-0.015, 0.01, 0] },
  { part: 'pump', by: [0.01, -0.02, 0] },
] as const;

describe('bounds of a session', () => {
  it('do not depend on which line was asked first: they are those of a cold check after each move and each undo', () => {
    const read = readBoat(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
    if (!read.ok) throw new Error(read.problems[0]?.message);
    const arrangement = currentArrangementId(read.boat) ?? '';
    const session = new Session(read.boat);
    session.settled();
    const undo: (readonly Patch[])[] = [];
    const expectCold = (what: string): void => {
      const cold = analyze(session.boat);
      expect(cold.runs.length).toBeGreaterThan(20);
      expect(boundsOf(session.settled()), what).toEqual(boundsOf(cold));
    };
    for (const move of MOVES) {
      const place = session.boat.arrangements[arrangement]?.places[move.part];
      if (!place) throw new Error(`${move.part} has no place`);
      const at = 'at' in move ? move.at : add(place.at, move.by);
      const result = edit(session.boat, placed(arrangement, move.part, { at }));
      if (!result.ok) throw new Error(result.problems[0]?.message);
      undo.push(result.inverse);
      session.edit(result.patches);
      expectCold(`${move.part} moved`);
    }
    for (const inverse of undo.reverse()) session.edit(inverse);
    expectCold('all undone');
  }, 120_000);
});

describe('a session at rest', () => {
  it('gives the cold answer after each of 40 sequences of edits, undo and drags', () => {
    expectStoriesToSettle(1, 40);
  }, 300_000);
});
