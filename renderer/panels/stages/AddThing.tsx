import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf } from '@core/boat/catalogue/templates';
import { freeId, partAdded } from '@core/boat/edits';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { Panel } from '../inspector/parts';

/** A part of typical size, put where the section is; its data sheet replaces the values later. */
export function AddThing(): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const [picked, setPicked] = useState(PART_TEMPLATES[0]?.id ?? '');
  const groups = [...new Set(PART_TEMPLATES.map((template) => template.group))];
  const add = (): void => {
    const { boat, arrangementId, sectionX } = useApp.getState();
    const template = PART_TEMPLATES.find(({ id }) => id === picked);
    if (!boat || !template) return;
    const id = freeId({ ...boat.fixtures, ...boat.parts }, template.id);
    const pose = { at: [sectionX, 0, 0] as const, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    const recipe = partAdded(id, partOf(template), arrangementId ?? undefined, pose);
    if (edit(`Add ${template.draft.name}`, recipe)) select({ kind: 'thing', id });
  };
  return (
    <Panel title="Add a part" level={3} aside="typical sizes">
      <div className="add-row">
        <div className="field">
          <select aria-label="Part to add" value={picked} onChange={(event) => setPicked(event.target.value)}>
            {groups.map((group) => (
              <optgroup key={group} label={group}>
                {PART_TEMPLATES.filter((template) => template.group === group).map((template) => (
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
