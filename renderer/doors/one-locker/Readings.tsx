import { gradeM } from '@core/boat/accuracy';
import { GRADES } from '@core/boat/schema/quantities';
import {
  type Locker,
  type LockerFace,
  type LockerProblem,
  type LockerReading,
  leanOf,
  NO_GRADES,
} from '@core/engine/fit/locker';
import type { JSX, ReactNode } from 'react';
import { AngleField, LengthField } from '../../panels/fields/LengthField';
import { degreesText, lengthUnit, wholeLength } from '../../panels/format';
import { Choice, Panel, Segmented } from '../../panels/inspector/parts';
import { GRADE_WORDS } from '../../panels/words';
import { useApp } from '../../store/app';
import { useLocker } from './state';

/** What is measured in and at the locker, each reading with how well it is known. */
export function Readings({ problems }: { readonly problems: readonly LockerProblem[] }): JSX.Element {
  const locker = useLocker((state) => state.locker);
  const setLocker = useLocker((state) => state.setLocker);
  const units = useApp((state) => state.displayUnits);
  return (
    <>
      <Panel title="Inside" aside={lengthUnit(units)}>
        <div className="locker-reading plain-row">
          <span className="label">Name</span>
          <div className="field">
            <input
              aria-label="Name of the locker"
              value={locker.name}
              maxLength={120}
              onChange={(event) => setLocker({ name: event.target.value || 'Locker' })}
            />
          </div>
        </div>
        <div className="locker-reading plain-row">
          <span className="label">Hull on its</span>
          <Segmented
            label="Side of the boat"
            value={locker.side}
            options={[
              ['port', 'Port side'],
              ['starboard', 'Starboard side'],
            ]}
            choose={(side) => setLocker({ side })}
          />
        </div>
        <Row reading="length" label="Length, fore and aft" problems={problems} />
        <Row reading="height" label="Height" problems={problems} />
        <Row reading="depthBottom" label="Depth at the bottom" problems={problems} />
        <div className="locker-reading plain-row">
          <span className="label">Slope of the hull by</span>
          <Segmented
            label="Slope of the hull by"
            value={locker.slopeBy}
            options={[
              ['depths', 'Depth at the top'],
              ['lean', 'Its lean'],
            ]}
            choose={(slopeBy) => setLocker({ slopeBy })}
          />
        </div>
        {locker.slopeBy === 'depths' ? (
          <Row
            reading="depthTop"
            label="Depth at the top"
            problems={problems}
            hint={`The hull leans ${degreesText(Math.abs(leanOf(locker)), 1)} ${leanOf(locker) < 0 ? 'in' : 'out'}.`}
          />
        ) : (
          <Lean locker={locker} problems={problems} />
        )}
        <Row
          reading="lining"
          label="Lining off the hull"
          problems={problems}
          hint="0 where the depths were taken to the lining itself."
        />
      </Panel>
      <OpeningReadings locker={locker} problems={problems} />
    </>
  );
}

const FACES: readonly (readonly [LockerFace, string])[] = [
  ['front', 'In front, from inboard'],
  ['top', 'On top, a lid'],
  ['aft', 'At the aft end'],
  ['forward', 'At the forward end'],
];

function OpeningReadings({
  locker,
  problems,
}: {
  readonly locker: Locker;
  readonly problems: readonly LockerProblem[];
}): JSX.Element {
  const setLocker = useLocker((state) => state.setLocker);
  const units = useApp((state) => state.displayUnits);
  const { face, centred } = locker.opening;
  const isEnd = face === 'aft' || face === 'forward';
  return (
    <Panel title="Clear opening" aside={lengthUnit(units)}>
      <div className="locker-reading plain-row">
        <span className="label">Where</span>
        <Choice
          label="Where the opening is"
          value={face}
          options={FACES}
          choose={(next) => setLocker({ opening: { ...locker.opening, face: next } })}
        />
      </div>
      <Row
        reading="openingWidth"
        label={isEnd ? 'Width, across' : 'Width, fore and aft'}
        spoken="Width of the opening"
        problems={problems}
      />
      <Row
        reading="openingHeight"
        label={face === 'top' ? 'Depth, across' : 'Height'}
        spoken="Height of the opening"
        problems={problems}
      />
      <div className="locker-reading plain-row">
        <span className="label">Place</span>
        <Segmented
          label="Place of the opening"
          value={centred ? 'centred' : 'measured'}
          options={[
            ['centred', 'In the middle'],
            ['measured', 'Measured'],
          ]}
          choose={(place) => setLocker({ opening: { ...locker.opening, centred: place === 'centred' } })}
        />
      </div>
      {centred ? null : (
        <>
          <Row
            reading="openingAcross"
            label={isEnd ? 'Inboard side to its edge' : 'Aft end to its edge'}
            problems={problems}
          />
          <Row
            reading="openingUp"
            label={face === 'top' ? 'Inboard side to its edge' : 'Bottom to its edge'}
            problems={problems}
          />
        </>
      )}
    </Panel>
  );
}

function Lean({
  locker,
  problems,
}: {
  readonly locker: Locker;
  readonly problems: readonly LockerProblem[];
}): JSX.Element {
  const setLocker = useLocker((state) => state.setLocker);
  return (
    <ReadingRow
      label="Lean outwards"
      spoken="Lean of the hull"
      reading="depthTop"
      problem={problems.find(({ reading }) => reading === 'lean')}
    >
      <AngleField
        label="Lean of the hull outwards"
        value={locker.leanDeg}
        commit={(leanDeg) => setLocker({ leanDeg })}
      />
    </ReadingRow>
  );
}

function Row({
  reading,
  label,
  problems,
  hint,
  spoken,
}: {
  readonly reading: LockerReading;
  readonly label: string;
  /** What a screen reader says, where the label alone is not enough. */
  readonly spoken?: string;
  readonly problems: readonly LockerProblem[];
  readonly hint?: string;
}): JSX.Element {
  const value = useLocker((state) => state.locker.readings[reading].valueM);
  const setReading = useLocker((state) => state.setReading);
  return (
    <ReadingRow
      label={label}
      spoken={spoken ?? label}
      reading={reading}
      problem={problems.find((one) => one.reading === reading)}
      hint={hint}
    >
      <LengthField label={spoken ?? label} value={value} commit={(typed) => setReading(reading, typed)} />
    </ReadingRow>
  );
}

function ReadingRow({
  label,
  spoken,
  reading,
  problem,
  hint,
  children,
}: {
  readonly label: string;
  readonly spoken: string;
  readonly reading: LockerReading;
  readonly problem: LockerProblem | undefined;
  readonly hint?: string | undefined;
  readonly children: ReactNode;
}): JSX.Element {
  const grade = useLocker((state) => state.locker.readings[reading].grade);
  const setGrade = useLocker((state) => state.setGrade);
  const units = useApp((state) => state.displayUnits);
  return (
    <div className="locker-reading">
      <span className="label">{label}</span>
      {children}
      <Choice
        label={`How well known: ${spoken}`}
        value={grade}
        options={GRADES.map(
          (one) => [one, `${GRADE_WORDS[one]} \u00b1${wholeLength(gradeM(NO_GRADES, one), units)}`] as const,
        )}
        choose={(next) => setGrade(reading, next)}
      />
      {problem ? (
        <div className="field-error" role="alert">
          {problem.message}
        </div>
      ) : hint ? (
        <div className="quiet hint">{hint}</div>
      ) : null}
    </div>
  );
}
