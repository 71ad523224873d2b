import { needsOf, type TaskNeeds } from '@core/boat/catalogue/task-defaults';
import type { Service } from '@core/boat/schema/boat';
import type { DisplayUnits } from '../../store/types';
import { degreesText, figure, lengthFigure, lengthUnit, massText } from '../format';

/** What a task asks for with everything that its record leaves out, in short sentences. */
export function needsWords(service: Service, units: DisplayUnits): string {
  const needs = needsOf(service);
  const length = (metres: number): string => `${lengthFigure(metres, units)} ${lengthUnit(units)}`;
  const said = [
    seeWords(needs, length),
    handWords(needs, length),
    toolWords(needs, length),
    outWords(needs, length),
    ...needs.vessels.map(
      ({ kind, heightM, acrossM }) =>
        `${VESSEL_WORDS[kind]} ${length(heightM)} high, ${length(acrossM)} wide, ${kind === 'funnel' ? 'above' : 'below'}.`,
    ),
    service.clearM > 0 ? `Clear for ${length(service.clearM)}.` : null,
    timeWords(needs),
  ].filter((words) => words !== null);
  return `Asks for: ${said.join(' ')}`;
}

type Length = (metres: number) => string;

const VESSEL_WORDS = { funnel: 'Funnel', tray: 'Tray', cup: 'Cup' } as const;

function seeWords({ see, lamp }: TaskNeeds, length: Length): string | null {
  if (!see) return lamp ? 'A lamp.' : null;
  const how = `Seen from ${length(see.distanceM)} at most, within ${degreesText(see.angleDeg)}`;
  return `${how}${see.mirrorOk ? ', or in a mirror' : ''}${lamp ? ', with a lamp' : ''}.`;
}

function handWords({ hands, standOffM, massKg }: TaskNeeds, length: Length): string | null {
  if (hands === 0) return null;
  const held =
    massKg === null
      ? ', all its mass in them'
      : massKg > 0
        ? `, ${massText(massKg)} in ${hands === 1 ? 'it' : 'them'}`
        : '';
  return `${hands === 1 ? 'One hand' : 'Two hands'}, ${length(standOffM)} off${held}.`;
}

const TOOL_WORDS = { driver: 'Screwdriver', spanner: 'Spanner', strap: 'Strap' } as const;

function toolWords({ tool }: TaskNeeds, length: Length): string | null {
  if (!tool) return null;
  const turn = `${degreesText(tool.swingDeg)}`;
  return tool.kind === 'driver'
    ? `${TOOL_WORDS[tool.kind]} of ${length(tool.lengthM)}.`
    : `${TOOL_WORDS[tool.kind]} that swings ${turn} in ${length(tool.lengthM)}.`;
}

function outWords({ withdraw }: TaskNeeds, length: Length): string | null {
  if (!withdraw) return null;
  const straight = `Out ${length(withdraw.lengthM)} straight`;
  return withdraw.tiltOk ? `${straight}, or tilted after ${length(withdraw.dropM)}.` : `${straight}.`;
}

function timeWords({ minutesWork, intervalH, intervalDays }: TaskNeeds): string {
  const every = [
    intervalH === null ? null : `${figure(intervalH)} h`,
    intervalDays === null ? null : `${figure(intervalDays)} days`,
  ].filter((words) => words !== null);
  const takes = `${figure(minutesWork, Number.isInteger(minutesWork) ? 0 : 1)} min`;
  return every.length === 0 ? `${takes}, when something is wrong.` : `${takes}, every ${every.join(' or ')}.`;
}
