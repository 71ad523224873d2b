import { mends } from '@core/engine/remedies/mending';
import { remedyText } from '@core/output/text/remedy-text';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../boat/boat-of';
import { type BoatJson, bent } from '../../rules/judged';

/** Titles of the remedies of a finding, cheapest first; each was applied and judged again by the engine. */
function offered(json: BoatJson, key: string): readonly string[] {
  const boat = boatOf(json);
  return mends(boat, key).map((remedy) => remedyText(remedy, boat).title);
}

const cock = (changes: Readonly<Record<string, unknown>>) => ({
  'fixtures.cock.pose.at': [0.6, 0.4, -0.25],
  ...changes,
});
const CASES: readonly (readonly [
  rule: string,
  finding: string,
  changes: Readonly<Record<string, unknown>>,
  title: RegExp,
])[] = [
  ['hull/mounting', 'vessel|hold', {}, /^Add a pad of 18 mm plywood, tabbed to the hull, at Lining/],
  [
    'hull/mounting',
    'vessel|',
    {
      'mountingSurfaces.side.material': 'ply',
      'mountingSurfaces.pad': {
        name: 'Pad',
        compartment: 'locker',
        at: [0.8, 0.9, 0],
        normal: [0, -1, 0],
        widthM: 1,
        heightM: 0.4,
        material: 'ply',
        thicknessM: 0.018,
      },
      'arrangements.plan.places.vessel.at': [0.8, 0.86, 0],
    },
    /^Screw Membrane vessel to Pad/,
  ],
  // Derived: 3 + 12 + 10 - 2 = 23 mm may be; 20 is the next that is sold.
  ['hull/screw-length', 'vessel|', {}, /^Take screws of 20 mm for Membrane vessel, not 35 mm/],
  ['hull/through-hull-sound', 'cock|valve', {}, /^Add a new seacock with its pad, fitted ashore, at Old intake/],
  ['hull/seacock', 'hole|', { 'arrangements.plan': { name: 'Plan' } }, /^Add a seacock at Old through-hull/],
  ['access/seacock-handle', 'cock|', {}, /^Add an extension handle at Intake/],
  [
    'access/seacock-handle',
    'cock|',
    cock({ 'openings.door.how': 'screwed' }),
    /^Add turn-buttons in place of the screws/,
  ],
  ['access/seacock-handle', 'cock|', cock({ 'openings.door.widthM': 0.1 }), /125 mm, now 100 mm/],
  ['access/level', 'pump|fitted', {}, /^Stand Crankcase pump upright/],
  ['access/services-taken', 'gland|nuts', {}, /^Move Spares/],
  [
    'access/hold-down',
    'vessel|',
    { 'mountingSurfaces.side.capacityKg': 40, 'parts.vessel.heldDown': false },
    /^Add straps/,
  ],
  ['access/noise-near-berth', 'pump|', {}, /^Add rubber feet/],
  ['runs/hole-crowded', 'aft|fore|full loom', {}, /from 38 mm to 45 mm/],
  ['runs/clamps', 'hose|from', {}, /^Fit 2 clamps on Intake to tee/],
  [
    'runs/clamps',
    'hose|from metal',
    { 'lines.hose.ends.from.clamps': 2, 'lines.hose.ends.from.clampsStainless': false },
    /stainless all through/,
  ],
  ['runs/pressure-near-berth', 'hose|from', {}, /^Add a cover over the joint/],
  ['runs/bend-at-fitting', 'tube|from', { 'arrangements.plan.pins': {} }, /straight for 75 mm/],
];

describe('what mends a finding about what is screwed, clamped and reached', () => {
  it.each(CASES)('%s|%s', (rule, finding, changes, title) => {
    expect(offered(bent(rule, changes), `${rule}|${finding}`).join('\n')).toMatch(new RegExp(title.source, 'm'));
  });

  it('is nothing where only two people, or a look at the place, will do', () => {
    expect(offered(bent('access/lift', {}), 'access/lift|box|')).toEqual([]);
    expect(offered(bent('hull/new-hole', {}), 'hull/new-hole|cock|')).toEqual([]);
  });
});
