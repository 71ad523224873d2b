import type { JSX } from 'react';
import { lengthUnit } from '../panels/format';
import { useApp } from '../store/app';

/** A table to type into with the tape in the other hand: stations across, heights down, keel and sheer at the ends. */
export interface TypedOffsets {
  readonly stations: number;
  /** Heights of the readings as typed, from the top down. */
  readonly levels: readonly string[];
  /** What was typed, by row and station. */
  readonly cells: Readonly<Record<string, string>>;
}

const FIRST_STATIONS = 4;
const MOST_STATIONS = 25;
const FIRST_LEVELS = ['600', '300', '0', '-300'] as const;

export const emptyForm = (): TypedOffsets => ({ stations: FIRST_STATIONS, levels: FIRST_LEVELS, cells: {} });

const rowsOf = (levels: readonly string[]): readonly (readonly [string, string, string])[] => [
  ['x', 'x', 'From the aftmost point'],
  ['sheerHeight', 'Sheer height', 'Deck edge above the water'],
  ['sheerBreadth', 'Sheer half-breadth', 'Deck edge from the centreline'],
  ...levels.map((level, i) => [`level-${i}`, `WL ${level}`, `Half-breadth at ${level}`] as const),
  ['keel', 'Keel height', 'Lowest point, below water negative'],
];

/** The form as a table of offsets with tabs; columns at the end that hold nothing are left out. */
export function textOfForm({ stations, levels, cells }: TypedOffsets): string {
  const rows = rowsOf(levels);
  const used = Array.from({ length: stations }, (_, i) => i).filter((i) =>
    rows.some(([key]) => (cells[`${key} ${i}`] ?? '') !== ''),
  );
  const count = (used.at(-1) ?? -1) + 1;
  if (count === 0) return '';
  const line = (heading: string, values: readonly string[]): string => [heading, ...values].join('\t');
  const columns = Array.from({ length: count }, (_, i) => i);
  return [
    line('Station', columns.map(String)),
    ...rows.map(([key, heading]) =>
      line(
        heading,
        columns.map((i) => cells[`${key} ${i}`] ?? ''),
      ),
    ),
  ].join('\n');
}

export function OffsetsForm({
  form,
  change,
}: {
  readonly form: TypedOffsets;
  change(form: TypedOffsets): void;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const { stations, levels, cells } = form;
  const columns = Array.from({ length: stations }, (_, i) => i);
  return (
    <div className="offsets-form">
      <p className="sub">
        In {units === 'mm' ? 'millimetres' : `feet, inches and eighths (2-3-4) or ${lengthUnit(units)} with their sign`}
        . Leave empty what you could not reach. Heights count from the floating waterline, up positive.
      </p>
      <div className="offsets-grid">
        <table className="mini-table" aria-label="Readings of the tape">
          <thead>
            <tr>
              <th scope="col">Station</th>
              {columns.map((i) => (
                <th key={i} scope="col">
                  {i}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rowsOf(levels).map(([key, heading, words]) => (
              <tr key={key}>
                <th scope="row" title={words}>
                  {key.startsWith('level-') ? (
                    <span className="level">
                      at height
                      <input
                        aria-label={`Height of reading ${Number(key.slice(6)) + 1}`}
                        value={levels[Number(key.slice(6))] ?? ''}
                        onChange={(event) =>
                          change({
                            ...form,
                            levels: levels.map((level, i) => (`level-${i}` === key ? event.target.value : level)),
                          })
                        }
                      />
                    </span>
                  ) : (
                    heading
                  )}
                </th>
                {columns.map((i) => (
                  <td key={i}>
                    <input
                      aria-label={`${words}, station ${i}`}
                      inputMode="text"
                      autoComplete="off"
                      value={cells[`${key} ${i}`] ?? ''}
                      onChange={(event) =>
                        change({ ...form, cells: { ...cells, [`${key} ${i}`]: event.target.value } })
                      }
                    />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div className="actions">
        <button
          type="button"
          className="button plain"
          disabled={stations >= MOST_STATIONS}
          onClick={() => change({ ...form, stations: stations + 1 })}
        >
          One more station
        </button>
        <button type="button" className="button plain" onClick={() => change({ ...form, levels: [...levels, ''] })}>
          One more height
        </button>
      </div>
    </div>
  );
}
