import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { ensureBuilt } from '../../../electron/launch/build.mjs';
import { inProject } from '../../../electron/launch/project.mjs';
import { temporaryFolder } from '../../support/temporary-folder';

const folder = temporaryFolder();
const at = (...parts: string[]): string => path.join(folder, ...parts);
const underberth = (...words: string[]) => {
  const run = spawnSync(process.execPath, [inProject('electron', 'launch', 'underberth.mjs'), ...words], {
    encoding: 'utf8',
    cwd: folder,
    maxBuffer: 256 * 1024 * 1024,
  });
  return { code: run.status, out: run.stdout, error: run.stderr };
};

// The smallest boats: what is judged here is the command line, not the judgement.
const BARE = { format: 'underberth-boat', schemaVersion: 1, name: 'Bare' };
const written = (name: string, content: string | Uint8Array): string => {
  writeFileSync(at(name), content);
  return name;
};
const boatFile = (name: string, changes: object = {}): string => written(name, JSON.stringify({ ...BARE, ...changes }));

beforeAll(() => ensureBuilt(['cli']));

describe('underberth check', () => {
  it('judges a file, and a folder that holds boat.json, alike', () => {
    mkdirSync(at('bare'));
    boatFile('bare/boat.json');
    const byFile = underberth('check', 'bare/boat.json');
    const byFolder = underberth('check', 'bare');
    expect(byFile.code).toBe(0);
    expect(byFile.out).toMatch(/^Bare, no arrangement\n0 dangers, 0 faults, 0 advice/);
    expect(byFolder).toEqual(byFile);
  });

  it('prints the report as JSON with the agreed keys and nothing else', () => {
    const { out, code } = underberth('check', boatFile('keys.json'), '--json');
    const report = JSON.parse(out);
    const keys = [
      'engineVersion',
      'boat',
      'arrangement',
      'attitude',
      'places',
      'runs',
      'findings',
      'takeoff',
      'summary',
    ];
    expect([code, Object.keys(report).sort()]).toEqual([0, keys.sort()]);
  });

  it('takes the arrangement asked for, and knows when there is no such', () => {
    const arrangements = { port: { name: 'To port' }, starboard: { name: 'To starboard' } };
    const file = boatFile('two.json', { arrangements });
    expect(JSON.parse(underberth('check', file, '--json', '--arrangement', 'starboard').out).arrangement).toBe(
      'starboard',
    );
    const wrong = underberth('check', file, '--arrangement', 'aloft');
    expect([wrong.code, wrong.out]).toEqual([2, '']);
    expect(wrong.error).toContain('arrangements.aloft is missing, the boat has port, starboard');
  });

  it('lets nothing in a name steer the terminal', () => {
    const { out } = underberth('check', boatFile('escape.json', { name: 'Red \u001b[31m boat\u0007' }));
    expect(out).toContain('Red [31m boat');
    expect(['\u0007', '\u001b'].filter((control) => out.includes(control))).toEqual([]);
  });
});

describe('underberth survey', () => {
  const height = (from: string, to: string, valueM: number) => ({ from, to, kind: 'height', valueM });
  // derived: p stands 0.5 m over the sole by four readings of five; the fifth is 34 mm too long
  const survey = {
    datums: { sole: { at: [0, 0, 0], axis: 'z' }, deck: { at: [0, 0, 2], axis: 'z' } },
    readings: {
      '1': height('sole', 'p', 0.5),
      '2': height('deck', 'p', -1.5),
      '3': height('sole', 'p', 0.501),
      '4': height('p', 'deck', 1.5),
      '7': height('sole', 'p', 0.534),
    },
  };

  it('prints residuals, suspects and what to measure next, and nothing else', () => {
    const { out, code, error } = underberth('survey', boatFile('survey.json', { survey }), '--json');
    const printed = JSON.parse(out);
    expect([code, Object.keys(printed)]).toEqual([0, ['residuals', 'suspects', 'nextReadings']]);
    expect(printed.suspects).toMatchObject([{ reading: '7', orElse: [] }]);
    expect(printed.suspects[0].words).toMatch(/^Reading 7, sole to p, is off by 34 mm \(too long\): measure again\.$/);
    expect(printed.residuals.map((row: { reading: string }) => row.reading)).toEqual(['1', '2', '3', '4', '7']);
    // heights alone leave the point loose in plan: that is told, and proposed
    expect(error).toContain('p is not fixed along the boat and across the boat');
    const schema = JSON.parse(underberth('schema', '--report').out).$defs.survey;
    expect(z.fromJSONSchema(schema).safeParse(printed).success).toBe(true);
  });

  it('reads as text without --json', () => {
    const { out, code } = underberth('survey', boatFile('survey.json', { survey }));
    expect(code).toBe(0);
    expect(out).toContain('Reading 7, sole to p, is off by 34 mm (too long): measure again.');
    expect(out).toMatch(/\* 7 +sole +p +height +534\.0 +33\.\d/);
  });

  it('of a boat without one is empty; of one whose readings say nothing, the reason is named', () => {
    const none = underberth('survey', boatFile('none.json'), '--json');
    expect([none.code, JSON.parse(none.out)]).toEqual([0, { residuals: [], suspects: [], nextReadings: [] }]);
    const idle = { ...survey, readings: { '1': { from: 'sole', to: 'deck', kind: 'offset', valueM: 2 } } };
    const wrong = underberth('survey', boatFile('idle.json', { survey: idle }), '--json');
    expect(wrong.code).toBe(2);
    expect(wrong.error).toMatch(/Reading 1, sole to deck, was left out: it runs from plane to plane/);
  });
});

