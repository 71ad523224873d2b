import type { Boat } from '@core/boat/schema/boat';
import type { HydrostaticRow } from '@core/shape/hull/hydrostatic-table';
import type { JSX } from 'react';
import { useDraughtTable } from '../../store/hydrostatics';
import { figure } from '../format';
import { type Column, Table } from '../Table';

const PRESENT_M = 1e-6;

/** Upright hydrostatics from keel to sheer, the draught that the boat floats at among them. */
export function HydrostaticsTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const { table } = useDraughtTable(boat);
  return (
    <Table
      label="Hydrostatics"
      rows={table?.rows ?? []}
      columns={COLUMNS}
      idOf={idOf}
      // The row as the boat floats stands out; there is nothing else to select here.
      selectedId={
        table?.rows.find(({ sinkageM }) => Math.abs(sinkageM) < PRESENT_M) ? figure(table.referenceM, 6) : null
      }
      hoveredId={null}
      select={nothing}
      empty={boat.hull ? 'Being worked out.' : 'No hull to reckon with yet. Draw one in stage 1.'}
    />
  );
}

const idOf = (row: HydrostaticRow): string => figure(row.draughtM, 6);
const nothing = (): void => {};

const column = (
  key: string,
  title: string,
  decimals: number,
  value: (row: HydrostaticRow) => number,
): Column<HydrostaticRow> => ({
  key,
  title,
  number: true,
  cell: (row) => figure(value(row), decimals),
  sortBy: value,
});

const COLUMNS: readonly Column<HydrostaticRow>[] = [
  column('draught', 'Draught m', 3, (row) => row.draughtM),
  column('displacement', 'Displacement kg', 0, (row) => row.displacementKg),
  column('lcb', 'LCB from aft m', 3, (row) => row.lcbM),
  column('lcf', 'LCF from aft m', 3, (row) => row.lcfM),
  column('plane', 'Waterplane m\u00b2', 2, (row) => row.waterplaneAreaM2),
  column('kb', 'KB m', 3, (row) => row.kbM),
  column('bm', 'BM m', 3, (row) => row.bmM),
  column('bml', 'BM long. m', 2, (row) => row.bmlM),
  column('wetted', 'Wetted m\u00b2', 2, (row) => row.wettedSurfaceM2),
  column('immersion', 'Sinks kg/cm', 1, (row) => row.immersionKgPerCm),
  column('trim', 'Moment to trim N m/cm', 0, (row) => row.momentToTrimNmPerCm),
];
