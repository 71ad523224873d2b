import type { Boat } from '@core/boat/schema/boat';
import type { CompartmentAnswer, PlaceReport } from '@core/engine/placement/place-report';
import { reasonsOf } from '@core/engine/placement/printed-places';
import { nameOf } from '@core/output/text/names';
import { PLACE_VERDICT_WORD, placeText } from '@core/output/text/place-text';
import { wrapped } from './check-text';

const WIDTH = 100;
const INDENT = 4;

/** What a person reads after `place`: compartment by compartment, the best first, with the reasons. */
export function placesText(report: PlaceReport, boat: Boat, notes: readonly string[]): string {
  const names = report.group.map((id) => nameOf(boat, id)).join(', ');
  const of = report.arrangement === null ? 'no arrangement' : `arrangement ${report.arrangement}`;
  const can = report.compartments.filter(({ verdict }) => verdict === 'goes' || verdict === 'goesClose').length;
  const open = report.compartments.filter(({ verdict }) => verdict === 'open').length;
  return [
    `${boat.name}, ${of}: where can it go? ${names}`,
    `${report.compartments.length} compartments: ${can} where it goes, ${open} where that cannot be told`,
    ...notes.map((note) => `note: ${note}`),
    ...report.compartments.map((answer, k) => block(answer, k + 1, boat)),
  ].join('\n');
}

function block(answer: CompartmentAnswer, rank: number, boat: Boat): string {
  const { differs } = placeText(answer, boat);
  const isThere = answer.isNow ? ' (where it is now)' : '';
  const lines = [
    ...reasonsOf(answer, boat),
    differs === '' ? '' : `Costs: ${differs}.`,
    whereText(answer, boat),
  ].filter((line) => line !== '');
  const body = lines.flatMap((line) => wrapped(line, WIDTH - INDENT)).map((line) => `${' '.repeat(INDENT)}${line}`);
  const number = String(rank).padStart(2);
  return ['', `${number}  ${answer.name}${isThere}: ${PLACE_VERDICT_WORD[answer.verdict].toUpperCase()}`, ...body].join(
    '\n',
  );
}

function whereText({ best, verdict }: CompartmentAnswer, boat: Boat): string {
  if (!best || verdict === 'no') return '';
  const places = Object.entries(best.poses).map(([id, { at, yawDeg, pitchDeg, rollDeg }]) => {
    const turned = [yawDeg, pitchDeg, rollDeg].map((deg) => deg.toFixed(0)).join('/');
    return `${nameOf(boat, id)} at ${at.map((v) => v.toFixed(3)).join(', ')} m, yaw/pitch/roll ${turned} deg`;
  });
  const on = best.mountedOn === null ? '' : `, on ${nameOf(boat, best.mountedOn)}`;
  return `Place: ${places.join('; ')}${on}.`;
}
