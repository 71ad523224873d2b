import { pointInBoat, type Vec3 } from '@core/base/vec';
import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf } from '@core/boat/catalogue/templates';
import { readBoat } from '@core/boat/read';
import type { Part } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import type { WayRound } from '@core/engine/fit/fit';
import { lockerBoat, problemsOf } from '@core/engine/fit/locker';
import { lockerAnswers, type PartAnswer } from '@core/engine/fit/one-locker';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../support/dice';
import { outsideBy, type PlainLocker, squareGrowth } from '../../../support/fit-oracle';
import { boxPart, cylinderPart, lockerOf, servedFrom } from './lockers';

const OPEN = [390, 390] as const;
const alone = (locker: ReturnType<typeof lockerOf>, part: Part): PartAnswer => {
  const answer = lockerAnswers(locker, { one: part }).parts.one;
  if (!answer) throw new Error('expected an answer');
  return answer;
};
const findingOf = (answer: PartAnswer, rule: string) => answer.findings.find((finding) => finding.rule === rule);
const wayOf = (answer: PartAnswer): WayRound => {
  if (answer.inside.outcome === 'cannot' || !answer.inside.way) throw new Error('expected a way round');
  return answer.inside.way;
};

describe('a part alone in a measured locker', () => {
  it('500 long in 506: fits with 6 mm to spare, a close call between the two ends (derived)', () => {
    const locker = lockerOf({ length: 506, height: 600, bottom: 400, opening: OPEN });
    const { inside } = alone(locker, boxPart([500, 300, 200], { mounting: { upright: true } }));
    expect(inside).toMatchObject({ outcome: 'fits', tight: ['aft end', 'forward end'], way: { isTilted: false } });
    if (inside.outcome !== 'fits') return;
    expect(inside.judged.margin).toBeCloseTo(0.006, 9);
    // Part and length each measured to 5 mm: root of 2 x 25 = 7.07 mm, of which 6 is less than one and a half.
    expect(inside.judged.closeCall?.gradeM).toBeCloseTo(Math.hypot(0.005, 0.005), 9);
    // Phi(2 x 6 / (7.07 x 1.25)) and Phi(2 x 6 / (7.07 x 0.8)), from tables of the normal distribution.
    expect(inside.judged.closeCall?.passProbability[0]).toBeCloseTo(0.9127, 3);
    expect(inside.judged.closeCall?.passProbability[1]).toBeCloseTo(0.9831, 3);
  });

  it('a coarser reading makes a wider doubt, only where it counts', () => {
    const sizes = { length: 540, height: 600, bottom: 400, opening: OPEN } as const;
    const part = boxPart([500, 300, 200], { mounting: { upright: true } });
    const measured = lockerOf(sizes);
    expect(alone(measured, part).inside).not.toHaveProperty('judged.closeCall');
    const guess = (key: 'length' | 'height') => ({
      ...measured,
      readings: { ...measured.readings, [key]: { ...measured.readings[key], grade: 'guessed' as const } },
    });
    expect(alone(guess('length'), part).inside).toMatchObject({ judged: { closeCall: {} } });
    expect(alone(guess('height'), part).inside).not.toHaveProperty('judged.closeCall');
  });

  it('a hull that leans in cuts the upper corner: spare (b + s k - w) / (1 - s) (derived)', () => {
    const [b, t, h] = [0.7, 0.4, 0.6];
    const s = (t - b) / h;
    const locker = lockerOf({ length: 1000, height: 600, bottom: 700, top: 400, opening: OPEN });
    const answer = alone(locker, boxPart([300, 500, 300], { mounting: { upright: true } }));
    const upright = answer.fit.ways.find(({ turn }) => turn.yawDeg === 0);
    expect(upright?.spareM).toBeCloseTo((b + s * 0.3 - 0.5) / (1 - s), 9);
    // Standing with its 500 across, it has 0.7 - 0.5 x 0.3 - 0.5 = 50 mm: too high by the same slope when 50 mm more.
    const wider = alone(locker, boxPart([900, 560, 300], { mounting: { upright: true } }));
    expect(wayOf(wider).spareM).toBeLessThan(0);
    expect(wider.inside).toMatchObject({ outcome: 'notFound', tight: expect.arrayContaining(['hull side']) });
  });

  it('a hull that leans out cuts the lower corner: spare (b + s (h - k) - w) / (1 + s), carried up to the top (derived)', () => {
    const s = 0.5;
    const locker = lockerOf({ length: 1000, height: 600, bottom: 400, top: 700, opening: OPEN });
    const answer = alone(locker, boxPart([300, 500, 300], { mounting: { upright: true } }));
    const upright = answer.fit.ways.find(({ turn }) => turn.yawDeg === 0);
    expect(upright?.spareM).toBeCloseTo((0.4 + s * 0.3 - 0.5) / (1 + s), 9);
  });

  it('the lean of the hull stands for the depth at the top: atan(300 / 600) gives 700 over 400 (derived)', () => {
    const depths = lockerOf({ length: 1000, height: 600, bottom: 400, top: 700, opening: OPEN });
    const lean = { ...depths, slopeBy: 'lean' as const, leanDeg: (Math.atan(0.5) * 180) / Math.PI };
    const stale = { ...lean, readings: { ...lean.readings, depthTop: { valueM: 9, grade: 'measured' as const } } };
    expect(lockerBoat(stale, {}, {}).compartments.locker?.outline[2]?.[0]).toBeCloseTo(0.7, 5);
    // An angle is good to so many degrees: guessed ones leave the 53 mm to spare in doubt, measured ones do not.
    const part = boxPart([470, 470, 300], { mounting: { upright: true } });
    const guessed = { ...lean, readings: { ...lean.readings, depthTop: { valueM: 0.7, grade: 'guessed' as const } } };
    expect(alone(guessed, part).inside).toMatchObject({ outcome: 'fits', judged: { closeCall: {} } });
    expect(alone(lean, part).inside).toMatchObject({ outcome: 'fits' });
    expect(alone(lean, part).inside).not.toHaveProperty('judged.closeCall');
  });

  it('a lining takes room square to the hull: 30 mm off a side that leans 300 in 600 leave 30 / cos less depth (derived)', () => {
    const bare = lockerOf({ length: 1000, height: 600, bottom: 400, top: 700, opening: OPEN });
    const lined = lockerOf({ length: 1000, height: 600, bottom: 400, top: 700, lining: 30, opening: OPEN });
    const outline = (locker: typeof bare) => lockerBoat(locker, {}, {}).compartments.locker?.outline ?? [];
    const taken = 0.03 / Math.cos(Math.atan2(0.3, 0.6));
    expect((outline(bare)[1]?.[0] ?? 0) - (outline(lined)[1]?.[0] ?? 0)).toBeCloseTo(taken, 5);
    expect((outline(bare)[2]?.[0] ?? 0) - (outline(lined)[2]?.[0] ?? 0)).toBeCloseTo(taken, 5);
  });

  /** Longest rectangle of thickness q in a x b, by Carver's condition (Am. Math. Monthly 64, 1957, 114), by halving. */
  const longestIn = (a: number, b: number, q: number): number => {
    const fits = (p: number): boolean =>
      b >= (2 * p * q * a + (p * p - q * q) * Math.sqrt(p * p + q * q - a * a)) / (p * p + q * q);
    let [low, high] = [a, Math.hypot(a, b)];
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (fits(middle)) low = middle;
      else high = middle;
    }
    return low;
  };

  it('a long membrane lies only on the diagonal, to a tenth of a millimetre of the closed form (derived)', () => {
    const locker = lockerOf({ length: 1000, height: 600, bottom: 80, opening: [390, 70] });
    const longest = longestIn(1, 0.6, 0.08) * 1000;
    expect(longest).toBeGreaterThan(1050);
    const short = alone(locker, cylinderPart(80, longest - 0.1));
    expect(short.inside).toMatchObject({ outcome: 'fits', way: { isTilted: true } });
    const long = alone(locker, cylinderPart(80, longest + 0.1));
    expect(long.inside).toMatchObject({ outcome: 'notFound' });
    expect(long.fit.tried.tilts).toBeGreaterThan(1000);
  });

  it('a thin rod reaches from corner to corner of the room, and is proved too long beyond it', () => {
    const locker = lockerOf({ length: 1000, height: 600, bottom: 400, opening: OPEN });
    const diagonal = Math.hypot(1000, 600, 400);
    expect(alone(locker, cylinderPart(1, diagonal - 4)).inside).toMatchObject({ outcome: 'fits' });
    expect(alone(locker, cylinderPart(1, diagonal + 1)).inside).toMatchObject({
      outcome: 'cannot',
      proof: { proof: 'length', has: expect.closeTo(diagonal / 1000, 9) },
    });
  });

  it('proves what no turn can change: thickness, shadow and volume, each against its closed form (derived)', () => {
    const box = lockerOf({ length: 1000, height: 600, bottom: 400, opening: OPEN });
    expect(alone(box, boxPart([410, 410, 410])).inside).toMatchObject({
      outcome: 'cannot',
      proof: { proof: 'thickness', needs: expect.closeTo(0.41, 9), has: expect.closeTo(0.4, 9) },
      judged: { outcome: 'fail', closeCall: {} },
    });
    expect(alone(box, boxPart([450, 450, 450])).inside).not.toHaveProperty('judged.closeCall');
    // A wedge of 400 x 600: half of 0.24 m2, 0.12 m3 over a metre; 400 x 600 / 721 = 333 mm across its slope.
    const wedge = lockerOf({ length: 1000, height: 600, bottom: 400, top: 0, opening: OPEN });
    expect(alone(wedge, boxPart([400, 330, 370])).inside).toMatchObject({
      outcome: 'cannot',
      proof: { proof: 'shadow', needs: expect.closeTo(0.1221, 9), has: expect.closeTo(0.12, 9) },
    });
    expect(alone(wedge, boxPart([1020, 330, 360])).inside).toMatchObject({
      outcome: 'cannot',
      proof: { proof: 'volume', needs: expect.closeTo(0.121176, 9), has: expect.closeTo(0.12, 9) },
    });
  });

  it('what must stand upright is not laid down, and says how many ways were tried', () => {
    const locker = lockerOf({ length: 600, height: 300, bottom: 400, opening: [280, 280] });
    const size = [200, 200, 350] as const;
    expect(alone(locker, boxPart(size)).inside).toMatchObject({ outcome: 'fits' });
    const upright = alone(locker, boxPart(size, { mounting: { upright: true } }));
    expect(upright.inside).toMatchObject({ outcome: 'notFound' });
    expect(upright.fit.tried.square).toBe(4);
    expect(wayOf(upright).spareM).toBeCloseTo(-0.05, 9);
  });
});

