import { boatSchema } from '@core/boat/schema/boat';
import { referenceAttitude } from '@core/shape/hull/attitude';
import { describe, expect, it } from 'vitest';
import { attitudeNotes } from '../../../electron/cli/hull-text';

type Freeboards = Readonly<Record<string, readonly [number, number, number]>>;

/** Points of a deck edge at z 0.9 m with the freeboard read there; [x, y, freeboard]. */
function notesOf(readings: Freeboards): readonly string[] {
  const freeboards = Object.fromEntries(
    Object.entries(readings).map(([id, [x, y, freeboardM]]) => [id, { at: [x, y, 0.9], freeboardM }]),
  );
  const boat = boatSchema.parse({ format: 'underberth-boat', schemaVersion: 1, name: 't', reference: { freeboards } });
  return attitudeNotes(boat, referenceAttitude(boat));
}

describe('what the measured points say of themselves', () => {
  const level: Freeboards = {
    sternPort: [0, 1, 0.9],
    sternStarboard: [0, -1, 0.9],
    midPort: [4, 1.5, 0.9],
    midStarboard: [4, -1.5, 0.9],
    bow: [9, 0, 0.9],
  };

  it('nothing where they agree', () => {
    expect(notesOf(level)).toEqual([]);
  });

  // derived: the four others lie at z = 0 exactly, so that the fifth is off by what was added to it
  it('names the one that is off, and by how much the others say', () => {
    expect(notesOf({ ...level, bow: [9, 0, 1.2] })).toEqual([
      'reference.freeboards.bow is off by 0.300 m from what the other points say: measure again',
    ]);
  });

  it('a trim and a list that no boat has are told', () => {
    // derived: 1.6 m over 4 m along the boat rise by asin 0.4, 23.6 degrees: freeboards are upright, not square to the deck
    expect(notesOf({ aft: [0, 1, 0.1], forward: [4, 1, 1.7] })).toEqual([
      'the reference attitude has a trim of 24 degrees and a list of 0; no boat lies beyond 15: see to freeboards, marks and their places',
    ]);
  });
});
