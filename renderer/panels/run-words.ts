import type { RunReport } from '@core/engine/report';
import type { DisplayUnits } from '../store/types';
import { lengthUnit, wholeLength } from './format';

/** Why a run is blocked, in one or two sentences: what is in the way, by how much, how sure. */
export function blockWords(run: RunReport, nameOf: (id: string) => string, units: DisplayUnits): string {
  const { reason } = run;
  if (!reason) return 'Not routed.';
  const what = reason.blocker === null ? null : nameOf(reason.blocker);
  const short =
    reason.shortByM === null ? '' : ` ${wholeLength(reason.shortByM, units)} ${lengthUnit(units)} are missing.`;
  const tries = run.proved ? '' : ` Not found after ${reason.tries} tries.`;
  return `${sentenceOf(reason.kind, what)}${short}${tries}`;
}

function sentenceOf(kind: NonNullable<RunReport['reason']>['kind'], what: string | null): string {
  switch (kind) {
    case 'notPlaced':
      return `${what ?? 'One end'} is not placed.`;
    case 'noSuchPort':
      return `${what ?? 'One end'} has no such port.`;
    case 'portOutside':
      return `A port of ${what ?? 'one end'} lies outside every compartment.`;
    case 'disconnected':
      return what === null ? 'No way leads from one end to the other.' : `No way leads past ${what}.`;
    case 'clearance':
      return `${what ?? 'Something'} leaves too little room.`;
    case 'bend':
      return `The bend is too tight${what === null ? '' : ` at ${what}`}.`;
    case 'hole':
      return `No hole is large enough${what === null ? '' : ` in ${what}`}.`;
    case 'lead':
      return `The rigid end meets ${what ?? 'something'}.`;
    case 'reach':
      return 'The supplied length does not reach.';
    case 'notFound':
      return what === null ? 'Nothing found.' : `Nothing found; ${what} is in the way.`;
  }
}
