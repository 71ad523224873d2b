import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { describe, expect, it } from 'vitest';
import { type BoatDraft, emptyBoat, threeLockers } from '../../support/boats';

const textOf = (draft: unknown): string => JSON.stringify(draft);

function boatOf(draft: BoatDraft): Boat {
  const result = readBoat(textOf(draft));
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
}

function messagesOf(text: string): readonly string[] {
  const result = readBoat(text);
  return result.ok ? [] : result.problems.map(({ message }) => message);
}

/** Messages for three lockers after a change that a person might make by mistake. */
function messagesAfter(change: (draft: Record<string, never>) => void): readonly string[] {
  const draft = JSON.parse(textOf(threeLockers())) as Record<string, never>;
  change(draft);
  return messagesOf(textOf(draft));
}

describe('a boat that is read', () => {
  it('has its defaults filled in and its numbers to a micrometre', () => {
    const draft = threeLockers();
    const boat = boatOf({ ...draft, newHoleCostM: 0.123456789 });
    expect(boat.newHoleCostM).toBe(0.123457);
    expect(boat.practice).toBe('isoSmallCraft');
    expect(boat.arrangements.first?.places.pump?.yawDeg).toBe(0);
  });

  it('survives writing and reading, small boats staying small files', () => {
    for (const draft of [emptyBoat(), threeLockers()]) {
      const boat = boatOf(draft);
      const text = writeBoat(boat);
      const again = readBoat(text);
      expect(again.ok && { ...again.boat, engineVersion: undefined }).toEqual({ ...boat, engineVersion: undefined });
      expect(again.ok && writeBoat(again.boat)).toBe(text);
    }
    expect(writeBoat(boatOf(emptyBoat())).split('\n').length).toBeLessThan(10);
  });

  it('keeps keys that the schema does not know, and names them', () => {
    const draft = JSON.parse(textOf(threeLockers()));
    draft.parts.pump.colour = 'blue';
    draft.compartments.aft.grad = 'measured';
    const result = readBoat(textOf(draft));
    expect(result.ok && result.notes.map((note) => note.split(' ')[0]).sort()).toEqual([
      'compartments.aft.grad',
      'parts.pump.colour',
    ]);
    expect(result.ok && JSON.parse(writeBoat(result.boat)).parts.pump.colour).toBe('blue');
  });

  it('cannot be changed in place', () => {
    const boat = boatOf(threeLockers());
    expect(() => Object.assign(boat.compartments.aft ?? {}, { name: 'x' })).toThrow(TypeError);
  });
});

describe('a file that cannot be used', () => {
  it('names path, value and limit in words of people', () => {
    expect(
      messagesAfter((d: never) => {
        (d as { compartments: Record<string, { rangeM: number[] }> }).compartments.aft = {
          ...(d as { compartments: Record<string, { rangeM: number[] }> }).compartments.aft,
          rangeM: [1.2, 0.4],
        };
      }),
    ).toEqual(['compartments.aft.rangeM is [1.2, 0.4], the first must be below the second']);
  });
});
