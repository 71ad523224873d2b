/**
 * What figures and limits rest on: whatever a source of a rule, formula or table names by key. `edition` is that which was read
 * or quoted. `known` says how we know it: read (the text itself), quoted (another publication quotes it),
 * memory (not checked against the text), practice (a fact of the trade without a source), derived (arithmetic of ours), owner (the boat file).
 */
export interface Reference {
  readonly title: string;
  readonly edition: string;
  readonly known: 'read' | 'quoted' | 'memory' | 'practice' | 'derived' | 'owner';
}

export const BIBLIOGRAPHY = {
  'iso-10133': {
    title: 'ISO 10133 Small craft - Electrical systems - Extra-low-voltage d.c. installations, today in ISO 13297',
    edition: '2012',
    known: 'quoted',
  },
  'abyc-e11': {
    title: 'ABYC E-11 AC and DC electrical systems on boats',
    edition: 'as quoted by marine electrical writers',
    known: 'quoted',
  },
  'cfr-33-183': {
    title: '33 CFR Part 183 Subpart I, Electrical systems',
    edition: 'with Table 5 to 183.425, as read in a public reprint of the law',
    known: 'read',
  },
  'ul-1426': {
    title: 'UL 1426 Cables for boats, ampacity of bundled conductors as printed by cable makers',
    edition: 'as quoted',
    known: 'quoted',
  },
  'abyc-h27': {
    title: 'ABYC H-27 Seacocks, through-hull fittings and drain plugs',
    edition: 'as quoted by marine systems writers',
    known: 'quoted',
  },
  'rcd-2013-53': {
    title: 'Directive 2013/53/EU, Annex I: shut-off of through-hulls readily accessible',
    edition: '2013',
    known: 'quoted',
  },
  'iso-9093': { title: 'ISO 9093 Small craft - Seacocks and through-hull fittings', edition: '2020', known: 'quoted' },
  'en-853': {
    title: 'EN 853 Rubber hoses and hose assemblies - Wire braid reinforced hydraulic type',
    edition: '2015',
    known: 'quoted',
  },
  'nureg-0700': {
    title: 'NUREG-0700 Human-system interface design review guidelines, Table 11.4 functional reach',
    edition: 'Rev. 3',
    known: 'quoted',
  },
  'carver-1957': {
    title: 'W. B. Carver, Solution to problem E 1225 (a rectangle in a rectangle), American Mathematical Monthly 64',
    edition: '1957',
    known: 'quoted',
  },
  'niosh-94-110': {
    title: 'NIOSH 94-110 Applications manual for the revised NIOSH lifting equation',
    edition: '1994, revised 2021',
    known: 'quoted',
  },
  'mil-std-1472': {
    title: 'MIL-STD-1472 Human engineering, arm and hand access dimensions',
    edition: 'as remembered; figure numbers differ by revision',
    known: 'memory',
  },
  'ufc-3-230-12a': {
    title: 'UFC 3-230-12A (TM 5-813-8) Water desalination: materials of feed and product',
    edition: 'as read in its public text',
    known: 'read',
  },
  'swamee-jain-1976': {
    title: 'P. K. Swamee and A. K. Jain, Explicit equations for pipe-flow problems, J. Hydraulics Division ASCE 102',
    edition: '1976',
    known: 'quoted',
  },
  'vsp-2018': {
    title:
      'Vessel Sanitation Program Operations Manual (ships that carry passengers; a small craft is not bound by it)',
    edition: '2018',
    known: 'quoted',
  },
  'orifice-tables': {
    title: 'Engineering tables of orifice coefficients: short tube two to three bores long',
    edition: 'as published by engineering calculation pages',
    known: 'quoted',
  },
  'abyc-h22': {
    title: 'ABYC H-22 Electric bilge pump systems',
    edition: 'as reprinted on a pump sheet',
    known: 'quoted',
  },
  'iso-15083': {
    title: 'ISO 15083 Small craft - Bilge-pumping systems',
    edition: '2020',
    known: 'quoted',
  },
  'loop-heights': {
    title: 'Height of vented loops as engine makers and writers of the trade give it: 200 mm heeled to 10 in',
    edition: 'several, in conflict',
    known: 'quoted',
  },
  'hose-clamps': {
    title: 'Hose clamps below the waterline: two by ISO practice, one all-stainless by the American texts',
    edition: 'as quoted by marine systems writers',
    known: 'quoted',
  },
  practice: { title: 'Common practice of the trade, no source', edition: '', known: 'practice' },
  geometry: { title: 'Geometry of the boat as drawn', edition: 'arithmetic', known: 'derived' },
  'boat-file': { title: 'The boat file: value entered by its owner', edition: '', known: 'owner' },
} as const satisfies Record<string, Reference>;

export type SourceKey = keyof typeof BIBLIOGRAPHY;
