import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { freeId, lineAdded } from '@core/boat/edits';
import type { Boat, Line, Medium } from '@core/boat/schema/boat';
import { MEDIA } from '@core/boat/schema/things';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { markOf, thingOf, thingsOf } from '../../store/select';
import { Choice, Labelled, Panel } from '../inspector/parts';
import { MEDIUM_WORDS } from '../words';

/** The wish for a new run: from one port to another, in a kind of hose, tube or cable. */
export function AddLine({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const ports = portsOf(boat);
  const kinds = Object.entries({ ...LINE_KINDS, ...boat.lineKinds }).map(([id, kind]) => [id, kind.name] as const);
  const [from, setFrom] = useState(ports[0]?.[0] ?? '');
  const [to, setTo] = useState(ports[1]?.[0] ?? '');
  const [kind, setKind] = useState(kinds[0]?.[0] ?? '');
  const [medium, setMedium] = useState<Medium>('seaWater');
  if (ports.length < 2) return null;

  const add = (): void => {
    const [fromThing = '', fromPort = ''] = from.split('/');
    const [toThing = '', toPort = ''] = to.split('/');
    const id = freeId(boat.lines, 'line');
    const name = `${markOf(fromThing, thingOf(boat, fromThing))} to ${markOf(toThing, thingOf(boat, toThing))}`;
    const line: Line = {
      name,
      kind,
      medium,
      from: { thing: fromThing, port: fromPort },
      to: { thing: toThing, port: toPort },
      ends: {},
      existing: false,
    };
    if (edit(`Add ${name}`, lineAdded(id, line))) select({ kind: 'line', id });
  };

  return (
    <Panel title="Add a line" level={3}>
      <Labelled label="From">
        <Choice label="From port of the new line" value={from} options={ports} choose={setFrom} />
      </Labelled>
      <Labelled label="To">
        <Choice label="To port of the new line" value={to} options={ports} choose={setTo} />
      </Labelled>
      <Labelled label="Content">
        <Choice<Medium>
          label="Content of the new line"
          value={medium}
          options={MEDIA.map((content) => [content, MEDIUM_WORDS[content]] as const)}
          choose={setMedium}
        />
      </Labelled>
      <Labelled label="Kind">
        <Choice label="Kind of the new line" value={kind} options={kinds} choose={setKind} />
      </Labelled>
      <div className="actions">
        <button type="button" className="button" disabled={from === to} onClick={add}>
          Add
        </button>
      </div>
    </Panel>
  );
}

/** Every port as `thing/port`, in the order of the parts table. */
export const portsOf = (boat: Boat): (readonly [string, string])[] =>
  thingsOf(boat).flatMap(({ id, thing }) =>
    Object.keys(thing.ports).map((port) => [`${id}/${port}`, `${markOf(id, thing)}, ${port}`] as const),
  );
