import type { JSX } from 'react';
import { BoatData } from './BoatData';
import { Catalogue } from './catalogue/Catalogue';
import { DataSheet } from './sheet/DataSheet';
import { WholeSet } from './WholeSet';

/** The wide dialogs in which data are entered. */
export function DataDialog({
  dialog,
  close,
}: {
  readonly dialog: 'allData' | 'catalogue' | 'dataSheet' | 'wholeSet';
  close(): void;
}): JSX.Element | null {
  switch (dialog) {
    case 'allData':
      return <BoatData close={close} />;
    case 'catalogue':
      return <Catalogue close={close} />;
    case 'dataSheet':
      return <DataSheet close={close} />;
    case 'wholeSet':
      return <WholeSet close={close} />;
  }
}
