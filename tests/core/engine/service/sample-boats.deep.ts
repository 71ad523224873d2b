import { readFileSync } from 'node:fs';
import { atOnce } from '@core/engine/in-slices';
import { startService } from '@core/engine/service/service';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../boat/boat-of';

/** A search that gives up seldom: of the tasks of a whole boat no more than this share. */
const MOST_OPEN = 0.1;

describe.each(['sandwort', 'queller'])('service tasks of %s', (name) => {
  const boat = boatOf(JSON.parse(readFileSync(`sample-boats/complete/${name}/boat.json`, 'utf8')));

  it('leave hardly any open, and say of each that is by how much it falls short', () => {
    const { tasks } = atOnce(startService(boat));
    expect(tasks.length).toBeGreaterThan(50);
    const open = tasks.filter(({ verdict }) => verdict === 'noWayFound');
    expect(open.length / tasks.length).toBeLessThanOrEqual(MOST_OPEN);
    expect(open.filter(({ shortByM }) => shortByM === null).map(({ key }) => key)).toEqual([]);
    expect(tasks.filter(({ reason }) => reason === '')).toEqual([]);
  });
});