describe('through the opening', () => {
  it('passes turned the other way: 210 x 300 through 215 x 320, 5 mm to spare (derived)', () => {
    const locker = lockerOf({ length: 1000, height: 600, bottom: 500, opening: [215, 320] });
    expect(findingOf(alone(locker, boxPart([300, 210, 350])), 'access/way-in')).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.005, 6) },
      closeCall: {},
    });
  });

  it('passes aslant in its plane: 350 x 50 through 300 x 300 (Carver 1957)', () => {
    const locker = lockerOf({ length: 1000, height: 600, bottom: 500, opening: [300, 300] });
    const found = findingOf(alone(locker, boxPart([350, 50, 340])), 'access/way-in');
    expect(found).toMatchObject({ outcome: 'pass' });
    expect(found?.data.turnedDeg).toBeGreaterThan(10);
  });

  it('is proved too big, or honestly not found', () => {
    const locker = lockerOf({ length: 1000, height: 600, bottom: 400, opening: [200, 200] });
    expect(findingOf(alone(locker, boxPart([300, 220, 210])), 'access/way-in')).toMatchObject({
      outcome: 'fail',
      reason: 'tooBig',
    });
    expect(findingOf(alone(locker, boxPart([390, 190, 205])), 'access/way-in')).toMatchObject({
      outcome: 'cannotTell',
      reason: 'notFound',
    });
  });

  it('is turned in where a hull that leans leaves depth at the upper edge alone: 540 long, 597 deep there, 420 at the lower', () => {
    // Opening 390 high over all of 600: upper edge at 495; section 100 high there, foot at 395, where the room is 597 deep.
    const locker = lockerOf({ length: 1000, height: 600, bottom: 300, top: 750, opening: [300, 390] });
    expect(findingOf(alone(locker, boxPart([540, 280, 100])), 'access/way-in')).toMatchObject({ outcome: 'pass' });
  });
});

