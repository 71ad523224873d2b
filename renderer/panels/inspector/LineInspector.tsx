import { LINE_KINDS, lineKindOf } from '@core/boat/catalogue/line-kinds';
import { lineDeleted, lineEndSet } from '@core/boat/edits';
import type { Boat, Line } from '@core/boat/schema/boat';
import { obstacleName } from '@core/output/text/names';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { useDrag } from '../../store/drag';
import { compartmentName, markOf } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { figure, lengthFigure, lengthUnit, runFigure, runUnit, sizesText, wholeLength } from '../format';
import { blockWords } from '../run-words';
import { portsOf } from '../stages/AddLine';
import { MEDIUM_WORDS } from '../words';
import { ClipPoints } from './ClipPoints';
import { Choice, Facts, Labelled, Link, Panel } from './parts';

/** A line as wished and the run that answers it. */
export function LineInspector({
  boat,
  id,
  line,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly line: Line;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const units = useApp((state) => state.displayUnits);
  const select = useApp((state) => state.select);
  const mark = markOf(id, line);
  const kind = lineKindOf(boat.lineKinds, line.kind);
  const kinds: (readonly [string, string])[] = Object.entries({ ...LINE_KINDS, ...boat.lineKinds }).map(
    ([key, data]) => [key, data.name],
  );
  return (
    <>
      <Panel title={`${mark}  ${line.name}`} aside={MEDIUM_WORDS[line.medium]}>
        <Labelled label="Kind">
          <Choice
            label="Kind of hose, tube or cable"
            value={line.kind}
            options={kinds}
            choose={(value) =>
              edit(`Kind of ${mark}`, (draft) => {
                const wish = draft.lines[id];
                if (wish) wish.kind = value;
              })
            }
          />
        </Labelled>
        <EndChoice boat={boat} id={id} line={line} end="from" />
        <EndChoice boat={boat} id={id} line={line} end="to" />
        <Labelled label="Comes in">
          <LengthField
            label="Supplied length"
            value={line.supplied?.lengthM ?? null}
            placeholder="any length"
            commit={(value) =>
              edit(`Supplied length of ${mark}`, (draft) => {
                const wish = draft.lines[id];
                if (wish) wish.supplied = { spareM: 0.05, mayCut: false, ...wish.supplied, lengthM: value };
              })
            }
            clear={() =>
              edit(`Supplied length of ${mark}`, (draft) => {
                const wish = draft.lines[id];
                if (wish) delete wish.supplied;
              })
            }
          />
        </Labelled>
        {kind === undefined ? null : (
          <Facts
            rows={[
              ['Outside', `${sizesText([kind.outsideM], units)} ${lengthUnit(units)}`],
              [
                'Least bend radius',
                `${lengthFigure(kind.bendRadiusM, units)} ${lengthUnit(units)}, to the ${kind.radiusTo === 'inside' ? 'inside' : 'centre line'}`,
              ],
            ]}
          />
        )}
        <div className="actions">
          <button
            type="button"
            className="button plain"
            onClick={() => {
              if (edit(`Remove ${mark}`, lineDeleted(id))) select(null);
            }}
          >
            Remove the line
          </button>
        </div>
      </Panel>
      <RunDetails boat={boat} id={id} />
      <ClipPoints boat={boat} lineId={id} mark={mark} />
    </>
  );
}

function EndChoice({
  boat,
  id,
  line,
  end,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly line: Line;
  readonly end: 'from' | 'to';
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const here = line[end];
  return (
    <Labelled label={end === 'from' ? 'From' : 'To'}>
      <Choice
        label={end === 'from' ? 'From port' : 'To port'}
        value={`${here.thing}/${here.port}`}
        options={portsOf(boat)}
        choose={(value) => {
          const [thing, port] = value.split('/');
          if (thing !== undefined && port !== undefined)
            edit(`End of ${markOf(id, line)}`, lineEndSet(id, end, { thing, port }));
        }}
      />
    </Labelled>
  );
}

function RunDetails({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const settled = useApp((state) => state.report?.runs.find((run) => run.lineId === id) ?? null);
  const live = useDrag((state) => state.runs[id] ?? null);
  const stale = useApp((state) => state.stale);
  const units = useApp((state) => state.displayUnits);
  const arrangementId = useApp((state) => state.arrangementId);
  const goTo = useApp((state) => state.goTo);
  const run = live ?? settled;
  if (!run)
    return (
      <Panel title="Run" level={3}>
        Not worked out yet.
      </Panel>
    );
  if (run.status === 'blocked') {
    return (
      <Panel title="Run" level={3} aside={run.proved ? 'proved impossible' : 'not found'}>
        <p>{blockWords(run, (id) => obstacleName(boat, id), units)}</p>
        {run.reason?.at ? (
          <div className="actions">
            <button
              type="button"
              className="button plain"
              onClick={() => goTo({ kind: 'line', id }, run.reason?.at ?? null)}
            >
              Show where
            </button>
          </div>
        ) : null}
      </Panel>
    );
  }
  const panels = layoutOf(boat, arrangementId).panels;
  return (
    <Panel title="Run" level={3} aside={stale ? <span className="stale">being worked out</span> : undefined}>
      <Facts
        rows={[
          ['Length', `${run.lengthM === null ? '\u2013' : runFigure(run.lengthM, units)} ${runUnit(units)}`],
          ['No run is shorter than', `${runFigure(run.lowerBoundM, units)} ${runUnit(units)}`],
          run.bends === undefined ? null : ['Bends', figure(run.bends)],
          run.leastRadiusM === undefined || run.leastRadiusM === null
            ? null
            : ['Tightest bend, centre line', `${wholeLength(run.leastRadiusM, units)} ${lengthUnit(units)}`],
          run.minClearanceM === null
            ? null
            : ['Least clearance', `${lengthFigure(run.minClearanceM, units)} ${lengthUnit(units)}`],
        ]}
      />
      <h3 className="group">Crossings</h3>
      {run.holes.length === 0 ? <p className="quiet">Crosses no panel.</p> : null}
      <dl className="facts">
        {run.holes.map((hole, index) => {
          const panel = panels[hole.panelId];
          const name = panel
            ? `${compartmentName(boat, panel.between[0])} to ${compartmentName(boat, panel.between[1])}`
            : hole.panelId;
          return (
            <div key={`${hole.panelId} ${index.toString()}`}>
              <dt className="place">
                <Link go={() => goTo({ kind: 'panel', id: hole.panelId }, hole.at)}>{name}</Link>
              </dt>
              <dd>
                {lengthFigure(hole.diameterM, units)}
                {hole.existing ? ', there already' : ', to drill'}
              </dd>
            </div>
          );
        })}
      </dl>
    </Panel>
  );
}
