import { needsOf } from '@core/boat/catalogue/task-defaults';
import { taskOn, usualTasks } from '@core/boat/catalogue/usual-tasks';
import { service } from '@core/boat/schema/services';
import { part } from '@core/boat/schema/things';
import { describe, expect, it } from 'vitest';

const thing = (record: object) => part.parse({ name: 'Mine', ...record });
const battery = thing({ kind: 'battery', shape: { type: 'box', sizeM: [0.165, 0.7, 0.11] } });

describe('tasks that a thing of its kind usually has', () => {
  it('stand where they stand on the template, in proportion to the envelope', () => {
    const tasks = usualTasks(battery);
    expect(Object.values(tasks).map(({ task }) => task)).toEqual(expect.arrayContaining(['batteryPosts', 'liftOut']));
    for (const { at } of Object.values(tasks)) expect(at[2]).toBeCloseTo(0.055, 9);
  });

  it('ask for no clear space of their own; what is drawn out goes as far as the space of the template', () => {
    const filter = thing({ kind: 'strainer', shape: { type: 'box', sizeM: [0.13, 0.12, 0.2] } });
    const [lid] = Object.values(usualTasks(filter));
    expect(lid).toMatchObject({ task: 'basket', clearM: 0, withdrawM: 0.15 });
    expect(lid && needsOf(lid).withdraw?.lengthM).toBe(0.15);
  });

  it('are only those that it has not, and none of a kind without any', () => {
    const own = { ...battery, services: usualTasks(battery) };
    expect(usualTasks(own)).toEqual({});
    const posts = service.parse({ task: 'batteryPosts', at: [0, 0, 0.1], direction: [0, 0, 1] });
    expect(Object.values(usualTasks({ ...battery, services: { mine: posts } })).map(({ task }) => task)).not.toContain(
      'batteryPosts',
    );
    expect(usualTasks(thing({ kind: 'other', shape: { type: 'box', sizeM: [1, 1, 1] } }))).toEqual({});
  });

  it('a single one begins in the middle of the top, or below what is emptied downwards', () => {
    const { shape } = thing({ kind: 'filter', shape: { type: 'box', sizeM: [0.2, 0.2, 0.4] } });
    expect(taskOn({ shape }, 'oilFill')).toMatchObject({ at: [0, 0, 0.2], direction: [0, 0, 1], clearM: 0 });
    expect(taskOn({ shape }, 'bowlDrop')).toMatchObject({ at: [0, 0, -0.2], direction: [0, 0, -1] });
  });
});
