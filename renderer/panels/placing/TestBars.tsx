import { PLACE_TESTS, type PlaceOutcome, type PlaceTest } from '@core/engine/placement/place-report';
import type { JSX } from 'react';
import type { TINTS } from './words';

const WIDTH = 24;
const HEIGHT = 8;

/** One bar for each test, told apart by shape: full, hatched, broken, struck through, a line. The words go with the row. */
export function TestBars({
  outcomes,
}: {
  readonly outcomes: Readonly<Record<PlaceTest, { readonly outcome: PlaceOutcome }>>;
}): JSX.Element {
  return (
    <span className="test-bars" aria-hidden="true">
      {PLACE_TESTS.map((test) => (
        <OutcomeBar key={test} outcome={outcomes[test].outcome} />
      ))}
    </span>
  );
}

export function OutcomeBar({ outcome }: { readonly outcome: PlaceOutcome }): JSX.Element {
  return (
    <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width={WIDTH} height={HEIGHT} aria-hidden="true">
      {barOf(outcome)}
    </svg>
  );
}

function barOf(outcome: PlaceOutcome): JSX.Element {
  switch (outcome) {
    case 'pass':
      return <rect y="0.5" width={WIDTH} height="7" fill="var(--ink2)" />;
    case 'close':
      return (
        <>
          <rect x="0.5" y="0.5" width={WIDTH - 1} height="7" fill="var(--wash)" />
          <path d="m3 7 6-6M9 7l6-6M15 7l6-6" stroke="var(--accl)" strokeWidth="1.2" />
          <rect x="0.5" y="0.5" width={WIDTH - 1} height="7" fill="none" stroke="var(--accl)" />
        </>
      );
    case 'cannotTell':
      return (
        <rect
          x="0.6"
          y="0.6"
          width={WIDTH - 1.2}
          height="6.8"
          fill="none"
          stroke="var(--ink)"
          strokeWidth="1.2"
          strokeDasharray="3 2.2"
        />
      );
    case 'fail':
      return (
        <>
          <rect x="0.6" y="0.6" width={WIDTH - 1.2} height="6.8" fill="none" stroke="var(--bad)" strokeWidth="1.2" />
          <path d="m9 7.400 6-6.800" stroke="var(--bad)" strokeWidth="1.4" />
        </>
      );
    case 'notJudged':
      return <path d={`M0 4H${WIDTH}`} stroke="var(--ink3)" strokeWidth="0.8" />;
  }
}

/** A piece of the drawing as a verdict tints it. */
export function TintSwatch({ tint }: { readonly tint: (typeof TINTS)[number] }): JSX.Element {
  const fill =
    tint === 'goes' ? 'var(--wash)' : tint === 'goesClose' || tint === 'notYet' ? 'var(--wash2)' : 'var(--paper)';
  return (
    <svg viewBox="0 0 22 12" width="22" height="12" aria-hidden="true">
      <rect x="0.5" y="0.5" width="21" height="11" fill={fill} />
      {tint === 'goesClose' ? (
        <path d="m1 11 10-10M7 11 17 1M13 11 21 3" stroke="var(--accl)" strokeWidth="1" fill="none" />
      ) : tint === 'no' ? (
        <path
          d="m1 8 7-7M1 11 11 1M5 11 15 1M9 11 19 1M13 11l8-8M17 11l4-4M1 4l7 7M1 1l10 10M5 1l10 10M9 1l10 10M13 1l8 8M17 1l4 4"
          stroke="var(--line)"
          strokeWidth="1"
          fill="none"
        />
      ) : tint === 'open' ? (
        <path
          d="M3 3.500h16M3 6h16M3 8.500h16"
          stroke="var(--ink3)"
          strokeWidth="1"
          strokeDasharray="1 3"
          fill="none"
        />
      ) : null}
      <rect x="0.5" y="0.5" width="21" height="11" fill="none" stroke="var(--ink2)" />
    </svg>
  );
}
