import type { JSX } from 'react';
import type { Mark } from '../../store/findings';

const WORDS: Readonly<Record<Mark, string>> = {
  danger: 'Danger',
  fault: 'Fault',
  closeCall: 'Close call',
  advice: 'Advice',
  cannotTell: 'Cannot tell',
  pass: 'Passed',
};

export const markWords = (mark: Mark): string => WORDS[mark];

/** The shape of a verdict with its number inside, 18 px. The words go to whoever cannot see the shape. */
export function FindingMark({
  mark,
  number,
}: {
  readonly mark: Mark;
  readonly number?: number | undefined;
}): JSX.Element {
  const label = number === undefined ? '' : String(number);
  return (
    <svg width="20" height="20" viewBox="0 0 20 20" role="img" aria-label={`${WORDS[mark]} ${label}`.trim()}>
      {shapeOf(mark)}
      {mark === 'pass' ? null : (
        <text
          x="10"
          y="13.5"
          textAnchor="middle"
          fontSize="10"
          fontWeight="600"
          fontFamily="var(--figures)"
          fill={mark === 'danger' ? 'var(--paper)' : mark === 'fault' ? 'var(--bad)' : 'var(--ink)'}
        >
          {label}
        </text>
      )}
    </svg>
  );
}

const DIAMOND = 'M10 1 19 10 10 19 1 10z';

function shapeOf(mark: Mark): JSX.Element {
  switch (mark) {
    case 'danger':
      return <path d={DIAMOND} fill="var(--bad)" />;
    case 'fault':
      return <path d={DIAMOND} fill="var(--paper)" stroke="var(--bad)" strokeWidth="1.4" />;
    case 'closeCall':
      return <path d={DIAMOND} fill="var(--wash)" stroke="var(--accl)" strokeWidth="1.4" />;
    case 'advice':
      return <circle cx="10" cy="10" r="8" fill="var(--paper)" stroke="var(--ink2)" strokeWidth="1.1" />;
    case 'cannotTell':
      return (
        <circle
          cx="10"
          cy="10"
          r="8"
          fill="var(--paper)"
          stroke="var(--ink)"
          strokeWidth="1.2"
          strokeDasharray="3 2.2"
        />
      );
    case 'pass':
      return <path d="m4.5 10.5 3.5 4 7.5-9" fill="none" stroke="var(--ink2)" strokeWidth="1.5" />;
  }
}
