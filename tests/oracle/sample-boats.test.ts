import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { analyze } from '@core/analyze';
import { describe, expect, it } from 'vitest';
import { boatOf, judge } from './judged';

/** Derived: the oracle's own arithmetic on each sample boat's file and the primitives in its report. */
const SAMPLES = join(import.meta.dirname, '../../sample-boats');
const files = ['complete', 'minimal', 'faulty'].flatMap((kind) =>
  readdirSync(join(SAMPLES, kind), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => join(kind, entry.name)),
);

describe('the runs of the sample boats', () => {
  it.each(files)('%s: break no limit, and none is shorter than its bound', (folder) => {
    const boat = boatOf(JSON.parse(readFileSync(join(SAMPLES, folder, 'boat.json'), 'utf8')));
    expect(judge(boat, analyze(boat))).toEqual([]);
  });
});
