import type { Medium } from '@core/boat/schema/boat';
import type { JSX } from 'react';

/** Colour and dash of each content, as drawn on the board: the dash tells it without the colour. */
const LOOKS: Readonly<Record<Medium, { readonly colour: string; readonly dash?: string; readonly width?: number }>> = {
  seaWater: { colour: 'var(--sea)' },
  brine: { colour: 'var(--sea)', dash: '9 3.5 1.5 3.5' },
  freshWater: { colour: 'var(--fresh)', dash: '13 2.6' },
  product: { colour: 'var(--fresh)', dash: '13 2.6' },
  gauge: { colour: 'var(--sea)', width: 1 },
  dcPower: { colour: 'var(--plus)' },
  signal: { colour: 'var(--ink)', dash: '1 3', width: 1 },
  fuel: { colour: 'var(--ink2)' },
  waste: { colour: 'var(--ink2)', dash: '6 3' },
  air: { colour: 'var(--ink3)', dash: '2 3' },
};

export function LineSample({ medium, cased }: { readonly medium: Medium; readonly cased: boolean }): JSX.Element {
  const { colour, dash, width = 1.8 } = LOOKS[medium];
  return (
    <svg width="44" height="10" viewBox="0 0 44 10" aria-hidden="true">
      {cased ? <path d="M0 5h44" stroke={colour} strokeWidth="4.5" /> : null}
      {cased ? <path d="M0 5h44" stroke="var(--paper)" strokeWidth="2.2" /> : null}
      <path
        d={medium === 'dcPower' ? 'M0 3h44' : 'M0 5h44'}
        stroke={colour}
        strokeWidth={cased ? 1 : width}
        strokeDasharray={dash}
      />
      {medium === 'dcPower' ? (
        <path d="M0 6h44v2.4H0z" fill="var(--paper)" stroke="var(--ink2)" strokeWidth="0.8" />
      ) : null}
    </svg>
  );
}
