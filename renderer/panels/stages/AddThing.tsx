import { FIXTURE_TEMPLATES } from '@core/boat/catalogue/fixture-templates';
import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf, type Template } from '@core/boat/catalogue/templates';
import { fixtureAdded, freeId, partAdded } from '@core/boat/edits';
import { freeTag } from '@core/boat/free-tag';
import { placeIn } from '@core/boat/interior/put-into';
import { type JSX, useState } from 'react';
import { useDialogs } from '../../app/dialogs';
import { useApp } from '../../store/app';
import { GROUP_WORDS } from '../data/catalogue/entries';
import { startIn } from '../data/catalogue/start-in';
import { openDataSheet } from '../data/data-sheet';
import { Panel } from '../inspector/parts';

const GROUPS: readonly (readonly [string, readonly Template[]])[] = [
  ...[...new Set(PART_TEMPLATES.map(({ group }) => group))].map(
    (group) =>
      [`${GROUP_WORDS[group]}, to fit`, PART_TEMPLATES.filter((template) => template.group === group)] as const,
  ),
  ['Aboard already', FIXTURE_TEMPLATES],
];

/** A thing of typical size, put into the compartment in hand or a locker at the section; its data sheet, or a tape, replaces the values later. */
export function AddThing(): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const [picked, setPicked] = useState(PART_TEMPLATES[0]?.id ?? '');
  const add = (): void => {
    const { boat, arrangementId, sectionX } = useApp.getState();
    const template = GROUPS.flatMap(([, templates]) => templates).find(({ id }) => id === picked);
    if (!boat || !template) return;
    const id = freeId({ ...boat.fixtures, ...boat.parts }, template.id);
    const at = placeIn(boat, startIn(boat), partOf(template)) ?? ([sectionX, 0, 0] as const);
    const pose = { at, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
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
      <div className="actions">
        <button type="button" className="button plain" onClick={() => useDialogs.getState().show('catalogue')}>
          Catalogue
        </button>
        <button type="button" className="button plain" onClick={() => openDataSheet({ kind: 'new' })}>
          From a data sheet
        </button>
        <button type="button" className="button plain" onClick={() => useDialogs.getState().show('wholeSet')}>
          A whole set
        </button>
      </div>
    </Panel>
  );
}
