import type { Boat } from '@core/boat/schema/boat';
import { stationsInOrder } from '@core/boat/station-edits';
import { waterHeight } from '@core/output/views/hull-lines';
import { areaBelow, halfSectionAt } from '@core/shape/hull/half-section';
import { type JSX, useMemo } from 'react';
import { takenWords } from '../../sections/words';
import { useApp } from '../../store/app';
import { hullOf } from '../../store/derived';
import { figure, lengthFigure, lengthUnit } from '../format';
import { type Column, Table } from '../Table';
import { sentence } from '../words';

interface Row {
  readonly id: string;
  /** Counted from aft, as on the drawing. */
  readonly number: number;
  readonly xM: number;
  readonly points: readonly (readonly [number, number])[];
  readonly knuckles: number;
  /** Below the water at the reference attitude, m2. */
  readonly areaM2: number;
  readonly taken: string;
}

const LEVEL = { up: [0, 0, 1], levelM: 0 } as const;

export function StationsTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const selection = useApp((state) => state.selection);
  const { select, setSectionX } = useApp.getState();
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const rows = useMemo((): readonly Row[] => {
    const { hull } = boat;
    const surface = hullOf(boat);
    if (!hull || !surface) return [];
    const { up, levelM } = attitude ?? LEVEL;
    return stationsInOrder(hull).map(([id, station], number) => ({
      id,
      number,
      xM: station.xM,
      points: station.points,
      knuckles: station.knuckles?.length ?? 0,
      areaM2: areaBelow(halfSectionAt(surface, station.xM), waterHeight({ up, levelM }, station.xM, 0)),
      taken: sentence(takenWords(station, hull.grade)),
    }));
  }, [boat, attitude]);
  const columns = useMemo((): readonly Column<Row>[] => {
    const of = (key: string, title: string, value: (row: Row) => number): Column<Row> => ({
      key,
      title: `${title} ${lengthUnit(units)}`,
      number: true,
      cell: (row) => lengthFigure(value(row), units),
      sortBy: value,
    });
    return [
      { key: 'number', title: 'Station', cell: (row) => figure(row.number), sortBy: (row) => row.number },
      of('x', 'x', (row) => row.xM),
      { key: 'points', title: 'Points', number: true, cell: (row) => figure(row.points.length) },
      { key: 'knuckles', title: 'Knuckles', number: true, cell: (row) => figure(row.knuckles) },
      {
        key: 'area',
        title: 'Area m\u00b2',
        number: true,
        cell: (row) => figure(row.areaM2, 2),
        sortBy: (row) => row.areaM2,
      },
      of('breadth', 'Greatest half-breadth', (row) => Math.max(...row.points.map((point) => point[0]))),
      of('keel', 'Lowest', (row) => Math.min(...row.points.map((point) => point[1]))),
      of('sheer', 'Sheer', (row) => Math.max(...row.points.map((point) => point[1]))),
      { key: 'taken', title: 'Taken', second: true, cell: (row) => row.taken, sortBy: (row) => row.taken },
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
      empty="No stations yet. Draw the hull in stage 1, or begin with Ten minutes."
    />
  );
}
