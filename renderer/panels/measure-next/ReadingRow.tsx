import { gradeM } from '@core/boat/accuracy';
import type { Boat } from '@core/boat/schema/boat';
import { presentValue } from '@core/engine/measure-next/present-value';
import { readingTaken } from '@core/engine/measure-next/reading-taken';
import { findingText } from '@core/output/text/finding-text';
import { readingText } from '@core/output/text/reading-text';
import type { NextReading, Settled } from '@core/rules/next-reading';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { useMeasureNext } from '../../store/measure-next';
import { keepTyped } from '../../store/typed';
import type { Selection } from '../../store/types';
import { LengthField } from '../fields/LengthField';
import { QuantityField, type Read } from '../fields/QuantityField';
import { figure } from '../format';
import { Link } from '../inspector/parts';

/** One reading: where the tape goes, what it would settle, and the field to enter it. Pointed at, it lights what it is about. */
export function ReadingRow({
  boat,
  reading,
  number,
  all,
}: {
  readonly boat: Boat;
  readonly reading: NextReading;
  readonly number: number;
  readonly all: readonly NextReading[];
}): JSX.Element {
  const goTo = useApp((state) => state.goTo);
  const setHover = useApp((state) => state.setHover);
  const light = useMeasureNext((state) => state.light);
  const isTaken = reading.paths.length > 0 && reading.paths.every((path) => boat.gradeOf?.[path] === 'measured');
  const words = readingText(isTaken ? asEntered(boat, reading) : reading, boat);
  const subject = subjectOf(boat, reading);
  const show = (): void => {
    light(reading.settles.map(({ key }) => key));
    setHover(subject);
  };
  const hide = (): void => {
    light([]);
    setHover(null);
  };
  return (
    <li className="reading" onMouseEnter={show} onMouseLeave={hide} onFocus={show} onBlur={hide}>
      <span className="number">{number}</span>
      <div>
        <h3>{subject ? <Link go={() => goTo(subject, reading.at)}>{words.title}</Link> : words.title}</h3>
        {words.from === '' || words.from === words.to ? null : (
          <p className="tape">
            {words.from}{' '}
            <span role="img" aria-label="to">
              {'\u2192'}
            </span>{' '}
            {words.to}
          </p>
        )}
        {words.how === '' ? null : <p className="quiet">{words.how}</p>}
        <div className="entry">
          {words.present === '' ? null : (
            <span className="quiet">
              {isTaken ? 'entered' : 'now'} {words.present}
            </span>
          )}
          <Entry reading={reading} title={words.title} />
        </div>
        <Settles boat={boat} settles={reading.settles} all={all} />
      </div>
    </li>
  );
}

/** The reading as the boat has it by now. */
const asEntered = (boat: Boat, reading: NextReading): NextReading => ({
  ...reading,
  present: reading.unit === null ? null : presentValue(boat, reading),
  grade: 'measured',
  gradeM: gradeM(boat, 'measured'),
});

/** The value goes in with the grade `measured`, as one step; where nothing is to be typed the present values are confirmed. */
function Entry({ reading, title }: { readonly reading: NextReading; readonly title: string }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const [path] = reading.paths;
  if (path === undefined) return null;
  const take = (value: number | null, typed: string): void => {
    edit(`Measured: ${title}`, (draft) => {
      readingTaken(reading, value)(draft);
      // Only what is itself the value of the path was typed for it.
      if (PLAIN.has(reading.kind)) keepTyped(draft, path, typed);
    });
  };
  if (reading.unit === 'm')
    return <LengthField label={`Reading: ${title}`} value={null} placeholder="reading" commit={take} />;
  if (reading.unit !== null)
    return (
      <QuantityField
        label={`Reading: ${title}`}
        value={null}
        placeholder="value"
        unit={UNIT_WORDS[reading.unit]}
        show={(value) => figure(value, 1)}
        read={readAmount}
        commit={take}
      />
    );
  return (
    <button type="button" className="button" onClick={() => take(null, '')}>
      {reading.kind === 'partSize' ? 'They are as in the data sheet' : 'Measured, as it stands'}
    </button>
  );
}

const PLAIN: ReadonlySet<NextReading['kind']> = new Set(['openingWidth', 'openingHeight', 'partSize', 'missing']);
const UNIT_WORDS = { A: 'A', mm2: 'mm\u00b2', micron: '\u00b5m', LMin: 'L/min' } as const;

function readAmount(typed: string): Read {
  const value = Number(typed.trim().replace(',', '.'));
  return Number.isFinite(value) && value > 0
    ? { ok: true, value }
    : { ok: false, message: 'Expected a number above 0' };
}

function Settles({
  boat,
  settles,
  all,
}: {
  readonly boat: Boat;
  readonly settles: readonly Settled[];
  readonly all: readonly NextReading[];
}): JSX.Element {
  const findings = useApp((state) => state.report?.findings);
  const goTo = useApp((state) => state.goTo);
  return (
    <ul className="settles" aria-label="Verdicts that it would settle">
      {settles.map(({ key, chance, along }) => {
        const finding = findings?.find((one) => one.key === key);
        if (!finding) return null;
        return (
          <li key={key}>
            <Link go={() => goTo({ kind: 'finding', id: key }, finding.at)}>
              {findingText(finding, boat).title.replace(/, a close call$/, '')}
            </Link>{' '}
            <span className="quiet">
              {chanceWords(chance)}
              {alongWords(along, all)}
            </span>
          </li>
        );
      })}
    </ul>
  );
}

const chanceWords = (chance: number): string => (chance >= 0.95 ? 'settled' : `${Math.round(chance * 100)} in 100`);

/** `, with reading 3`; readings that are not among those shown are counted. */
function alongWords(along: readonly string[], all: readonly NextReading[]): string {
  if (along.length === 0) return '';
  const numbers = along.map((id) => all.findIndex((reading) => reading.id === id) + 1);
  const shown = numbers.filter((number) => number > 0);
  if (shown.length < along.length) return `, with ${along.length === 1 ? 'one more reading' : `${along.length} more`}`;
  return `, with reading ${shown.join(' and ')}`;
}

/** What the reading is of, to be lit on the drawing. */
function subjectOf(boat: Boat, { kind, record }: NextReading): Selection | null {
  switch (kind) {
    case 'openingWidth':
    case 'openingHeight':
      return { kind: 'opening', id: record };
    case 'clearLength':
      return { kind: 'compartment', id: record };
    case 'hullBreadth':
      return { kind: 'station', id: record };
    case 'thingPlace':
    case 'heightAboveWater':
    case 'partSize':
      return { kind: 'thing', id: record };
    case 'freeboard':
      return null;
    case 'missing':
      if (Object.hasOwn(boat.lines, record)) return { kind: 'line', id: record };
      return Object.hasOwn(boat.fixtures, record) || Object.hasOwn(boat.parts, record)
        ? { kind: 'thing', id: record }
        : null;
  }
}
