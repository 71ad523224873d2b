import { PAPER_SIZES, paperWords } from '@core/output/sheets/paper-size';
import type { JSX } from 'react';
import { usePaper } from '../../store/paper';
import { Choice, Labelled } from '../inspector/parts';

/** The paper that everything is printed on. */
export function PaperChoice(): JSX.Element {
  const { paper, setPaper } = usePaper();
  return (
    <Labelled label="Printed on">
      <Choice
        label="Paper that sheets are printed on"
        value={paper}
        options={PAPER_SIZES.map((size) => [size, paperWords(size)] as const)}
        choose={setPaper}
      />
    </Labelled>
  );
}
