import { describe } from 'vitest';
import { ALL_FORMS } from '../../../support/forms';
import { judgeHulls } from './judge-hulls';

/** 200 hulls in all. */
const SEEDS = Array.from({ length: 40 }, (_, k) => k + 1);

describe.each(ALL_FORMS)('%s: 40 seeded hulls', (form) => judgeHulls(form, SEEDS));
