import { atOnce } from '@core/engine/in-slices';
import { startService } from '@core/engine/service/service';
import { describe, expect, it } from 'vitest';
import { lockerBoat } from './locker-boat';

const judged = (changes: Readonly<Record<string, unknown>> = {}) => atOnce(startService(lockerBoat(changes))).tasks[0];

describe('how somebody comes to a task', () => {
  it('is through the door of a space in which there is no room to kneel', () => {
    // derived: 0.7 m between floor and ceiling, kneeling takes 0.8 m (practice, no source)
    const heads = { 'compartments.locker.kind': 'heads', 'compartments.locker.rangeM': [-0.4, 0.3] };
    expect(judged(heads)).toMatchObject({ verdict: 'byHand', posture: 'lean', openings: ['door'], standing: 'sole' });
  });

  it('is not through the door where a place to stand is drawn inside', () => {
    const inside = {
      'compartments.locker.kind': 'heads',
      'standingPlaces.inside': { name: 'Inside', at: [0.3, 0.4, -0.4], compartment: 'locker', posture: 'kneel' },
    };
    expect(judged(inside)).toMatchObject({ posture: 'free', openings: [], standing: 'inside' });
  });

  it('is not through a door that nobody can stand before', () => {
    const away = {
      'compartments.locker.kind': 'heads',
      'compartments.locker.rangeM': [-0.4, 0.3],
      'openings.door.standing': undefined,
      // 3.1 m from the door: a step and a lean are 1.6 m
      'standingPlaces.sole.at': [-2.2, -1.35, -0.6],
      'compartments.cabin.outline': [
        [-2.4, -1.4],
        [1.6, -1.4],
        [1.6, 0],
        [-2.4, 0],
      ],
    };
    expect(judged(away)).toMatchObject({
      verdict: 'notAsked',
      reason: 'nowhereToStand',
    });
  });
});
