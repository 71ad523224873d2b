import { type BoatRecipe, edit } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { endCalled, nextReadingId, readingEntered, surveyEndRemoved } from '@core/boat/survey-ends';
import { drawnPlaces, surveyedRecords, surveyLinkOf, surveyTakenOver } from '@core/boat/survey-links';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';
import { boatOf } from './boat-of';

const edited = (boat: Boat, recipe: BoatRecipe): Boat => {
  const result = edit(boat, recipe);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
};
const reading = (from: string, to: string, valueM = 1) => ({ from, to, kind: 'distance' as const, valueM });

describe('entering readings', () => {
  it('makes a point of every new name, and knows an old one again in any case', () => {
    let boat = edited(boatOf(threeLockers()), readingEntered('1', reading('Mast foot', 'Shelf, aft edge')));
    boat = edited(boat, readingEntered('2', reading('MAST FOOT', ' shelf, aft edge ')));
    expect(boat.survey?.points).toEqual({
      'Mast-foot': { name: 'Mast foot' },
      'Shelf-aft-edge': { name: 'Shelf, aft edge' },
    });
    expect(Object.values(boat.survey?.readings ?? {}).map(({ from, to }) => [from, to])).toEqual([
      ['Mast-foot', 'Shelf-aft-edge'],
      ['Mast-foot', 'Shelf-aft-edge'],
    ]);
    expect(endCalled(boat.survey, 'mast FOOT')).toBe('Mast-foot');
    expect(nextReadingId(boat.survey)).toBe('3');
  });

  it('gives names that no id can hold an id all the same', () => {
    const boat = edited(boatOf(threeLockers()), readingEntered('1', reading('\u00e9tag\u00e8re', '\u6a2a')));
    expect(Object.values(boat.survey?.points ?? {}).map(({ name }) => name)).toEqual(['\u00e9tag\u00e8re', '\u6a2a']);
  });

  it('a point goes with its readings, others stay', () => {
    let boat = edited(boatOf(threeLockers()), readingEntered('1', reading('a', 'b')));
    boat = edited(boat, readingEntered('2', reading('b', 'c')));
    boat = edited(boat, surveyEndRemoved({ kind: 'point', id: 'a' }));
    expect(Object.keys(boat.survey?.readings ?? {})).toEqual(['2']);
    expect(Object.keys(boat.survey?.points ?? {})).toEqual(['b', 'c']);
  });
});

describe('taking surveyed places over', () => {
  const ids = ['low', 'high', 'left', 'right'];
  const linked = (): Boat =>
    boatOf({
      ...threeLockers(),
      typed: { 'openings.lid.widthM': '31 1/2 in' },
      survey: {
        points: {
          low: { of: ['compartments.fore.outline[0]', 'compartments.fore.rangeM[0]'] },
          high: { of: ['compartments.fore.outline[2]', 'compartments.fore.rangeM[0]'] },
          left: { of: ['openings.lid.widthM', 'openings.lid.at'] },
          right: { of: ['openings.lid.widthM', 'openings.lid.at'] },
          astray: { of: ['compartments.gone.outline[0]', 'openings.lid.colour', 'compartments.fore.outline[9]'] },
        },
      },
    });
  const places = {
    low: { at: [2.04, -0.61, -0.41], sdM: [0.001, 0.001, 0.001] },
    high: { at: [2.02, 0.59, 0.4], sdM: [0.001, 0.001, 0.001] },
    left: { at: [2.5, 0.405, 0.4], sdM: [0.001, 0.001, 0.001] },
    right: { at: [2.5, -0.395, 0.42], sdM: [0.001, null, 0.001] },
  } as const;

  it('tells of what a point stands at that is not there', () => {
    const read = readBoat(JSON.stringify(linked()));
    const told = read.ok ? read.notes.filter((note) => note.startsWith('survey.points.astray.of')) : [];
    expect(told).toHaveLength(3);
    expect(told[0]).toContain('compartments.gone.outline[0]');
  });

  it('reads the drawn places as a start, each coordinate that the record says', () => {
    expect(drawnPlaces(linked())).toMatchObject({
      low: [2.03, -0.6, -0.4],
      high: [2.03, 0.6, 0.4],
      left: [2.53, 0, 0.4],
      astray: [null, null, null],
    });
    expect(surveyLinkOf(linked(), 'compartments.fore.rangeM[2]')).toBeNull();
  });

  it('moves corners, range and centre in one edit, the mean where several points say one value, and keeps what is loose', () => {
    const before = linked();
    const after = edited(before, surveyTakenOver(places));
    expect(after.compartments.fore?.outline).toEqual([
      [-0.61, -0.41],
      [0.6, -0.4],
      [0.59, 0.4],
      [-0.6, 0.4],
    ]);
    // derived: (2.04 + 2.02) / 2; y of the lid from the left edge alone, for the right one is loose there
    expect(after.compartments.fore?.rangeM).toEqual([2.03, 3.03]);
    expect(after.openings.lid?.at).toEqual([2.5, 0.405, 0.41]);
    expect(after.openings.lid?.widthM).toBe(before.openings.lid?.widthM);
    expect(after.typed).toEqual(before.typed);
    expect(surveyedRecords(before, places)).toBe(2);
    expect(ids.every((id) => after.survey?.points?.[id] !== undefined)).toBe(true);
  });

  it('grades a size by its two edges, and a record only where the survey fixed it whole', () => {
    const sharp = { ...places, right: { at: [2.5, -0.395, 0.4], sdM: [0.001, 0.001, 0.001] } } as const;
    const after = edited(linked(), surveyTakenOver(sharp));
    // derived: 0.405 + 0.395
    expect(after.openings.lid?.widthM).toBe(0.8);
    expect(after.typed).toEqual({});
    expect(after.compartments.fore?.grade).toBe('taped');
    const blunt = { ...places, low: { at: [2.04, -0.61, -0.41], sdM: [0.03, 0.03, 0.03] } } as const;
    // derived: two deviations of 30 mm are 60 mm, within what is guessed (100 mm) and beyond what is scaled (40 mm)
    expect(edited(linked(), surveyTakenOver(blunt)).compartments.fore?.grade).toBe('guessed');
  });
});
