import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { Session } from '@core/engine/session';
import { boundsInBoat } from '@core/output/views/envelope';
import { describe, expect, it } from 'vitest';
import { type BoatDraft, threeLockers } from '../../../support/boats';

const read = (draft: BoatDraft): Boat => {
  const result = readBoat(JSON.stringify(draft));
  if (!result.ok) throw new Error(result.problems[0]?.message);
  return result.boat;
};
const stowage = (draft: BoatDraft) => new Session(read(draft)).stowage();

describe('stowage that the plan takes', () => {
  it('is the volume of parts and of the runs that pass, none where nothing of the plan is', () => {
    const draft = threeLockers();
    const { lostL } = stowage({ ...draft, lines: {} });
    // derived: a box of 0.13 x 0.12 x 0.2 m is 3.12 L; fixtures were aboard before
    expect(lostL.middle).toBeCloseTo(3.12, 6);
    expect(lostL.aft).toBe(0);
    const { 'raw-1': first, 'raw-2': second } = draft.lines ?? {};
    if (!first || !second) throw new Error('expected two hoses');
    const session = new Session(read({ ...draft, lines: { 'raw-1': first, 'raw-2': second } }));
    const report = session.settled();
    expect(report.runs.map(({ status }) => status)).toEqual(['routed', 'routed']);
    const withRuns = session.stowage().lostL;
    expect(withRuns.aft).toBeGreaterThan(0);
    const all = (lost: Readonly<Record<string, number>>) =>
      Object.values(lost).reduce((sum, litres) => sum + litres, 0);
    // derived: suction hoses of 26 mm take 0.531 L a metre of their length, less what lies in the 15 mm between two lockers; bends are up to
    // 1 mm thicker, and four ends of 34 mm, 40 mm long, take 0.145 L
    const lengths = report.runs.reduce((sum, { lengthM }) => sum + (lengthM ?? 0), 0);
    const ofRuns = Math.PI * 0.013 ** 2 * 1000 * lengths;
    const added = all(withRuns) - all(lostL);
    expect(added).toBeGreaterThan(ofRuns * 0.97);
    expect(added).toBeLessThan(ofRuns * (14 / 13) ** 2 + 0.16);
  });

  it('is counted in each compartment that a part reaches into, no litre twice', () => {
    const draft = { ...threeLockers(), lines: {} };
    const [arrangement = ''] = Object.keys(draft.arrangements ?? {});
    const place = draft.arrangements?.[arrangement]?.places?.strainer;
    if (!place) throw new Error('expected a place');
    // derived: the lockers end at x = 1 and begin at 1.015; half of 0.13 m stands on either side of 1.0075
    place.at = [1.0075, 0, 0];
    const { lostL } = stowage(draft);
    const half = (0.13 / 2 - 0.0075) * 0.12 * 0.2 * 1000;
    expect(lostL.aft).toBeCloseTo(half, 6);
    expect(lostL.middle).toBeCloseTo(half, 6);
  });
});

describe('boxes that must be stowed', () => {
  const boxed = (stowageBoxes: NonNullable<BoatDraft['stowageBoxes']>, change: Partial<BoatDraft> = {}): BoatDraft => ({
    ...threeLockers(),
    stowageBoxes,
    ...change,
  });
  const spares = (near?: string, sizeM: [number, number, number] = [0.4, 0.3, 0.2]) => ({
    name: 'Spares',
    sizeM,
    ...(near === undefined ? {} : { near }),
  });

  it('go into the compartment that they should be near, clear of what stands there', () => {
    const draft = boxed({ a: spares('middle'), b: spares('strainer'), c: spares('fore') });
    const boat = read(draft);
    const { boxes } = new Session(boat).stowage();
    expect([boxes.a?.compartment, boxes.b?.compartment, boxes.c?.compartment]).toEqual(['middle', 'middle', 'fore']);
    expect([boxes.a?.isNear, boxes.b?.isNear, boxes.c?.isNear]).toEqual([true, true, true]);
    const places = Object.entries(boxes).map(([id, place]) => {
      if (!place) throw new Error(`expected a place of ${id}`);
      return boundsInBoat({ type: 'box', sizeM: [0.4, 0.3, 0.2] }, place.pose);
    });
    const things = Object.values(boat.fixtures).map((fixture) => boundsInBoat(fixture.shape, fixture.pose));
    for (const [index, one] of places.entries())
      for (const other of [...things, ...places.slice(index + 1)])
        expect(
          [0, 1, 2].some(
            (k) => (one.low[k] ?? 0) >= (other.high[k] ?? 0) - 1e-3 || (other.low[k] ?? 0) >= (one.high[k] ?? 0) - 1e-3,
          ),
        ).toBe(true);
  });

  it('go into the next one where there is no room, and say so; where nothing takes them, nothing is told', () => {
    const draft = boxed({ thick: spares('aft', [0.4, 0.35, 0.32]), huge: spares('aft', [1.2, 0.9, 0.9]) });
    const aft = draft.compartments?.aft;
    if (!aft) throw new Error('expected a locker');
    // derived: 0.3 m deep, less than the thinnest side of the one; no locker is as wide as the other.
    aft.rangeM = [0, 0.3];
    const { boxes } = stowage(draft);
    expect(boxes.thick).toMatchObject({ compartment: 'middle', isNear: false });
    expect(boxes.huge).toBeNull();
  });

  it('come in through an opening that needs no tool', () => {
    const draft = threeLockers();
    const lid = draft.openings?.lid;
    if (!lid) throw new Error('expected a lid');
    const box = { s: spares('fore') };
    expect(stowage(boxed(box)).boxes.s?.compartment).toBe('fore');
    const screwed = { lid: { ...lid, how: 'screwed' as const } };
    expect(stowage(boxed(box, { openings: screwed })).boxes.s?.compartment).not.toBe('fore');
    // derived: 0.2 x 0.3 m are the smaller sides of the box
    const narrow = { lid: { ...lid, widthM: 0.29, heightM: 0.25 } };
    expect(stowage(boxed(box, { openings: narrow })).boxes.s?.compartment).not.toBe('fore');
    const just = { lid: { ...lid, widthM: 0.2, heightM: 0.3 } };
    expect(stowage(boxed(box, { openings: just })).boxes.s?.compartment).toBe('fore');
  });

  it('keep out of where people live', () => {
    const draft = boxed({ s: spares('fore') });
    const fore = draft.compartments?.fore;
    if (!fore) throw new Error('expected a locker');
    fore.kind = 'cabin';
    expect(stowage(draft).boxes.s?.compartment).toBe('middle');
  });

  it('are the same whatever the order of the records', () => {
    const draft = boxed({ a: spares('middle'), b: spares('middle', [0.3, 0.3, 0.3]) });
    const turned = (records: object) => Object.fromEntries(Object.entries(records).reverse());
    const other = {
      ...draft,
      compartments: turned(draft.compartments ?? {}),
      stowageBoxes: turned(draft.stowageBoxes ?? {}),
    };
    expect(stowage(other as BoatDraft)).toEqual(stowage(draft));
  });
});
