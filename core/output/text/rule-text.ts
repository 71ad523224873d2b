import { ACCESS_TEXT } from './rules/access-text';
import { FLOODING_TEXT } from './rules/flooding-text';
import { HULL_TEXT } from './rules/hull-text';
import { POWER_TEXT } from './rules/power-text';
import { RUNS_TEXT } from './rules/runs-text';
import { WATER_TEXT } from './rules/water-text';
import type { RuleWords } from './say';

/** Words of every rule, by outcome and reason. */
export const RULE_TEXT: Readonly<Record<string, RuleWords>> = {
  ...HULL_TEXT,
  ...ACCESS_TEXT,
  ...RUNS_TEXT,
  ...FLOODING_TEXT,
  ...POWER_TEXT,
  ...WATER_TEXT,
};
