import { useMemo } from 'react';
import { useApp } from '../../store/app';
import { pickTogether } from '../../store/chosen';
import { chosenOf } from '../../store/select';
import type { Selection } from '../../store/types';
import type { TableProps } from '../Table';

type Picking<Row> = Pick<
  TableProps<Row>,
  'selectedId' | 'hoveredId' | 'chosenIds' | 'select' | 'selectMany' | 'toggle' | 'hover'
>;

/**
 * What rows of a table have to do with what is picked. `of`: what a row stands for; `idOf`: the id of the row that stands for
 * something, null for what the table does not hold.
 */
export function usePicking<Row>(
  of: (row: Row) => Selection,
  idOf: (selection: Selection) => string | null,
): Picking<Row> {
  const selection = useApp((state) => state.selection);
  const alsoSelected = useApp((state) => state.alsoSelected);
  const hover = useApp((state) => state.hover);
  const { select, toggleSelected, setHover } = useApp.getState();
  const ids = chosenOf({ selection, alsoSelected }).flatMap((one) => idOf(one) ?? []);
  const word = ids.join('\n');
  const chosenIds = useMemo(() => new Set(word === '' ? [] : word.split('\n')), [word]);
  return {
    selectedId: selection && idOf(selection),
    hoveredId: hover && idOf(hover),
    chosenIds,
    select: (row) => pickTogether(of(row)),
    selectMany: (rows, last) => select(of(last), rows.map(of)),
    toggle: (row) => toggleSelected([of(row)]),
    hover: (row) => setHover(row ? of(row) : null),
  };
}
