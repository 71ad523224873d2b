import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type BoatRecipe, edit } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import {
  arrangementDuplicated,
  idFrom,
  recordAdded,
  recordDuplicated,
  recordRemoved,
  recordRenamed,
  valueGraded,
  valueRemoved,
  valueSet,
} from '@core/boat/record/edits';
import { schemaAt, valueAt } from '@core/boat/record/fields';
import { starterAt } from '@core/boat/record/starters';
import { type Boat, boatSchema } from '@core/boat/schema/boat';
import { isPlain, recordValue, sameValue } from '@core/boat/schema-walk';
import { describe, expect, it } from 'vitest';

const read = readBoat(
  readFileSync(fileURLToPath(new URL('../../../../sample-boats/complete/sandwort/boat.json', import.meta.url)), 'utf8'),
);
if (!read.ok) throw new Error('expected the sample to be a boat');
const { boat } = read;
const made = (from: Boat, recipe: BoatRecipe): Boat => {
  const edited = edit(from, recipe);
  if (!edited.ok) throw new Error(edited.problems.map(({ message }) => message).join('\n'));
  return edited.boat;
};
const firstId = (records: object): string => Object.keys(records)[0] ?? '';

describe('a value by its path', () => {
  it('is set in groups that are not there yet, and taken out with what was typed for it', () => {
    const id = firstId(boat.parts);
    const at = ['parts', id, 'mounting', 'screwM'];
    const set = made(boat, (draft) => {
      valueSet(at, 0.035)(draft);
      draft.typed = { [`parts.${id}.mounting.screwM`]: '35 mm', [`parts.${id}.mounting.screws`]: '4' };
    });
    expect(valueAt(set, at)).toBe(0.035);
    const removed = made(set, valueRemoved(at));
    expect(valueAt(removed, at)).toBeUndefined();
    expect(removed.typed).toEqual({ [`parts.${id}.mounting.screws`]: '4' });
  });

  it('leaves a list', () => {
    const id = firstId(boat.compartments);
    const outline = boat.compartments[id]?.outline ?? [];
    const shorter = made(boat, valueRemoved(['compartments', id, 'outline', 0]));
    expect(shorter.compartments[id]?.outline).toEqual(outline.slice(1));
  });
});

describe('records', () => {
  it('are renamed with everything that names them: lines, places, states, ways in, accepted findings', () => {
    const part = 'service-valve';
    const [id = ''] = Object.entries(boat.lines).find(([, one]) => one.from.thing === part) ?? [];
    const before = made(boat, (draft) => {
      draft.accepted[`access/lift|${part}`] = { by: 'owner', why: 'two people', on: '2026-05-31' };
      draft.gradeOf = { [`parts.${part}.shape`]: 'measured' };
      draft.typed = { [`parts.${part}.massKg`]: '55 lb' };
    });
    const after = made(before, recordRenamed(['parts'], part, 'renamed-part'));
    expect(JSON.stringify(after).includes(`"${part}"`)).toBe(false);
    expect(after.lines[id]?.from.thing).toBe('renamed-part');
    expect(Object.keys(after.accepted)).toContain('access/lift|renamed-part');
    expect(after.gradeOf).toEqual({ 'parts.renamed-part.shape': 'measured' });
    expect(after.typed).toEqual({ 'parts.renamed-part.massKg': '55 lb' });
    // There and back is the boat as it was.
    expect(made(after, recordRenamed(['parts'], 'renamed-part', part))).toEqual(before);
  });

  /** Groups whose keys are no ids of records. */
  const KEYED_OTHERWISE = new Set(['gradeOf', 'typed', 'accepted', 'stock', 'accuracy']);

  it('of every kind can be renamed: the file can be read, and the way back is exact', () => {
    for (const [group, schema] of Object.entries(boatSchema.shape)) {
      const records: unknown = boat[group];
      if (recordValue(schema) === null || !isPlain(records) || KEYED_OTHERWISE.has(group)) continue;
      for (const id of [Object.keys(records)[0], Object.keys(records).at(-1)]) {
        if (id === undefined) continue;
        const there = made(boat, recordRenamed([group], id, 'other-id'));
        const back = made(there, recordRenamed([group], 'other-id', id));
        expect([group, id, sameValue(back, boat)]).toEqual([group, id, true]);
      }
    }
  });

  it('a port takes the lines and the ways inside its thing with it, by the name of its own thing alone', () => {
    const [lineId = '', line] = Object.entries(boat.lines).find(([, one]) => boat.parts[one.to.thing]) ?? [];
    if (!line) throw new Error('expected a line');
    const path = ['parts', line.to.thing, 'ports'];
    const renamed = made(boat, recordRenamed(path, line.to.port, 'feed-2'));
    expect(renamed.lines[lineId]?.to).toEqual({ thing: line.to.thing, port: 'feed-2' });
    const others = Object.entries(boat.lines).filter(
      ([, one]) => one.to.thing !== line.to.thing && one.from.thing !== line.to.thing,
    );
    for (const [id, one] of others) expect(renamed.lines[id]).toEqual(one);
    const gone = made(boat, recordRemoved(path, line.to.port));
    expect(gone.lines[lineId]).toBeUndefined();
  });

  it('are duplicated with a name of their own and no mark twice', () => {
    const id = firstId(boat.parts);
    const twice = made(boat, recordDuplicated(['parts'], id, 'twin'));
    expect(twice.parts.twin?.name).toBe(`${boat.parts[id]?.name}, copy`);
    expect(twice.parts.twin?.tag).toBeUndefined();
    expect(twice.parts.twin?.ports).toEqual(boat.parts[id]?.ports);
  });

  it('an arrangement is duplicated, judged from then on, and removed again', () => {
    const id = firstId(boat.arrangements);
    const twice = made(boat, arrangementDuplicated(id, 'b', 'Second choice'));
    expect(twice.currentArrangement).toBe('b');
    expect(twice.arrangements.b?.places).toEqual(boat.arrangements[id]?.places);
    const once = made(twice, recordRemoved(['arrangements'], 'b'));
    expect(once.currentArrangement).toBeUndefined();
    expect(Object.keys(once.arrangements)).toEqual(Object.keys(boat.arrangements));
  });

  it('an edit that names nothing is refused with path and value, and the boat stands', () => {
    const id = firstId(boat.openings);
    const refused = edit(boat, valueSet(['openings', id, 'compartment'], 'nowhere'));
    expect(refused.ok ? [] : refused.problems.map(({ path, value }) => [path, value])).toEqual([
      [`openings.${id}.compartment`, '"nowhere"'],
    ]);
  });
});

