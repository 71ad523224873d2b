import type { Boat } from '@core/boat/schema/boat';
import type { HoleReport, RunReport } from '@core/engine/report';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { layoutOf } from '../../../store/derived';
import { panelWords } from '../../../store/panel-place';
import { crossingFreed, decidedHole, heldOf, isToDrill, putPulled } from '../../../store/pulled';
import { isSelected, markOf, thingOf } from '../../../store/select';
import { edgeLeft, holeLeft, slidTo } from '../../../tools/hole-slide';
import { lengthFigure, lengthUnit, wholeLength } from '../../format';
import { Place } from '../Place';
import { Link, Panel } from '../parts';

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly run: RunReport;
}

/** Where the run passes panels, in order; a hole that is still to be drilled can be slid, by its numbers here. */
export function Crossings({ boat, id, run }: Props): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  return (
    <Panel title="Crossings" level={3} aside={run.holes.length === 0 ? 'none' : lengthUnit(units)}>
      {run.holes.length === 0 ? <p className="quiet">Crosses no panel.</p> : null}
      <ol className="crossings">
        {run.holes.map((hole, index) => (
          <Crossing key={`${hole.panelId} ${index.toString()}`} boat={boat} id={id} hole={hole} index={index} />
        ))}
      </ol>
    </Panel>
  );
}

function Crossing({
  boat,
  id,
  hole,
  index,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly hole: HoleReport;
  readonly index: number;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const arrangementId = useApp((state) => state.arrangementId);
  const selection = useApp((state) => state.selection);
  const goTo = useApp((state) => state.goTo);
  const panel = layoutOf(boat, arrangementId).panels[hole.panelId];
  const here = { kind: 'crossing', id: String(index), line: id } as const;
  const isPicked =
    isSelected(selection, 'crossing', here.id) && selection?.kind === 'crossing' && selection.line === id;
  const isDecided = decidedHole(boat, arrangementId, hole) !== null;
  const canSlide = isToDrill(boat, arrangementId, hole);
  const number = index + 1;
  const set = (at: readonly [number, number, number]): void => {
    const held = heldOf(boat, arrangementId, here);
    if (!panel || held?.kind !== 'crossing') return;
    putPulled(here, slidTo(panel, at, held.diameterM, held.start)?.at ?? held.at);
  };
  return (
    <li className={isPicked ? 'crossing picked' : 'crossing'}>
      <div className="crossing-head">
        <span className="place">
          <Link go={() => goTo(here, hole.at)}>{panel ? panelWords(boat, panel) : hole.panelId}</Link>
        </span>
        <span className="figures">
          {lengthFigure(hole.diameterM, units)}
          {!canSlide ? ', there already' : isDecided ? ', to drill, decided' : ', to drill'}
        </span>
      </div>
      {hole.fedFrom === undefined ? null : (
        <p className="crossing-room">{`Draw it in from the end at ${endMark(boat, id, hole.fedFrom)}`}</p>
      )}
      {panel ? <RoomWords panel={panel} hole={hole} /> : null}
      {isPicked && panel && canSlide ? (
        <>
          <Place at={hole.at} of={`hole ${number}`} commit={set} />
          <p className="quiet">Drag its ring, or use the arrow keys on the drawing. It stays in its panel.</p>
          {isDecided ? (
            <div className="actions">
              <button type="button" className="button plain" onClick={() => crossingFreed(id, index)}>
                Let its place be found again
              </button>
            </div>
          ) : null}
        </>
      ) : null}
    </li>
  );
}

/** What stands at an end of a line. */
function endMark(boat: Boat, id: string, end: 'from' | 'to'): string {
  const thing = boat.lines[id]?.[end].thing ?? '';
  return markOf(thing, thingOf(boat, thing));
}

/** Wood left beside the hole, and what the panel asks. */
function RoomWords({
  panel,
  hole,
}: {
  readonly panel: NonNullable<ReturnType<typeof layoutOf>['panels'][string]>;
  readonly hole: HoleReport;
}): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const edge = edgeLeft(panel, hole.at, hole.diameterM);
  const gap = holeLeft(panel, hole.at, hole.diameterM, hole.at);
  if (!Number.isFinite(edge)) return null;
  return (
    <p className="crossing-room">
      {`${wholeLength(edge, units)} to the edge, at least ${wholeLength(panel.edgeM, units)}`}
      {gap === null ? '' : `; ${wholeLength(gap, units)} to the next hole`}
    </p>
  );
}
