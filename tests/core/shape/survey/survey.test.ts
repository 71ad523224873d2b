import { readBoat } from '@core/boat/read';
import { describe, expect, it } from 'vitest';
import { madeSurvey } from '../../../support/surveys';
import { judged } from './named';

const far = (a: readonly number[], b: readonly number[]): number =>
  Math.hypot(...a.map((part, axis) => part - (b[axis] ?? 0)));
type Place = [number, number, number];
const exact = { measured: 0.0002 };

/** Readings that are right to the micrometre: derived from the places. */
const tapes = (places: Readonly<Record<string, Place>>, pairs: readonly (readonly [string, string])[]) =>
  Object.fromEntries(
    pairs.map(([from, to], index) => [
      String(index + 1),
      { from, to, kind: 'distance', valueM: far(places[from] ?? [], places[to] ?? []) },
    ]),
  );

describe('what readings say', () => {
  const datums = {
    bulkhead: { name: 'Main bulkhead', at: [5, 0, 0] as Place, axis: 'x', reversed: true },
    sole: { at: [0, 0, -0.4] as Place, axis: 'z' },
    deck: { at: [0, 0, 1] as Place, axis: 'z', reversed: true },
    mast: { at: [4, 0, 0] as Place },
  };
  it('heights are how far the end lies above the start, offsets run along the axis of their datum, or against it', () => {
    const readings = {
      '1': { from: 'bulkhead', to: 'p', kind: 'offset', valueM: 1.5 },
      '2': { from: 'sole', to: 'p', kind: 'height', valueM: 0.3 },
      '3': { from: 'deck', to: 'p', kind: 'height', valueM: 1.1 },
      '4': { from: 'mast', to: 'p', kind: 'height', valueM: -0.1 },
      '5': { from: 'p', to: 'mast', kind: 'diagonal', valueM: Math.hypot(0.5, 0.7, 0.1) },
      '6': { from: 'p', to: 'bulkhead', kind: 'distance', valueM: 1.5 },
    };
    const { points, residuals } = judged({ points: { p: { of: [] } }, datums, readings }, exact);
    // derived: x = 5 - 1.5, z = -0.4 + 0.3 = 1 - 1.1 = -0.1; y from the diagonal, on either side
    const at = points.p?.at ?? [0, 0, 0];
    expect(at[0]).toBeCloseTo(3.5, 6);
    expect(Math.abs(at[1])).toBeCloseTo(0.7, 6);
    expect(at[2]).toBeCloseTo(-0.1, 6);
    expect(points.p?.mirror?.[1]).toBeCloseTo(-at[1], 6);
    expect(Math.max(...residuals.map(({ residualM }) => Math.abs(residualM)))).toBeLessThan(1e-6);
  });

  it('ends go by id, or by the name that only one record has', () => {
    const readings = { '1': { from: 'Main bulkhead', to: 'Locker lip', kind: 'offset', valueM: 2 } };
    const { points } = judged({ points: { lip: { name: 'Locker lip' } }, datums, readings });
    expect(points.lip?.at[0]).toBeCloseTo(3, 9);
  });

  it('what cannot say anything is left out with its reason, and the rest stands', () => {
    const readings = {
      '1': { from: 'mast', to: 'p', kind: 'offset', valueM: 1 },
      '2': { from: 'p', to: 'p', kind: 'distance', valueM: 1 },
      '3': { from: 'mast', to: 'sole', kind: 'distance', valueM: 1 },
      '4': { from: 'mast', to: 'p', kind: 'distance', valueM: 0 },
      '5': { from: 'sole', to: 'bulkhead', kind: 'distance', valueM: 1 },
      '6': { from: 'sole', to: 'p', kind: 'height', valueM: 0.2 },
    };
    const { leftOut, residuals } = judged({ points: {}, datums, readings });
    expect(leftOut.map(({ reading, why }) => [reading, why])).toEqual([
      ['1', 'noAxis'],
      ['2', 'sameEnds'],
      ['3', 'bothGiven'],
      ['4', 'notPositive'],
      ['5', 'twoPlanes'],
    ]);
    expect(residuals.map(({ reading }) => reading)).toEqual(['6']);
  });

  it('a reading between fixed places that contradicts them says by how much', () => {
    // derived: the corners of a 3-4-5 triangle stand 5 m apart
    const points = { a: { at: [0, 0, 0] }, b: { at: [3, 4, 0] } };
    const read = (valueM: number, kind = 'distance') =>
      judged({ points, readings: { '1': { from: 'a', to: 'b', kind, valueM } } }).leftOut;
    expect(read(5.004)).toEqual([{ reading: '1', why: 'bothGiven' }]);
    expect(read(4)).toEqual([{ reading: '1', why: 'bothGiven', contradictsM: -1 }]);
    expect(read(0.05, 'height')).toEqual([{ reading: '1', why: 'bothGiven', contradictsM: 0.05 }]);
  });
});