describe('underberth hull', () => {
  const ROW = [
    ...['draughtM', 'heelDeg', 'displacementKg', 'volumeM3', 'waterplaneAreaM2', 'lcbM', 'lcfM', 'kbM', 'bmM', 'bmlM'],
    ...['wettedSurfaceM2', 'immersionKgPerCm', 'momentToTrimNmPerCm', 'sinkageM', 'yBM', 'zBM'],
  ];
  /** Box 8 x 3 m, bottom at z = -0.5, sheer at z = 0.7. */
  const hull = {
    stations: Object.fromEntries(
      [0, 8].map((xM) => [
        `x${xM}`,
        {
          xM,
          points: [
            [0, -0.5],
            [1.5, -0.5],
            [1.5, 0.7],
          ],
          knuckles: [1],
        },
      ]),
    ),
  };

  it('prints rows by draught, that of the reference attitude among them, as the schema says', () => {
    const { out, code } = underberth('hull', boatFile('box.json', { hull }), '--json');
    const { rows, ...rest } = JSON.parse(out) as { rows: Record<string, number>[] };
    expect([code, rest]).toEqual([0, {}]);
    for (const row of rows) expect(Object.keys(row)).toEqual(ROW);
    expect(rows.map((row) => row.draughtM)).toEqual([...rows.map((row) => row.draughtM ?? 0)].sort((a, b) => a - b));
    const reference = rows.find((row) => row.sinkageM === 0);
    // Derived: closed form of the box, see the outside checks.
    expect(reference?.displacementKg).toBeCloseTo(12300, 6);
    const schema = JSON.parse(underberth('schema', '--report').out) as { $defs: { hull: object } };
    expect(z.fromJSONSchema(schema.$defs.hull as Parameters<typeof z.fromJSONSchema>[0]).parse({ rows })).toEqual({
      rows,
    });
  });

  it('keeps the displacement at a heel, and takes a draught as it stands', () => {
    const file = boatFile('box.json', { hull });
    const row = (...words: string[]): Record<string, number> =>
      JSON.parse(underberth('hull', file, ...words, '--json').out).rows[0];
    // Derived: b = sqrt(2 A / tan) of a triangle of 1.5 m2 at 20 degrees; the water crosses the centre plane b tan - 1.5 tan up.
    const tangent = Math.tan(Math.PI / 9);
    const heeled = row('--heel', '20');
    expect(heeled.volumeM3).toBeCloseTo(12, 6);
    expect(heeled.draughtM).toBeCloseTo((Math.sqrt(3 / tangent) - 1.5) * tangent, 6);
    expect(heeled.sinkageM).toBeCloseTo((heeled.draughtM ?? 0) - 0.5, 9);
    expect(heeled.yBM).toBeLessThan(0);
    expect(row('--heel', '-20').yBM).toBeCloseTo(-(heeled.yBM ?? 0), 9);
    expect(row('--draught', '0.25').volumeM3).toBeCloseTo(6, 9);
    expect(row('--draught', '0.5', '--heel', '10').volumeM3).toBeCloseTo(12, 9);
  });

  it('floats the boat at her mass when nothing was measured, and says so', () => {
    const { out } = underberth('hull', boatFile('mass.json', { hull, weights: { displacementKg: 6150 } }));
    expect(out).toContain('reference attitude from the mass entered, nothing measured');
    expect(out.split('\n').some((line) => /^ *0\.250 +0\.0 +6150 /.test(line))).toBe(true);
  });

  it.each([
    ['no hull', {}, [], 'hull is missing'],
    ['a mass that sinks her', { hull, weights: { displacementKg: 40000 } }, [], 'weights.displacementKg is 40000'],
    ['a draught above the sheer', { hull }, ['--draught', '1.21'], '--draught is 1.21; the lowest point of the sheer'],
    [
      'a water below the keel',
      { hull, reference: { levelMarks: { a: { at: [4, 0, -0.8] } } } },
      [],
      'the water does not reach the hull: it lies 0.300 m below',
    ],
  ] as const)('ends with 2 for %s', (name, changes, words, message) => {
    const { out, error, code } = underberth('hull', boatFile(`${name.replaceAll(' ', '-')}.json`, changes), ...words);
    expect([code, out]).toEqual([2, '']);
    expect(error).toContain(message);
  });

  it('says when the sheer is under water', () => {
    expect(underberth('hull', boatFile('box.json', { hull }), '--heel', '40').error).toMatch(
      /the sheer lies up to \d\.\d{3} m under water/,
    );
  });
});

