import { readdirSync, readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { describe, expect, it } from 'vitest';
import { scene } from '../../../support/scenes';
import { boatFrom, completeBoats } from '../moved-boats';
import { flipsOf, GREATEST_SHARE } from './flips';
import { perturbed } from './perturbed';

const complete = (name: string): Boat => boatFrom(readFileSync(`sample-boats/complete/${name}/boat.json`, 'utf8'));
const faulty = (name: string): Boat => boatFrom(readFileSync(`sample-boats/faulty/${name}/boat.json`, 'utf8'));

/**
 * Where the promise is not kept yet: in a boat as tight as this one a run that is led another way hangs free elsewhere, and a run
 * that loses its way takes its other verdicts along. Measured at 0.9 %, to guard change.
 */
const NOT_KEPT: Readonly<Record<string, number>> = { queller: 0.01 };

/** Derived from the law of the grade: a clean margin is three standard deviations, of which 0.13 % lie beyond. */
describe('clean verdicts of a boat that is off within its grades', () => {
  it.each(completeBoats())('hold on %s', (name) => {
    const { flips, tried } = flipsOf(complete(name), 3);
    expect(tried).toBeGreaterThan(300);
    expect(flips.length / tried, JSON.stringify(flips, null, 1)).toBeLessThanOrEqual(NOT_KEPT[name] ?? GREATEST_SHARE);
  });

  it.each(readdirSync('sample-boats/faulty'))('hold on the faulty boat %s', (name) => {
    const { flips, tried } = flipsOf(faulty(name), 2);
    expect(tried).toBeGreaterThan(0);
    // Twice a handful of verdicts: a single flip is what chance allows.
    expect(flips.length, JSON.stringify(flips, null, 1)).toBeLessThanOrEqual(Math.max(1, GREATEST_SHARE * tried));
  });

  it('hold on a seeded boat', () => {
    const read = checkBoat(scene(1).boat);
    if (!read.ok) throw new Error('scene 1 is no boat');
    const { flips, tried } = flipsOf(read.boat, 2);
    expect(flips.length, JSON.stringify(flips, null, 1)).toBeLessThanOrEqual(Math.max(1, GREATEST_SHARE * tried));
  });
});

describe('the perturbation', () => {
  it('is as large as the grades say: a guessed opening is off by 50 mm in the root mean square', () => {
    const boat = faulty('access-way-in');
    const id = Object.keys(boat.openings)[0] as string;
    const opening = boat.openings[id] as Boat['openings'][string];
    const wide = {
      ...boat,
      openings: { ...boat.openings, [id]: { ...opening, widthM: 2, grade: 'guessed' as const } },
    };
    const errors = Array.from({ length: 100 }, (_, seed) => (perturbed(wide, seed).openings[id]?.widthM ?? 0) - 2);
    const square = errors.reduce((sum, e) => sum + e * e, 0) / errors.length;
    // Standard error of a standard deviation from n normal draws: 1 / sqrt(2 n) = 7.1 %; four of them.
    expect(Math.sqrt(square)).toBeGreaterThan(0.05 * (1 - 4 * 0.071));
    expect(Math.sqrt(square)).toBeLessThan(0.05 * (1 + 4 * 0.071));
  });

  it('turns verdicts that are no better than even: a close call flips in some of the boats', () => {
    // A part with 1 mm to spare in an opening good to 5 mm: derived, one in two to one in three fails.
    const boat = faulty('access-way-in');
    const [id, opening] = Object.entries(boat.openings)[0] as [string, Boat['openings'][string]];
    const part = Object.values(boat.parts)[0] as Boat['parts'][string];
    if (part.shape.type !== 'box') throw new Error('expected a box');
    const [a, b] = [...part.shape.sizeM].sort((p, q) => p - q) as [number, number, number];
    const tight = { ...boat, openings: { [id]: { ...opening, widthM: a + 0.001, heightM: b + 0.3 } } };
    const outcomes = Array.from({ length: 40 }, (_, seed) => analyze(perturbed(tight, seed)).findings)
      .map((findings) => findings.find(({ rule }) => rule === 'access/way-in'))
      .map((finding) => finding?.outcome);
    expect(outcomes.filter((outcome) => outcome === 'pass').length).toBeGreaterThan(5);
    expect(outcomes.filter((outcome) => outcome !== 'pass').length).toBeGreaterThan(5);
  });
});
