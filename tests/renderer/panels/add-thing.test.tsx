// @vitest-environment happy-dom
import { FIXTURE_TEMPLATES } from '@core/boat/catalogue/fixture-templates';
import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { edit } from '@core/boat/edits';
import { freeTag } from '@core/boat/free-tag';
import { placeIn } from '@core/boat/interior/put-into';
import { readBoat } from '@core/boat/read';
import { AddThing } from '@renderer/panels/stages/AddThing';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
});
afterEach(cleanup);
const state = () => useApp.getState();

describe('adding from the templates', () => {
  it('puts any part of the arrangement and any fixture of the boat aboard, each with a tag of its own', () => {
    render(<AddThing />);
    for (const template of [...PART_TEMPLATES, ...FIXTURE_TEMPLATES]) {
      fireEvent.change(screen.getByRole('combobox', { name: 'Thing to add' }), { target: { value: template.id } });
      fireEvent.click(screen.getByRole('button', { name: 'Add' }));
      const picked = state().selection;
      expect([template.id, state().problem]).toEqual([template.id, null]);
      expect(picked?.kind).toBe('thing');
      const records = FIXTURE_TEMPLATES.includes(template) ? state().boat?.fixtures : state().boat?.parts;
      expect([template.id, records?.[picked?.id ?? '']?.name]).toEqual([template.id, template.draft.name]);
    }
    const boat = state().boat;
    const tags = [...Object.values(boat?.parts ?? {}), ...Object.values(boat?.fixtures ?? {})].flatMap(
      ({ tag }) => tag ?? [],
    );
    expect(new Set(tags).size).toBe(tags.length);
    // On a drawing I and O are taken for figures.
    for (const tag of tags) expect(tag).toMatch(/^[A-HJ-NP-Z]+\d+$/);
  });

  it('puts it into the compartment in hand, not onto the centreline', () => {
    const boat = state().boat;
    const [id, compartment] = Object.entries(boat?.compartments ?? {}).at(-1) ?? [];
    if (!boat || id === undefined || !compartment) throw new Error('expected a compartment');
    state().select({ kind: 'compartment', id });
    render(<AddThing />);
    fireEvent.click(screen.getByRole('button', { name: 'Add' }));
    const added = state().selection?.id ?? '';
    const at = state().boat?.arrangements[state().arrangementId ?? '']?.places[added]?.at;
    const part = state().boat?.parts[added];
    if (!part) throw new Error('expected a part');
    expect(at).toEqual(placeIn(boat, id, part));
  });

  it('numbers on behind the letters that such things bear', () => {
    const boat = state().boat;
    if (!boat) throw new Error('expected a boat');
    const edited = edit(boat, (draft) => {
      const first = Object.values(draft.parts)[0] ?? Object.values(draft.fixtures)[0];
      if (!first) throw new Error('expected a thing');
      first.kind = 'bilgePump';
      first.tag = 'BP1';
    });
    if (!edited.ok) throw new Error('expected a boat');
    const tagged = edited.boat;
    expect(freeTag(tagged, { kind: 'bilgePump', name: 'Second pump' })).toBe('BP2');
    expect(freeTag(tagged, { kind: 'toilet', name: 'Toilet' })).toBe('TL1');
  });
});
