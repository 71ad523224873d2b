import { assumptionsOf, openingMinutes, taskTimesAYear } from '@core/boat/catalogue/service-assumptions';
import { needsOf, TASK_DEFAULTS } from '@core/boat/catalogue/task-defaults';
import { SERVICE_TASKS, service } from '@core/boat/schema/services';
import { describe, expect, it } from 'vitest';
import { emptyBoat } from '../../../support/boats';
import { boatOf } from '../boat-of';

const task = (record: object) => service.parse({ task: 'other', at: [0, 0, 0], direction: [0, 0, 1], ...record });

// The usual values are common practice of the trade and from memory, as task-defaults.ts says, but for 45 degrees before a face (NUREG-0700
// Rev. 2, 11.1.2-5, quoted): what is held to here is which value counts, the record's or the usual one.

describe('what a service task asks for', () => {
  it('has usual values for every task', () => {
    expect(Object.keys(TASK_DEFAULTS).sort()).toEqual([...SERVICE_TASKS].sort());
    for (const name of SERVICE_TASKS) {
      const { secondAt, ...needs } = needsOf(task({ task: name }));
      expect([name, secondAt]).toEqual([name, null]);
      expect(needs).toEqual(TASK_DEFAULTS[name]);
    }
  });

  it('is a place and a direction at the least: it then asks for no clear space of its own', () => {
    expect(task({ task: 'oilGlass' })).toMatchObject({ clearM: 0, needs: [], round: false });
    expect(needsOf(task({ task: 'oilGlass' }))).toMatchObject({
      hands: 0,
      see: { diameterM: 0.02, angleDeg: 45, mirrorOk: true },
      lamp: true,
    });
  });

  it('is seen, held and turned by the words of needs where there are any', () => {
    expect(needsOf(task({ task: 'oilGlass', needs: ['hand'] }))).toMatchObject({ see: null, hands: 1, lamp: false });
    expect(needsOf(task({ needs: ['spanner'] }))).toMatchObject({ hands: 1, tool: { kind: 'spanner', swingDeg: 60 } });
    expect(needsOf(task({ needs: ['see', 'twoHands', 'driver'] }))).toMatchObject({
      hands: 2,
      tool: { kind: 'driver' },
      see: { distanceM: 0.7 },
    });
    expect(needsOf(task({ needs: ['tray', 'cup'] })).vessels.map(({ kind }) => kind)).toEqual(['tray', 'cup']);
    expect(needsOf(task({ needs: ['see'], task: 'other' })).hands).toBe(0);
  });

  it('what the record says counts before what is usual, value by value', () => {
    expect(needsOf(task({ task: 'gauge', see: { distanceM: 1.2 } })).see).toEqual({
      diameterM: 0.06,
      distanceM: 1.2,
      angleDeg: 45,
      mirrorOk: false,
    });
    expect(needsOf(task({ needs: ['spanner'], tool: { swingDeg: 30 } })).tool).toMatchObject({
      lengthM: 0.215,
      swingDeg: 30,
    });
    expect(needsOf(task({ task: 'bowlDrop', swingM: 0.25 })).tool).toMatchObject({ kind: 'strap', lengthM: 0.25 });
    expect(needsOf(task({ needs: ['tray'], below: { heightM: 0.1 } })).vessels).toEqual([
      { kind: 'tray', heightM: 0.1, acrossM: 0.2 },
    ]);
    expect(needsOf(task({ task: 'handle', standOffM: 0.1, coneDeg: 30, massKg: 2, minutes: 4 }))).toMatchObject({
      standOffM: 0.1,
      coneDeg: 30,
      massKg: 2,
      minutesWork: 4,
    });
    expect(needsOf(task({ see: {} })).see).not.toBeNull();
  });

  it('draws out as far as the clear space, of what tilts first the drop', () => {
    expect(needsOf(task({ task: 'elementWithdrawal', clearM: 0.64 })).withdraw).toEqual({
      lengthM: 0.64,
      longM: 0.64,
      tiltOk: false,
      dropM: 0,
    });
    expect(needsOf(task({ task: 'bowlDrop', clearM: 0.08 })).withdraw).toEqual({
      lengthM: 0.3,
      longM: 0.25,
      tiltOk: true,
      dropM: 0.08,
    });
    expect(needsOf(task({ task: 'bowlDrop', clearM: 0.32, tiltOk: false })).withdraw).toEqual({
      lengthM: 0.32,
      longM: 0.25,
      tiltOk: false,
      dropM: 0,
    });
    expect(needsOf(task({ withdrawM: 0.2 })).withdraw).toMatchObject({ lengthM: 0.2, longM: 0.2 });
    expect(needsOf(task({})).withdraw).toBeNull();
  });

  it('is due by its own intervals where it has any; zero is never', () => {
    expect(needsOf(task({ task: 'bowlDrop' }))).toMatchObject({ intervalH: 100, intervalDays: null });
    expect(needsOf(task({ task: 'bowlDrop', intervalDays: 30 }))).toMatchObject({ intervalH: null, intervalDays: 30 });
    expect(needsOf(task({ task: 'bowlDrop', intervalH: 0 }))).toMatchObject({ intervalH: null, intervalDays: null });
  });

  it('keeps keys that it does not know', () => {
    expect(task({ colour: 'red', see: { colour: 'blue' } })).toMatchObject({ colour: 'red', see: { colour: 'blue' } });
  });
});

