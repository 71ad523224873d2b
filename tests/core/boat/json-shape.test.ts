import { jsonShape } from '@core/boat/json-shape';
import { readBoat } from '@core/boat/read';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

// Derived: counted by hand, or by the parser on what it accepts.
const MOST = { depth: 1000, values: 1_000_000 };
const depthOf = (value: unknown): number =>
  typeof value === 'object' && value !== null ? 1 + Math.max(0, ...Object.values(value).map(depthOf)) : 0;
const valuesOf = (value: unknown): number =>
  typeof value === 'object' && value !== null
    ? Object.values(value).reduce<number>((sum, one) => sum + valuesOf(one), 1)
    : 1;

describe('what is told of a JSON text before it is parsed', () => {
  it('is its depth, and no fewer values than there are, whatever its strings hold', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6, stringUnit: 'binary' }), (text) => {
        const shape = jsonShape(text, MOST);
        const data: unknown = JSON.parse(text);
        expect(shape.depth).toBe(depthOf(data));
        expect(shape.values).toBeGreaterThanOrEqual(valuesOf(data));
        // A brace or bracket and the comma before it count apart: at most two for each value.
        expect(shape.values).toBeLessThanOrEqual(2 * valuesOf(data) + 1);
        expect(shape.twice).toBeNull();
      }),
      { seed: 11, numRuns: 500 },
    );
  });

  it('names a key that stands twice by its path, also where it is written otherwise', () => {
    const twice = (text: string) => jsonShape(text, MOST).twice;
    expect(twice('{"a":1,"b":2,"a":3}')).toEqual(['a']);
    expect(twice('{"a":[0,{"b":{"c":1},"b":2}]}')).toEqual(['a', 1, 'b']);
    expect(twice('{"a":1,"\\u0061":2}')).toEqual(['a']);
    expect(twice('{"a":{"a":{"a":["a","a"]}},"b":{"a":1}}')).toBeNull();
    expect(twice('[{"a":1},{"a":1}]')).toBeNull();
    expect(twice('{"":1,"":2}')).toEqual(['']);
  });

  it('ends at the limits', () => {
    expect(jsonShape('['.repeat(1_000_000), { depth: 40, values: 10 })).toMatchObject({
      depth: 10,
      values: 11,
    });
    expect(jsonShape('['.repeat(1_000_000), { depth: 5, values: 1000 }).depth).toBe(6);
    expect(jsonShape(`[${'1,'.repeat(1_000_000)}1]`, { depth: 5, values: 1000 }).values).toBe(1001);
  });

  it('says something or other of a text that is no JSON', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('{', '}', '[', ']', ',', ':', '"', '\\', 'a', '1', ' '), { maxLength: 60 }),
        (signs) => {
          expect(jsonShape(signs.join(''), MOST).depth).toBeLessThanOrEqual(60);
        },
      ),
      { seed: 12, numRuns: 500 },
    );
  });
});

describe('a file beyond what can be worked with', () => {
  const messageOf = (text: string): string => {
    const result = readBoat(text);
    return result.ok ? '' : (result.problems[0]?.message ?? '');
  };
  const many = (count: number, value: unknown) =>
    Object.fromEntries(Array.from({ length: count }, (_, n) => [`r${n}`, value]));

  it('is refused by its values, its members and its numbers, each named with the limit', () => {
    expect(messageOf(`[${'0,'.repeat(300_000)}0]`)).toBe(
      'The file is more than 250000 values long, at most 250000 are read',
    );
    const draft = threeLockers();
    expect(messageOf(JSON.stringify({ ...draft, more: { deep: many(5001, 1) } }))).toBe(
      'more.deep is 5001 members long, at most 5000 can be worked with',
    );
    expect(messageOf(JSON.stringify({ ...draft, more: [0] }).replace('[0]', '[0,{"x":1e999}]'))).toBe(
      'more[1].x is too large a number, no file can hold that',
    );
    expect(messageOf('{"format":"underberth-boat","schemaVersion":1,"name":"A","name":"B"}')).toBe(
      'name is in the file twice, one of the two must get another name',
    );
  });

  it('has its unknown keys counted and the first of them named', () => {
    const result = readBoat(JSON.stringify({ ...threeLockers(), ...many(400, 1) }));
    expect(result.ok && result.notes.length).toBe(51);
    expect(result.ok && result.notes[50]).toBe('400 keys are not of the schema; the first 50 are listed.');
  });

  it('has keys named that every object answers to, and keeps them', () => {
    const result = readBoat(JSON.stringify({ ...threeLockers(), constructor: 'Shipyard', toString: 5 }));
    expect(result.ok && result.notes.map((note) => note.split(' ', 1)[0])).toEqual(['constructor', 'toString']);
  });

  it('shows no sign of its own that steers a terminal or turns the writing round', () => {
    const name = '\u001b[2J\u202egnp\u0007\u009b31m';
    const message = messageOf(JSON.stringify({ ...threeLockers(), compartments: { [name]: { name } } }));
    expect(message).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    expect(message).toContain('\\u001b[2J\\u202egnp');
  });
});
