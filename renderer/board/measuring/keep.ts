import { useApp } from '../../store/app';
import { useDrawing } from '../../store/drawing';
import type { Measure } from '../../tools/measuring';
import { measureWords } from './measure-words';

/** Keeps a measure on the drawing and says what it came to. */
export function keepMeasures(measures: readonly Measure[]): void {
  const last = measures.at(-1);
  if (!last) return;
  useDrawing.setState((state) => ({ measures: [...state.measures, ...measures].slice(-MOST) }));
  const { displayUnits, notify } = useApp.getState();
  notify(`Measured ${measures.map((one) => measureWords(one, displayUnits)).join('; ')}`);
}
/** More than this on one drawing cannot be read any more. */
const MOST = 40;
