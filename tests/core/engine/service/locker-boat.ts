import type { Boat } from '@core/boat/schema/boat';
import { boatOf } from '../../boat/boat-of';
import { put } from '../../rules/judged';

const PLAN = (x0: number, y0: number, x1: number, y1: number) => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** A cabin with a place to stand, and behind its port side a locker with a door and a pump in it. */
const LOCKER = {
  format: 'underberth-boat',
  schemaVersion: 1,
  name: 'Locker',
  compartments: {
    cabin: { name: 'Cabin', kind: 'cabin', view: 'plan', outline: PLAN(-0.4, -1.4, 1.6, 0), rangeM: [-0.6, 1.5] },
    locker: { name: 'Locker', kind: 'locker', view: 'plan', outline: PLAN(0, 0.02, 1.2, 0.8), rangeM: [-0.4, 0.4] },
  },
  openings: {
    door: {
      name: 'Door',
      compartment: 'locker',
      to: 'cabin',
      at: [0.6, 0.01, 0],
      normal: [0, -1, 0],
      widthM: 0.4,
      heightM: 0.3,
      how: 'liftOut',
      standing: 'sole',
      grade: 'measured',
    },
  },
  standingPlaces: { sole: { name: 'Sole', at: [0.6, -0.5, -0.6], compartment: 'cabin' } },
  fixtures: {
    pump: {
      name: 'Pump',
      kind: 'freshPump',
      massKg: 4,
      shape: { type: 'box', sizeM: [0.2, 0.2, 0.2] },
      pose: { at: [0.6, 0.5, 0], grade: 'measured' },
      grade: 'measured',
      services: {
        knob: {
          task: 'handle',
          name: 'Knob',
          at: [0, -0.1, 0],
          direction: [0, -1, 0],
          needs: ['hand'],
          intervalDays: 73,
          minutes: 2,
        },
      },
    },
  },
};

/** The boat of the locker with some values set, by their paths. */
export function lockerBoat(changes: Readonly<Record<string, unknown>> = {}): Boat {
  const json = structuredClone(LOCKER) as Record<string, unknown>;
  for (const [path, value] of Object.entries(changes)) put(json, path, value);
  return boatOf(json);
}

/** A fixed batten across the locker, 30 x 30 mm. */
export const batten = (at: readonly number[]) => ({
  name: 'Batten',
  kind: 'joinery',
  shape: { type: 'box', sizeM: [1.1, 0.03, 0.03] },
  pose: { at, grade: 'measured' },
  grade: 'measured',
});

/** A small thing that a hose ends at. */
export const END = { name: 'End', kind: 'other', massKg: 1, shape: { type: 'box', sizeM: [0.06, 0.06, 0.06] } };