describe('npm run underberth', () => {
  it('finds a file from where the user stands, and prints the result alone', () => {
    boatFile('here.json');
    const npm = process.env.npm_execpath;
    const words = ['run', '--silent', '--prefix', inProject(), 'underberth', '--', 'check', 'here.json', '--json'];
    const run = npm
      ? spawnSync(process.execPath, [npm, ...words], { encoding: 'utf8', cwd: folder })
      : spawnSync('npm', words, { encoding: 'utf8', cwd: folder, shell: process.platform === 'win32' });
    expect([run.status, run.stderr, JSON.parse(run.stdout).boat]).toEqual([0, '', 'Bare']);
  });
});

describe('unusable input', () => {
  it.each<[string, () => string, RegExp]>([
    ['no such file', () => 'nowhere.json', /nowhere\.json is not there/],
    ['a folder without boat.json', () => '.', /not there/],
    ['no JSON', () => written('broken.json', '{"format":'), /JSON/],
    ['no boat', () => written('other.json', '{"format":"other"}'), /format is "other"/],
    ['a newer version', () => boatFile('newer.json', { schemaVersion: 99 }), /newer/],
    ['a wrong value', () => boatFile('wrong.json', { greatestHeelDeg: 'steep' }), /greatestHeelDeg is "steep"/],
    ['no text', () => written('bytes.json', new Uint8Array([0xff, 0xfe])), /not UTF-8/],
    ['too much', () => written('huge.json', new Uint8Array(20_000_001).fill(32)), /at most 20000000/],
    ['no such flag', () => '--jsn', /knows no --jsn/],
  ])('%s: exit 2, nothing on standard output, path, value and limit on standard error', (_what, file, words) => {
    const { code, out, error } = underberth('check', file());
    expect([code, out]).toEqual([2, '']);
    expect(error).toMatch(words);
    expect(error).not.toMatch(/\n\s+at /);
  });
});

describe('underberth list', () => {
  it('writes the same list to standard output and to a file', () => {
    const file = boatFile('list.json');
    const printed = underberth('list', file);
    expect([printed.code, printed.out.split(',')[0]]).toEqual([0, 'No.']);
    const written = underberth('list', file, '--csv', 'out.csv');
    expect([written.code, written.out]).toEqual([0, '']);
    expect(readFileSync(at('out.csv'), 'utf8')).toBe(printed.out);
    expect(underberth('list', file, '--csv', 'no/such/folder.csv').code).toBe(2);
  });
});

describe('underberth schema', () => {
  it('prints JSON Schemas of the boat and of the report, which fit a boat and its report', () => {
    const boat = underberth('schema');
    const report = underberth('schema', '--report');
    expect([boat.code, report.code]).toEqual([0, 0]);
    // Read back by the converse of what wrote them.
    const boatShape = z.fromJSONSchema(JSON.parse(boat.out));
    expect(boatShape.safeParse(BARE).success).toBe(true);
    expect(boatShape.safeParse({ ...BARE, name: 5 }).success).toBe(false);
    const reportShape = z.fromJSONSchema(JSON.parse(report.out));
    const printed = JSON.parse(underberth('check', boatFile('shape.json'), '--json').out);
    expect(reportShape.safeParse(printed).error?.issues ?? []).toEqual([]);
    expect(reportShape.safeParse({ ...printed, runs: 'none' }).success).toBe(false);
  });
});

describe('a whole boat', () => {
  const boat = inProject('sample-boats', 'complete', 'sandwort');

  it('gets the same report twice, byte for byte, in the shape that the schema gives', () => {
    const first = underberth('check', boat, '--json');
    expect(underberth('check', boat, '--json')).toEqual(first);
    const report = JSON.parse(first.out);
    const shape = z.fromJSONSchema(JSON.parse(underberth('schema', '--report').out));
    expect(shape.safeParse(report).error?.issues ?? []).toEqual([]);
    expect(report.runs.length).toBe(report.summary.routed + report.summary.blocked);
    // One heading a finding, in the words for people.
    const { out, code } = underberth('check', boat);
    expect(code).toBe(first.code);
    const headings = (head: string): number => out.split('\n').filter((line) => line.startsWith(head)).length;
    expect([headings('DANGER '), headings('FAULT '), headings('ADVICE '), headings('CANNOT TELL ')]).toEqual(
      ['danger', 'fault', 'advice', 'cannotTell'].map((name) => report.summary[name]),
    );

    // The list has the report's rows, and every line that is not aboard already is in one of them.
    const list = underberth('list', boat);
    const rows = list.out.trimEnd().split('\r\n').slice(1);
    expect([list.code, rows.length]).toEqual([0, report.takeoff.length]);
    const listed = new Set(report.takeoff.flatMap((row: { from: string[] }) => row.from));
    const { lines } = JSON.parse(readFileSync(path.join(boat, 'boat.json'), 'utf8'));
    const wanted = report.runs.map((run: { lineId: string }) => run.lineId).filter((id: string) => !lines[id].existing);
    expect(wanted.length).toBeGreaterThan(0);
    expect(wanted.filter((id: string) => !listed.has(id))).toEqual([]);
  });
});
