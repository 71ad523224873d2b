import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { askedWords, usePlacing } from '../../store/placing';
import { TintSwatch } from './TestBars';
import { TINT_WORDS, TINTS } from './words';

/** A strip at the foot of the drawing: what the tints of the compartments say. */
export function PlacingBar(): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const parts = usePlacing((state) => state.parts);
  const report = usePlacing((state) => state.report);
  if (!boat || parts.length === 0 || !report) return null;
  const shown = new Set(report.compartments.map(({ verdict }) => verdict));
  return (
    <section className="drawing-bar placing-bar" aria-label="Tints of the compartments">
      <p>
        <b className="drawing-word">{`Where can ${askedWords(boat, parts)} go?`}</b>
      </p>
      <ul className="tint-legend">
        {TINTS.filter((tint) => shown.has(tint)).map((tint) => (
          <li key={tint}>
            <TintSwatch tint={tint} />
            {TINT_WORDS[tint]}
          </li>
        ))}
      </ul>
    </section>
  );
}
