import { termOfKind, textPieces } from '@core/output/text/term-words';
import { KIND_TERMS, TERMS, type Term } from '@core/output/text/terms';
import { RULES } from '@core/rules/registry';
import { describe, expect, it } from 'vitest';
import { filesUnder, textOf } from './sources';

const COMMENTS = /\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm;
/** A string literal, what it says without its quotes; templates only where they stand on one line. */
const LITERAL = /'((?:[^'\\\n]|\\.)*)'|"((?:[^"\\\n]|\\.)*)"|`((?:[^`\\\n]|\\.)*)`/g;

/** Texts of at least so many words in a source. */
const prose = (text: string, words: number): readonly string[] =>
  [...text.replace(COMMENTS, '').matchAll(LITERAL)]
    .map(([, single, double, template]) => single ?? double ?? template ?? '')
    .filter((said) => (said.match(/[A-Za-z]{2,}/g) ?? []).length >= words && /[a-z] [a-z]/.test(said));

/** What a rule says itself, in fields of that name; all else is said in core/output/text. */
const OWN_WORDS =
  /\bquestion:\s*(?:'[^']*'|"[^"]*")|\bcannotSee:\s*\[[^\]]*\]|\benterNext(?::|\s*=)\s*[\s\S]*?(?=,\n|;\n|,\s*\w+:|\s\})/g;

/** Whole sentences, and titles; what is to be entered next is asked for by name, also where a function gives it. */
const wordingIn = (text: string): readonly string[] =>
  prose(text.replace(OWN_WORDS, ''), 4).filter(
    (said) => /^[A-Z]|\.$/.test(said) && !/: expected/.test(said) && !/^(Enter|Say|Draw|Measure|Place) /.test(said),
  );

describe('words', () => {
  it('of findings stand in the catalogue, not in the rules', () => {
    const rules = filesUnder('core/rules').filter((file) => /^core\/rules\/[a-z]+\/[a-z-]+\.ts$/.test(file));
    expect(rules.length).toBeGreaterThan(50);
    const found = rules.flatMap((file) => wordingIn(textOf(file)).map((words) => `${file}: ${words}`));
    expect(found).toEqual([]);
  });

  it('of a finding in a rule would be noticed', () => {
    expect(wordingIn("why: 'The hose is far too long'")).toHaveLength(1);
    expect(wordingIn("question: 'Is the hose far too long?',")).toEqual([]);
  });

  it('for one thing are written once: no sentence stands in two files of the catalogue or the window', () => {
    for (const [folder, least] of [
      ['core/output/text', 5],
      ['renderer', 6],
    ] as const) {
      const places = new Map<string, Set<string>>();
      for (const file of filesUnder(folder).filter((one) => /\.tsx?$/.test(one)))
        for (const words of prose(textOf(file), least).filter((said) => !/[<>{}=]|: expected/.test(said)))
          places.set(words, (places.get(words) ?? new Set()).add(file));
      const twice = [...places].filter(([, files]) => files.size > 1).map(([words, files]) => [words, ...files]);
      expect(twice).toEqual([]);
    }
  });
});

describe('terms of the trade', () => {
  const all: readonly Term[] = [...Object.values(KIND_TERMS), ...Object.values(TERMS)];

  it('say what and why in sentences, a typical value without, and none twice', () => {
    for (const { name, what, why, typical } of all) {
      expect([name, /\.$/.test(what), /\.$/.test(why), /\.$/.test(typical)]).toEqual([name, true, true, false]);
    }
    expect(new Set(all.map(({ name }) => name.toLowerCase())).size).toBe(all.length);
    expect(termOfKind('seacock')?.name).toBe('Seacock');
    expect(termOfKind('constructor')).toBeNull();
  });

  it('name the limits by which the product judges', () => {
    const limit = (id: string, name: string): number => {
      const value = RULES.find((rule) => rule.id === id)?.limits?.isoSmallCraft[name];
      if (value === undefined) throw new Error(`expected the limit ${name} of ${id}`);
      return value;
    };
    expect(TERMS.suction.typical).toBe(`at most ${limit('water/suction-pressure', 'suctionBar')} bar lost`);
    expect(TERMS.voltageDrop.typical).toContain(`${limit('power/motor-voltage', 'dropShare') * 100} %`);
  });

  it('are found in running text by themselves, each once, and no more than three', () => {
    const text = 'A seacock, a strainer, the brine and the membrane: each seacock is shut by hand.';
    const pieces = textPieces(text);
    expect(pieces.map(({ words }) => words).join('')).toBe(text);
    expect(pieces.flatMap(({ term }) => (term ? [term.name] : []))).toEqual(['Seacock', 'Strainer', 'Brine']);
    expect(textPieces('Nothing of the kind.')).toEqual([{ words: 'Nothing of the kind.', term: null }]);
  });
});
