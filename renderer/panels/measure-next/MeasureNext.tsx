import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { printNextReadings } from '../../app/sheets/orders';
import { useApp } from '../../store/app';
import { READINGS_SHOWN, useMeasureNext } from '../../store/measure-next';
import { Link, Panel } from '../inspector/parts';
import { ReadingRow } from './ReadingRow';

/** The readings that would settle most of what stands open: worked out when asked for, entered right here. */
export function MeasureNext({ boat }: { readonly boat: Boat }): JSX.Element {
  const { readings, progress, askedAt, start, cancel } = useMeasureNext();
  const isOld = useApp((state) => state.sent !== askedAt);
  const report = useApp((state) => state.report);
  const unsure = report?.findings.filter(isUnsure).length ?? 0;
  const isWorking = progress !== null;
  const aside = isWorking
    ? `${Math.round((100 * progress.done) / progress.of)} %`
    : readings && isOld
      ? 'older than the boat'
      : undefined;
  return (
    <Panel
      title="Measure this next"
      aside={aside === undefined ? undefined : <span className={isOld && !isWorking ? 'stale' : ''}>{aside}</span>}
    >
      {isWorking ? (
        <progress aria-label="Readings being worked out" max={progress.of} value={progress.done} />
      ) : readings === null || isOld ? (
        <p className="sub">{standing(unsure)}</p>
      ) : null}
      {readings === null ? null : readings.length === 0 ? (
        <p className="sub">{unsure === 0 ? 'Nothing to measure: every verdict is sure.' : NO_READING}</p>
      ) : (
        <ol className="readings">
          {readings.map((reading, index) => (
            <ReadingRow key={reading.id} boat={boat} reading={reading} number={index + 1} all={readings} />
          ))}
        </ol>
      )}
      <div className="actions">
        {isWorking ? (
          <button type="button" className="button" onClick={cancel}>
            Stop
          </button>
        ) : (
          <button type="button" className="button" disabled={unsure === 0} onClick={start}>
            {readings === null ? `Find the ${READINGS_SHOWN} best readings` : 'Find them anew'}
          </button>
        )}
        {readings === null || readings.length === 0 ? null : (
          <button type="button" className="button" onClick={() => void printNextReadings(boat, readings)}>
            {readings.length === 1 ? 'Print it' : `Print the ${COUNTS[readings.length] ?? readings.length}`}
          </button>
        )}
      </div>
    </Panel>
  );
}

const COUNTS: Readonly<Record<number, string>> = { 2: 'two', 3: 'three', 4: 'four', 5: 'five' };
const NO_READING =
  'No tape settles what is open: it hangs on the plan itself. Give short hoses and tight places more room.';

const isUnsure = (finding: {
  readonly outcome: string;
  readonly closeCall?: unknown;
  readonly accepted?: unknown;
}): boolean => finding.accepted === undefined && (finding.outcome === 'cannotTell' || finding.closeCall !== undefined);

/** So many unsure verdicts are worth a word beside the findings of any stage. */
const MANY = 5;

/** At the head of the findings: leads to what to measure next, where much hangs on it. */
export function MeasureNextHint(): JSX.Element | null {
  const unsure = useApp((state) => state.report?.findings.filter(isUnsure).length ?? 0);
  const setStage = useApp((state) => state.setStage);
  const start = useMeasureNext((state) => state.start);
  if (unsure < MANY) return null;
  return (
    <p className="measure-hint">
      {standing(unsure)}{' '}
      <Link
        go={() => {
          setStage('checks');
          start();
        }}
      >
        Measure this next
      </Link>
    </p>
  );
}

function standing(unsure: number): string {
  if (unsure === 0) return 'Every verdict is sure: no close calls, nothing that cannot be told.';
  return `${unsure === 1 ? '1 verdict hangs' : `${unsure} verdicts hang`} on how well things are measured.`;
}
