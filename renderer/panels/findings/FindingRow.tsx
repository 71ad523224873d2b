import { findingAccepted } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { comparedInstead } from '@core/output/text/compared-text';
import { findingText } from '@core/output/text/finding-text';
import { nameOf } from '@core/output/text/names';
import type { Finding } from '@core/rules/finding';
import { type JSX, memo, useEffect, useRef, useState } from 'react';
import { useApp } from '../../store/app';
import { isOpen, type Mark, markOfFinding } from '../../store/findings';
import { useMeasureNext } from '../../store/measure-next';
import { isSelected, thingOf } from '../../store/select';
import { taskOfFinding, useService } from '../../store/service';
import { useZones } from '../../store/zones';
import { useFormFocus } from '../fields/use-form-focus';
import { lengthUnit, wholeLength } from '../format';
import { Mends } from '../Remedies';
import { TermLabel, TermText } from '../Term';
import { sentence } from '../words';
import { FindingMark, markWords } from './FindingMark';
import { LimitBar } from './LimitBar';
import { measuredWords } from './measured-words';

/** One verdict: its shape and number, measured against its limit; opened: why, what to do, source, what it cannot see. */
export const FindingRow = memo(function FindingRow({
  boat,
  finding,
  number,
}: {
  readonly boat: Boat;
  readonly finding: Finding;
  readonly number: number | undefined;
}): JSX.Element {
  const selected = useApp((state) => isSelected(state.selection, 'finding', finding.key));
  const pointedAt = useApp((state) => isSelected(state.hover, 'finding', finding.key));
  const lit = useMeasureNext((state) => state.lit.includes(finding.key));
  const hovered = pointedAt || lit;
  const units = useApp((state) => state.displayUnits);
  const goTo = useApp((state) => state.goTo);
  const select = useApp((state) => state.select);
  const setHover = useApp((state) => state.setHover);
  const zone = useZones((state) => state.zones.get(finding.key));
  const mark = markOfFinding(finding);
  const words = findingText(finding, boat);
  const bodyId = `finding-${finding.key.replace(/[^\w-]/g, '-')}`;

  const item = useRef<HTMLLIElement>(null);
  // Picked on the drawing, the finding comes into view in the list.
  useEffect(() => {
    if (selected) item.current?.scrollIntoView?.({ block: 'nearest' });
  }, [selected]);

  return (
    <li ref={item} className={['finding', selected ? 'open' : '', hovered ? 'hovered' : ''].join(' ').trim()}>
      <button
        type="button"
        className="finding-head"
        aria-expanded={selected}
        aria-controls={selected ? bodyId : undefined}
        onClick={() => (selected ? select(null) : goTo({ kind: 'finding', id: finding.key }, finding.at))}
        onMouseEnter={() => setHover({ kind: 'finding', id: finding.key })}
        onMouseLeave={() => setHover(null)}
      >
        <span className="mark">{mark ? <FindingMark mark={mark} number={number} /> : null}</span>
        <span className="title">{words.title}</span>
        <span className="zone">{finding.accepted ? 'accepted' : (zone ?? '')}</span>
        <Bar finding={finding} mark={mark} units={units} />
      </button>
      {selected ? (
        <div className="finding-body" id={bodyId}>
          {words.why === '' ? null : (
            <p>
              <TermText>{sentence(words.why)}</TermText>
            </p>
          )}
          <dl>
            {words.enterNext === '' ? null : (
              <>
                <dt>Enter next</dt>
                <dd>{words.enterNext}</dd>
              </>
            )}
            {words.closeCall === '' ? null : (
              <>
                <dt>
                  <TermLabel>Tape</TermLabel>
                </dt>
                <dd>{words.closeCall}</dd>
              </>
            )}
            <dt>Source</dt>
            <dd>{words.sources.join('; ')}</dd>
            {words.blindTo.length === 0 ? null : (
              <>
                <dt>Blind to</dt>
                <dd>{words.blindTo.join(' ')}</dd>
              </>
            )}
            {words.cautions.length === 0 ? null : (
              <>
                <dt>Caution</dt>
                <dd className="cautions">
                  {words.cautions.map((caution) => (
                    <p key={caution}>{caution}</p>
                  ))}
                </dd>
              </>
            )}
            <dt>Cause</dt>
            <dd>{finding.cause === 'existing' ? 'There before the plan' : 'The plan'}</dd>
            {finding.accepted ? (
              <>
                <dt>Accepted</dt>
                <dd>
                  {finding.accepted.why} ({finding.accepted.by}, {finding.accepted.on})
                </dd>
              </>
            ) : null}
          </dl>
          <Involved boat={boat} finding={finding} />
          {finding.rule === 'access/service-task' ? <Rehearse boat={boat} finding={finding} /> : null}
          {finding.outcome === 'fail' ? <Mends boat={boat} findingKey={finding.key} /> : null}
          <Accepting finding={finding} />
        </div>
      ) : null}
    </li>
  );
});

