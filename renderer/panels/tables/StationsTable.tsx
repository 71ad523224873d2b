import type { Boat } from '@core/boat/schema/boat';
import { type JSX, useMemo } from 'react';
import { useApp } from '../../store/app';
import { figure, lengthFigure, lengthUnit } from '../format';
import { type Column, Table } from '../Table';
import { GRADE_WORDS } from '../words';

interface Row {
  readonly id: string;
  readonly xM: number;
  readonly points: readonly (readonly [number, number])[];
  readonly knuckles: number;
  readonly grade: keyof typeof GRADE_WORDS;
}

export function StationsTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const selection = useApp((state) => state.selection);
  const { select, setSectionX } = useApp.getState();
  const rows = useMemo((): readonly Row[] => {
    const hull = boat.hull;
    if (!hull) return [];
    return Object.entries(hull.stations)
      .map(([id, station]) => ({
        id,
        xM: station.xM,
        points: station.points,
        knuckles: station.knuckles?.length ?? 0,
        grade: station.grade ?? hull.grade,
      }))
      .sort((a, b) => a.xM - b.xM);
  }, [boat.hull]);
  const columns = useMemo((): readonly Column<Row>[] => {
    const of = (key: string, title: string, value: (row: Row) => number): Column<Row> => ({
      key,
      title: `${title} ${lengthUnit(units)}`,
      number: true,
      cell: (row) => lengthFigure(value(row), units),
      sortBy: value,
    });
    return [
      { key: 'id', title: 'Station', cell: (row) => row.id, sortBy: (row) => row.id },
      of('x', 'x', (row) => row.xM),
      { key: 'points', title: 'Points', number: true, cell: (row) => figure(row.points.length) },
      { key: 'knuckles', title: 'Knuckles', number: true, cell: (row) => figure(row.knuckles) },
      of('breadth', 'Greatest half-breadth', (row) => Math.max(...row.points.map((point) => point[0]))),
      of('keel', 'Lowest', (row) => Math.min(...row.points.map((point) => point[1]))),
      of('sheer', 'Sheer', (row) => Math.max(...row.points.map((point) => point[1]))),
      { key: 'grade', title: 'Taken', second: true, cell: (row) => GRADE_WORDS[row.grade], sortBy: (row) => row.grade },
    ];
  }, [units]);
  return (
    <Table
      label="Stations"
      rows={rows}
      columns={columns}
      idOf={(row) => row.id}
      selectedId={selection?.kind === 'station' ? selection.id : null}
      hoveredId={null}
      select={(row) => {
        select({ kind: 'station', id: row.id });
        setSectionX(row.xM);
      }}
      empty="No hull drawn yet."
    />
  );
}
