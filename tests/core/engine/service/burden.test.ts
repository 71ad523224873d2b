import { atOnce } from '@core/engine/in-slices';
import { startService } from '@core/engine/service/service';
import { Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { lockerBoat } from './locker-boat';

describe('minutes of service a year', () => {
  it('are times a year times what getting at it and the work take', () => {
    const report = atOnce(startService(lockerBoat({ 'openings.door.moveFirst': ['Cushion'] })));
    // derived: every 73 days is 5 times a year; 1 min for a board that lifts out, 3 for the cushion, 2 of work: 5 x 6 = 30
    expect(report.tasks[0]?.minutes).toEqual({ access: 4, work: 2, timesAYear: 5, aYear: 30 });
    expect(report.burden).toEqual({
      aYear: 30,
      accessAYear: 20,
      byThing: [{ thing: 'pump', aYear: 30, accessAYear: 20 }],
      leftOut: 0,
    });
  });

  it('follow the assumptions of the boat, and leave out what cannot be done', () => {
    const assumed = { serviceWork: { openMinutes: 4, moveMinutes: 6 }, 'openings.door.moveFirst': ['Cushion'] };
    expect(atOnce(startService(lockerBoat(assumed))).burden.aYear).toBeCloseTo(5 * (4 + 6 + 2), 9);
    const shut = atOnce(startService(lockerBoat({ 'openings.door.heightM': 0.05 })));
    expect(shut.tasks[0]).toMatchObject({ verdict: 'notAtAll', minutes: { timesAYear: 5, aYear: null } });
    expect(shut.burden).toMatchObject({ aYear: 0, leftOut: 1 });
  });
});

describe('a rehearsal', () => {
  it('goes in order, and its minutes are those of the task', () => {
    const session = new Session(lockerBoat({ 'openings.door.moveFirst': ['Cushion'] }));
    const [task] = atOnce(session.service()).tasks;
    const steps = atOnce(session.rehearsal('pump/knob'));
    expect(steps.map(({ kind }) => kind)).toEqual(['go', 'move', 'open', 'reach', 'work', 'close']);
    expect(steps.reduce((sum, { minutes }) => sum + minutes, 0)).toBeCloseTo(
      (task?.minutes.access ?? 0) + (task?.minutes.work ?? 0),
      9,
    );
    const reach = steps.find(({ kind }) => kind === 'reach');
    expect(reach?.person).toMatchObject({ at: [0.6, -0.5, -0.6], posture: 'lean' });
    // the grip stands 60 mm before the face of the pump at y 0.4
    expect(reach?.arms[0]?.grip[1]).toBeCloseTo(0.34, 6);
    expect(steps[2]).toMatchObject({ kind: 'open', subject: 'door', minutes: 0.5 });
  });

  it('shows the eye and its rays, the swing of a lid, the bowl on its way and where the drops fall', () => {
    const filter = {
      name: 'Filter',
      kind: 'filter',
      liquidL: 0.8,
      shape: { type: 'box', sizeM: [0.13, 0.13, 0.3] },
      pose: { at: [0.6, 0.35, 0.1] },
      services: {
        bowl: {
          task: 'bowlDrop',
          at: [0, 0, -0.15],
          direction: [0, 0, -1],
          acrossM: [0.13, 0.13],
          round: true,
          see: {},
        },
      },
    };
    const boat = lockerBoat({
      'fixtures.pump': undefined,
      'fixtures.filter': filter,
      'openings.door.widthM': 0.9,
      'openings.door.heightM': 0.6,
      'openings.door.how': 'hinged',
      'openings.door.swing': { hingeAlong: 'left', angleDeg: 110 },
    });
    const steps = atOnce(new Session(boat).rehearsal('filter/bowl'));
    const of = (kind: string) => steps.find((step) => step.kind === kind);
    expect(of('open')?.swept.length).toBeGreaterThan(3);
    expect(of('look')?.rays.length).toBeGreaterThan(3);
    expect(of('withdraw')?.swept.length).toBeGreaterThan(0);
    const drip = of('catch')?.drip ?? [];
    // from the bottom of the bowl at z -0.05 to the floor of the locker at -0.4
    expect(drip[0]?.[2]).toBeCloseTo(-0.05, 6);
    expect(drip[1]?.[2]).toBeCloseTo(-0.4, 3);
  });
});