describe('service', () => {
  it('opens a glass that looks out of the opening, and names what is missing where it does not', () => {
    const locker = lockerOf({ length: 600, height: 600, bottom: 200, opening: [300, 300] });
    const part = boxPart([200, 180, 150], {
      services: servedFrom('starboard', [200, 180, 150], 150),
      mounting: { upright: true },
    });
    const towards = alone(locker, part);
    expect(findingOf(towards, 'access/service-space')).toMatchObject({ outcome: 'pass' });
    expect(towards.placed?.met).toBe(1);
    // A lid on the far side of an aft opening: 600 less 550 is what is left along the locker.
    const shut = lockerOf({ length: 600, height: 160, bottom: 200, opening: [150, 150], face: 'aft' });
    const long = boxPart([550, 180, 150], {
      services: servedFrom('up', [550, 180, 150], 100),
      mounting: { upright: true },
    });
    expect(findingOf(alone(shut, long), 'access/service-space')).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0.01, 6) },
      limit: { value: 0.1 },
    });
  });
});

describe('several parts at once', () => {
  const box = boxPart([500, 300, 200], { mounting: { upright: true } });
  it('stand side by side without overlap where there is room for both', () => {
    const locker = lockerOf({ length: 1010, height: 250, bottom: 350, opening: [390, 240] });
    const { together, findings } = lockerAnswers(locker, { a: box, b: box });
    expect(together.left).toEqual([]);
    expect(findings.filter(({ rule, outcome }) => rule === 'access/overlap' && outcome === 'pass').length).toBe(2);
  });

  it('one is left over where there is not, and the search says how far it went', () => {
    const locker = lockerOf({ length: 990, height: 250, bottom: 350, opening: [390, 240] });
    const { together, boat } = lockerAnswers(locker, { a: box, b: box });
    expect(together.left).toHaveLength(1);
    expect(together.tried.places).toBeGreaterThan(0);
    expect(Object.keys(boat.arrangements.first?.places ?? {})).toHaveLength(1);
    expect(Object.keys(boat.parts)).toEqual(['a', 'b']);
  });

  it('leaves the room that the service of a neighbour needs', () => {
    const locker = lockerOf({ length: 1200, height: 250, bottom: 350, opening: [390, 240] });
    const served = boxPart([500, 300, 200], {
      services: servedFrom('forward', [500, 300, 200], 180),
      mounting: { upright: true },
    });
    const { together, findings } = lockerAnswers(locker, { a: served, b: box });
    expect(together.left).toEqual([]);
    expect(findings.filter(({ rule }) => rule === 'access/service-space')).toEqual([
      expect.objectContaining({ outcome: 'pass' }),
    ]);
  });
});

