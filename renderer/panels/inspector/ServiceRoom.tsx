import type { Service, Thing } from '@core/boat/schema/boat';
import { taskText } from '@core/output/text/schema-words';
import type { Finding } from '@core/rules/finding';
import { servicesWithRoom } from '@core/shape/space/things';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { findingNumbers, markOfFinding } from '../../store/findings';
import type { DisplayUnits } from '../../store/types';
import { FindingMark } from '../findings/FindingMark';
import { lengthFigure, lengthUnit, wholeLength } from '../format';
import { sentence } from '../words';
import { Panel } from './parts';

/** Each service task of the thing: the room that it needs beside the room that it has. */
export function ServiceRoom({ id, thing }: { readonly id: string; readonly thing: Thing }): JSX.Element | null {
  const report = useApp((state) => state.report);
  const stale = useApp((state) => state.stale);
  const units = useApp((state) => state.displayUnits);
  const select = useApp((state) => state.select);
  const services = Object.entries(servicesWithRoom(thing));
  if (services.length === 0) return null;
  const numbers = findingNumbers(report);
  const about = (report?.findings ?? []).filter((finding) => finding.subject === id || finding.related.includes(id));
  return (
    <Panel title="Room for service" level={3} aside={`needs / has, ${lengthUnit(units)}`}>
      {services.map(([serviceId, service]) => {
        const finding = findingOf(about, id, serviceId, service.either);
        const mark = finding ? markOfFinding(finding) : null;
        return (
          <button
            key={serviceId}
            type="button"
            className="service-row"
            disabled={!finding}
            onClick={() => finding && select({ kind: 'finding', id: finding.key })}
          >
            <span>{service.name ?? sentence(taskText(service.task))}</span>
            <span className="needs">{lengthFigure(service.clearM, units)}</span>
            <span className={stale ? 'has stale' : 'has'}>
              {hasWords(finding, service, units)}
              {mark && finding ? <FindingMark mark={mark} number={numbers.get(finding.key)} /> : null}
            </span>
          </button>
        );
      })}
    </Panel>
  );
}

/** The room that was measured. Of tasks that stand for each other one was judged: the others say so. */
function hasWords(finding: Finding | null, service: Service, units: DisplayUnits): string {
  if (!finding) return '\u2013';
  if (finding.outcome !== 'fail' && finding.outcome !== 'pass') return '';
  const { measured, limit } = finding;
  if (measured.unit !== 'm') return '';
  const judged = service.either === undefined || Math.abs(limit.value - service.clearM) < 1e-6;
  return judged ? wholeLength(measured.value, units) : 'the other way';
}

/** The finding of one task: its instance is the task, or the word that alternatives share. */
function findingOf(
  about: readonly Finding[],
  id: string,
  serviceId: string,
  either: string | undefined,
): Finding | null {
  const instances = [serviceId, either].filter((word) => word !== undefined);
  return (
    about.find((finding) => {
      const [, subject, instance] = finding.key.split('|');
      return subject === id && instances.some((word) => instance === word);
    }) ?? null
  );
}
