import type { Draft } from '@core/boat/edits';
import { panelChanged, panelHoleAdded } from '@core/boat/interior/panel-data';
import type { Boat, PanelData } from '@core/boat/schema/boat';
import type { Panel as DerivedPanel } from '@core/shape/layout/types';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { nearOf, panelWords, placeOfPanel } from '../../store/panel-place';
import { markOf } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { TextField } from '../fields/TextField';
import { lengthFigure, lengthUnit } from '../format';
import { MATERIAL_OPTIONS, RULE_WORDS } from '../words';
import { PanelHole } from './PanelHole';
import { PlannedHole } from './PlannedHole';
import { Choice, Facts, Labelled, Link, Panel, Segmented } from './parts';

/** A hole that a hose of 19 mm bore passes, metres. */
const USUAL_HOLE_M = 0.03;

interface Props {
  readonly boat: Boat;
  readonly id: string;
}

/** A face between two compartments: what may pass it, what it is made of, its holes and who uses them. */
export function PanelInspector({ boat, id }: Props): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const panel = layoutOf(boat, arrangementId).panels[id];
  if (!panel) return <Panel title="Panel">This panel is gone: its two compartments no longer meet.</Panel>;
  return (
    <>
      <Board boat={boat} panel={panel} />
      <Holes boat={boat} panel={panel} />
      <Users boat={boat} id={id} />
    </>
  );
}

interface Derived {
  readonly boat: Boat;
  readonly panel: DerivedPanel;
}

/** Rule, thickness, material: kept in a record that stays with the panel. */
function Board({ boat, panel }: Derived): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const units = useApp((state) => state.displayUnits);
  const words = panelWords(boat, panel);
  const data = panel.dataId === undefined ? undefined : boat.panels[panel.dataId];
  const change = (label: string, recipe: (record: Draft<PanelData>) => void): boolean =>
    edit(`${label} of ${words}`, panelChanged(placeOfPanel(panel), recipe));
  const set = (label: string, values: Partial<Draft<PanelData>>): boolean =>
    change(label, (record) => {
      Object.assign(record, values);
    });
  const unset = (label: string, key: 'name' | 'thicknessM' | 'material' | 'edgeM' | 'newHoleCostM') => (): boolean =>
    change(label, (record) => {
      delete record[key];
    });
  return (
    <Panel title={<span className="place">{words}</span>} aside="panel">
      <Labelled label="Name">
        <TextField
          label="Name of the panel"
          value={data?.name ?? ''}
          placeholder="bulkhead, sole board ..."
          commit={(name) => set('Name', { name })}
          clear={unset('Name', 'name')}
        />
      </Labelled>
      <Labelled label="What may pass" above>
        <Segmented
          label="What may pass the panel"
          value={panel.rule}
          options={(['open', 'drill', 'noDrill'] as const).map((rule) => [rule, RULE_WORDS[rule]] as const)}
          choose={(rule) => set('Rule', { rule })}
        />
      </Labelled>
      <Labelled label="Thickness">
        <LengthField
          label="Thickness"
          value={panel.thicknessM}
          commit={(thicknessM) => set('Thickness', { thicknessM })}
          clear={unset('Thickness', 'thicknessM')}
        />
      </Labelled>
      <Labelled label="Material">
        <Choice
          label="Material of the panel"
          value={data?.material ?? ''}
          options={[['', 'Not said'], ...MATERIAL_OPTIONS]}
          choose={(material) => (material === '' ? unset('Material', 'material')() : set('Material', { material }))}
        />
      </Labelled>
      <Labelled label="Edge distance">
        <LengthField
          label="Least distance from a hole to the edge"
          value={panel.edgeM}
          commit={(edgeM) => set('Edge distance', { edgeM })}
          clear={unset('Edge distance', 'edgeM')}
        />
      </Labelled>
      <Facts
        rows={[
          ...panel.between.map(
            (side, index) =>
              [
                index === 0 ? 'Between' : 'and',
                <span key={side} className="place">
                  <Link go={() => select({ kind: 'compartment', id: side })}>
                    {boat.compartments[side]?.name ?? side}
                  </Link>
                </span>,
              ] as const,
          ),
          ['Gap between the outlines', `${lengthFigure(panel.gapM, units)} ${lengthUnit(units)}`],
        ]}
      />
    </Panel>
  );
}

/** Existing holes with their contents; planned ones belong to the arrangement. */
function Holes({ boat, panel }: Derived): JSX.Element {
  const edit = useApp((state) => state.edit);
  const setTool = useApp((state) => state.setTool);
  const units = useApp((state) => state.displayUnits);
  const words = panelWords(boat, panel);
  const holes = panel.holes.filter((hole) => !hole.planned);
  const planned = panel.holes.filter((hole) => hole.planned);
  return (
    <Panel title="Holes" level={3} aside={panel.holes.length === 0 ? 'none' : lengthUnit(units)}>
      {holes.map((hole, index) => (
        <PanelHole key={hole.id} panel={panel} hole={hole} number={index + 1} words={words} />
      ))}
      {planned.map((hole, index) => (
        <PlannedHole key={hole.id} boat={boat} hole={hole} number={holes.length + index + 1} words={words} />
      ))}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() => edit(`Hole in ${words}`, panelHoleAdded(placeOfPanel(panel), nearOf(panel), USUAL_HOLE_M))}
        >
          Add a hole
        </button>
        <button type="button" className="button plain" onClick={() => setTool('hole')}>
          Set one on the drawing
        </button>
      </div>
    </Panel>
  );
}

function Users({ boat, id }: Props): JSX.Element {
  const report = useApp((state) => state.report);
  const select = useApp((state) => state.select);
  const users = (report?.runs ?? []).filter((run) => run.holes.some((hole) => hole.panelId === id));
  return (
    <Panel title="Runs through it" level={3} aside={users.length === 0 ? 'none' : undefined}>
      <dl className="facts">
        {users.map((run) => (
          <div key={run.lineId}>
            <dt>
              <Link go={() => select({ kind: 'line', id: run.lineId })}>
                {boat.lines[run.lineId]?.name ?? run.lineId}
              </Link>
            </dt>
            <dd>{markOf(run.lineId, boat.lines[run.lineId] ?? null)}</dd>
          </div>
        ))}
      </dl>
    </Panel>
  );
}