describe('a survey beyond what can be adjusted', () => {
  it('is refused by path, value and limit where it is listed, and cut short where readings bring points along', () => {
    const boat = { format: 'underberth-boat', schemaVersion: 1, name: 'Long' };
    const reading = (index: number) => ({ from: 'sole', to: `p${index}`, kind: 'height', valueM: 0.1 });
    const readings = Object.fromEntries(Array.from({ length: 1001 }, (_, index) => [`r${index}`, reading(index)]));
    const read = readBoat(JSON.stringify({ ...boat, survey: { readings } }));
    expect(read.ok ? '' : read.problems[0]?.message).toMatch(/survey\.readings is 1001 readings, at most 1000/);
    const fewer = Object.fromEntries(Object.entries(readings).slice(0, 105));
    const { leftOut, residuals } = judged({ datums: { sole: { at: [0, 0, 0], axis: 'z' } }, readings: fewer });
    expect([residuals.length, leftOut.length, leftOut[0]?.why]).toEqual([100, 5, 'tooManyPoints']);
  });
});

describe('places', () => {
  const box: Readonly<Record<string, Place>> = {
    a: [0, 0, 0],
    b: [1.2, 0, 0],
    c: [1.3, 0.8, 0.1],
    d: [0.1, 0.9, 0],
    e: [0.1, 0.1, 0.7],
    f: [1.1, 0.7, 0.8],
  };
  const ids = Object.keys(box);
  const pairs = ids.flatMap((from, i) => ids.slice(i + 1).map((to) => [from, to] as const));

  it('of a survey that hangs on nothing keep their distances; that it may move as a whole is said', () => {
    const { points, loose, residuals, fit } = judged({ points: {}, readings: tapes(box, pairs) }, exact);
    for (const [from, to] of pairs)
      expect(far(points[from]?.at ?? [], points[to]?.at ?? [])).toBeCloseTo(far(box[from] ?? [], box[to] ?? []), 6);
    expect([...loose.motions].sort()).toEqual(['aboutX', 'aboutY', 'aboutZ', 'alongX', 'alongY', 'alongZ']);
    expect(loose.points).toEqual([]);
    expect(loose.wouldFix[0]).toMatchObject({ from: null, kind: 'place' });
    // derived: 15 tapes, 18 coordinates, 6 motions of the whole
    expect(fit?.spare).toBe(3);
    expect(residuals.every(({ redundancy }) => redundancy >= 0 && redundancy <= 1)).toBe(true);
    expect(residuals.reduce((sum, { redundancy }) => sum + redundancy, 0)).toBeCloseTo(3, 6);
  });

  it('come out the same whatever the order of the readings and wherever the boat lies', () => {
    // Four that lie in no plane: three would leave a mirror image.
    const held = { a: { at: box.a }, b: { at: box.b }, c: { at: box.c }, e: { at: box.e } };
    const plain = judged({ points: held, readings: tapes(box, pairs) }, exact);
    const backwards = judged({ points: held, readings: tapes(box, [...pairs].reverse()) }, exact);
    for (const id of ids) expect(far(plain.points[id]?.at ?? [], backwards.points[id]?.at ?? [])).toBeLessThan(1e-6);
    const shift = (at: Place): Place => [at[0] + 100, at[1] - 40, at[2] + 7];
    const moved = Object.fromEntries(Object.entries(box).map(([id, at]) => [id, shift(at)]));
    const heldThere = Object.fromEntries(['a', 'b', 'c', 'e'].map((id) => [id, { at: moved[id] }]));
    const there = judged({ points: heldThere, readings: tapes(moved, pairs) }, exact);
    for (const id of ids)
      expect(far(there.points[id]?.at ?? [], shift([...(plain.points[id]?.at ?? [0, 0, 0])] as Place))).toBeLessThan(
        1e-6,
      );
  });

  it('that are not fixed are named with the axes, and the reading that would fix them is one that is possible', () => {
    const readings = {
      '1': { from: 'sole', to: 'p', kind: 'height', valueM: 0.3 },
      '2': { from: 'bulkhead', to: 'p', kind: 'offset', valueM: 1 },
    };
    const datums = {
      sole: { at: [0, 0, 0], axis: 'z' },
      bulkhead: { at: [2, 0, 0], axis: 'x' },
      centreline: { at: [0, 0, 0], axis: 'y' },
    };
    const { loose, points } = judged({ points: { p: {}, q: {} }, datums, readings });
    expect(loose.points).toEqual([
      { point: 'p', axes: ['y'] },
      { point: 'q', axes: ['x', 'y', 'z'] },
    ]);
    expect(points.p?.sdM).toEqual([0.0025, null, 0.0025].map((sd) => (sd === null ? null : expect.closeTo(sd, 9))));
    expect(loose.wouldFix).toContainEqual({ from: 'centreline', to: 'p', kind: 'offset' });
    // derived: adding what is proposed until nothing is loose takes as many readings as coordinates are loose
    const more = loose.wouldFix.map((fixing, index) => [`9${index}`, { ...fixing, valueM: 0.5 }] as const);
    const fixed = judged({ points: { p: {}, q: {} }, datums, readings: { ...readings, ...Object.fromEntries(more) } });
    expect(more).toHaveLength(4);
    expect(fixed.loose).toEqual({ motions: [], points: [], wouldFix: [] });
  });

  it('taped from three points alone have a mirror image, and the drawn boat says which is meant', () => {
    const held = { a: { at: box.a }, b: { at: box.b }, d: { at: box.d } };
    const readings = tapes(box, [
      ['a', 'f'],
      ['b', 'f'],
      ['d', 'f'],
    ]);
    const { points } = judged({ points: held, readings }, exact);
    const both = [points.f?.at ?? [], points.f?.mirror ?? []];
    // derived: the three lie in z = 0, so the image is that of z
    expect(both.map((at) => at[2]).sort()).toEqual([expect.closeTo(-0.8, 6), expect.closeTo(0.8, 6)]);
  });
});

