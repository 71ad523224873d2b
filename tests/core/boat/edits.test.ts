import {
  applied,
  currentArrangementId,
  edit,
  findingAccepted,
  freeId,
  lineEndSet,
  type Patch,
  patchesBetween,
  placed,
  poseOf,
  thingDeleted,
  unplaced,
} from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

function lockers(): Boat {
  const result = readBoat(JSON.stringify(threeLockers()));
  if (!result.ok) throw new Error('unreadable');
  return result.boat;
}

/** The edit, which must be accepted. */
function done(boat: Boat, recipe: Parameters<typeof edit>[1]) {
  const result = edit(boat, recipe);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result;
}

describe('an edit', () => {
  it('gives patches there and back', () => {
    const boat = lockers();
    const { boat: after, patches, inverse } = done(boat, placed('first', 'pump', { at: [2.5, 0.1, 0] }));
    expect(after.arrangements.first?.places.pump?.at).toEqual([2.5, 0.1, 0]);
    expect(applied(boat, patches)).toEqual(after);
    expect(applied(after, inverse)).toEqual(boat);
    expect(patches).toHaveLength(1);
  });

  it('keeps the identity of what it does not touch', () => {
    const boat = lockers();
    const { boat: after } = done(boat, placed('first', 'pump', { at: [2.5, 0.1, 0] }));
    expect(after.compartments).toBe(boat.compartments);
    expect(after.arrangements.first?.places.strainer).toBe(boat.arrangements.first?.places.strainer);
    expect(after.arrangements).not.toBe(boat.arrangements);
  });

  it('rounds to the micrometre, as the file will', () => {
    const { boat } = done(lockers(), placed('first', 'pump', { at: [1 / 3, 0, 0] }));
    expect(boat.arrangements.first?.places.pump?.at[0]).toBe(0.333333);
  });

  it('that changes nothing makes no patch', () => {
    const boat = lockers();
    const { boat: after, patches } = done(boat, placed('first', 'pump', { at: [2.6, 0.3, -0.2] }));
    expect(patches).toEqual([]);
    expect(after).toBe(boat);
  });

  it('is refused when the file could not be read again, and the boat stands', () => {
    const boat = lockers();
    const result = edit(boat, lineEndSet('raw-2', 'to', { thing: 'pump', port: 'nowhere' }));
    expect(!result.ok && result.problems[0]?.message).toBe(
      'lines.raw-2.to.port is "nowhere", pump has the ports in, product, power',
    );
    expect(boat.lines['raw-2']?.to.port).toBe('in');
  });

  it('of a fixture moves its own pose and keeps its turn', () => {
    const { boat } = done(lockers(), placed('first', 'tank', { at: [2.6, -0.4, -0.2] }));
    expect(poseOf(boat, 'first', 'tank')?.at).toEqual([2.6, -0.4, -0.2]);
    expect(Object.keys(boat.arrangements.first?.places ?? {})).toEqual(['strainer', 'pump']);
  });

  it('that deletes a thing takes its lines and places with it', () => {
    const { boat } = done(lockers(), thingDeleted('pump'));
    expect(Object.keys(boat.lines)).toEqual(['raw-1']);
    expect(boat.arrangements.first?.places.pump).toBeUndefined();
  });

  it('accepts a finding and takes that back', () => {
    const key = 'access/service-space|pump|';
    const { boat } = done(lockers(), findingAccepted(key, { by: 'Owner', why: 'seldom', on: '2026-05-31' }));
    expect(boat.accepted[key]?.why).toBe('seldom');
    expect(done(boat, findingAccepted(key, null)).boat.accepted).toEqual({});
  });

  it('takes out of the arrangement, finds free ids', () => {
    const boat = lockers();
    const out = done(boat, unplaced('first', 'pump')).boat;
    expect(poseOf(out, 'first', 'pump')).toBeNull();
    expect(freeId(boat.parts, 'pump')).toBe('pump-2');
    expect(freeId(boat.parts, 'valve')).toBe('valve');
    expect(currentArrangementId(boat)).toBe('first');
    const { currentArrangement: _, ...rest } = boat;
    expect(
      currentArrangementId({
        ...rest,
        arrangements: { b: boat.arrangements.first, a: boat.arrangements.first },
      } as Boat),
    ).toBe('a');
  });
});

describe('patches between two pieces of data', () => {
  it('turn the one into the other, whatever they are', () => {
    const data = fc.dictionary(fc.constantFrom('a', 'b', 'c'), fc.jsonValue({ maxDepth: 3 }), { maxKeys: 3 });
    fc.assert(
      fc.property(data, data, (before, after) => {
        const patches: readonly Patch[] = patchesBetween(before, after);
        expect(applied(before as unknown as Boat, patches)).toEqual(after);
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});