function Bar({
  finding,
  mark,
  units,
}: {
  readonly finding: Finding;
  readonly mark: Mark | null;
  readonly units: 'mm' | 'inch';
}): JSX.Element | null {
  if (finding.outcome === 'cannotTell' || finding.outcome === 'notApplicable') {
    return <span className="bar-row quiet">{mark ? markWords(mark) : 'Does not apply'}</span>;
  }
  const instead = comparedInstead(finding, (metres) => `${wholeLength(metres, units)}\u2009${lengthUnit(units)}`);
  // A bar up to nothing shows nothing.
  if (instead === '') return null;
  if (instead !== null) return <span className="bar-row">{sentence(instead)}</span>;
  const words = measuredWords(finding.measured, finding.limit, finding.closeCall, units, finding.data.capped === true);
  return (
    <span className="bar-row">
      <LimitBar
        measured={finding.measured}
        limit={finding.limit}
        uncertainty={
          finding.limit.unit === 'm' && !finding.closeCall?.hangsOn ? (finding.closeCall?.gradeM ?? null) : null
        }
        tone={mark === 'danger' || mark === 'fault' ? 'bad' : mark === 'closeCall' ? 'accl' : 'ink2'}
      />
      <span className="words">
        <b>{words.measured}</b>
        {`, ${words.limit}`}
      </span>
    </span>
  );
}

/** Who the finding speaks about: each leads to its own inspector. */
function Involved({ boat, finding }: { readonly boat: Boat; readonly finding: Finding }): JSX.Element | null {
  const select = useApp((state) => state.select);
  const known = [...new Set([finding.subject, ...finding.related])].flatMap((id) => {
    const kind = kindOf(boat, id);
    return kind === null ? [] : [{ id, kind }];
  });
  if (known.length === 0) return null;
  return (
    <div className="actions">
      {known.map(({ id, kind }) => (
        <button key={id} type="button" className="button plain" onClick={() => select({ kind, id })}>
          {nameOf(boat, id)}
        </button>
      ))}
    </div>
  );
}

/** A verdict on a service task is best seen: it is gone through on the board. */
function Rehearse({ boat, finding }: { readonly boat: Boat; readonly finding: Finding }): JSX.Element {
  const choose = useService((state) => state.choose);
  return (
    <div className="actions">
      <button type="button" className="button" onClick={() => choose(taskOfFinding(boat, finding.key))}>
        Rehearse it
      </button>
    </div>
  );
}

function kindOf(boat: Boat, id: string): 'thing' | 'line' | 'compartment' | 'opening' | null {
  if (thingOf(boat, id)) return 'thing';
  if (boat.lines[id]) return 'line';
  if (boat.compartments[id]) return 'compartment';
  return boat.openings[id] ? 'opening' : null;
}

/** Accepting is for the owner to answer for: it takes a reason and a name, and is kept in the file. */
function Accepting({ finding }: { readonly finding: Finding }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  const [by, setBy] = useState('owner');
  const { first: reason, opener } = useFormFocus(open);
  if (finding.accepted) {
    return (
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() => edit('Take acceptance back', findingAccepted(finding.key, null))}
        >
          Take back
        </button>
      </div>
    );
  }
  if (!isOpen(finding)) return <div />;
  if (!open) {
    return (
      <div className="actions">
        <button type="button" className="button" ref={opener} onClick={() => setOpen(true)}>
          Accept with a reason
        </button>
      </div>
    );
  }
  return (
    <form
      className="accept-form"
      onSubmit={(event) => {
        event.preventDefault();
        const acceptance = { by: by.trim(), why: why.trim(), on: new Date().toISOString().slice(0, 10) };
        if (acceptance.why !== '' && acceptance.by !== '')
          edit('Accept a finding', findingAccepted(finding.key, acceptance));
      }}
    >
      <div className="field">
        <input
          ref={reason}
          aria-label="Reason"
          placeholder="Reason, kept in the file"
          value={why}
          onChange={(event) => setWhy(event.target.value)}
        />
      </div>
      <div className="field">
        <input aria-label="Accepted by" value={by} onChange={(event) => setBy(event.target.value)} />
      </div>
      <div className="actions">
        <button type="submit" className="button" disabled={why.trim() === '' || by.trim() === ''}>
          Accept
        </button>
        <button type="button" className="button plain" onClick={() => setOpen(false)}>
          Cancel
        </button>
      </div>
    </form>
  );
}
