import { readAngle, readLength } from '@renderer/panels/fields/entries';
import { figure, lengthFigure, massText, runFigure, sizesText } from '@renderer/panels/format';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

describe('figures', () => {
  it('have a real minus, never a minus zero, and thin spaces between thousands of long numbers', () => {
    expect(figure(-60)).toBe('\u221260');
    expect(figure(-0.2)).toBe('0');
    expect(figure(12345)).toBe('12\u2009345');
    expect(figure(Number.NaN)).toBe('\u2013');
  });

  it('show lengths in millimetres or in inches to the sixteenth', () => {
    // derived: 450.85 mm is 17 3/4 in exactly (17.75 x 25.4)
    expect(lengthFigure(0.45085, 'inch')).toBe('17 3/4');
    expect(lengthFigure(-0.79, 'mm')).toBe('\u2212790');
    expect(lengthFigure(0.0005, 'mm')).toBe('0.5');
    expect(sizesText([0.62, 0.44], 'mm')).toBe('620 \u00d7 440');
    // derived: 3.048 m is 10 ft exactly
    expect(runFigure(3.048, 'inch')).toBe('10.0');
    expect(massText(7460)).toBe('7.46 t');
    expect(massText(13.6)).toBe('13.6 kg');
  });

  it('are read back as they are shown: to the millimetre', () => {
    fc.assert(
      fc.property(fc.integer({ min: -99_999, max: 99_999 }), (mm) => {
        const read = readLength(lengthFigure(mm / 1000, 'mm'), 'mm');
        expect(read.ok && Math.round(read.value * 1000)).toBe(mm === 0 ? 0 : mm);
      }),
    );
  });

  it('are read in any unit, a bare number in the one on screen', () => {
    expect(readLength('450', 'mm')).toEqual({ ok: true, value: 0.45 });
    expect(readLength('17 3/4', 'inch')).toEqual({ ok: true, value: 0.45085 });
    expect(readLength('45 cm', 'inch')).toEqual({ ok: true, value: 0.45 });
    expect(readAngle('22,5')).toEqual({ ok: true, value: 22.5 });
    const refused = readLength('soon', 'mm');
    expect(refused.ok || refused.message).toMatch(/^Expected a number/);
  });
});
