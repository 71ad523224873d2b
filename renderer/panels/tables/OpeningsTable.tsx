import type { Boat } from '@core/boat/schema/boat';
import { materialText } from '@core/output/text/schema-words';
import { type JSX, useMemo } from 'react';
import { useApp } from '../../store/app';
import { compartmentName } from '../../store/select';
import type { Selection } from '../../store/types';
import { lengthUnit, sizesText } from '../format';
import { type Column, Table } from '../Table';
import { GRADE_WORDS, plainWords, sentence } from '../words';
import { usePicking } from './picking';

/** Openings, mounting surfaces and standing places: whatever hangs on the faces of compartments or belongs to them. */
interface Row {
  readonly kind: Extract<Selection['kind'], 'opening' | 'surface' | 'standingPlace'>;
  readonly id: string;
  readonly name: string;
  readonly what: string;
  readonly compartment: string;
  readonly to: string;
  readonly sizes: readonly number[];
  readonly how: string;
  readonly grade: string;
  readonly at: readonly [number, number, number];
}

function rowsOf(boat: Boat): readonly Row[] {
  const openings = Object.entries(boat.openings).map(
    ([id, own]): Row => ({
      kind: 'opening',
      id,
      name: own.name,
      what: 'opening',
      compartment: compartmentName(boat, own.compartment),
      to: compartmentName(boat, own.to),
      sizes: [own.widthM, own.heightM],
      how: sentence(plainWords(own.how)),
      grade: GRADE_WORDS[own.grade],
      at: own.at,
    }),
  );
  const surfaces = Object.entries(boat.mountingSurfaces).map(
    ([id, own]): Row => ({
      kind: 'surface',
      id,
      name: own.name ?? id,
      what: 'mounting surface',
      compartment: compartmentName(boat, own.compartment),
      to: own.behind === 'unknown' ? 'not known' : sentence(plainWords(own.behind)),
      sizes: [own.widthM, own.heightM],
      how: sentence(materialText(own.material)),
      grade: own.grade ? GRADE_WORDS[own.grade] : '',
      at: own.at,
    }),
  );
  const places = Object.entries(boat.standingPlaces).map(
    ([id, own]): Row => ({
      kind: 'standingPlace',
      id,
      name: own.name,
      what: 'standing place',
      compartment: own.compartment === undefined ? 'outside' : compartmentName(boat, own.compartment),
      to: '',
      sizes: [],
      how: sentence(own.posture),
      grade: '',
      at: own.at,
    }),
  );
  return [...openings, ...surfaces, ...places];
}

export function OpeningsTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const { goTo } = useApp.getState();
  const rows = useMemo(() => rowsOf(boat), [boat]);
  const columns = useMemo((): readonly Column<Row>[] => {
    const text = (key: keyof Row & string, title: string, second = false): Column<Row> => ({
      key,
      title,
      second,
      cell: (row) => String(row[key]),
      sortBy: (row) => String(row[key]),
    });
    return [
      text('name', 'Name'),
      text('what', 'What', true),
      { ...text('compartment', 'Of'), cell: (row) => <span className="place">{row.compartment}</span> },
      { ...text('to', 'To, behind'), cell: (row) => <span className="place">{row.to}</span> },
      {
        key: 'size',
        title: `Size ${lengthUnit(units)}`,
        number: true,
        cell: (row) => sizesText(row.sizes, units),
        sortBy: (row) => row.sizes.reduce((product, size) => product * size, 1),
      },
      text('how', 'How, of what'),
      text('grade', 'Taken', true),
    ];
  }, [units]);
  const of = (row: Row): Selection => ({ kind: row.kind, id: row.id });
  const picking = usePicking<Row>(of, ({ kind, id }) => `${kind} ${id}`);
  return (
    <Table
      label="Openings and surfaces"
      rows={rows}
      columns={columns}
      idOf={(row) => `${row.kind} ${row.id}`}
      {...picking}
      open={(row) => goTo(of(row), row.at)}
      empty="No openings yet. Select a compartment and draw one on a face."
    />
  );
}