describe('a grade of one value', () => {
  it('is kept by its path and taken back without leaving an empty list', () => {
    const path = `openings.${firstId(boat.openings)}.widthM`;
    const graded = made({ ...boat, gradeOf: undefined } as Boat, valueGraded(path, 'measured'));
    expect(graded.gradeOf).toEqual({ [path]: 'measured' });
    expect(made(graded, valueGraded(path, null)).gradeOf).toBeUndefined();
  });
});

describe('what a new record begins with', () => {
  /** Records that need others: a line needs two ports, and has a form of its own. */
  const NEEDS_MORE = new Set(['lines']);

  it('is accepted as it is, in every group of records of a boat, of a part and of a fixture', () => {
    const part = Object.entries(boat.parts).find(([, { ports }]) => Object.keys(ports).length > 1)?.[0] ?? '';
    const groups = [
      ...Object.keys(boatSchema.shape).map((key) => [key]),
      ...['ports', 'passages', 'services', 'zones', 'sweeps'].map((key) => ['parts', part, key]),
      ['hull', 'knuckleLines'],
      ['reference', 'freeboards'],
      ['reference', 'levelMarks'],
      ['flooding', 'limberHoles'],
      ['flooding', 'cases'],
    ];
    let added = 0;
    for (const path of groups) {
      const schema = schemaAt(boatSchema, boat, path);
      const member = schema && recordValue(schema);
      if (
        !member ||
        NEEDS_MORE.has(path[0] ?? '') ||
        ['gradeOf', 'typed', 'accepted', 'stock', 'accuracy'].includes(path[0] ?? '')
      )
        continue;
      const at = [...path, 'brand-new'];
      const edited = edit(boat, recordAdded(path, 'brand-new', starterAt(boat, at, member)));
      expect([path, edited.ok ? [] : edited.problems.map(({ message }) => message)]).toEqual([path, []]);
      added += 1;
    }
    expect(added).toBeGreaterThan(20);
  });

  it('is accepted in every optional group of a thing', () => {
    // Nothing names a state of its valve.
    const id = 'spares';
    for (const key of ['electric', 'valve', 'opensToSea', 'mounting']) {
      const at = ['parts', id, key];
      const schema = schemaAt(boatSchema, boat, at);
      if (!schema) throw new Error(`expected a schema for ${key}`);
      const without = made(boat, (draft) => {
        delete (draft.parts[id] as Record<string, unknown>)[key];
      });
      const edited = edit(without, valueSet(at, starterAt(without, at, schema)));
      expect([key, edited.ok ? [] : edited.problems.map(({ message }) => message)]).toEqual([key, []]);
    }
  });
});

describe('an id made of a name', () => {
  it('holds letters, digits and dashes, and is free', () => {
    expect(idFrom({}, 'Kühlbox / groß 3/4"')).toBe('ku-hlbox-gro-3-4');
    expect(idFrom({ pump: 1 }, 'Pump')).toBe('pump-2');
    expect(idFrom({}, '???')).toBe('one');
  });
});
