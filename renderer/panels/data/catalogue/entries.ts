import { FIXTURE_TEMPLATES } from '@core/boat/catalogue/fixture-templates';
import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf, type Template } from '@core/boat/catalogue/templates';
import type { LineKind, Part } from '@core/boat/schema/boat';
import { plainWords } from '../../words';

export interface PartEntry {
  readonly id: string;
  readonly part: Part;
  /** What is aboard already stands in the boat; a part is placed by an arrangement. */
  readonly as: 'part' | 'fixture';
  readonly group: Template['group'];
}

/** Each group under one heading, in the order in which the groups first come. */
export const PART_ENTRIES: readonly PartEntry[] = [
  ...grouped(PART_TEMPLATES).map((template): PartEntry => entryOf(template, 'part')),
  ...grouped(FIXTURE_TEMPLATES).map((template): PartEntry => entryOf(template, 'fixture')),
];

function grouped(templates: readonly Template[]): readonly Template[] {
  const groups = [...new Set(templates.map(({ group }) => group))];
  return groups.flatMap((group) => templates.filter((template) => template.group === group));
}

function entryOf(template: Template, as: PartEntry['as']): PartEntry {
  return { id: template.id, part: partOf(template), as, group: template.group };
}

export const GROUP_WORDS: Readonly<Record<Template['group'], string>> = {
  watermaker: 'The set',
  filters: 'Strainers and filters',
  valves: 'Valves and fittings',
  electric: 'Electrics',
  engine: 'Engine and steering',
  plumbing: 'Tanks, galley, plumbing',
  structure: 'Structure',
  aboard: 'Other',
};

export interface KindEntry {
  readonly id: string;
  readonly kind: LineKind;
}

export const KIND_ENTRIES: readonly KindEntry[] = Object.entries(LINE_KINDS).map(([id, kind]) => ({ id, kind }));

export const WHAT_WORDS: Readonly<Record<LineKind['what'], string>> = { hose: 'Hoses', tube: 'Tubes', cable: 'Cables' };

/** Every word that is typed must stand somewhere in the name, the kind or the group. */
export function matches(words: string, ...texts: readonly string[]): boolean {
  const whole = texts
    .map((text) => plainWords(text))
    .join(' ')
    .toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => whole.includes(word));
}