// Usual minutes and hours a year: from memory. What is due how often: derived beside each.

describe('what the minutes of service are reckoned with', () => {
  const pump = { kind: 'pumpModule' } as const;

  it('is usual where the boat says nothing, and names each such value', () => {
    const assumed = assumptionsOf(boatOf(emptyBoat()));
    expect(assumed).toMatchObject({ setHoursYear: 100, engineHoursYear: 100, openMinutes: 0.5, liftOutMinutes: 1 });
    expect(assumed.assumed).toHaveLength(7);
  });

  // Derived: (60 + 15) L a day at 25 L/h are 3 h a day, for 40 days 120 h; every 20 h is 6 times a year.
  it('runs the set for the water that is wanted', () => {
    const assumed = assumptionsOf(
      boatOf({
        ...emptyBoat(),
        needs: { waterLDay: 60, flushL: 15 },
        serviceWork: { daysYear: 40 },
        parts: {
          pump: { name: 'Pump', kind: 'pumpModule', shape: { type: 'box', sizeM: [0.5, 0.3, 0.3] }, productLH: 25 },
        },
      }),
    );
    expect(assumed.setHoursYear).toBe(120);
    expect(assumed.assumed).not.toContain('daysYear');
    expect(taskTimesAYear(pump, task({ task: 'basket' }), assumed)).toBe(6);
  });

  it("counts the engine's hours for what belongs to it", () => {
    const assumed = assumptionsOf(boatOf({ ...emptyBoat(), serviceWork: { engineHoursYear: 300, setHoursYear: 50 } }));
    // 300 h every 150 and every 200 h, 50 h every 100 h
    expect(taskTimesAYear({ kind: 'engine' }, task({ task: 'belt' }), assumed)).toBe(2);
    expect(taskTimesAYear({ kind: 'filter' }, task({ task: 'fuelFilter' }), assumed)).toBe(1.5);
    expect(taskTimesAYear(pump, task({ task: 'bowlDrop' }), assumed)).toBe(0.5);
  });

  it('opens each kind of opening in its own time', () => {
    const assumed = assumptionsOf(boatOf({ ...emptyBoat(), serviceWork: { unscrewMinutes: 12 } }));
    expect(openingMinutes({ how: 'open' }, assumed)).toBe(0);
    expect(openingMinutes({ how: 'hinged' }, assumed)).toBe(0.5);
    expect(openingMinutes({ how: 'liftOut' }, assumed)).toBe(1);
    expect(openingMinutes({ how: 'screwed' }, assumed)).toBe(12);
    expect(openingMinutes({ how: 'screwed', minutes: 2 }, assumed)).toBe(2);
  });
});