describe('suspects', () => {
  const made = () => madeSurvey(77, 'boxy', { noiseM: 0.003, grade: 'measured', neighbours: 8 });
  const taped = (survey: ReturnType<typeof made>['survey'], nth: number): string =>
    Object.entries(survey.readings).filter(([, { kind }]) => kind === 'distance')[nth]?.[0] ?? '';

  it('are told with how much they are off, and have no part in the places', () => {
    const { survey, places } = made();
    const id = taped(survey, 5);
    const reading = survey.readings[id];
    if (reading) reading.valueM += 0.034;
    const { suspects, points, residuals } = judged(survey);
    expect(suspects.map((one) => one.reading)).toEqual([id]);
    // derived: 34 mm and the noise of the reading itself
    expect(suspects[0]?.offM).toBeCloseTo(0.034, 1.7);
    expect(residuals.find((one) => one.reading === id)).toMatchObject({
      isSuspect: true,
      residualM: suspects[0]?.offM,
    });
    for (const [place, at] of Object.entries(places)) expect(far(points[place]?.at ?? [], at)).toBeLessThan(0.02);
  });

  it('may be several: one slip does not hide another, and a gross one is found too', () => {
    const { survey } = made();
    const slips = [taped(survey, 2), taped(survey, 11), taped(survey, 20)];
    [0.08, -0.06, 1].forEach((slip, index) => {
      const reading = survey.readings[slips[index] ?? ''];
      if (reading) reading.valueM += slip;
    });
    const { suspects } = judged(survey);
    expect(suspects.map((one) => one.reading).sort()).toEqual([...slips].sort());
    const gross = suspects.find((one) => one.reading === slips[2]);
    expect(gross?.offM).toBeCloseTo(1, 1);
  });

  it('that explain a misfit equally well are named together, and neither is set aside', () => {
    // derived: a height taken twice and nothing else: which of the two is off cannot be told
    const readings = {
      '1': { from: 'sole', to: 'p', kind: 'height', valueM: 0.5 },
      '2': { from: 'sole', to: 'p', kind: 'height', valueM: 0.6 },
    };
    const { suspects, points } = judged({ datums: { sole: { at: [0, 0, 0], axis: 'z' } }, readings });
    expect(suspects).toHaveLength(1);
    expect([suspects[0]?.reading, ...(suspects[0]?.orElse ?? [])].sort()).toEqual(['1', '2']);
    expect(points.p?.at[2]).toBeCloseTo(0.55, 9);
  });

  it('are not sought where nothing checks a reading', () => {
    const readings = { '1': { from: 'sole', to: 'p', kind: 'height', valueM: 0.5 } };
    const { suspects, residuals, fit } = judged({ datums: { sole: { at: [0, 0, 0], axis: 'z' } }, readings });
    expect(suspects).toEqual([]);
    expect(fit).toMatchObject({ spare: 0, scatter: null, chance: null });
    expect(residuals[0]).toMatchObject({ redundancy: 0, standardised: 0, leastFoundM: null, isSuspect: false });
  });
});
