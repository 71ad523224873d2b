import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { MENDED_RULES } from '@core/rules/remedy';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { useDrag } from '../../../store/drag';
import { pinToggled } from '../../../store/pulled';
import { isPinned, markOf, thingOf } from '../../../store/select';
import { figure, lengthFigure, lengthUnit, runFigure, runUnit, wholeLength } from '../../format';
import { Remedies } from '../../Remedies';
import { gapShare, spareWords } from '../../run-words';
import { Facts, Panel } from '../parts';
import { BlockedRun } from './BlockedRun';
import { Crossings } from './Crossings';
import { OtherWays } from './OtherWays';
import { RunCosts } from './RunCosts';
import { RunFindings } from './RunFindings';

/** The run that answers a line: what it measures, how good that is, what it pays for, where it passes; or why there is none. */
export function RunPanel({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const settled = useApp((state) => state.report?.runs.find((run) => run.lineId === id) ?? null);
  const live = useDrag((state) => state.runs[id] ?? null);
  const run = live ?? settled;
  if (!run)
    return (
      <Panel title="Run" level={3}>
        Not worked out yet.
      </Panel>
    );
  if (run.status === 'blocked')
    return (
      <>
        <BlockedRun boat={boat} id={id} run={run} />
        <Remedies key={id} boat={boat} id={id} isAsked />
      </>
    );
  return (
    <>
      <RoutedRun boat={boat} id={id} run={run} />
      <RunFindings boat={boat} id={id} />
      <Failing key={`failing ${id}`} boat={boat} id={id} />
      <Crossings boat={boat} id={id} run={run} />
      <RunCosts run={run} />
      <Unpinned key={`ways ${id}`} boat={boat} id={id} />
    </>
  );
}

/** A run that is there and fails for its length or for air: what would mend it, when that is asked. */
function Failing({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element | null {
  const fails = useApp((state) =>
    state.report?.findings.some(
      ({ rule, subject, outcome }) => subject === id && outcome === 'fail' && MENDED_RULES.includes(rule),
    ),
  );
  return fails ? <Remedies boat={boat} id={id} /> : null;
}

/** A pinned run has no other way: it lies there. */
function Unpinned({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element | null {
  const pinned = useApp((state) => isPinned(boat, state.arrangementId, id));
  return pinned ? null : <OtherWays boat={boat} id={id} />;
}

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly run: RunReport;
}

function RoutedRun({ boat, id, run }: Props): JSX.Element {
  const stale = useApp((state) => state.stale);
  const units = useApp((state) => state.displayUnits);
  const pinned = useApp((state) => isPinned(boat, state.arrangementId, id));
  const spare = spareWords(run, units);
  const value = (text: string): JSX.Element => <span className={stale ? 'stale' : undefined}>{text}</span>;
  const aside = stale ? <span className="stale">being worked out</span> : pinned ? 'as built' : undefined;
  return (
    <Panel title="Run" level={3} aside={aside}>
      <Facts
        rows={[
          ['Length', value(`${run.lengthM === null ? '\u2013' : runFigure(run.lengthM, units)} ${runUnit(units)}`)],
          run.bends === undefined ? null : ['Bends', figure(run.bends)],
          run.leastRadiusM === undefined || run.leastRadiusM === null
            ? null
            : ['Tightest bend, centre line', value(`${wholeLength(run.leastRadiusM, units)} ${lengthUnit(units)}`)],
          run.minClearanceM === null
            ? null
            : ['Least clearance', value(`${lengthFigure(run.minClearanceM, units)} ${lengthUnit(units)}`)],
        ]}
      />
      <ForcedCrest boat={boat} id={id} run={run} />
      {spare === '' ? null : <p className="bound-words">{spare}</p>}
      {pinned ? null : <BoundWords run={run} />}
      <PinActions pinned={pinned} />
    </Panel>
  );
}

/** Air that no run of the line can do without, because of how a port faces. */
function ForcedCrest({ boat, id, run }: Props): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const { forcedCrest } = run;
  const thing = forcedCrest && boat.lines[id]?.[forcedCrest.end].thing;
  if (!forcedCrest || thing === undefined) return null;
  const height = `${wholeLength(forcedCrest.trappedM, units)} ${lengthUnit(units)}`;
  return (
    <p className="bound-words">
      {`The port of ${markOf(thing, thingOf(boat, thing))} faces up: ${height} of trapped height can't be avoided. Turn the port.`}
    </p>
  );
}

/** How good the run is, by a bound that no run can beat. */
function BoundWords({ run }: { readonly run: RunReport }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const share = gapShare(run);
  if (share === null) return null;
  const bound = `${runFigure(run.lowerBoundM, units)} ${runUnit(units)}`;
  const words =
    share < 0.0005
      ? 'No run can be shorter: that is proved.'
      : `No run can be shorter than ${bound}: this one is ${figure(share * 100, 1)}\u00a0% above.`;
  return <p className="bound-words">{words}</p>;
}

/** A run that lies in the boat already is kept as it lies; the router leaves it alone. */
function PinActions({ pinned }: { readonly pinned: boolean }): JSX.Element {
  return (
    <div className="actions">
      {pinned ? (
        <button
          type="button"
          className="button plain"
          title="It may be laid anew when something moves. Key I"
          onClick={pinToggled}
        >
          Unpin
        </button>
      ) : (
        <button
          type="button"
          className="button plain"
          title="It lies in the boat like this: it stays, and other runs keep clear of it. Key I"
          onClick={pinToggled}
        >
          Pin as built
        </button>
      )}
    </div>
  );
}
