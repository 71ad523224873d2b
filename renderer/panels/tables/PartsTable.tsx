import { arrangedIn } from '@core/boat/arranged';
import type { Boat } from '@core/boat/schema/boat';
import { type JSX, useMemo } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { findingNumbers, markOfFinding } from '../../store/findings';
import { compartmentName, markOf, type NamedThing, placeOf, thingsOf } from '../../store/select';
import { FindingMark } from '../findings/FindingMark';
import { figure, lengthFigure, lengthUnit, sizesText } from '../format';
import { envelopeOf } from '../inspector/envelope';
import { type Column, Table } from '../Table';
import { plainWords, sentence } from '../words';
import { usePicking } from './picking';

export function PartsTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const arrangementId = useApp((state) => state.arrangementId);
  const report = useApp((state) => state.report);
  const { goTo } = useApp.getState();
  const picking = usePicking<NamedThing>(
    (row) => ({ kind: 'thing', id: row.id }),
    (of) => (of.kind === 'thing' ? of.id : null),
  );
  const rows = useMemo(() => thingsOf(boat), [boat]);

  const columns = useMemo((): readonly Column<NamedThing>[] => {
    const numbers = findingNumbers(report);
    const worst = new Map<string, string>();
    for (const finding of report?.findings ?? []) {
      if (!numbers.has(finding.key)) continue;
      const known = worst.get(finding.subject);
      if (known === undefined || (numbers.get(finding.key) ?? 0) < (numbers.get(known) ?? 0))
        worst.set(finding.subject, finding.key);
    }
    const byKey = new Map(report?.findings.map((finding) => [finding.key, finding]));
    const at = (row: NamedThing, axis: 0 | 1 | 2): number | null =>
      placeOf(boat, arrangementId, row.id)?.at[axis] ?? null;
    const layout = layoutOf(boat, arrangementId);
    const here = arrangedIn(boat, arrangementId);
    const whereOf = (row: NamedThing): string => {
      const place = placeOf(boat, arrangementId, row.id);
      if (place !== null) return compartmentName(boat, layout.compartmentAt(place.at));
      return here.hasPart(row.id) ? 'not placed' : 'in another arrangement';
    };
    const coordinate = (axis: 0 | 1 | 2, title: string): Column<NamedThing> => ({
      key: title,
      title: `${title} ${lengthUnit(units)}`,
      number: true,
      cell: (row) => {
        const value = at(row, axis);
        return value === null ? '\u2013' : lengthFigure(value, units);
      },
      sortBy: (row) => at(row, axis) ?? Number.NEGATIVE_INFINITY,
    });
    return [
      {
        key: 'mark',
        title: 'Tag',
        cell: (row) => markOf(row.id, row.thing),
        sortBy: (row) => markOf(row.id, row.thing),
      },
      { key: 'name', title: 'Name', cell: (row) => row.thing.name, sortBy: (row) => row.thing.name },
      {
        key: 'kind',
        title: 'Kind',
        second: true,
        cell: (row) => `${sentence(plainWords(row.thing.kind))}${row.part ? '' : ', aboard'}`,
        sortBy: (row) => row.thing.kind,
      },
      {
        key: 'place',
        title: 'Place',
        cell: (row) => <span className="place">{whereOf(row)}</span>,
        sortBy: whereOf,
      },
      coordinate(0, 'x'),
      coordinate(1, 'y'),
      coordinate(2, 'z'),
      {
        key: 'size',
        title: `Size ${lengthUnit(units)}`,
        number: true,
        cell: (row) => sizesText(envelopeOf(row.thing), units),
      },
      {
        key: 'mass',
        title: 'Mass kg',
        number: true,
        cell: (row) => figure(row.thing.massKg, 1),
        sortBy: (row) => row.thing.massKg,
      },
      {
        key: 'note',
        title: 'Finding',
        cell: (row) => {
          const finding = byKey.get(worst.get(row.id) ?? '');
          const mark = finding ? markOfFinding(finding) : null;
          return finding && mark ? <FindingMark mark={mark} number={numbers.get(finding.key)} /> : null;
        },
        sortBy: (row) => numbers.get(worst.get(row.id) ?? '') ?? Number.MAX_SAFE_INTEGER,
      },
    ];
  }, [boat, arrangementId, report, units]);

  return (
    <Table
      label="Parts and fixtures"
      rows={rows}
      columns={columns}
      idOf={(row) => row.id}
      {...picking}
      open={(row) => goTo({ kind: 'thing', id: row.id }, placeOf(boat, arrangementId, row.id)?.at ?? null)}
      empty="Nothing aboard yet. Add a part or a fixture in stage 3, or place a whole set."
    />
  );
}
