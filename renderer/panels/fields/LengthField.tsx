import type { JSX } from 'react';
import { useApp } from '../../store/app';
import type { DisplayUnits } from '../../store/types';
import { figure, lengthFigure, lengthUnit } from '../format';
import { readAngle, readLength } from './entries';
import { QuantityField, type Read } from './QuantityField';

const STEPS_M: readonly [number, number] = [0.01, 0.001];

interface Props {
  readonly label: string;
  readonly value: number | null;
  commit(value: number, typed: string): void;
  readonly clear?: (() => void) | undefined;
  readonly placeholder?: string;
  readonly id?: string;
  /** Where the value stands in the boat, to show what was typed for it. */
  readonly path?: string;
  /** What was typed for it, where it stands in no boat yet. */
  readonly typedAs?: string | undefined;
  /** A last word on what was read, such as the limits of the value. */
  judge?(read: Read): Read;
}

/** A length in millimetres or inches; reads any unit that is typed. Up and down step 10 mm, with shift 1 mm. */
export function LengthField({ path, typedAs: typedHere, judge = (read) => read, ...props }: Props): JSX.Element {
  const units: DisplayUnits = useApp((state) => state.displayUnits);
  const typedAs = useApp((state) => (path === undefined ? undefined : state.boat?.typed?.[path]));
  return (
    <QuantityField
      {...props}
      typedAs={typedHere ?? typedAs}
      unit={lengthUnit(units)}
      show={(value) => lengthFigure(value, units)}
      read={(typed) => judge(readLength(typed, units))}
      steps={STEPS_M}
    />
  );
}

export function AngleField(props: Omit<Props, 'path' | 'judge' | 'typedAs'>): JSX.Element {
  return (
    <QuantityField
      {...props}
      unit={'\u00b0'}
      show={(value) => figure(value, Number.isInteger(value) ? 0 : 1)}
      read={readAngle}
      steps={[5, 1]}
    />
  );
}
