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
    edition: 'Table 5 to 183.425',
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
  practice: { title: 'Common practice of the trade, no source', edition: '', known: 'practice' },
  geometry: { title: 'Geometry of the boat as drawn', edition: 'arithmetic', known: 'derived' },
  'boat-file': { title: 'The boat file: value entered by its owner', edition: '', known: 'owner' },
} as const satisfies Record<string, Reference>;

export type SourceKey = keyof typeof BIBLIOGRAPHY;
