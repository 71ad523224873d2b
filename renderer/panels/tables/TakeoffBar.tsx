import type { Boat } from '@core/boat/schema/boat';
import type { TakeoffRow } from '@core/engine/report';
import { GROUPS } from '@core/output/takeoff/row';
import { priceOf } from '@core/output/takeoff/stock';
import { GROUP_TEXT } from '@core/output/takeoff/words';
import type { JSX } from 'react';
import { documentsNow } from '../../app/commands';
import { copyList } from '../../app/sheets/copy-list';
import { useApp } from '../../store/app';
import { isToBuy, isToFit, passesTakeoff, type TakeoffShown, useTakeoffFilter } from '../../store/takeoff-filter';
import { figure } from '../format';

const NO_ROWS: readonly TakeoffRow[] = [];

/** Above the list: what of it is shown, and where it goes. */
export function TakeoffBar({ boat }: { readonly boat: Boat }): JSX.Element {
  const rows = useApp((state) => state.report?.takeoff) ?? NO_ROWS;
  const stale = useApp((state) => state.stale);
  const filter = useTakeoffFilter();
  const toBuy = rows.filter((row) => isToBuy(row, boat)).length;
  const toFit = rows.filter((row) => isToFit(row, boat)).length;
  const shown = rows.filter((row) => passesTakeoff(row, boat, filter));
  const price = priceOf(rows);
  const ways: readonly (readonly [TakeoffShown, string])[] = [
    ['all', `All ${rows.length}`],
    ['toBuy', `Still to buy ${toBuy}`],
    ['toFit', `Still to fit ${toFit}`],
  ];
  return (
    <div className="takeoff-bar">
      {ways.map(([way, words]) => (
        <button
          key={way}
          type="button"
          className="filter"
          aria-pressed={filter.shown === way}
          onClick={() => filter.show(way)}
        >
          {words}
        </button>
      ))}
      <select
        aria-label="Group of the list that is shown"
        value={filter.group ?? ''}
        onChange={(event) => filter.showGroup(GROUPS.find((group) => group === event.target.value) ?? null)}
      >
        <option value="">Every group</option>
        {GROUPS.filter((group) => rows.some((row) => row.group === group)).map((group) => (
          <option key={group} value={group}>
            {GROUP_TEXT[group]}
          </option>
        ))}
      </select>
      <span className="summary">
        {price === null
          ? ''
          : `Prices ${figure(price.sum, 2)}${price.unknown === 0 ? '' : `, ${price.unknown} rows have none`}`}
      </span>
      <button
        type="button"
        className="button small"
        disabled={shown.length === 0}
        onClick={() => void copyList(shown, boat)}
      >
        Copy {shown.length === rows.length ? 'the list' : figure(shown.length)}
      </button>
      <button
        type="button"
        className="button small"
        disabled={stale}
        onClick={() => void documentsNow()?.exportList(rows)}
      >
        CSV
      </button>
      <button
        type="button"
        className="button small"
        disabled={stale}
        onClick={() => void documentsNow()?.exportWorkbook(rows)}
      >
        Workbook
      </button>
    </div>
  );
}
