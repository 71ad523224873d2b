import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { ensureBuilt } from '../../../electron/launch/build.mjs';
import { inProject } from '../../../electron/launch/project.mjs';
import { temporaryFolder } from '../../support/temporary-folder';

const folder = temporaryFolder();
const underberth = (...words: string[]) => {
  const run = spawnSync(process.execPath, [inProject('electron', 'launch', 'underberth.mjs'), ...words], {
    encoding: 'utf8',
    cwd: folder,
    maxBuffer: 256 * 1024 * 1024,
  });
  return { code: run.status, out: run.stdout, error: run.stderr };
};
const FAULTY = inProject('sample-boats', 'faulty', 'access-service-task', 'boat.json');

type Json = Record<string, unknown>;
type BoatJson = Json & {
  openings: { door: Json };
  arrangements: { plan: { places: Json } };
};

/** The faulty boat with some of it changed, written beside. */
function bent(name: string, change: (boat: BoatJson) => void): string {
  const boat = JSON.parse(readFileSync(FAULTY, 'utf8')) as BoatJson;
  change(boat);
  writeFileSync(path.join(folder, name), JSON.stringify(boat));
  return name;
}

beforeAll(() => ensureBuilt(['cli']));

describe('underberth service', () => {
  it('prints the tasks as its schema says, and ends with 1 where the plan leaves one undone', () => {
    const { code, out } = underberth('service', FAULTY, '--json');
    const report = JSON.parse(out) as { tasks: Json[] };
    const schema = JSON.parse(underberth('schema', 'service').out) as Parameters<typeof z.fromJSONSchema>[0];
    expect(z.fromJSONSchema(schema).parse(report)).toEqual(report);
    expect(code).toBe(1);
    expect(report.tasks).toMatchObject([
      { thing: 'filter', isPart: true, task: 'bowlDrop', verdict: 'notAtAll', blockers: [{ owner: 'door' }] },
    ]);
  });

  it('says without --json what is in the way, by how much, and what it was measured against', () => {
    const { out } = underberth('service', FAULTY);
    expect(out).toMatch(/^Service task, arrangement plan, service: judged by the reach of a middling adult/);
    expect(out).toContain('Coarse filter: Bowl down: NOT AT ALL');
    expect(out).toMatch(/Door of locker/);
    expect(out).toMatch(/340 mm, at least 500 mm, not met/);
    expect(out).toMatch(/Unverified default, from memory: [^.]*MIL-STD-1472[^.]*\(room for two hands\)/);
    expect(out).toMatch(/at least 500 mm, not met,\s+unverified default/);
  });

  it('ends with 0 where everything goes, and names posture, opening and hand', () => {
    const wide = bent('wide.json', ({ openings: { door }, arrangements: { plan } }) => {
      Object.assign(door, { widthM: 0.9, heightM: 0.7 });
      plan.places.filter = { at: [0.6, 0.35, 0.1] };
    });
    const { code, out } = underberth('service', wide);
    expect([code, out]).toEqual([0, expect.stringContaining('WITH TOOLS')]);
    expect(out).toMatch(/through Door of locker/);
    expect(out).toMatch(/to spare about the arm/);
  });

  it('judges by the reach of whoever is asked for, and knows when there is no such', () => {
    const crew = bent('crew.json', (boat) => {
      boat.people = { mate: { name: 'Mate', percentile: 30, sex: 'female' } };
    });
    expect(underberth('service', crew, '--person', 'mate').out).toContain('judged by the reach of Mate');
    expect(underberth('service', crew, '--person', 'cook')).toMatchObject({
      code: 2,
      error: 'underberth: people.cook is missing, the boat has mate\n',
    });
    expect(underberth('service', FAULTY, '--arrangement', 'nowhere')).toMatchObject({ code: 2, out: '' });
  });

  it('says so where nothing is asked', () => {
    writeFileSync(
      path.join(folder, 'bare.json'),
      JSON.stringify({ format: 'underberth-boat', schemaVersion: 1, name: 'Bare' }),
    );
    const { code, out } = underberth('service', 'bare.json');
    expect([code, out]).toEqual([0, expect.stringContaining('No service task is entered.')]);
  });
});
