import { FIXTURE_TEMPLATES } from '@core/boat/catalogue/fixture-templates';
import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf, type Template } from '@core/boat/catalogue/templates';
import { fixtureAdded, freeId, partAdded } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { Panel } from '../inspector/parts';

/** The next number behind the letters that such things bear aboard; else behind the first letters of its name. */
export function freeTag(boat: Boat, { kind, name }: { readonly kind: string; readonly name: string }): string {
  const things = [...Object.values(boat.parts), ...Object.values(boat.fixtures)];
  const lettersOf = (tag: string | undefined) => tag?.match(/^[A-Z]+(?=\d+$)/)?.[0];
  const used = new Set(things.map(({ tag }) => tag));
  const letters =
    things.filter((thing) => thing.kind === kind).flatMap(({ tag }) => lettersOf(tag) ?? [])[0] ??
    // On a drawing I and O are taken for figures.
    (name
      .toUpperCase()
      .replace(/[^A-HJ-NP-Z]/g, '')
      .slice(0, 2) ||
      'X');
  let number = 1;
  while (used.has(`${letters}${number}`)) number++;
  return `${letters}${number}`;
}

const GROUPS: readonly (readonly [string, readonly Template[]])[] = [
  ...[...new Set(PART_TEMPLATES.map(({ group }) => group))].map(
    (group) => [`To fit: ${group}`, PART_TEMPLATES.filter((template) => template.group === group)] as const,
  ),
  ['Aboard already', FIXTURE_TEMPLATES],
];

/** A thing of typical size, put where the section is; its data sheet, or a tape, replaces the values later. */
export function AddThing(): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const [picked, setPicked] = useState(PART_TEMPLATES[0]?.id ?? '');
  const add = (): void => {
    const { boat, arrangementId, sectionX } = useApp.getState();
    const template = GROUPS.flatMap(([, templates]) => templates).find(({ id }) => id === picked);
    if (!boat || !template) return;
    const id = freeId({ ...boat.fixtures, ...boat.parts }, template.id);
    const pose = { at: [sectionX, 0, 0] as const, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    const tag = freeTag(boat, template.draft);
    const recipe = FIXTURE_TEMPLATES.includes(template)
      ? fixtureAdded(id, { ...partOf(template), tag, soft: false, pose: { ...pose, at: [...pose.at] } })
      : partAdded(id, { ...partOf(template), tag }, arrangementId ?? undefined, pose);
    if (edit(`Add ${tag} ${template.draft.name}`, recipe)) select({ kind: 'thing', id });
  };
  return (
    <Panel title="Add a part or fixture" level={3} aside="typical sizes">
      <div className="add-row">
        <div className="field">
          <select aria-label="Thing to add" value={picked} onChange={(event) => setPicked(event.target.value)}>
            {GROUPS.map(([group, templates]) => (
              <optgroup key={group} label={group}>
                {templates.map((template) => (
                  <option key={template.id} value={template.id}>
                    {template.draft.name}
                  </option>
                ))}
              </optgroup>
            ))}
          </select>
        </div>
        <button type="button" className="button" onClick={add}>
          Add
        </button>
      </div>
    </Panel>
  );
}
