import { readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { gradeM } from '@core/boat/accuracy';
import { edit } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { candidatesFor } from '@core/engine/measure-next/candidates';
import { nextReadings, startNextReadings } from '@core/engine/measure-next/next-readings';
import { presentValue } from '@core/engine/measure-next/present-value';
import { readingTaken } from '@core/engine/measure-next/reading-taken';
import { Session } from '@core/engine/session';
import { readingText } from '@core/output/text/reading-text';
import type { NextReading } from '@core/rules/next-reading';
import { referenceAttitude } from '@core/shape/hull/attitude';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';
import { describe, expect, it } from 'vitest';
import { type BoatDraft, threeLockers } from '../../../support/boats';
import { boatFrom } from '../moved-boats';

function boatOf(draft: BoatDraft): Boat {
  const read = checkBoat(draft);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.boat;
}

const taken = (boat: Boat, reading: NextReading, value: number | null): Boat => {
  const result = edit(boat, readingTaken(reading, value));
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
};

const cube = (name: string, side: number) => ({
  name,
  kind: 'sparesBox' as const,
  shape: { type: 'box' as const, sizeM: [side, side, side] as [number, number, number] },
});

/**
 * Three cubes of 90, 100 and 110 mm in a locker that is known well, behind a lid whose width is a guess. Ids are given, so that a
 * test may rename them.
 */
function threeCubes(widthM: number, ids = { locker: 'locker', lid: 'lid', cubes: ['a', 'b', 'c'] }): BoatDraft {
  const [a = '', b = '', c = ''] = ids.cubes;
  return {
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Three cubes',
    gradeOf: { [`openings.${ids.lid}.widthM`]: 'guessed' },
    compartments: {
      [ids.locker]: {
        name: 'Locker',
        view: 'plan',
        outline: [
          [0, -0.6],
          [2, -0.6],
          [2, 0.6],
          [0, 0.6],
        ],
        rangeM: [0, 0.8],
        grade: 'measured',
      },
    },
    openings: {
      [ids.lid]: {
        name: 'Lid',
        compartment: ids.locker,
        at: [1, 0, 0.8],
        normal: [0, 0, 1],
        up: [1, 0, 0],
        widthM,
        heightM: 0.7,
      },
    },
    parts: { [a]: cube('Small', 0.09), [b]: cube('Middle', 0.1), [c]: cube('Large', 0.11) },
    arrangements: {
      plan: {
        name: 'Plan',
        places: { [a]: { at: [0.4, 0, 0.2] }, [b]: { at: [1, 0, 0.2] }, [c]: { at: [1.6, 0, 0.2] } },
      },
    },
  };
}

describe('what to measure next', () => {
  it('finds the one width that three verdicts hang on, and what it is worth', () => {
    // Derived. A lid of 150 mm leaves 60, 50 and 40 mm; guessed, it is good to 100 mm: all three are close calls. Measured, the
    // grade is that of lid (width and height) and cube, 5 mm each: 8.7 mm, clean beyond 13 mm. Standard deviation of what the
    // reading may bring: sqrt(100^2 - 5^2) / 2 = 49.9 mm. At -64, -26, 0, 26 and 64 mm the spares are, of the 90 mm cube,
    // -4 (close), 34, 60, 86, 124; of the 100 mm cube -14 (clean, it does not pass), 24, 50, 76, 114; of the 110 mm cube
    // -24, 14, 40, 66, 104: 4, 5 and 5 of 5 are clean. Three faults at weight 3: 3 (0.8 + 1 + 1) = 8.4.
    const readings = nextReadings(boatOf(threeCubes(0.15)));
    expect(readings).toHaveLength(1);
    expect(readings[0]).toMatchObject({
      id: 'openings.lid.widthM',
      kind: 'openingWidth',
      record: 'lid',
      present: 0.15,
      grade: 'guessed',
      gradeM: 0.1,
      value: 8.4,
    });
    expect(readings[0]?.settles).toEqual([
      { key: 'access/way-in|b|', chance: 1, along: [] },
      { key: 'access/way-in|c|', chance: 1, along: [] },
      { key: 'access/way-in|a|', chance: 0.8, along: [] },
    ]);
  });

  it('gives readings for every close call, also where none of the outcomes that were tried settles it', () => {
    // Derived. A lid of 140 mm square, both sides taped, leaves a cube of 135 mm 5 mm: tries in which the two sides slip against
    // each other always leave one of them smaller than the cube by less than the tape tells, or by more.
    for (const side of [0.13, 0.133, 0.135, 0.138, 0.14, 0.143]) {
      const draft = threeCubes(0.14);
      const lid = draft.openings?.lid;
      if (!lid) throw new Error('expected a lid');
      const boat = boatOf({
        ...draft,
        gradeOf: { 'openings.lid.widthM': 'taped', 'openings.lid.heightM': 'taped' },
        openings: { lid: { ...lid, heightM: 0.14 } },
        parts: { a: cube('Cube', side) },
        arrangements: { plan: { name: 'Plan', places: { a: { at: [1, 0, 0.2] } } } },
      });
      const close = analyze(boat).findings.filter((finding) => 'closeCall' in finding);
      const advised = nextReadings(boat);
      for (const { key } of close) {
        const settling = advised.flatMap(({ settles }) => settles.filter((one) => one.key === key));
        expect(settling.length).toBeGreaterThan(0);
        for (const { chance } of settling) expect(chance).toBeGreaterThanOrEqual(0.1);
      }
    }
  });

  it('gives none where every verdict is sure', () => {
    // Derived: 500 mm leave 390 mm and more, beyond 1.5 times 100 mm.
    expect(nextReadings(boatOf(threeCubes(0.5)))).toEqual([]);
  });

  it('settles what it names: with the reading entered those verdicts are clean', () => {
    const boat = boatOf(threeCubes(0.15));
    const [reading] = nextReadings(boat);
    if (!reading) throw new Error('expected a reading');
    const before = analyze(boat);
    const after = analyze(taken(boat, reading, 0.152));
    for (const { key } of reading.settles) {
      expect(before.findings.find((finding) => finding.key === key)).toHaveProperty('closeCall');
      expect(after.findings.find((finding) => finding.key === key)).not.toHaveProperty('closeCall');
    }
    expect(nextReadings(taken(boat, reading, 0.152))).toEqual([]);
  });

  it('does not hang on what things are called, and is the same every time', () => {
    const renamed = nextReadings(boatOf(threeCubes(0.15, { locker: 'z9', lid: 'a0', cubes: ['q', 'm', 'd'] })));
    const plain = nextReadings(boatOf(threeCubes(0.15)));
    expect(renamed.map(({ kind, value, present }) => ({ kind, value, present }))).toEqual(
      plain.map(({ kind, value, present }) => ({ kind, value, present })),
    );
    const newName: Readonly<Record<string, string>> = { q: 'a', m: 'b', d: 'c' };
    const called = renamed[0]?.settles.map(({ key, chance }) => [newName[key.split('|')[1] ?? ''], chance]);
    expect(new Map(called as [string, number][])).toEqual(
      new Map(plain[0]?.settles.map(({ key, chance }) => [key.split('|')[1] as string, chance])),
    );
    expect(nextReadings(boatOf(threeCubes(0.15)))).toEqual(plain);
  });

  it('leaves out what was accepted', () => {
    const draft = threeCubes(0.15);
    const accepted = { by: 'Owner', why: 'Tried with cardboard', on: '2026-05-01' };
    const boat = boatOf({
      ...draft,
      accepted: { 'access/way-in|a|': accepted, 'access/way-in|b|': accepted, 'access/way-in|c|': accepted },
    });
    expect(nextReadings(boat)).toEqual([]);
  });

  it('takes both walls of a tight locker as one reading, its clear length', () => {
    // Derived. A cube of 400 mm in a locker of 440 mm whose sides are guessed: 40 mm of play, good to 141 mm. One tape from side
    // to side makes sure of both, and leaves 40 mm that are good to 9 mm.
    const draft = threeCubes(0.5);
    const boat = boatOf({
      ...draft,
      gradeOf: {},
      compartments: {
        locker: {
          name: 'Locker',
          view: 'section',
          outline: [
            [-0.6, 0],
            [0.6, 0],
            [0.6, 0.8],
            [-0.6, 0.8],
          ],
          rangeM: [0, 0.44],
          grade: 'guessed',
        },
      },
      openings: {
        lid: { name: 'Lid', compartment: 'locker', at: [0.22, 0, 0.8], normal: [0, 0, 1], widthM: 1.2, heightM: 0.7 },
      },
      parts: { a: cube('Large', 0.4) },
      arrangements: { plan: { name: 'Plan', places: { a: { at: [0.22, 0, 0.4] } } } },
    });
    const readings = nextReadings(boat, { most: 10 });
    const length = readings.find(({ kind }) => kind === 'clearLength');
    expect(length).toMatchObject({ record: 'locker', axis: 'x' });
    expect(length?.present).toBeCloseTo(0.44, 9);
    expect([...(length?.paths ?? [])].sort()).toEqual(['compartments.locker.rangeM.0', 'compartments.locker.rangeM.1']);
    expect(length?.settles.map(({ key }) => key)).toContain('access/overlap|a|');
    const after = taken(boat, length as NextReading, 0.46);
    const [from = 0, to = 0] = after.compartments.locker?.rangeM ?? [];
    expect(to - from).toBeCloseTo(0.46, 6);
    expect(analyze(after).findings.find(({ key }) => key === 'access/overlap|a|')).not.toHaveProperty('closeCall');
    expect(presentValue(after, length as NextReading)).toBeCloseTo(0.46, 6);
  });

  it('takes the sizes of a part that is guessed as one look into its data sheet', () => {
    // Derived. A box of 400 mm, all guessed, in a locker of 800 mm: three sizes in doubt, one sheet. Looked up they are good to
    // 5 mm, and 100 mm and more are left on every side.
    const draft = threeCubes(0.5);
    const boat = boatOf({
      ...draft,
      gradeOf: {},
      parts: { a: { ...cube('Pump', 0.4), grade: 'guessed' } },
      arrangements: { plan: { name: 'Plan', places: { a: { at: [1, 0, 0.25] } } } },
    });
    const ofPart = nextReadings(boat, { most: 10 }).filter(({ kind }) => kind === 'partSize');
    expect(ofPart).toHaveLength(1);
    const [sheet] = ofPart as [NextReading];
    expect(sheet).toMatchObject({ id: 'parts.a', record: 'a', present: null, grade: 'guessed' });
    expect(readingText(sheet, boat)).toMatchObject({
      title: 'Look up in the data sheet: sizes of Pump',
      present: '400 \u00d7 400 \u00d7 400 mm (guessed, \u00b1100 mm)',
    });
    const after = taken(boat, sheet, null);
    for (const k of [0, 1, 2]) expect(after.gradeOf?.[`parts.a.shape.sizeM.${k}`]).toBe('measured');
    const close = (judged: Boat): number => analyze(judged).findings.filter((found) => 'closeCall' in found).length;
    expect(close(after)).toBeLessThan(close(boat));
    expect(nextReadings(after, { most: 10 }).filter(({ kind }) => kind === 'partSize')).toEqual([]);
  });

  it('leaves the tape its places beside data sheets', () => {
    // Derived: two places, of which two of five are one; without a guess about the lid there is nothing else than the sheets.
    const draft = threeCubes(0.15);
    const guessed = Object.fromEntries(
      Object.entries(draft.parts ?? {}).map(([id, part]) => [id, { ...part, grade: 'guessed' as const }]),
    );
    const kinds = (boat: BoatDraft): string[] => nextReadings(boatOf(boat), { most: 2 }).map(({ kind }) => kind);
    expect(kinds({ ...draft, parts: guessed }).sort()).toEqual(['openingWidth', 'partSize']);
    expect(kinds({ ...draft, parts: guessed, gradeOf: {} })).toEqual(['partSize', 'partSize']);
    const many = nextReadings(boatOf({ ...draft, parts: guessed }), { most: 10 });
    expect(many.map(({ value }) => value)).toEqual(many.map(({ value }) => value).sort((a, b) => b - a));
  });

  it('asks for the input that a verdict lacks, once for all that lack it', () => {
    const draft = threeLockers();
    const pump = draft.parts?.pump;
    if (!pump) throw new Error('expected a pump');
    const { electric: _, ...bare } = pump;
    const power = draft.lines?.power;
    if (!power) throw new Error('expected a line');
    const { currentA: __, ...noCurrent } = power;
    const boat = boatOf({
      ...draft,
      parts: { ...draft.parts, pump: bare },
      lines: { ...draft.lines, power: noCurrent },
    });
    const missing = nextReadings(boat, { most: 20 }).find(({ id }) => id === 'missing:parts.pump.electric.drawA');
    expect(missing).toMatchObject({ kind: 'missing', unit: 'A', present: null, record: 'pump' });
    expect(missing?.enterNext).toBe('Enter the current that Pump module draws');
    const after = taken(boat, missing as NextReading, 30);
    expect(after.parts.pump?.electric?.drawA).toBe(30);
    const verdict = analyze(after).findings.find(({ key }) => key === 'power/motor-voltage|pump|');
    expect(verdict?.outcome).not.toBe('cannotTell');
  });

  it.each([
    'openings.nav-lid.widthM',
    'openings.nav-lid.heightM',
    'compartments.nav-locker.rangeM.0',
    'compartments.nav-locker.rangeM.1',
    'compartments.settee-stbd-aft.outline.1',
    'compartments.back-port.rangeM.0',
    'compartments.quarter-void.outline.1',
    'fixtures.bank-a.pose.at.0',
    'fixtures.bank-a.pose.at.1',
    'fixtures.bank-a.pose.at.2',
    'fixtures.intake.pose.at.2',
    'parts.pump.shape.sizeM.1',
    'parts.membrane.shape.lengthM',
    'hull.stations.s4',
    'reference.freeboards.bow-port',
  ])('reads back what is entered at %s', (path) => {
    // A round trip: what the tape showed is what the drawing then shows.
    const bare = boatFrom(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
    const known = path.startsWith('hull') ? `hull.stations.${Object.keys(bare.hull?.stations ?? {})[4]}` : path;
    const boat = { ...bare, gradeOf: { [known]: 'guessed' as const } };
    const layout = deriveLayout({ ...boat, newHoles: {} });
    const hull = boat.hull ? hullSurface(boat.hull) : null;
    const candidates = candidatesFor(known, {
      boat,
      arrangementId: boat.currentArrangement ?? null,
      hull,
      attitude: referenceAttitude(boat, hull),
      compartmentOf: (id) => layout.compartmentAt(boat.fixtures[id]?.pose.at ?? [0, 0, 0]),
      gradeM: (grade) => gradeM(boat, grade),
    });
    const candidate = candidates.find(({ paths }) => paths.includes(known));
    if (!candidate) throw new Error(`expected a reading for ${known}`);
    const reading: NextReading = { ...candidate, settles: [], value: 0 };
    expect(reading).toMatchObject({ grade: 'guessed', gradeM: 0.1, unit: 'm' });
    expect(presentValue(boat, reading)).toBeCloseTo(reading.present ?? Number.NaN, 9);
    const value = (reading.present ?? 0) + 0.011;
    const after = taken(boat, reading, value);
    expect(presentValue(after, reading)).toBeCloseTo(value, 5);
    for (const one of reading.paths) expect(after.gradeOf?.[one]).toBe('measured');
    const words = readingText(reading, boat);
    expect([words.title, words.from, words.to, words.present].filter((word) => word === '')).toEqual([]);
  });

  it('works in slices: every step but the last tells how far it has come', () => {
    const work = startNextReadings(boatOf(threeCubes(0.15)));
    const seen: number[] = [];
    for (;;) {
      const step = work.step();
      if ('answer' in step) break;
      expect(step.progress.done).toBeLessThanOrEqual(step.progress.of);
      seen.push(step.progress.done);
    }
    expect(seen.length).toBeGreaterThan(4);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
  });

  it('asked of a session, are those of a cold look, whatever was edited and dragged before, and leave its answers as they are', () => {
    const boat = boatOf(threeCubes(0.15));
    const session = new Session(boatOf(threeLockers()));
    session.settled();
    session.open(boat);
    const place = boat.arrangements.first?.places.pump;
    if (place)
      session.whatIf({ seq: 1, places: { pump: { ...place, at: [place.at[0] + 0.02, place.at[1], place.at[2]] } } });
    session.step();
    const work = session.nextReadings(5);
    for (;;) {
      const step = work.step();
      if (!('answer' in step)) continue;
      expect(step.answer).toEqual(nextReadings(boat));
      break;
    }
    expect(session.settled()).toEqual(analyze(boat));
  });
});