describe('the boat that a locker is', () => {
  it('is read back as it was written, with its slope, opening and parts', () => {
    const locker = lockerOf({ length: 1000, height: 600, bottom: 400, top: 700, side: 'starboard', opening: OPEN });
    const { boat } = lockerAnswers(locker, { pump: partOf(PART_TEMPLATES[0] as (typeof PART_TEMPLATES)[number]) });
    const read = readBoat(writeBoat(boat));
    expect(read.ok && read.boat).toEqual({ ...boat, engineVersion: expect.any(String) });
    expect(boat.compartments.locker?.outline.map(([y]) => Math.round(y * 1000)).sort((a, b) => a - b)).toEqual([
      -700, -400, 0, 0,
    ]);
  });

  it.each([
    ['length', { length: 0 }, /Length is 0 mm/],
    ['openingWidth', { opening: [1100, 300] as const }, /1100 mm wide, its side of the locker 1000 mm/],
    ['openingHeight', { opening: [300, 700] as const }, /700 mm high, its side of the locker 600 mm/],
    ['openingAcross', { opening: [300, 300] as const, edges: [800, 0] as const }, /ends 100 mm beyond/],
    ['depthBottom', { bottom: 0, top: 0 }, /no room/],
    ['depthBottom', { bottom: 20, top: 20, lining: 25 }, /no room/],
  ])('%s that cannot be is named with its value and its limit', (reading, sizes, message) => {
    const locker = lockerOf({ length: 1000, height: 600, bottom: 400, opening: OPEN, ...sizes });
    const [first] = problemsOf(locker);
    expect(first).toMatchObject({ reading, message: expect.stringMatching(message) });
  });
});

