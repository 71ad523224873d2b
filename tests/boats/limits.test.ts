import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Finding } from '@core/rules/finding';
import { RULES } from '@core/rules/registry';
import { describe, expect, it } from 'vitest';
import { bent, verdicts } from '../core/rules/judged';

/**
 * A limit that nothing hangs on is no limit. The faulty boat of a rule, and the variants of it that its `expected.json` names (one of
 * them passes at the limit), are judged again with each limit halved: some verdict has to turn.
 */
interface Variant {
  readonly name: string;
  readonly set: Readonly<Record<string, unknown>>;
  readonly outcome: Finding['outcome'];
  /** Key of the finding that it is about; default: the first of the rule by key. */
  readonly key?: string;
}

const expectedOf = (rule: string): { readonly variants?: readonly Variant[] } =>
  JSON.parse(
    readFileSync(
      fileURLToPath(new URL(`../../sample-boats/faulty/${rule.replace('/', '-')}/expected.json`, import.meta.url)),
      'utf8',
    ),
  );

const outcomes = (rule: string, variant: Variant): string =>
  verdicts(bent(rule, variant.set), rule)
    .map((finding) => `${finding.key} ${finding.outcome} ${'severity' in finding ? finding.severity : ''}`)
    .sort()
    .join('\n');

const AS_IT_IS: Variant = { name: 'as it is', set: {}, outcome: 'fail' };
const LIMITED = RULES.filter(({ limits }) => limits !== undefined);

describe.each(LIMITED.map((rule) => [rule.id, rule] as const))('the limits of %s', (id, rule) => {
  const variants = expectedOf(id).variants ?? [];

  it('are kept by the variants that say so', () => {
    expect(variants.map(({ outcome }) => outcome)).toContain('pass');
    for (const variant of variants) {
      const found = verdicts(bent(id, variant.set), id);
      const one = variant.key === undefined ? found[0] : found.find(({ key }) => key === variant.key);
      expect([variant.name, one?.outcome]).toEqual([variant.name, variant.outcome]);
    }
  });

  const names = Object.keys(rule.limits?.isoSmallCraft ?? {});
  it.each(names)('%s: halved, a verdict turns', (name) => {
    const judged = [AS_IT_IS, ...variants];
    const before = judged.map((variant) => outcomes(id, variant));
    const tables = Object.values(rule.limits ?? {}) as Record<string, number>[];
    const kept = tables.map((table) => table[name] ?? Number.NaN);
    try {
      for (const table of tables) table[name] = (table[name] ?? Number.NaN) / 2;
      expect(judged.map((variant) => outcomes(id, variant))).not.toEqual(before);
    } finally {
      for (const [k, table] of tables.entries()) table[name] = kept[k] ?? Number.NaN;
    }
  });
});
