import type { Boat } from '@core/boat/schema/boat';
import type { Panel } from '@core/shape/layout/types';
import { type JSX, useMemo } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { nearOf } from '../../store/panel-place';
import { compartmentName } from '../../store/select';
import { figure, lengthFigure, lengthUnit } from '../format';
import { type Column, Table } from '../Table';
import { plainWords, RULE_WORDS, sentence } from '../words';

export function PanelsTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const arrangementId = useApp((state) => state.arrangementId);
  const runs = useApp((state) => state.report?.runs);
  const selection = useApp((state) => state.selection);
  const hover = useApp((state) => state.hover);
  const { select, setHover, goTo } = useApp.getState();
  const rows = useMemo(() => Object.values(layoutOf(boat, arrangementId).panels), [boat, arrangementId]);

  const columns = useMemo((): readonly Column<Panel>[] => {
    const used = (panel: Panel): number =>
      (runs ?? []).filter((run) => run.holes.some((hole) => hole.panelId === panel.id)).length;
    const side = (index: 0 | 1, title: string): Column<Panel> => ({
      key: title,
      title,
      cell: (panel) => <span className="place">{compartmentName(boat, panel.between[index])}</span>,
      sortBy: (panel) => compartmentName(boat, panel.between[index]),
    });
    return [
      side(0, 'Between'),
      side(1, 'and'),
      { key: 'rule', title: 'What may pass', cell: (panel) => RULE_WORDS[panel.rule], sortBy: (panel) => panel.rule },
      {
        key: 'thickness',
        title: `Thick ${lengthUnit(units)}`,
        number: true,
        cell: (panel) => lengthFigure(panel.thicknessM, units),
        sortBy: (panel) => panel.thicknessM,
      },
      {
        key: 'area',
        title: 'Area m\u00b2',
        number: true,
        cell: (panel) => figure(panel.areaM2, 2),
        sortBy: (panel) => panel.areaM2,
      },
      {
        key: 'material',
        title: 'Material',
        second: true,
        cell: (panel) => (panel.material === 'other' ? 'not said' : sentence(plainWords(panel.material))),
        sortBy: (panel) => panel.material,
      },
      {
        key: 'holes',
        title: 'Holes',
        number: true,
        cell: (panel) => figure(panel.holes.length),
        sortBy: (panel) => panel.holes.length,
      },
      { key: 'runs', title: 'Runs', number: true, cell: (panel) => figure(used(panel)), sortBy: used },
    ];
  }, [boat, runs, units]);

  return (
    <Table
      label="Panels"
      rows={rows}
      columns={columns}
      idOf={(panel) => panel.id}
      selectedId={selection?.kind === 'panel' ? selection.id : null}
      hoveredId={hover?.kind === 'panel' ? hover.id : null}
      select={(panel) => select({ kind: 'panel', id: panel.id })}
      hover={(panel) => setHover(panel ? { kind: 'panel', id: panel.id } : null)}
      open={(panel) => goTo({ kind: 'panel', id: panel.id }, nearOf(panel))}
      empty="No panels yet. They come by themselves where two compartments meet: draw a second one."
    />
  );
}
