import { obstacleName } from '@core/output/text/names';
import { type JSX, useEffect, useState } from 'react';
import { lengthUnit, runFigure, runUnit, wholeLength } from '../panels/format';
import { blockWords } from '../panels/run-words';
import { useApp } from '../store/app';
import { layoutOf } from '../store/derived';
import { useDrag } from '../store/drag';
import { markOf } from '../store/select';
import type { DisplayUnits, Pulled } from '../store/types';
import { edgeLeft, holeLeft } from '../tools/hole-slide';

/** A search that follows the hand finds most ways a moment later: only what lasts so long is said, milliseconds. */
const LASTS_MS = 150;

/** A strip at the foot of the drawing while a run is pulled: what the run comes to, what keeps it, what stands in the way. */
export function PullBar(): JSX.Element | null {
  const pulled = useDrag((s) => s.pulled);
  const judging = useDrag((s) => s.judging);
  const boat = useApp((s) => s.boat);
  if (!boat || !pulled) return null;
  const mark = markOf(pulled.line, boat.lines[pulled.line] ?? null);
  const word = pulled.kind === 'crossing' ? `Hole of ${mark}` : `Clip point on ${mark}`;
  return (
    <section className="drawing-bar" aria-label={word} data-testid="pull-bar">
      <div className="drawing-hint">
        <p>
          <b className="drawing-word">{word}</b>
          {judging ? ' Being checked.' : ' Let go to set it. Esc leaves all as it was.'}
        </p>
        <output className="drawing-reading" aria-live="polite">
          <Following pulled={pulled} />
        </output>
      </div>
    </section>
  );
}

function Following({ pulled }: { readonly pulled: Pulled }): JSX.Element | null {
  const units = useApp((s) => s.displayUnits);
  const boat = useApp((s) => s.boat);
  const before = useApp((s) => s.report?.runs.find(({ lineId }) => lineId === pulled.line)?.lengthM ?? null);
  const now = useDrag((s) => s.runs[pulled.line]?.lengthM ?? null);
  const refused = useDrag((s) => s.refused);
  const lasts = useLasting(refused !== null);
  if (!boat) return null;
  if (refused && lasts)
    return <span className="bad">{blockWords(refused, (id) => obstacleName(boat, id), units)}</span>;
  const length = now ?? before;
  return (
    <>
      {length === null ? '' : `${runFigure(length, units)} ${runUnit(units)}`}
      {now === null || before === null ? '' : `, ${change(now - before, units)}`}
      {pulled.kind === 'crossing' ? <Room pulled={pulled} /> : null}
    </>
  );
}

/** The wood that is left beside the hole. */
function Room({ pulled }: { readonly pulled: Extract<Pulled, { kind: 'crossing' }> }): JSX.Element | null {
  const units = useApp((s) => s.displayUnits);
  const panel = useApp((s) => (s.boat ? layoutOf(s.boat, s.arrangementId).panels[pulled.panelId] : undefined));
  if (!panel) return null;
  const { at, diameterM, start, stoppedBy } = pulled;
  const length = (metres: number): string => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const gap = holeLeft(panel, at, diameterM, start);
  const held = stoppedBy === 'edge' ? ', held by the edge' : stoppedBy === 'hole' ? ', held by another hole' : '';
  return (
    <>
      {`; ${length(edgeLeft(panel, at, diameterM))} to the edge (at least ${length(panel.edgeM)})`}
      {gap === null ? '' : `, ${length(gap)} to the next hole`}
      {held}
    </>
  );
}

/** `+0.12 m`. */
function change(metres: number, units: DisplayUnits): string {
  const text = runFigure(metres, units);
  return `${text.startsWith('\u2212') ? '' : '+'}${text} ${runUnit(units)}`;
}

/** True once something has been so for a while. */
function useLasting(isSo: boolean): boolean {
  const [lasts, setLasts] = useState(false);
  useEffect(() => {
    if (!isSo) {
      setLasts(false);
      return;
    }
    const timer = setTimeout(() => setLasts(true), LASTS_MS);
    return () => clearTimeout(timer);
  }, [isSo]);
  return isSo && lasts;
}
