import { arrangedIn } from '../../boat/arranged';
import type { Boat } from '../../boat/schema/boat';

/**
 * The boat as it was bought: what is aboard already, with the lines that are there. Parts, planned lines and planned holes are left out;
 * of the arrangement only what says how the lines lie that are there stays.
 */
export function asBought(boat: Boat, arrangement: string | null): Boat {
  const here = arrangedIn(boat, arrangement);
  const lines = Object.fromEntries(
    Object.entries(boat.lines).filter(
      ([id, { existing, from, to }]) =>
        existing &&
        here.hasLine(id) &&
        Object.hasOwn(boat.fixtures, from.thing) &&
        Object.hasOwn(boat.fixtures, to.thing),
    ),
  );
  const arranged = arrangement === null ? undefined : boat.arrangements[arrangement];
  return {
    ...boat,
    parts: {},
    lines,
    arrangements:
      arrangement === null || !arranged
        ? {}
        : {
            [arrangement]: {
              ...arranged,
              places: {},
              newHoles: {},
              clipPoints: ofLines(arranged.clipPoints, lines),
              ...(arranged.pins ? { pins: ofLines(arranged.pins, lines) } : {}),
            },
          },
  };
}

const ofLines = <T>(records: Readonly<Record<string, T>>, lines: Boat['lines']): Record<string, T> =>
  Object.fromEntries(Object.entries(records).filter(([id]) => Object.hasOwn(lines, id)));
