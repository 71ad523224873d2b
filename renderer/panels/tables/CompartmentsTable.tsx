import { drawnBounds } from '@core/boat/interior/placing';
import type { Boat, Compartment } from '@core/boat/schema/boat';
import { type JSX, useMemo } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { useStowage } from '../../store/stowage';
import { useVolumes } from '../../store/volumes';
import { figure, lengthUnit, sizesText } from '../format';
import { type Column, Table } from '../Table';
import { GRADE_WORDS, plainWords, sentence } from '../words';
import { usePicking } from './picking';

interface Row {
  readonly id: string;
  readonly compartment: Compartment;
  readonly sizes: readonly [number, number, number];
  readonly middle: readonly [number, number, number];
  readonly things: number;
  readonly panels: number;
  readonly netM3: number | null;
  /** Litres that the plan takes; null until it is known. */
  readonly lostL: number | null;
}

export function CompartmentsTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const arrangementId = useApp((state) => state.arrangementId);
  const places = useApp((state) => state.report?.places);
  const { goTo } = useApp.getState();
  const picking = usePicking<Row>(
    (row) => ({ kind: 'compartment', id: row.id }),
    (of) => (of.kind === 'compartment' ? of.id : null),
  );

  const ids = Object.keys(boat.compartments);
  const volumes = useVolumes(boat, arrangementId, ids);
  const known = volumes.map((volume) => volume?.netM3 ?? null);
  const volumesKey = known.join(' ');

  const lost = useStowage(boat).gives?.lostL;

  const rows = useMemo((): readonly Row[] => {
    const nets = volumesKey.split(' ');
    const layout = layoutOf(boat, arrangementId);
    const panels = Object.values(layout.panels);
    return Object.entries(boat.compartments).map(([id, compartment], index) => {
      const [low, high] = drawnBounds(compartment);
      const net = nets[index] ?? '';
      return {
        id,
        compartment,
        sizes: [high[0] - low[0], high[1] - low[1], high[2] - low[2]],
        middle: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2],
        things: Object.values(places ?? {}).filter((place) => place.compartment === id).length,
        panels: panels.filter((panel) => panel.between.includes(id)).length,
        netM3: net === '' ? null : Number(net),
        lostL: lost?.[id] ?? null,
      };
    });
  }, [boat, arrangementId, places, volumesKey, lost]);

  const columns = useMemo(
    (): readonly Column<Row>[] => [
      {
        key: 'name',
        title: 'Compartment',
        cell: (row) => <span className="place">{row.compartment.name}</span>,
        sortBy: (row) => row.compartment.name,
      },
      {
        key: 'kind',
        title: 'Kind',
        second: true,
        cell: (row) => sentence(plainWords(row.compartment.kind)),
        sortBy: (row) => row.compartment.kind,
      },
      {
        key: 'view',
        title: 'Drawn in',
        second: true,
        cell: (row) => row.compartment.view,
        sortBy: (row) => row.compartment.view,
      },
      { key: 'size', title: `Bounds ${lengthUnit(units)}`, number: true, cell: (row) => sizesText(row.sizes, units) },
      {
        key: 'net',
        title: 'Net L',
        number: true,
        cell: (row) => (row.netM3 === null ? '\u2026' : figure(row.netM3 * 1000)),
        sortBy: (row) => row.netM3 ?? 0,
      },
      {
        key: 'lost',
        title: 'Plan takes L',
        number: true,
        cell: (row) => (row.lostL === null ? '\u2026' : figure(row.lostL, row.lostL > 0 && row.lostL < 10 ? 1 : 0)),
        sortBy: (row) => row.lostL ?? 0,
      },
      { key: 'things', title: 'Things', number: true, cell: (row) => figure(row.things), sortBy: (row) => row.things },
      { key: 'panels', title: 'Panels', number: true, cell: (row) => figure(row.panels), sortBy: (row) => row.panels },
      {
        key: 'grade',
        title: 'Taken',
        second: true,
        cell: (row) => GRADE_WORDS[row.compartment.grade],
        sortBy: (row) => row.compartment.grade,
      },
    ],
    [units],
  );

  return (
    <Table
      label="Compartments"
      rows={rows}
      columns={columns}
      idOf={(row) => row.id}
      {...picking}
      open={(row) => goTo({ kind: 'compartment', id: row.id }, row.middle)}
      empty="No compartments yet. Draw one in stage 2, or enter one by numbers."
    />
  );
}
