import { arrangedIn } from '@core/boat/arranged';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

/** Three lockers with a second arrangement that places what is named, where the first has it. */
function withSecond(places: readonly string[], away: string | null = null): Boat {
  const json = threeLockers() as unknown as Record<string, Record<string, Record<string, Record<string, unknown>>>>;
  const first = json.arrangements?.first?.places ?? {};
  json.arrangements = {
    ...json.arrangements,
    second: { name: 'Second', places: Object.fromEntries(places.map((id) => [id, first[id]])) } as never,
  };
  if (away !== null) delete first[away];
  const read = readBoat(JSON.stringify(json));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.boat;
}

const partsOf = (boat: Boat): readonly string[] => Object.keys(boat.parts).sort();
const linesAt = (boat: Boat, part: string): readonly string[] =>
  Object.keys(boat.lines).filter((id) => boat.lines[id]?.from.thing === part || boat.lines[id]?.to.thing === part);

describe('what takes part in an arrangement', () => {
  it('a part that only another one places does not, nor do its lines', () => {
    const placed = Object.keys(withSecond([]).arrangements.first?.places ?? {}).sort();
    const away = 'pump';
    const boat = withSecond(placed.filter((id) => id !== away));
    const second = arrangedIn(boat, 'second');
    expect(partsOf(boat).filter((id) => !second.hasPart(id))).toEqual([away]);
    expect(linesAt(boat, away).length).toBeGreaterThan(0);
    expect(Object.keys(boat.lines).filter((id) => !second.hasLine(id))).toEqual(linesAt(boat, away));
    expect(partsOf(boat).every(arrangedIn(boat, 'first').hasPart)).toBe(true);
  });

  it('all do while it places nothing yet: they are still to be placed in it', () => {
    const boat = withSecond([]);
    expect(partsOf(boat).every(arrangedIn(boat, 'second').hasPart)).toBe(true);
    expect(Object.keys(boat.lines).every(arrangedIn(boat, 'second').hasLine)).toBe(true);
  });

  it('a part that none places does: it is listed as not placed', () => {
    const rest = Object.keys(withSecond([]).arrangements.first?.places ?? {}).filter((id) => id !== 'pump');
    const boat = withSecond(rest, 'pump');
    expect(boat.arrangements.second?.places.pump).toBeUndefined();
    for (const id of Object.keys(boat.arrangements)) expect(arrangedIn(boat, id).hasPart('pump')).toBe(true);
  });
});
