import type { JSX } from 'react';
import { useApp } from '../../store/app';
import type { DisplayUnits } from '../../store/types';
import { figure, lengthFigure, lengthUnit } from '../format';
import { readAngle, readLength } from './entries';
import { QuantityField } from './QuantityField';

const STEPS_M: readonly [number, number] = [0.01, 0.001];

interface Props {
  readonly label: string;
  readonly value: number | null;
  commit(value: number, typed: string): void;
  readonly clear?: () => void;
  readonly placeholder?: string;
  readonly id?: string;
}

/** A length in millimetres or inches; reads any unit that is typed. Up and down step 10 mm, with shift 1 mm. */
export function LengthField(props: Props): JSX.Element {
  const units: DisplayUnits = useApp((state) => state.displayUnits);
  return (
    <QuantityField
      {...props}
      unit={lengthUnit(units)}
      show={(value) => lengthFigure(value, units)}
      read={(typed) => readLength(typed, units)}
      steps={STEPS_M}
    />
  );
}

export function AngleField(props: Props): JSX.Element {
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
