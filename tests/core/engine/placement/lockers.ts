import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { CompartmentAnswer } from '@core/engine/placement/place-report';
import { placesFor } from '@core/engine/placement/places';
import { type BoatDraft, threeLockers } from '../../../support/boats';

type PartDraft = NonNullable<BoatDraft['parts']>[string];
type RoomDraft = NonNullable<BoatDraft['compartments']>[string];

/**
 * Three box lockers 1 m long, 1.2 m wide and 0.8 m high, the water at half their height, each with a lid of 0.8 x 0.7 m to the deck: nothing
 * in them but what the test puts there, and one thing of 0.3 x 0.2 x 0.2 m that stands nowhere yet.
 */
export function lockers(
  thing: Partial<PartDraft> = {},
  change: (draft: BoatDraft) => void = () => {},
  room: Partial<RoomDraft> = {},
): Boat {
  const base = threeLockers();
  const draft: BoatDraft = {
    ...base,
    compartments: Object.fromEntries(
      Object.entries(base.compartments ?? {}).map(([id, own]) => [id, { ...own, ...room }]),
    ),
    openings: Object.fromEntries(
      [0.5, 1.515, 2.53].map((x, k) => {
        const compartment = ['aft', 'middle', 'fore'][k] as string;
        return [
          `lid-${compartment}`,
          { name: `Lid of ${compartment}`, compartment, at: [x, 0, 0.4], normal: [0, 0, 1], widthM: 0.8, heightM: 0.7 },
        ];
      }),
    ) as NonNullable<BoatDraft['openings']>,
    fixtures: {},
    parts: {
      thing: {
        name: 'Thing',
        kind: 'other',
        shape: { type: 'box', sizeM: [0.3, 0.2, 0.2] },
        massKg: 3,
        ...thing,
      },
    },
    lines: {},
    arrangements: { first: { name: 'First' } },
  };
  change(draft);
  return boatOf(draft);
}

export function boatOf(draft: BoatDraft): Boat {
  const read = checkBoat(draft);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.boat;
}

export function answersFor(
  boat: Boat,
  ids: readonly string[] = ['thing'],
): Readonly<Record<string, CompartmentAnswer>> {
  return Object.fromEntries(placesFor(boat, ids).compartments.map((answer) => [answer.compartment, answer]));
}

export function answerIn(boat: Boat, compartment: string): CompartmentAnswer {
  const answer = answersFor(boat)[compartment];
  if (!answer) throw new Error(`answerIn: expected an answer of ${compartment}`);
  return answer;
}
