import { cautionTexts, DEFERENCE } from '@core/output/text/caution-text';
import { HAZARDS } from '@core/rules/hazard';
import { describe, expect, it } from 'vitest';

describe('the cautions', () => {
  it('end with who has the last word, once', () => {
    expect(DEFERENCE).toBe('Check local codes; have a licensed person do or check it.');
    for (const hazard of HAZARDS) {
      const texts = cautionTexts([hazard]);
      expect(texts).toHaveLength(2);
      expect(texts[0]?.length).toBeGreaterThan(60);
      expect(texts.at(-1)).toBe(DEFERENCE);
    }
    expect(cautionTexts(HAZARDS).filter((words) => words === DEFERENCE)).toHaveLength(1);
  });

  it('are silent where nothing can hurt', () => {
    expect(cautionTexts([])).toEqual([]);
  });

  it('are about six matters and say a different thing of each', () => {
    expect(new Set(HAZARDS.flatMap((hazard) => cautionTexts([hazard]).slice(0, 1))).size).toBe(6);
  });
});
