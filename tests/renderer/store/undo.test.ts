import type { BoatRecipe } from '@core/boat/edits';
import {
  findingAccepted,
  fixtureAdded,
  lineAdded,
  lineDeleted,
  lineEndSet,
  partAdded,
  thingDeleted,
  unplaced,
} from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { useApp } from '@renderer/store/app';
import { connectEngine } from '@renderer/store/connections';
import { beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';
import { type Dice, dice } from '../../support/dice';

// Derived: undo is the way back, so each state must be what it was, and the patches must not grow with the boat.
const state = () => useApp.getState();
const boatNow = (): Boat => {
  const { boat } = state();
  if (!boat) throw new Error('expected a boat');
  return boat;
};
const copied = <T>(value: T): T => JSON.parse(JSON.stringify(value));

beforeEach(() => {
  connectEngine(null);
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  state().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
});

/** One edit of every kind that a panel, a tool or a table makes; `n` keeps ids and names apart. */
const KINDS: Readonly<Record<string, (n: number, luck: Dice) => BoatRecipe | null>> = {
  name: (n) => (boat) => {
    boat.name = `Boat ${n}`;
  },
  practice: () => (boat) => {
    boat.practice = boat.practice === 'isoSmallCraft' ? 'usVoluntary' : 'isoSmallCraft';
  },
  'heel and cost': (_, luck) => (boat) => {
    boat.greatestHeelDeg = luck.whole(30);
    boat.newHoleCostM = luck.whole(10) / 10;
  },
  accuracy: (_, luck) => (boat) => {
    boat.accuracy = { measured: (1 + luck.whole(9)) / 1000 };
    boat.gradeOf = { ...boat.gradeOf, 'compartments.aft': luck.pick(['measured', 'guessed']) };
  },
  'compartment renamed': (n) => (boat) => {
    if (boat.compartments.middle) boat.compartments.middle.name = `Middle ${n}`;
  },
  'panel rule': (_, luck) => (boat) => {
    if (boat.panels['aft-middle']) boat.panels['aft-middle'].rule = luck.pick(['drill', 'open', 'noDrill'] as const);
  },
  'hole added': (n) => (boat) => {
    const holes = boat.panels['aft-middle']?.holes;
    if (holes) holes[`hole-${n}`] = { at: [1.0075, 0.1, 0.1], diameterM: 0.02, carries: {} };
  },
  'hole removed': () => (boat) => {
    const holes = boat.panels['aft-middle']?.holes ?? {};
    const [first] = Object.keys(holes);
    if (first !== undefined) delete holes[first];
  },
  'opening widened': (_, luck) => (boat) => {
    if (boat.openings.lid) boat.openings.lid.widthM = (50 + luck.whole(30)) / 100;
  },
  'fixture added': (n) =>
    fixtureAdded(`locker-${n}`, {
      name: 'Box',
      kind: 'other',
      shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
      pose: { at: [2.5, 0.4, -0.3] },
    }),
  'part added': (n) => {
    const part = boatNow().parts.pump;
    return part
      ? partAdded(`pump-${n}`, part, 'first', { at: [2.4, 0, 0], yawDeg: 90, pitchDeg: 0, rollDeg: 0 })
      : null;
  },
  'part taken out': (_, luck) => {
    const placed = Object.keys(boatNow().arrangements.first?.places ?? {}).filter((id) => id.startsWith('pump-'));
    return placed.length === 0 ? null : unplaced('first', luck.pick(placed));
  },
  'thing deleted': (_, luck) => {
    const added = [...Object.keys(boatNow().parts), ...Object.keys(boatNow().fixtures)].filter((id) => /-\d/.test(id));
    return added.length === 0 ? null : thingDeleted(luck.pick(added));
  },
  'line added': (n) => {
    const [line] = Object.values(boatNow().lines);
    return line ? lineAdded(`line-${n}`, line) : null;
  },
  'line deleted': (_, luck) => {
    const added = Object.keys(boatNow().lines).filter((id) => id.startsWith('line-'));
    return added.length === 0 ? null : lineDeleted(luck.pick(added));
  },
  'line end led elsewhere': (_, luck) => {
    const lines = Object.entries(boatNow().lines);
    const [id] = luck.pick(lines);
    return lineEndSet(id, 'from', luck.pick(lines)[1].from);
  },
  acceptance: (n) =>
    findingAccepted(`rule|subject|${n % 7}`, n % 3 === 0 ? null : { by: 'Me', why: 'Seen', on: '2026-05-31' }),
  'tick in the list': (n) => (boat) => {
    boat.stock = { ...boat.stock, [`hose|${n % 5}`]: { bought: n } };
  },
  'clip point': (n, luck) => (boat) => {
    const [id = ''] = Object.keys(boat.lines);
    const points = boat.arrangements.first?.clipPoints;
    if (points) points[id] = { ...points[id], [`clip-${n % 4}`]: { at: [luck.from(0.1, 0.9), 0, 0], order: n % 4 } };
  },
  'arrangement duplicated': (n) => (boat) => {
    const { first } = boat.arrangements;
    if (first) boat.arrangements[`copy-${n % 3}`] = { ...copied(first), name: `Copy ${n}` };
  },
  'arrangement switched': (_, luck) => (boat) => {
    boat.currentArrangement = luck.pick(Object.keys(boat.arrangements));
  },
  'run-state': (n) => (boat) => {
    boat.runStates[`state-${n % 3}`] = {
      name: `State ${n}`,
      use: 'anchored',
      heelDeg: n % 20,
      sideDown: 'both',
      trimDeg: 0,
    };
  },
  'hull drawn': (n) => (boat) => {
    const points = [
      [0, -0.5],
      [0.8 + (n % 5) / 100, 0.5],
    ].map(([y = 0, z = 0]): [number, number] => [y, z]);
    boat.hull = {
      ...boat.hull,
      stations: Object.fromEntries([0, 2, 4].map((xM) => [`s${xM}`, { xM, points: copied(points) }])),
    } as Boat['hull'] as typeof boat.hull;
  },
  'words typed': (n) => (boat) => {
    boat.typed = { ...boat.typed, 'openings.lid.widthM': `${n} in` };
  },
  'key of nobody': (n) => (boat) => {
    Object.assign(boat, { constructor: `Shipyard ${n}` });
  },
};

describe('undo', () => {
  it('goes 500 steps back and on again through edits of every kind, and each state is what it was', () => {
    const luck = dice(500);
    const kinds = Object.keys(KINDS);
    const states = [boatNow()];
    const made = new Map<string, number>();
    for (let n = 0; states.length <= 500; n++) {
      const kind = kinds[n % kinds.length] ?? '';
      const recipe = KINDS[kind]?.(n, luck) ?? null;
      const before = boatNow();
      if (recipe && !state().edit(`${kind} ${n}`, recipe))
        throw new Error(`${kind}: ${state().problem?.lines.join(' ')}`);
      if (boatNow() === before) continue;
      made.set(kind, (made.get(kind) ?? 0) + 1);
      states.push(boatNow());
      // A save, a read and a look meanwhile change nothing of the way back.
      if (n % 100 === 99)
        state().saved({ fileName: 'a', token: null, at: '12:00', revision: state().document.revision });
    }
    expect([...made.keys()].sort()).toEqual([...kinds].sort());
    for (let step = 500; step > 0; step--) {
      expect(boatNow()).toEqual(states[step]);
      expect(state().canUndo).toBe(state().history.done[step - 1]?.label);
      state().undo();
    }
    expect([boatNow(), state().canUndo]).toEqual([states[0], null]);
    for (let step = 1; step <= 500; step++) {
      state().redo();
      expect(boatNow()).toEqual(states[step]);
    }
    for (const step of [123, 499, 0, 250, 500, 1]) {
      state().goToStep(step - 1);
      expect(boatNow()).toEqual(states[step]);
    }
  });

  it('costs what the edits change, not what the boat is: 500 moves keep less text than the boat has in fifty copies', () => {
    for (let n = 0; n < 500; n++) {
      state().nudge('intake', [n % 2 === 0 ? 0.001 : -0.001, 0, 0]);
      state().select(null);
    }
    const { done } = state().history;
    expect(done.length).toBe(500);
    // by hand: a move replaces one list of three numbers, there and back, about 70 characters each
    const kept = done.map(({ patches, inverse }) => JSON.stringify([patches, inverse]).length);
    expect(Math.max(...kept)).toBeLessThan(250);
    // What a state shares with the one before it is the same object, not a copy.
    const before = boatNow();
    state().nudge('intake', [0.005, 0, 0]);
    expect(boatNow().compartments).toBe(before.compartments);
    expect(boatNow().lines).toBe(before.lines);
  });
});
