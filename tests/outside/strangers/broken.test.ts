import { readBoat } from '@core/boat/read';
import { expect, it } from 'vitest';
import { type Changes, change, raw } from './judging';

/* Slips that a stranger makes: each is told by where it is, what stands there and what was expected. From memory. */

function problems(changes: Changes) {
  const boat = raw('oarweed');
  for (const [path, value] of Object.entries(changes)) change(boat, path, value);
  const read = readBoat(JSON.stringify(boat));
  return read.ok ? [] : read.problems;
}

const SLIPS: readonly (readonly [name: string, changes: Changes, path: string, value: RegExp, limit: RegExp])[] = [
  ['an id that begins with a sign', { 'compartments/-x': {} }, 'compartments.-x', /-x/, /letter or digit/],
  [
    'an outline that crosses itself',
    { 'compartments/eng/outline/1': [4, 0.6], 'compartments/eng/outline/2': [4, -0.6] },
    'compartments.eng.outline',
    /\[4/,
    /cross/,
  ],
  ['a line without an end', { 'lines/h/to': undefined }, 'lines.h.to', /missing/, /needed/],
  ['a line to nothing', { 'lines/h/to/thing': 'nobody' }, 'lines.h.to.thing', /nobody/, /no fixture or part/],
  ['a line to no port', { 'lines/h/to/port': 'nope' }, 'lines.h.to.port', /nope/, /\bin\b/],
  [
    'a place a million kilometres off',
    { 'arrangements/fwd/places/pm/at/0': 1e9 },
    'arrangements.fwd.places.pm.at[0]',
    /1000000000/,
    /1000 m/,
  ],
  [
    'a length with its unit in a text',
    { 'lines/h/supplied/lengthM': '2.4 m' },
    'lines.h.supplied.lengthM',
    /2\.4 m/,
    /number/,
  ],
  [
    'a range upside down',
    { 'compartments/eng/rangeM': [0.5, -0.6] },
    'compartments.eng.rangeM',
    /0\.5/,
    /first.*below.*second/,
  ],
  [
    'a section that turns down again',
    { 'hull/stations/a/points/2': [1.8, -0.9] },
    'hull.stations.a.points[2]',
    /-0\.9/,
    /-0\.8/,
  ],
  ['two stations in one place', { 'hull/stations/m/xM': 0 }, 'hull.stations.m.xM', /0/, /same place/],
  [
    'a panel of a compartment that is not there',
    { 'panels/g1/between/1': 'nirvana' },
    'panels.g1.between[1]',
    /nirvana/,
    /no compartment/,
  ],
  [
    'a port that looks nowhere',
    { 'parts/pm/ports/hi/direction': [0, 0, 0] },
    'parts.pm.ports.hi.direction',
    /0, ?0/,
    /length/,
  ],
  ['an arrangement that is not there', { currentArrangement: 'xx' }, 'currentArrangement', /xx/, /no arrangement/],
];

it.each(SLIPS)('tells %s', (_name, changes, path, value, limit) => {
  const found = problems(changes).find((p) => p.path === path);
  expect(found?.value).toMatch(value);
  expect(found?.limit).toMatch(limit);
  expect(found?.message).toContain(path);
});

it('leaves the boat itself alone', () => {
  expect(problems({})).toEqual([]);
});