describe('any locker', () => {
  const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);
  const scene = (seed: number) => {
    const d = dice(seed);
    const mm = (from: number, to: number): number => Math.round(d.from(from, to));
    const sizes = { length: mm(300, 1200), height: mm(200, 800), bottom: mm(60, 700), top: mm(60, 700) };
    const part: readonly [number, number, number] = [mm(60, 700), mm(60, 500), mm(60, 400)];
    const plain: PlainLocker = {
      length: sizes.length / 1000,
      height: sizes.height / 1000,
      bottom: sizes.bottom / 1000,
      top: sizes.top / 1000,
    };
    const opening = [Math.min(300, sizes.length), Math.min(200, sizes.height)] as const;
    return { locker: lockerOf({ ...sizes, opening }), sizes: { ...sizes, opening }, part, plain };
  };

  it.each(SEEDS)('square ways agree with trying every height, seed %i', (seed) => {
    const { locker, part, plain } = scene(seed);
    const { fit } = alone(locker, boxPart(part));
    const brute = squareGrowth(plain, [part[0] / 1000, part[1] / 1000, part[2] / 1000], 0.0005);
    const square = fit.ways.find(({ isTilted }) => !isTilted);
    if (brute > 0) expect(square?.spareM).toBeGreaterThanOrEqual(brute - 1e-6);
    if (square) expect(brute).toBeGreaterThanOrEqual(square.spareM - 0.0015);
    else expect(brute).toBeLessThan(1e-6);
  });

  it.each(SEEDS)('every corner of a part that is said to fit lies inside, seed %i', (seed) => {
    const { locker, part, plain } = scene(seed);
    const { fit, placed } = alone(locker, boxPart(part));
    if (fit.ways.length === 0 || !placed) return;
    const half = part.map((side) => side / 2000) as [number, number, number];
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map(
      (i): Vec3 =>
        pointInBoat(placed.pose, [(i & 1 ? 1 : -1) * half[0], (i & 2 ? 1 : -1) * half[1], (i & 4 ? 1 : -1) * half[2]]),
    );
    expect(outsideBy(plain, corners)).toBeLessThan(2e-6);
  });

  it.each(SEEDS)('port and starboard twins give mirrored answers, seed %i', (seed) => {
    const { sizes, part } = scene(seed);
    const services = { ...servedFrom('port', part, 80) };
    const mirrored = { ...servedFrom('starboard', part, 80) };
    const port = alone(lockerOf({ ...sizes, side: 'port' }), boxPart(part, { services, mounting: { upright: true } }));
    const starboard = alone(
      lockerOf({ ...sizes, side: 'starboard' }),
      boxPart(part, { services: mirrored, mounting: { upright: true } }),
    );
    expect(starboard.inside.outcome).toBe(port.inside.outcome);
    if (port.fit.best) expect(starboard.fit.best?.spareM).toBeCloseTo(port.fit.best.spareM, 6);
    expect(starboard.placed?.met).toBe(port.placed?.met);
    if (port.fit.ways.length === 0) return;
    const outcomes = (answer: PartAnswer) => answer.findings.map(({ rule, outcome }) => `${rule} ${outcome}`).sort();
    expect(outcomes(starboard)).toEqual(outcomes(port));
  });
});
