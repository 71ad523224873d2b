import type { JSX, ReactNode } from 'react';
import { useApp } from '../../../store/app';
import { lengthFigure, lengthUnit, massText, sizesText } from '../../format';
import { envelopeOf } from '../../inspector/envelope';
import { ThreeViews } from '../ThreeViews';
import type { KindEntry, PartEntry } from './entries';

function Row({
  id,
  heading,
  picked,
  pick,
  children,
}: {
  readonly id: string;
  readonly heading: string | null;
  readonly picked: boolean;
  pick(id: string): void;
  readonly children: ReactNode;
}): JSX.Element {
  return (
    <>
      {heading === null ? null : <div className="data-heading">{heading}</div>}
      <div
        role="option"
        aria-selected={picked}
        data-entry={id}
        tabIndex={picked ? 0 : -1}
        className="data-row"
        onClick={() => pick(id)}
        onKeyDown={(event) => {
          if (event.key === 'Enter' || event.key === ' ') pick(id);
        }}
      >
        {children}
      </div>
    </>
  );
}

interface Shared {
  readonly heading: string | null;
  readonly picked: boolean;
  pick(id: string): void;
}

export function PartRow({ entry: { id, part }, ...row }: Shared & { readonly entry: PartEntry }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  return (
    <Row id={id} {...row}>
      <span className="shape" aria-hidden="true">
        <SideView part={part} />
      </span>
      <span className="words">
        <span>{part.name}</span>
        <span className="quiet">
          {`${sizesText(envelopeOf(part), units)} ${lengthUnit(units)}${part.massKg > 0 ? `, ${massText(part.massKg)}` : ''}, typical`}
        </span>
      </span>
    </Row>
  );
}

/** Its side alone, small: the bare envelope with the strokes of its kind. */
const SideView = ({ part }: { readonly part: PartEntry['part'] }): JSX.Element => (
  <ThreeViews part={{ ...part, services: {}, sweeps: {} }} width={56} height={40} only="side" />
);

export function KindRow({ entry: { id, kind }, ...row }: Shared & { readonly entry: KindEntry }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  return (
    <Row id={id} {...row}>
      <span className="words">
        <span>{kind.name}</span>
        <span className="quiet">
          {`outside ${lengthFigure(kind.outsideM, units)} ${lengthUnit(units)}, bends to ${lengthFigure(kind.bendRadiusM, units)}, typical`}
        </span>
      </span>
    </Row>
  );
}
