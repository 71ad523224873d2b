import { type BoatRecipe, type Draft, freeId, panelRuleSet } from '@core/boat/edits';
import type { Boat, PanelData } from '@core/boat/schema/boat';
import type { Panel as DerivedPanel } from '@core/shape/layout/types';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { compartmentName, markOf } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { lengthFigure, lengthUnit, pointText } from '../format';
import { RULE_WORDS } from '../words';
import { Labelled, Link, Panel, Segmented } from './parts';

/** A face between two compartments: what may pass it, how thick it is, its holes and who uses them. */
export function PanelInspector({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const units = useApp((state) => state.displayUnits);
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const report = useApp((state) => state.report);
  const panel = layoutOf(boat, arrangementId).panels[id];
  if (!panel) return <Panel title="Panel">This panel is gone: its two compartments no longer meet.</Panel>;
  const words = panelWords(boat, panel);
  const near = nearOf(panel);
  const data = panel.dataId === undefined ? undefined : boat.panels[panel.dataId];
  const users = (report?.runs ?? []).filter((run) => run.holes.some((hole) => hole.panelId === id));
  return (
    <Panel title={<span className="place">{words}</span>} aside={data?.name === undefined ? 'panel' : undefined}>
      <Labelled label="What may pass" above>
        <Segmented
          label="What may pass the panel"
          value={panel.rule}
          options={(['open', 'drill', 'noDrill'] as const).map((rule) => [rule, RULE_WORDS[rule]] as const)}
          choose={(rule) =>
            edit(`Rule of ${words}`, panelRuleSet(rule, { dataId: panel.dataId, between: [...panel.between], near }))
          }
        />
      </Labelled>
      <Labelled label="Thickness">
        <LengthField
          label="Thickness"
          value={panel.thicknessM}
          commit={(value) =>
            edit(
              `Thickness of ${words}`,
              withRecord(panel, near, (record) => {
                record.thicknessM = value;
              }),
            )
          }
        />
      </Labelled>
      <h3 className="group">Holes</h3>
      {panel.holes.length === 0 ? <p className="quiet">None there.</p> : null}
      <dl className="facts">
        {panel.holes.map((hole) => (
          <div key={hole.id}>
            <dt>{`${lengthFigure(hole.diameterM, units)} ${lengthUnit(units)}`}</dt>
            <dd>{pointText(hole.at, units)}</dd>
          </div>
        ))}
      </dl>
      <h3 className="group">Runs through it</h3>
      {users.length === 0 ? <p className="quiet">None.</p> : null}
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

export const panelWords = (boat: Boat, panel: DerivedPanel): string =>
  (panel.dataId === undefined ? undefined : boat.panels[panel.dataId]?.name) ??
  `${compartmentName(boat, panel.between[0])} to ${compartmentName(boat, panel.between[1])}`;

/** Changes the panel's record; a panel without one gets it, bound by a point in its middle. */
function withRecord(
  panel: DerivedPanel,
  near: [number, number, number],
  change: (record: Draft<PanelData>) => void,
): BoatRecipe {
  return (draft) => {
    const known = panel.dataId === undefined ? undefined : draft.panels[panel.dataId];
    if (known) {
      change(known);
      return;
    }
    const record: Draft<PanelData> = { between: [...panel.between], near, rule: panel.rule, holes: {} };
    change(record);
    draft.panels[freeId(draft.panels, panel.between.join('-'))] = record;
  };
}

/** The middle of the largest piece's corners: surely nearer to this panel than to another of the same pair. */
export function nearOf(panel: DerivedPanel): [number, number, number] {
  const corners = panel.pieces.reduce((largest, piece) => (piece.length > largest.length ? piece : largest), []);
  const sum: [number, number, number] = [0, 0, 0];
  for (const corner of corners) {
    sum[0] += corner[0];
    sum[1] += corner[1];
    sum[2] += corner[2];
  }
  const count = Math.max(1, corners.length);
  return [sum[0] / count, sum[1] / count, sum[2] / count];
}
