import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { SetSize } from '@core/boat/catalogue/generic-set';
import { edit } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import { jointChoices, setAdded, setIntoBoat } from '@core/engine/first-boat/set-into-boat';
import { describe, expect, it } from 'vitest';
import { emptyBoat } from '../../../support/boats';

const file = path.join(import.meta.dirname, '../../../../sample-boats/complete/sandwort/boat.json');
const read = readBoat(readFileSync(file, 'utf8'));
if (!read.ok) throw new Error('expected the sample to be a boat');
const { boat } = read;
const arrangementId = boat.currentArrangement ?? '';
const order = (size: SetSize) => {
  const first = (joint: Parameters<typeof jointChoices>[2]) =>
    jointChoices(boat, arrangementId, joint)[0]?.thing ?? null;
  return {
    boat,
    arrangementId,
    size,
    joints: { intake: first('intake'), bank: first('bank'), tank: first('tank'), freshPump: first('freshPump') },
  };
};

const asked = order(60);
const set = setIntoBoat(asked);

describe('a whole set in a boat that is drawn already', () => {
  it.each([30, 100] as const)('of %i L/h is accepted as one edit, with ids and marks that nothing else has', (size) => {
    const set = setIntoBoat(order(size));
    const added = edit(boat, setAdded(arrangementId, set));
    expect(added.ok ? [] : added.problems.map(({ message }) => message)).toEqual([]);
    if (!added.ok) return;
    for (const id of Object.keys(set.parts))
      expect([id, boat.parts[id], boat.fixtures[id]]).toEqual([id, undefined, undefined]);
    const marks = [...Object.values(added.boat.parts), ...Object.values(added.boat.fixtures)].flatMap(
      ({ tag }) => tag ?? [],
    );
    expect(marks.length).toBe(new Set(marks).size);
    const lines = Object.values(added.boat.lines).flatMap(({ tag }) => tag ?? []);
    expect(lines.length).toBe(new Set(lines).size);
  });

  it('places each part or says why not, and joins it to the ports that were chosen', () => {
    expect([...Object.keys(set.places), ...Object.keys(set.unplaced)].sort()).toEqual(Object.keys(set.parts).sort());
    expect(Object.keys(set.places).length).toBeGreaterThan(Object.keys(set.parts).length / 2);
    const ends = Object.values(set.lines).flatMap(({ from, to }) => [from, to]);
    for (const [joint, thing] of Object.entries(asked.joints)) {
      const choice = jointChoices(boat, arrangementId, joint as 'intake').find((one) => one.thing === thing);
      expect(ends).toContainEqual({ thing: choice?.thing, port: choice?.port });
    }
  });

  it('keeps clear of what stands there: no two envelopes overlap', () => {
    const bounds = (id: string, half: readonly number[], at: readonly number[], yawDeg: number) => {
      const [x = 0, y = 0, z = 0] = half;
      const turned = yawDeg % 180 === 0 ? [x, y, z] : [y, x, z];
      return {
        id,
        low: at.map((value, k) => value - (turned[k] ?? 0)),
        high: at.map((value, k) => value + (turned[k] ?? 0)),
      };
    };
    const halfOf = ({ shape }: (typeof boat.parts)[string]) =>
      shape.type === 'box'
        ? shape.sizeM.map((side) => side / 2)
        : ['x', 'y', 'z'].map((axis) => (axis === shape.axis ? shape.lengthM : shape.diameterM) / 2);
    const placed = Object.entries(set.places).map(([id, pose]) => {
      const part = set.parts[id];
      if (!part) throw new Error(`expected a part ${id}`);
      return bounds(id, halfOf(part), pose.at, pose.yawDeg);
    });
    const standing = Object.entries(boat.fixtures)
      .filter(
        ([, { shape, pose, soft }]) =>
          shape.type === 'box' && !soft && pose.yawDeg % 90 === 0 && !pose.pitchDeg && !pose.rollDeg,
      )
      .map(([id, fixture]) =>
        bounds(
          id,
          fixture.shape.type === 'box' ? fixture.shape.sizeM.map((side) => side / 2) : [],
          fixture.pose.at,
          fixture.pose.yawDeg,
        ),
      );
    let compared = 0;
    for (const [index, one] of placed.entries()) {
      for (const other of [...placed.slice(index + 1), ...standing]) {
        const overlaps = [0, 1, 2].every(
          (k) => (one.low[k] ?? 0) < (other.high[k] ?? 0) && (other.low[k] ?? 0) < (one.high[k] ?? 0),
        );
        expect([one.id, other.id, overlaps]).toEqual([one.id, other.id, false]);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  it('is left out where there is nothing to place it in, with the reason', () => {
    const made = readBoat(JSON.stringify(emptyBoat()));
    if (!made.ok) throw new Error('expected a boat');
    const empty = made.boat;
    const set = setIntoBoat({
      boat: empty,
      arrangementId: '',
      size: 30,
      joints: { intake: null, bank: null, tank: null, freshPump: null },
    });
    expect(new Set(Object.values(set.unplaced))).toEqual(new Set(['noHull']));
    expect(set.places).toEqual({});
    // Without a fresh pump there is no flush; lines to what the boat lacks are left out.
    expect(Object.keys(set.parts)).not.toContain('flush-valve');
    expect(Object.values(set.lines).some(({ from }) => from.thing === 'intake')).toBe(false);
  });
});
